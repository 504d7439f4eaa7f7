import { collectSlops } from '../../db/acts/collect-slops.ts'
import { lift } from '../../db/acts/lift.ts'
import { openBag } from '../../db/acts/open-bag.ts'
import { pour } from '../../db/acts/pour.ts'
import { readSlurry } from '../../db/acts/read-slurry.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { slake } from '../../db/acts/slake.ts'
import { testDry } from '../../db/acts/dry-test.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { turnRun } from '../../db/acts/turn.ts'
import { wedge } from '../../db/acts/wedge.ts'
import { weighOnPlaster } from '../../db/acts/weigh-on-plaster.ts'
import type { Act, Circumstances } from '../../db/perform.ts'
import type { ClayState } from '../../shared/moisture.ts'
import type { Chance } from '../support/chance.ts'
import { clayOf, plus, TrueStudio, wetOf, type Batches, type TrueClay } from './true-clay.ts'
import {
  grossReading,
  netReading,
  SCALES,
  shown,
  WEIGHED_IN,
  type WeighedIn,
} from './true-scale.ts'

export type Does = <Said extends Circumstances>(act: Act<Said>, said: Said) => Promise<unknown>

/** Pots are turned when they are leather-hard, so that their slops and turnings have a state each. */
const TAKEN_OFF = { slops: [0.02, 0.05], turnings: [0.08, 0.2] } as const
const BAG_GRAMS = 12_500
const LABEL_HALF_WIDTH = 0.01
const JUG = { millilitres: 500, spread: 0.01 }
/** At 20 °C. Units: g/mL. */
const WATER_DENSITY = 0.998207
const TIN_GRAMS = 20

/**
 * A potter who does things to true clay, reads scales and labels, and tells the ledger what was read.
 *
 * Nothing here asks the ledger, and no rule of its arithmetic is used.
 */
export class TruePotter {
  readonly truth: TrueStudio
  readonly #chance: Chance
  readonly #does: Does
  readonly #tares: Readonly<Record<WeighedIn, number>>
  readonly #bags = new Map<string, number>()
  readonly #testsTurnings: boolean

  constructor(chance: Chance, batches: Batches, does: Does) {
    this.#chance = chance
    this.#does = does
    this.truth = new TrueStudio(chance, batches)
    this.#tares = {
      pan: this.#tare('pan'),
      jug: this.#tare('jug'),
      'basin-1': this.#tare('basin-1'),
    }
    this.#testsTurnings = chance.uniform() < 1 / 3
  }

  /** Bags that are all off by the same from what their label says. */
  async deliver(bodyId: string, lotId: string, bags: number): Promise<void> {
    const off = 1 + this.#chance.between(-LABEL_HALF_WIDTH, LABEL_HALF_WIDTH)
    const water = this.truth.waterOfBatch(bodyId, 'as_delivered')
    this.truth.put(`store/${bodyId}/${lotId}`, clayOf(bags * BAG_GRAMS * off, water))
    this.#bags.set(lotId, bags)
    const bagMass = { value: '12.5', unit: 'kg' as const }
    await this.#does(receiveDelivery, {
      clays: [{ bodyId, lotId, bags, bagMass, price: '20' }],
    })
  }

  /** A sample of the bags is dried, and tells the lot's own water. */
  async testBags(bodyId: string, lotId: string): Promise<void> {
    const { dryGrams, waterGrams } = this.truth.at(`store/${bodyId}/${lotId}`)
    const water = waterGrams / (dryGrams + waterGrams)
    await this.#testDry({ bodyId, lotId, state: 'as_delivered' }, water)
  }

  async open(
    bodyId: string,
    opened: { lotId: string; bags: number; intoLotId?: string; newLotId?: string },
  ): Promise<void> {
    const { lotId, bags, intoLotId, newLotId } = opened
    const left = this.#bags.get(lotId) ?? 0
    this.#bags.set(lotId, left - bags)
    const clay = this.truth.takeShare(`store/${bodyId}/${lotId}`, bags / left)
    this.truth.put(`bench/${bodyId}/${intoLotId ?? newLotId ?? ''}`, clay)
    await this.#does(openBag, { lotId, bags, intoLotId, newLotId })
  }

  /** Balls weighed to the gram, one by one. */
  async throws(
    bodyId: string,
    thrown: { runId: string; lotId: string; balls: number; ballGrams: number },
  ): Promise<void> {
    const { runId, lotId, balls, ballGrams } = thrown
    let wetGrams = 0
    for (let ball = 0; ball < balls; ball += 1) {
      wetGrams += ballGrams + this.#chance.between(-0.5, 0.5)
    }
    const clay = this.truth.takeWet(`bench/${bodyId}/${lotId}`, wetGrams)
    this.truth.put(`greenware/${bodyId}/${runId}`, clay)
    const ballMass = { value: String(ballGrams), unit: 'g' as const }
    await this.#does(throwRun, { formId: 'pot', runId, from: [{ lotId, balls, ballMass }] })
  }

  async slopsOf(bodyId: string, runId: string, vesselId: string): Promise<void> {
    const wetGrams = this.#takeOff({ bodyId, runId, vesselId, state: 'slops' }).wetGrams
    const reading = this.#inVessel('pan', wetGrams)
    await this.#does(collectSlops, { runIds: [runId], vesselId, state: 'slops', reading })
  }

  async turns(bodyId: string, runId: string, vesselId: string): Promise<void> {
    const off = this.#takeOff({ bodyId, runId, vesselId, state: 'turnings' })
    if (this.#testsTurnings) await this.#testDry({ bodyId, state: 'turnings' }, off.water)
    await this.#does(turnRun, { runId, vesselId, turnings: this.#inVessel('pan', off.wetGrams) })
  }

  /** All that a bucket has goes into the basin, with water until it is a slurry. */
  async slakes(bodyId: string, fromVesselId: string): Promise<void> {
    const basin = `basin/${bodyId}/basin-1`
    this.truth.put(basin, this.truth.takeShare(`scrap/${bodyId}/${fromVesselId}`, 1))
    const { dryGrams, waterGrams } = this.truth.at(basin)
    const wanted = this.#chance.between(0.42, 0.5)
    const added = Math.max(500, (dryGrams * wanted) / (1 - wanted) - waterGrams)
    this.truth.put(basin, { dryGrams: 0, waterGrams: added })
    const water = netReading(SCALES.bench, added)
    await this.#does(slake, { fromVesselId, basinVesselId: 'basin-1', water })
  }

  /** A jug of the stirred slurry is weighed, put back, and the basin weighed as it stands. */
  async readsSlurry(bodyId: string): Promise<void> {
    const slurry = this.truth.at(`basin/${bodyId}/basin-1`)
    const grain = this.truth.grainDensityOf(bodyId)
    const millilitres = slurry.dryGrams / grain + slurry.waterGrams / WATER_DENSITY
    const jugful = JUG.millilitres * (1 + JUG.spread * this.#chance.normal())
    await this.#does(readSlurry, {
      basinVesselId: 'basin-1',
      slurry: this.#inVessel('jug', (jugful * wetOf(slurry)) / millilitres),
      volume: { value: String(JUG.millilitres), unit: 'ml' },
      whole: this.#inVessel('basin-1', wetOf(slurry)),
    })
  }

  /** So large a share of the basin goes onto a bat. */
  async pours(
    bodyId: string,
    poured: { batId: string; lotId: string; share: number },
  ): Promise<void> {
    const { batId, lotId, share } = poured
    const clay = this.truth.takeShare(`basin/${bodyId}/basin-1`, share)
    this.truth.put(`plaster/${bodyId}/${lotId}`, clay)
    const reading = this.#inVessel('pan', wetOf(clay))
    await this.#does(pour, { basinVesselId: 'basin-1', loads: [{ batId, lotId, reading }] })
  }

  async weighsSlab(bodyId: string, lotId: string): Promise<void> {
    const place = `plaster/${bodyId}/${lotId}`
    this.truth.dryTo(place, this.#chance.between(0.27, 0.33))
    const reading = netReading(SCALES.bench, wetOf(this.truth.at(place)))
    await this.#does(weighOnPlaster, { lotId, withPlaster: false, reading })
  }

  async lifts(bodyId: string, lotId: string, newLotId: string): Promise<void> {
    const place = `plaster/${bodyId}/${lotId}`
    this.truth.dryTo(place, this.#chance.between(0.22, 0.24))
    const slab = this.truth.takeShare(place, 1)
    this.truth.put(`bench/${bodyId}/${newLotId}`, slab)
    await this.#does(lift, { lotId, newLotId, reading: netReading(SCALES.bench, wetOf(slab)) })
  }

  /** All of one lot and some of another become a third, which is weighed. */
  async wedges(
    bodyId: string,
    wedged: { allOf: string; someOf: string; someGrams: number; newLotId: string },
  ): Promise<void> {
    const { allOf, someOf, someGrams, newLotId } = wedged
    const all = this.truth.takeShare(`bench/${bodyId}/${allOf}`, 1)
    const some = this.truth.takeWet(`bench/${bodyId}/${someOf}`, someGrams)
    const both = plus(all, some)
    this.truth.put(`bench/${bodyId}/${newLotId}`, both)
    await this.#does(wedge, {
      from: [
        { lotId: allOf, whatIsLeft: true },
        { lotId: someOf, reading: netReading(SCALES.bench, someGrams) },
      ],
      newLotId,
      reading: netReading(SCALES.bench, wetOf(both)),
    })
  }

  #takeOff(off: { bodyId: string; runId: string; vesselId: string; state: 'slops' | 'turnings' }) {
    const { bodyId, runId, vesselId, state } = off
    const run = `greenware/${bodyId}/${runId}`
    const [from, to] = TAKEN_OFF[state]
    const dryGrams = this.truth.at(run).dryGrams * this.#chance.between(from, to)
    const water = this.truth.waterOfBatch(bodyId, state)
    const taken: TrueClay = clayOf(dryGrams / (1 - water), water)
    this.truth.takeDry(run, dryGrams)
    this.truth.put(`scrap/${bodyId}/${vesselId}`, taken)
    return { water, wetGrams: wetOf(taken) }
  }

  async #testDry(
    of: { bodyId: string; state: ClayState; lotId?: string },
    water: number,
  ): Promise<void> {
    const wetGrams = this.#chance.between(60, 100)
    const tinned = (grams: number) => shown(SCALES.pocket, TIN_GRAMS + grams)
    await this.#does(testDry, {
      ...of,
      sample: {
        tin: tinned(0),
        wetWithTin: tinned(wetGrams),
        dryWithTin: tinned(wetGrams * (1 - water)),
      },
    })
  }

  #inVessel(inside: WeighedIn, clayGrams: number) {
    return grossReading(inside, clayGrams + this.#tares[inside])
  }

  #tare(inside: WeighedIn): number {
    const { tareGrams, scale } = WEIGHED_IN[inside]
    return tareGrams + this.#chance.between(-0.5, 0.5) * scale.divisionGrams
  }
}
