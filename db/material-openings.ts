import { and, eq, gt, or } from 'drizzle-orm'
import { costOfLayer } from '../shared/cost-layer.ts'
import { decimal, ZERO } from '../shared/decimal.ts'
import { quantities } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import { gramsFrom, type Mass } from '../shared/units.ts'
import type { Book } from './book.ts'
import { amountHeld, takeAmount, type Amount, type AmountSaid } from './material-amounts.ts'
import {
  findMaterial,
  handlesMaterials,
  inBucket,
  onShelf,
  refuseOtherKinds,
  type MaterialFacts,
} from './materials.ts'
import { pointingAt } from './readings.ts'
import { holding } from './schema.ts'
import { findVessel } from './studio.ts'
import type { WaterSaid } from './water-figures.ts'

/** A material that is there before the books: on the shelf, or a glaze in its bucket. */
export interface OpeningMaterial extends Omit<AmountSaid, 'packs'> {
  readonly materialId: string
  readonly water?: WaterSaid | undefined
  /** The bucket that a glaze is in. */
  readonly vesselId?: string | undefined
  /** Of a glaze of which the dry mass is said: the water that is in it. */
  readonly waterMass?: Mass | undefined
  readonly cost?: string | undefined
}

/**
 * Materials come onto the books from before, each to where it is; gives the holdings.
 *
 * Refuses: `material_not_found`, `material_must_be_of_the_kind`, `vessel_not_found`,
 * `bodies_must_not_mix_unless_declared`, `material_must_be_told_as_it_is_kept`, and what a reading refuses.
 */
export async function openMaterials(
  book: Book,
  materials: readonly OpeningMaterial[],
): Promise<string[]> {
  const holdingIds: string[] = []
  for (const [index, said] of materials.entries()) {
    holdingIds.push(await openOne(book, said, `/materials/${String(index)}`))
  }
  return holdingIds
}

async function openOne(book: Book, said: OpeningMaterial, pointer: string): Promise<string> {
  const { materialId } = said
  const material = await pointingAt(`${pointer}/materialId`, () =>
    findMaterial(book.ledger, book.studioId, materialId),
  )
  const ref = await whereItIs(book, material, { said, pointer })
  const amount = await amountOf(book, material, { said, pointer })
  handlesMaterials(book, { materials: [material], isDry: false })
  const before = await book.outsideOfMaterial('before', materialId)
  const [slot] = await book.hold([ref])
  const cost = costOfLayer(material.layer, decimal(said.cost ?? '0'))
  book.shift({ from: before, to: slot, what: quantities({ ...amountHeld(amount), ...cost }) })
  if (amount.keptBy === 'mass') {
    const { estimate, reading } = amount
    book.estimated({ slot, of: 'opening', estimate, weighingNo: reading.weighingNo })
  }
  return slot.holdingId
}

async function whereItIs(
  book: Book,
  material: MaterialFacts,
  { said, pointer }: { said: OpeningMaterial; pointer: string },
) {
  const { vesselId } = said
  if (vesselId === undefined) return onShelf(material.materialId)
  refuseOtherKinds(material, ['glaze'], `${pointer}/materialId`)
  await pointingAt(`${pointer}/vesselId`, () => findVessel(book.ledger, book.studioId, vesselId))
  await refuseFullVessel(book, { vesselId, material, pointer: `${pointer}/vesselId` })
  return inBucket(material.materialId, vesselId)
}

/** Dry powder of which the water in the bucket is said beside it, or what a reading and its water tell. */
async function amountOf(
  book: Book,
  material: MaterialFacts,
  { said, pointer }: { said: OpeningMaterial; pointer: string },
): Promise<Amount> {
  const isDryMass = said.vesselId !== undefined && said.mass !== undefined
  const water: WaterSaid | undefined = isDryMass
    ? { content: '0', basis: 'wet', standardUncertainty: '0' }
    : said.water
  const amount = await takeAmount(book, material, { said, water, pointer })
  if (amount.keptBy === 'count') return amount
  const waterMass = said.waterMass === undefined ? ZERO : gramsFrom(said.waterMass)
  const waterGrams = amount.estimate.waterGrams.plus(waterMass)
  return { ...amount, estimate: { ...amount.estimate, waterGrams } }
}

/** A bucket holds one glaze and no clay. */
async function refuseFullVessel(
  book: Book,
  into: { vesselId: string; material: MaterialFacts; pointer: string },
): Promise<void> {
  const { vesselId, material, pointer } = into
  const rows = await book.ledger
    .select({ bodyId: holding.bodyId, materialId: holding.materialId })
    .from(holding)
    .where(
      and(
        eq(holding.studioId, book.studioId),
        eq(holding.vesselId, vesselId),
        or(gt(holding.dryGrams, '0'), gt(holding.materialGrams, '0')),
      ),
    )
  const filled = book
    .heldWhere((ref) => ref.vesselId === vesselId)
    .filter(({ held }) => held.dryGrams.plus(held.materialGrams).greaterThan(0))
  const all = [...rows, ...filled.map(({ ref }) => ref)]
  const other = all.find((inside) => inside.materialId !== material.materialId)
  if (other === undefined) return
  const there = other.materialId ?? other.bodyId ?? ''
  throw new Refusal(
    'bodies_must_not_mix_unless_declared',
    `In that vessel '${material.materialId}' would meet '${there}'. Name another vessel.`,
    { pointer, facts: { vesselId } },
  )
}
