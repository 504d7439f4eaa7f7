import { present } from '../../shared/assert.ts'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { doubtOfDifference, doubtOfPart, type Doubt } from '../../shared/doubt.ts'
import { dryMassEstimate, type DryMassEstimate } from '../../shared/dry-mass.ts'
import { firedGramsFrom } from '../../shared/firing.ts'
import type { KilnKind } from '../../shared/kiln-load.ts'
import type { PotPlace } from '../../shared/place.ts'
import { count, proportionalPart } from '../../shared/quantity.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Book, Slot } from '../book.ts'
import { chargeFire, type FiredPots } from '../firing-charge.ts'
import type { FiringSaid } from '../firing-said.ts'
import { burnCoat } from '../glaze-burnt.ts'
import type { Act, Circumstances } from '../perform.ts'
import { potsOf, refuseMoreThanThere } from '../pots.ts'
import { takeReading, type ReadingSaid } from '../readings.ts'
import { findBody } from '../studio.ts'
import { waterFigure } from '../water-figures.ts'

export interface FireSaid extends Circumstances {
  readonly runs: readonly {
    readonly runId: string
    /** How many of them were in the kiln; all that were ready where it is not said. */
    readonly pieces?: number | undefined
    /** What the fired pieces weigh together. */
    readonly reading?: ReadingSaid | undefined
  }[]
  /** The kiln and what it took; where nothing is said of it, the pots bear no cost of this fire. */
  readonly firing?: FiringSaid | undefined
}

interface Firing {
  readonly from: PotPlace
  readonly to: PotPlace
  readonly kind: KilnKind
  readonly doing: string
  /** What this fire takes of the clay where nobody weighs it. */
  readonly lossOf: (body: { lossOnIgnitionFraction: Decimal }) => Decimal
}

/**
 * Greenware becomes bisque. The fire takes the water and the loss on ignition; the cost stays with the
 * pots. Pieces that break in the kiln are taken out as bisque and lost after.
 */
export const bisqueFire: Act<FireSaid> = firing('bisque', {
  from: 'greenware',
  to: 'bisque',
  kind: 'bisque',
  doing: 'bisque-fired',
  lossOf: (body) => body.lossOnIgnitionFraction,
})

/**
 * Bisque becomes glaze-fired ware. What the clay had to lose, it lost in the first fire; the coat of glaze
 * loses its own in this one.
 */
export const glazeFire: Act<FireSaid> = firing('glaze_fire', {
  from: 'bisque',
  to: 'glazed',
  kind: 'glaze',
  doing: 'glaze-fired',
  lossOf: () => ZERO,
})

function firing(kind: 'bisque' | 'glaze_fire', how: Firing): Act<FireSaid> {
  return {
    kind,
    async write(book, said) {
      const refs = []
      for (const { runId } of said.runs) {
        refs.push(await potsOf(book, { runId, place: how.from }))
        refs.push(await potsOf(book, { runId, place: how.to }))
      }
      const slots = await book.hold(refs)
      const fired: FiredPots[] = []
      for (const [index, load] of said.runs.entries()) {
        const from = present(slots[2 * index], 'a run is held before the fire')
        const to = present(slots[2 * index + 1], 'and after it')
        const pointer = `/runs/${String(index)}`
        fired.push(await fireRun(book, { how, load, from, to, pointer }))
      }
      if (said.firing === undefined) return {}
      return chargeFire(book, { said: said.firing, kind: how.kind, fired })
    },
  }
}

interface KilnLoad {
  readonly how: Firing
  readonly load: FireSaid['runs'][number]
  readonly from: Slot
  readonly to: Slot
  readonly pointer: string
}

async function fireRun(book: Book, kiln: KilnLoad): Promise<FiredPots> {
  const { how, load, from, to, pointer } = kiln
  const held = book.now(from)
  const pieces = load.pieces === undefined ? held.pieces : count(load.pieces)
  const asked = pieces.isZero() ? count(1) : pieces
  refuseMoreThanThere(book, from, { pieces: asked, doing: how.doing, pointer: `${pointer}/pieces` })
  // Ware that is loaded for bisque is bone-dry, whatever water it was last seen with.
  if (how.to === 'bisque') await noteBoneDry(book, from.ref.bodyId)
  const share = { part: pieces, whole: held.pieces }
  const dryGrams = proportionalPart({ amount: held.dryGrams, ...share })
  const fired = await firedMass(book, { ...kiln, dryGrams })
  const { dryGrams: firedGrams, dryDoubt } = fired.estimate
  const moved = book.moveShare(from, to, { dryGrams, pieces })
  const fire = await book.outside('fire', from.ref.bodyId)
  const air = await book.outside('air', from.ref.bodyId)
  book.shiftExactly(to, air, { waterGrams: moved.waterGrams })
  book.shiftExactly(to, fire, {
    dryGrams: dryGrams.minus(firedGrams),
    dryDoubt: doubtOfDifference(moved.dryDoubt, dryDoubt),
  })
  book.estimated({ slot: to, of: 'fired', estimate: fired.estimate, weighingNo: fired.weighingNo })
  if (how.to === 'glazed') await burnCoat(book, { runId: load.runId, pots: to, moved })
  return { runId: load.runId, pots: to, pieces, dryGrams }
}

async function noteBoneDry(book: Book, bodyId: string): Promise<void> {
  await waterFigure(book, { said: undefined, state: 'air_dry', bodyId, pointer: '/runs' })
}

async function firedMass(
  book: Book,
  kiln: KilnLoad & { dryGrams: Decimal },
): Promise<{ estimate: DryMassEstimate; weighingNo?: number }> {
  const { how, load, from, pointer, dryGrams } = kiln
  if (load.reading !== undefined) {
    const reading = await takeReading(book, load.reading, { pointer: `${pointer}/reading` })
    refuseUnlikely(reading.netGrams, dryGrams, `${pointer}/reading`)
    const { netGrams, netDoubt, weighingNo } = reading
    const estimate = firedEstimate(netGrams, netDoubt, 'fired_weighing')
    return { estimate, weighingNo }
  }
  const body = await findBody(book.ledger, book.studioId, from.ref.bodyId)
  const lossOnIgnitionFraction = how.lossOf(body)
  const firedGrams = firedGramsFrom({ dryGrams, lossOnIgnitionFraction })
  const held = book.now(from)
  const doubt = doubtOfPart(held.dryDoubt, { part: firedGrams, whole: held.dryGrams })
  return { estimate: firedEstimate(firedGrams, doubt, 'loss_on_ignition') }
}

function firedEstimate(
  dryGrams: Decimal,
  dryDoubt: Doubt,
  method: 'fired_weighing' | 'loss_on_ignition',
): DryMassEstimate {
  const standing = method === 'fired_weighing' ? 'measured' : 'estimated'
  return dryMassEstimate({ dryGrams, waterGrams: ZERO, dryDoubt, method, standing })
}

/** No clay body loses so much: LOI runs from 4 to 16 % of the dry clay. Common practice, no source. */
const FIRED_FRACTION_MIN = decimal('0.7')

function refuseUnlikely(firedGrams: Decimal, dryGrams: Decimal, pointer: string): void {
  const facts = { dryGrams: dryGrams.toFixed(), firedGrams: firedGrams.toFixed() }
  const went = dryGrams.toDecimalPlaces(1).toFixed()
  if (firedGrams.greaterThan(dryGrams)) {
    throw new Refusal(
      'parts_must_not_exceed_the_whole',
      `By the books these pots went in with ${went} g of dry clay, and a fire adds none; ${firedGrams.toFixed()} g came out. Weigh the run before the fire, or look for the tare.`,
      { pointer, facts },
    )
  }
  if (firedGrams.lessThan(dryGrams.times(FIRED_FRACTION_MIN))) {
    throw new Refusal(
      'fire_must_leave_most_of_the_clay',
      `By the books these pots went in with ${went} g of dry clay; a fire leaves most of it, and ${firedGrams.toFixed()} g came out. If pots are missing, say how many were in the kiln; if the books are wrong, weigh the run before the fire.`,
      { pointer, facts },
    )
  }
}
