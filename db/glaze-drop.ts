import type { Decimal } from '../shared/decimal.ts'
import type { Doubt } from '../shared/doubt.ts'
import {
  bucketWater,
  glazeUsedFromBucket,
  type BucketContents,
  type GlazeUsed,
} from '../shared/glaze-used.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Book } from './book.ts'
import { jugSourceOf, readBucket, type DensitySaid, type GlazeBucket } from './glaze-bucket.ts'
import { settleMaterial } from './materials.ts'
import type { ReadingSaid } from './readings.ts'

/** A bucket that was weighed, with a jug of it. */
export interface BucketReadSaid {
  readonly reading: ReadingSaid
  readonly density: DensitySaid
}

export interface BucketDropSaid {
  /** By the books where it was not read. */
  readonly before?: BucketReadSaid | undefined
  readonly after: BucketReadSaid
  /** What of it went into sieve, rag and wash bucket. */
  readonly washedOffDryGrams?: string | undefined
}

export interface BucketDrop {
  readonly used: GlazeUsed['dry']
  readonly after: { dryGrams: Decimal; dryDoubt: Doubt; waterGrams: Decimal }
  readonly words: readonly string[]
}

/**
 * The dry glaze that left a bucket. Where it was read before too, the books are set by that first.
 *
 * Units: grams dry. Refuses: `parts_must_not_exceed_the_whole` where it holds no less than before.
 */
export async function findBucketDrop(
  book: Book,
  said: BucketDropSaid,
  bucket: GlazeBucket,
): Promise<BucketDrop> {
  const before = await contentsBefore(book, said, bucket)
  const { density } = said.after
  const jugSource = jugSourceOf(book, density, said.before?.density)
  const pointer = '/bucket/after'
  const after = await readBucket(book, said.after, { bucket, pointer, jugSource })
  const used = glazeUsedFromBucket({ before, after })
  if (used.standing === 'more_than_before' || !used.dry.amount.greaterThan(0)) {
    throw new Refusal('parts_must_not_exceed_the_whole', wordsOf(before, after, used), {
      pointer,
      facts: {
        beforeDryGrams: before.dry.amount.toFixed(),
        afterDryGrams: after.dry.amount.toFixed(),
      },
    })
  }
  const water = bucketWater({ before, after })
  return {
    used: used.dry,
    after: {
      dryGrams: after.dry.amount,
      dryDoubt: after.dry.doubt,
      waterGrams: after.water.amount,
    },
    words: [used.words, ...(water === undefined ? [] : [water.words])],
  }
}

function wordsOf(before: BucketContents, after: BucketContents, used: GlazeUsed): string {
  const [was, is] = [before, after].map(({ dry }) => dry.amount.toDecimalPlaces(0).toFixed())
  const todo =
    used.standing === 'more_than_before'
      ? used.words
      : 'It holds no less than before. Weigh the pots instead, or say that it is as usual.'
  return `The bucket held ${was ?? ''} g of dry glaze and holds ${is ?? ''} g. ${todo}`
}

async function contentsBefore(
  book: Book,
  said: BucketDropSaid,
  bucket: GlazeBucket,
): Promise<BucketContents> {
  const { slot } = bucket
  if (said.before !== undefined) {
    const jugSource = jugSourceOf(book, said.before.density)
    const pointer = '/bucket/before'
    const read = await readBucket(book, said.before, { bucket, pointer, jugSource })
    await settleMaterial(book, slot, {
      dryGrams: read.dry.amount,
      dryDoubt: read.dry.doubt,
      waterGrams: read.water.amount,
    })
    return read
  }
  const held = book.now(slot)
  return {
    dry: { amount: held.materialGrams, doubt: held.materialDoubt },
    water: { amount: held.waterGrams, doubt: new Map() },
  }
}
