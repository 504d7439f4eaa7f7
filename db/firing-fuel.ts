import { present } from '../shared/assert.ts'
import { decimal, type Decimal } from '../shared/decimal.ts'
import { doubtOfDifference, standardUncertaintyOfDoubt, type Doubt } from '../shared/doubt.ts'
import { gasBurnt, type GasBurnt } from '../shared/firing-gas.ts'
import type { Quantities } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Book, Slot } from './book.ts'
import type { KilnRow } from './firing-energy.ts'
import type { FuelSaid } from './firing-said.ts'
import { findMaterial, moveMeasuredMaterial, onShelf } from './materials.ts'
import { pointingAt, takeReading } from './readings.ts'

/** Gas that a fire burnt: gone from the shelf, its cost waiting for who bears it. */
export interface FuelBurnt {
  readonly fuelMaterialId: string
  readonly gas: GasBurnt
  readonly grams: Decimal
  /** What the gas cost, and how unsure that is. */
  readonly spent: Quantities
  /** Where that cost is now: the fire. */
  readonly fire: Slot
}

/**
 * Weighs the gas of a fire and takes it off the shelf, at what the gas there cost.
 *
 * Refuses: `energy_must_be_told` where the weights tell no gas or the kiln burns none,
 * `material_must_be_enough`, and whatever a reading refuses.
 */
export async function burnFuel(
  book: Book,
  asked: { kiln: KilnRow; said: FuelSaid; at: string },
): Promise<FuelBurnt> {
  const { kiln, said, at } = asked
  const { fuelMaterialId } = kiln
  if (fuelMaterialId === null) {
    throw new Refusal(
      'energy_must_be_told',
      `Nobody has said what '${kiln.name}' burns. Give the kiln its fuelMaterialId.`,
      { pointer: at },
    )
  }
  await findMaterial(book.ledger, book.studioId, fuelMaterialId)
  const { gas, dryDoubt } = await gasOf(book, said, at)
  const grams = gas.burntGrams
  if (grams === null) {
    throw new Refusal('energy_must_be_told', gas.words, { pointer: `${at}/after` })
  }
  const [shelf] = await book.hold([onShelf(fuelMaterialId)])
  const fire = await book.outsideOfMaterial('fire', fuelMaterialId)
  const move = { from: shelf, to: fire, dryGrams: grams, dryDoubt }
  const spent = await pointingAt(at, () => moveMeasuredMaterial(book, move))
  return { fuelMaterialId, gas, grams, spent, fire }
}

async function gasOf(
  book: Book,
  said: FuelSaid,
  at: string,
): Promise<{ gas: GasBurnt; dryDoubt: Doubt }> {
  if (said.burnt !== undefined) {
    const purpose = { pointer: `${at}/burnt`, kind: 'powder' } as const
    const read = await takeReading(book, { net: said.burnt }, purpose)
    const divisionGrams = divisionOf(read.netDoubt, 1)
    return { gas: gasBurnt({ burntGrams: read.netGrams, divisionGrams }), dryDoubt: read.netDoubt }
  }
  const take = (field: 'before' | 'after') =>
    takeReading(book, present(said[field], 'a cylinder is weighed twice'), {
      pointer: `${at}/${field}`,
      kind: 'powder',
    })
  const before = await take('before')
  const after = await take('after')
  const dryDoubt = doubtOfDifference(before.netDoubt, after.netDoubt)
  const gas = gasBurnt({
    cylinderBeforeGrams: before.netGrams,
    cylinderAfterGrams: after.netGrams,
    divisionGrams: divisionOf(dryDoubt, 2),
  })
  return { gas, dryDoubt }
}

/** The step of a scale that would leave so much open in so many readings. */
function divisionOf(doubt: Doubt, readings: number): Decimal {
  return standardUncertaintyOfDoubt(doubt).times(decimal(12).dividedBy(readings).sqrt())
}
