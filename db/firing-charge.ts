import { costOfLayer, type CostLayer, type LayeredCost } from '../shared/cost-layer.ts'
import { present } from '../shared/assert.ts'
import { decimal, ZERO, type Decimal } from '../shared/decimal.ts'
import { doubtBy, doubtOfPart, NO_DOUBT, type Doubt } from '../shared/doubt.ts'
import type { Standing } from '../shared/moisture.ts'
import { firingShares, type ShareRule } from '../shared/firing-share.ts'
import { kilnFill } from '../shared/kiln-fill.ts'
import type { KilnKind } from '../shared/kiln-load.ts'
import type { PlaceOutside } from '../shared/place.ts'
import type { Book, Slot } from './book.ts'
import { electricityOf, type Electricity, type FireDoing, type KilnRow } from './firing-energy.ts'
import { burnFuel, type FuelBurnt } from './firing-fuel.ts'
import { decimalOr, loadOf } from './firing-load.ts'
import type { FiringSaid } from './firing-said.ts'
import { findKiln } from './materials.ts'
import type { Made } from './perform.ts'
import { pointingAt } from './readings.ts'
import { firing, firingShare } from './schema.ts'

/** Pots that went through a fire: what they were when they were loaded, and where they are now. */
export interface FiredPots {
  readonly runId: string
  readonly pots: Slot
  readonly pieces: Decimal
  /** Dry clay when they were loaded. */
  readonly dryGrams: Decimal
}

/** What a fire took, whoever bears it. */
export interface FireTook {
  readonly kiln: KilnRow
  readonly electricity: Electricity | undefined
  readonly fuel: FuelBurnt | undefined
  /** How unsure the price of the electricity is, through how much of it there was. */
  readonly electricityDoubt: Doubt
  readonly wear: Decimal
}

/**
 * What the fire took is told: its electricity, its gas off the shelf, its wear.
 *
 * Refuses: `kiln_not_found`, `energy_must_be_told`, `material_must_be_enough`.
 */
export async function fireTook(
  book: Book,
  asked: { said: FiringSaid; doing: FireDoing; at: string },
): Promise<FireTook> {
  const { said, doing, at } = asked
  const find = () => findKiln(book.ledger, book.studioId, said.kilnId)
  const kiln = await pointingAt(`${at}/kilnId`, find)
  const electricity = await electricityOf(book, { kiln, doing, said, at })
  const fuel =
    said.fuel === undefined
      ? undefined
      : await burnFuel(book, { kiln, said: said.fuel, at: `${at}/fuel` })
  const relative = electricity?.energy.relativeStandardUncertainty ?? ZERO
  const off = relative.times(electricity?.cost ?? ZERO)
  const electricityDoubt = off.isZero() ? NO_DOUBT : doubtBy(book.ownSource('energy'), off)
  return { kiln, electricity, fuel, electricityDoubt, wear: decimal(kiln.wearPerFiring) }
}

/**
 * The pots of a load bear what their fire took: electricity and gas as the layer fire, elements and kiln
 * furniture as the layer wear, each shared out to the last unit.
 *
 * Gives what is to be read about it. Units: money, ledger scale. Refuses: as `fireTook`.
 */
export async function chargeFire(
  book: Book,
  charged: { said: FiringSaid; kind: KilnKind; fired: readonly FiredPots[] },
): Promise<Made> {
  const { said, kind, fired } = charged
  const took = await fireTook(book, { said, doing: kind, at: '/firing' })
  const load = await loadOf(book.ledger, book.studioId, fired)
  const rule = said.shareBy ?? (took.kiln.shareBy as ShareRule)
  const shared = (amount: Decimal) => firingShares({ amount, rule, load })
  const gasCost = took.fuel?.spent.cost ?? ZERO
  const byElectricity = shared(took.electricity?.cost ?? ZERO)
  const byGas = shared(gasCost)
  const byWear = shared(took.wear)
  const fill = kilnFill({
    load,
    volumeLitres: decimalOr(took.kiln.volumeLitres),
    usableFraction: decimal(took.kiln.usableFraction),
    saidFraction: decimalOr(said.fullFraction ?? null),
  })
  await writeFiring(book, took, {
    kind,
    sharedBy: byElectricity.used,
    sharedByWords: byElectricity.words,
    fullFraction: fill.fraction?.toFixed() ?? null,
    fullHow:
      fill.fraction === null ? null : said.fullFraction === undefined ? 'shelf_space' : 'said',
  })
  for (const [index, { runId, pots, pieces }] of fired.entries()) {
    const amountOf = ({ shares }: typeof byWear) =>
      present(shares[index], 'each run has its share').amount
    const bears = {
      electricity: amountOf(byElectricity),
      gas: amountOf(byGas),
      wear: amountOf(byWear),
    }
    await bearFire(book, took, { pots, ...bears })
    await book.ledger.insert(firingShare).values({
      ...{ studioId: book.studioId, entryId: book.facts.entryId, runId },
      pieces: pieces.toNumber(),
      weight: present(byWear.weights[index], 'each run has its weight').toFixed(),
      energyCost: bears.electricity.plus(bears.gas).toFixed(),
      wearCost: bears.wear.toFixed(),
    })
  }
  return { energy: wordsOf(took), sharedOut: byElectricity.words, full: fill.words }
}

/** Puts what a holding bears of a fire onto it. */
export async function bearFire(
  book: Book,
  took: FireTook,
  bears: { pots: Slot; electricity: Decimal; gas: Decimal; wear: Decimal },
): Promise<void> {
  const { pots, electricity, gas, wear } = bears
  const { cost } = took.electricity ?? { cost: ZERO }
  const pay = async (place: PlaceOutside, paid: LayeredCost & { costDoubt?: Doubt }) => {
    book.shiftExactly(await book.outsideLike(place, { bodyId: pots.ref.bodyId }), pots, paid)
  }
  await pay('utility', {
    ...costOfLayer('fire', electricity),
    costDoubt: doubtOfPart(took.electricityDoubt, { part: electricity, whole: cost }),
  })
  await pay('wear', costOfLayer('wear', wear))
  if (took.fuel === undefined) return
  const { fire, spent } = took.fuel
  book.shiftExactly(fire, pots, {
    ...costOfLayer('fire' satisfies CostLayer, gas),
    costDoubt: doubtOfPart(spent.costDoubt, { part: gas, whole: spent.cost }),
  })
}

/** How the energy was known, in words. */
export function wordsOf({ electricity, fuel }: FireTook): string {
  return [electricity?.energy.words, fuel?.gas.words].filter((one) => one !== undefined).join(' ')
}

type FiringRow = typeof firing.$inferInsert

/** Writes down what a fire took and what it cost. */
export async function writeFiring(
  book: Book,
  took: FireTook,
  facts: Pick<FiringRow, 'kind' | 'sharedBy' | 'sharedByWords' | 'fullFraction' | 'fullHow'>,
): Promise<void> {
  const { kiln, electricity, fuel, wear } = took
  const energyCost = (electricity?.cost ?? ZERO).plus(fuel?.spent.cost ?? ZERO)
  await book.ledger.insert(firing).values({
    ...{ studioId: book.studioId, entryId: book.facts.entryId, kilnId: kiln.kilnId },
    ...facts,
    ...howKnown(took),
    ...(electricity === undefined ? { candlingCost: '0' } : factsOfElectricity(electricity)),
    ...(fuel === undefined ? {} : factsOfFuel(fuel)),
    energyCost: energyCost.toFixed(),
    wearCost: wear.toFixed(),
  })
}

function factsOfElectricity(electricity: Electricity) {
  return {
    kilowattHours: electricity.energy.kilowattHours.toFixed(),
    candlingKilowattHours: electricity.candlingKilowattHours.toFixed(),
    pricePerKilowattHour: electricity.pricePerKilowattHour.toFixed(),
    candlingCost: electricity.candlingCost.toFixed(),
  }
}

function factsOfFuel({ fuelMaterialId, grams }: FuelBurnt) {
  return { fuelMaterialId, fuelGrams: grams.toFixed() }
}

function howKnown({ electricity, fuel }: FireTook) {
  const known = present(electricity?.energy ?? fuel?.gas, 'something is known of the fire')
  const how =
    electricity === undefined
      ? 'fuel'
      : `${electricity.energy.how}${fuel === undefined ? '' : '_and_fuel'}`
  const standing: Standing = known.standing
  const relative = known.relativeStandardUncertainty ?? ZERO
  return { how, standing, relativeUncertainty: relative.toFixed() }
}
