import { and, eq, gt, or } from 'drizzle-orm'
import { decimal, type Decimal } from '../shared/decimal.ts'
import type { Doubt } from '../shared/doubt.ts'
import { sourceOf } from '../shared/doubt-source.ts'
import { dryMassEstimate, type DryMassEstimate } from '../shared/dry-mass.ts'
import { bucketRead, type BucketContents } from '../shared/glaze-used.ts'
import { asIfClay, dryGramsInWetMass, materialByShare } from '../shared/parting.ts'
import { Refusal } from '../shared/refusal.ts'
import { slurrySaid, type SlurrySaid } from '../shared/slurry-reading.ts'
import { waterDensityGramsPerMillilitre } from '../shared/slurry.ts'
import { millilitresFrom, type Volume } from '../shared/units.ts'
import type { Book, Slot } from './book.ts'
import { bucketHistory, powdersInBucket, type BucketHistory } from './glaze-in-bucket.ts'
import { findGlaze, type GlazeNature } from './glaze-recipes.ts'
import { handlesMaterials, inBucket, type MaterialFacts } from './materials.ts'
import { pointingAt, takeReading, type Reading, type ReadingSaid } from './readings.ts'
import { holding } from './schema.ts'
import { findVessel } from './studio.ts'

/** A measured volume of stirred glaze, and what it weighs. */
export interface DensitySaid {
  readonly slurry: ReadingSaid
  readonly volume: Volume
  readonly celsius?: string | undefined
}

/** A bucket of glaze that is held, with what is known of what is in it. */
export interface GlazeBucket {
  readonly slot: Slot
  readonly glaze: MaterialFacts
  readonly nature: GlazeNature
  readonly history: BucketHistory
}

const ROOM_CELSIUS = '20'

/** The glaze in a vessel. Refuses: `vessel_not_found`, `material_must_be_enough` where it holds none. */
export async function bucketIn(
  book: Book,
  vesselId: string,
  glazeId?: string,
): Promise<GlazeBucket> {
  const { ledger, studioId } = book
  await pointingAt('/vesselId', () => findVessel(ledger, studioId, vesselId))
  if (glazeId !== undefined) await findGlaze(ledger, studioId, { glazeId, pointer: '/glazeId' })
  const [row] = await ledger
    .select({ materialId: holding.materialId })
    .from(holding)
    .where(
      and(
        eq(holding.studioId, studioId),
        eq(holding.place, 'glaze_bucket'),
        eq(holding.vesselId, vesselId),
        gt(holding.materialGrams, '0'),
      ),
    )
  const found = row?.materialId ?? undefined
  if (found === undefined || (glazeId !== undefined && found !== glazeId)) {
    throw new Refusal('material_must_be_enough', wordsOfOther(found, glazeId), {
      pointer: '/vesselId',
      facts: { vesselId, ...(found === undefined ? {} : { glazeId: found }) },
    })
  }
  const glaze = await findGlaze(ledger, studioId, { glazeId: found, pointer: '/vesselId' })
  const [slot] = await book.hold([inBucket(found, vesselId)])
  const at = book.facts.happenedAt
  const history = await bucketHistory(ledger, studioId, { glaze, vesselId, at })
  return { slot, glaze, nature: history.nature, history }
}

function wordsOfOther(found: string | undefined, wanted: string | undefined): string {
  if (found !== undefined && wanted !== undefined) {
    return `That bucket holds '${found}', not '${wanted}'. Name the other bucket, or the other glaze.`
  }
  return 'By the books there is no glaze in that bucket. Mix a batch into it, or enter what is in it.'
}

/** Refuses a bucket in which something else lies: `bodies_must_not_mix_unless_declared`. */
export async function refuseOtherContents(
  book: Book,
  of: { vesselId: string; glazeId: string },
): Promise<void> {
  const { vesselId, glazeId } = of
  await pointingAt('/vesselId', () => findVessel(book.ledger, book.studioId, vesselId))
  const there = await book.ledger
    .select()
    .from(holding)
    .where(
      and(
        eq(holding.studioId, book.studioId),
        eq(holding.vesselId, vesselId),
        or(gt(holding.materialGrams, '0'), gt(holding.dryGrams, '0')),
      ),
    )
  const other = there.find((row) => row.materialId !== glazeId)
  if (other === undefined) return
  const what = other.materialId ?? other.bodyId ?? ''
  throw new Refusal(
    'bodies_must_not_mix_unless_declared',
    `In that vessel is '${what}', which '${glazeId}' would meet. Use another bucket.`,
    { pointer: '/vesselId', facts: { vesselId } },
  )
}

export interface JugRead {
  readonly reading: Reading
  readonly said: SlurrySaid
}

/**
 * What a jug of stirred glaze says of its water.
 *
 * A jug that is known by its vessel is the same jug each time it is filled to that line; one that nobody
 * named is the same within an act. Where both readings name one source, how full it was cancels.
 *
 * Refuses: as `takeReading`, `density_must_exceed_water`, `density_must_be_below_solids`.
 */
export async function readJug(
  book: Book,
  density: DensitySaid,
  of: { bucket: GlazeBucket; pointer: string; jugSource: string },
): Promise<JugRead> {
  const { bucket, pointer, jugSource } = of
  const at = `${pointer}/slurry`
  const reading = await takeReading(book, density.slurry, { pointer: at, kind: 'sample' })
  const grain = bucket.nature.grainGramsPerMillilitre
  const millilitres = millilitresFrom(density.volume)
  const said = await pointingAt(at, () =>
    slurrySaid(
      { ...reading, millilitres, jugSource },
      {
        waterGramsPerMillilitre: waterDensityGramsPerMillilitre(
          decimal(density.celsius ?? ROOM_CELSIUS),
        ),
        solidsGramsPerMillilitre: grain,
        grainSource: sourceOf('grain', grain.toDecimalPlaces(4).toFixed(), bucket.glaze.materialId),
      },
    ),
  )
  return { reading, said }
}

/** The name of a jug as a source of doubt. */
export function jugSourceOf(book: Book, density: DensitySaid, earlier?: DensitySaid): string {
  const { slurry, volume } = density
  if (slurry.inVesselId !== undefined) {
    return sourceOf('jug', millilitresFrom(volume).toFixed(), slurry.inVesselId)
  }
  // Of jugs without a name, one is told from another by how much it holds.
  const isSame =
    earlier === undefined || millilitresFrom(earlier.volume).equals(millilitresFrom(volume))
  return sourceOf('jug', book.facts.entryId, isSame ? 'same' : 'other')
}

/** What a bucket holds by its weight and a jug of it, kept as an estimate. Refuses: as `readJug`. */
export async function readBucket(
  book: Book,
  read: { reading: ReadingSaid; density: DensitySaid },
  of: { bucket: GlazeBucket; pointer: string; jugSource: string },
): Promise<BucketContents> {
  const { bucket, pointer } = of
  const whole = await takeReading(book, read.reading, { pointer: `${pointer}/reading` })
  const jug = await readJug(book, read.density, { ...of, pointer: `${pointer}/density` })
  const contents = bucketRead(jug.said, whole)
  const { weighingNo } = whole
  book.estimated({ slot: bucket.slot, of: 'glaze', estimate: estimateOf(contents), weighingNo })
  return contents
}

/** What a bucket was found to hold, as an estimate is kept. */
export function estimateOf(contents: BucketContents): DryMassEstimate {
  return dryMassEstimate({
    dryGrams: contents.dry.amount,
    waterGrams: contents.water.amount,
    dryDoubt: contents.dry.doubt,
    method: 'slurry_density',
    standing: 'measured',
  })
}

/**
 * The dry mass in a wet amount of a material as wet as it lies there, moved as a share of it.
 *
 * Units: grams. Refuses: `material_must_be_enough`, at the field.
 */
export async function moveWetMaterial(
  book: Book,
  move: { from: Slot; to: Slot; wetGrams: Decimal; readingDoubt: Doubt; pointer: string },
): Promise<Decimal> {
  const { from, to, wetGrams, readingDoubt, pointer } = move
  const held = book.now(from)
  const there = held.materialGrams.plus(held.waterGrams)
  if (wetGrams.greaterThan(there) || held.materialGrams.isZero()) {
    throw new Refusal(
      'material_must_be_enough',
      `There are ${there.toDecimalPlaces(1).toFixed()} g of '${from.ref.materialId ?? ''}' here, with its water; ${wetGrams.toDecimalPlaces(1).toFixed()} g were to leave. If there is more, enter its delivery or count it.`,
      {
        pointer,
        facts: {
          holdingId: from.holdingId,
          heldDryGrams: held.materialGrams.toFixed(),
          heldWetGrams: there.toFixed(),
          wantedWetGrams: wetGrams.toFixed(),
        },
      },
    )
  }
  const dryGrams = dryGramsInWetMass(asIfClay(held), wetGrams)
  await pointingAt(pointer, () => {
    book.shift({ from, to, what: materialByShare(held, { dryGrams, readingDoubt }) })
  })
  return dryGrams
}

/** Notes that a wet glaze is handled: cautions follow of whatever went into its bucket. */
export async function handlesGlaze(book: Book, { glaze, history }: GlazeBucket): Promise<void> {
  const powders = await powdersInBucket(book.ledger, book.studioId, { glaze, history })
  handlesMaterials(book, { materials: [glaze, ...powders], isDry: false })
}
