import { assert } from './assert.ts'
import { decimal, toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import { doubtOfDifference, type Doubt } from './doubt.ts'
import { howSure, unsureDifference, unsureSum, type Unsure } from './how-sure.ts'
import { percentWords } from './percent.ts'
import { doubtPropagated } from './propagation.ts'
import { dryMassOfSlurry, type SlurrySaid } from './slurry-reading.ts'

/** What a bucket holds, by a reading or by the books. */
export interface BucketContents {
  readonly dry: Unsure
  readonly water: Unsure
}

/** Whether what was found can be glaze that was used. */
export type GlazeUsedStanding = 'used' | 'not_distinguishable' | 'more_than_before'

export interface GlazeUsed {
  /** Below zero where there is more than before. */
  readonly dry: Unsure
  readonly standing: GlazeUsedStanding
  readonly words: string
}

/** Water that came to a bucket or left it by itself, beside what left with the glaze. */
export interface BucketWater {
  /** Evaporated where above zero, added where below. */
  readonly goneGrams: Unsure
  /** What it is if all was dipped at the first reading's wetness, and at the second's. */
  readonly asFirstReadGrams: Decimal
  readonly asLastReadGrams: Decimal
  /** The dry glaze that the fall of the bucket's weight alone would tell, and how far off that is. */
  readonly byWeightAloneDryGrams: Decimal
  readonly byWeightAloneOffGrams: Decimal
  readonly words: string
}

/** What left the bucket and is not on the pots. */
export interface CarriedOff {
  readonly dry: Unsure
  /** Of what is on the pots. */
  readonly fractionOfPots: Decimal
  readonly words: string
}

/** Beside every question for the weight of glazed pots. */
export const GLAZED_POTS_DRY_CAUTION =
  'Weigh glazed pots only when they are dry. A damp coat weighs its water too, and so does the pot that drank it. Two weights an hour apart that agree say that they are dry.'

/** Beside every question for the weight of a glaze bucket. */
export const BUCKET_WEIGHT_ALONE_CAUTION =
  'The weight of the bucket alone does not tell how much glaze was used: water dries off and is added. Stir it, and weigh a full measure as well.'

const NO_WATER_TO_SPEAK_OF = 'No water to speak of came or went by itself.'
const HALF = decimal('0.5')

/**
 * What a bucket holds by its weight and by a measure of it, stirred.
 *
 * The water is what is not glaze, so what makes the one unsure makes the other unsure the other way.
 *
 * Units: grams, ledger scale; dry and water sum to the net weight. Source: as `dryMassOfSlurry`.
 */
export function bucketRead(
  said: SlurrySaid,
  wet: { readonly netGrams: Decimal; readonly netDoubt: Doubt },
): BucketContents {
  const { dryGrams, waterGrams, dryDoubt } = dryMassOfSlurry(said, wet)
  return {
    dry: { amount: dryGrams, doubt: dryDoubt },
    water: { amount: waterGrams, doubt: doubtOfDifference(wet.netDoubt, dryDoubt) },
  }
}

/** A bucket with what was put into it. Units: grams; exact. Source: conservation of mass. */
export function bucketWithAdded(bucket: BucketContents, added: BucketContents): BucketContents {
  return {
    dry: unsureSum([bucket.dry, added.dry]),
    water: unsureSum([bucket.water, added.water]),
  }
}

/**
 * The dry glaze that left a bucket between two readings, or between the books and a reading.
 *
 * Water may come and go meanwhile, for only the dry glaze of each is counted. Both rest on the density of
 * the same grains, so that this cancels for the most part; and so does how full a jug is that was filled to
 * one line both times, where both name it as one source.
 *
 * Shape: what was put in between is in `before`. Units: grams of dry glaze; exact.
 * Source: conservation of the dry glaze; doubts as `doubtOfDifference`.
 */
export function glazeUsedFromBucket(buckets: {
  readonly before: Pick<BucketContents, 'dry'>
  readonly after: Pick<BucketContents, 'dry'>
}): GlazeUsed {
  const dry = unsureDifference(buckets.before.dry, buckets.after.dry)
  return found(dry, {
    used: 'By the bucket, before and after.',
    more: 'The bucket holds more dry glaze than before. Tell what was put in, or stir it to the bottom and read it again.',
  })
}

/**
 * The dry glaze on pots that were weighed before they were glazed and after, when dry.
 *
 * Units: grams; exact. Source: conservation of mass; doubts as `doubtOfDifference`, so that a tare which
 * both weighings share cancels.
 */
export function glazeUsedFromPieces(pots: {
  readonly beforeGrams: Unsure
  readonly glazedGrams: Unsure
}): GlazeUsed {
  const dry = unsureDifference(pots.glazedGrams, pots.beforeGrams)
  return found(dry, {
    used: 'By the pots, before and after.',
    more: 'The pots weigh less with glaze than without. They were damp before, or some are missing: weigh the same pots, both times dry.',
  })
}

/**
 * The water that dried off a bucket between two readings, or was added, and what the fall of its weight
 * alone would have told.
 *
 * The glaze that left took water along, by how wet the bucket was when it left: as at the first reading,
 * or as at the last, or between. With r grams of water to a gram of glaze, and D of glaze, the water that
 * went by itself is so D_last (r_first - r_last) or D_first (r_first - r_last); the mean is told. The fall of
 * the weight times the last reading's share of glaze takes that water for glaze.
 *
 * Shape: both buckets hold glaze; what was put in between is in `before`. Undefined where one holds none.
 * Units: grams, ledger scale. Source: conservation of the water; that the mean is told is our choice.
 */
export function bucketWater(buckets: {
  readonly before: BucketContents
  readonly after: BucketContents
}): BucketWater | undefined {
  const { before, after } = buckets
  const [first, last] = [before.dry.amount, after.dry.amount]
  if (first.lessThanOrEqualTo(0) || last.lessThanOrEqualTo(0)) return undefined
  const [wetFirst, wetLast] = [
    before.water.amount.dividedBy(first),
    after.water.amount.dividedBy(last),
  ]
  const drier = wetFirst.minus(wetLast)
  const middle = first.plus(last).times(HALF)
  const goneGrams = {
    amount: toLedgerScale(middle.times(drier)),
    doubt: doubtPropagated([
      { doubt: before.water.doubt, slope: middle.dividedBy(first) },
      { doubt: after.water.doubt, slope: middle.dividedBy(last).negated() },
      {
        doubt: before.dry.doubt,
        slope: drier.times(HALF).minus(middle.times(wetFirst).dividedBy(first)),
      },
      {
        doubt: after.dry.doubt,
        slope: drier.times(HALF).plus(middle.times(wetLast).dividedBy(last)),
      },
    ]),
  }
  const fall = first.plus(before.water.amount).minus(last).minus(after.water.amount)
  const byWeightAlone = toLedgerScale(fall.dividedBy(wetLast.plus(1)))
  return {
    goneGrams,
    asFirstReadGrams: toLedgerScale(last.times(drier)),
    asLastReadGrams: toLedgerScale(first.times(drier)),
    byWeightAloneDryGrams: byWeightAlone,
    byWeightAloneOffGrams: byWeightAlone.minus(first.minus(last)),
    words: waterWords(goneGrams),
  }
}

/**
 * What left the bucket and is not on the pots: in the sieve, the rag and the wash bucket.
 *
 * Shape: pots with glaze on them. Units: grams of dry glaze, a fraction of what is on the pots; 60 digits.
 * Source: conservation of the dry glaze.
 */
export function carriedOff(glaze: {
  readonly fromBucket: Unsure
  readonly onPots: Unsure
}): CarriedOff {
  const { fromBucket, onPots } = glaze
  assert(onPots.amount.greaterThan(0), 'glazed pots have glaze on them')
  const dry = unsureDifference(fromBucket, onPots)
  const fractionOfPots = dry.amount.dividedBy(onPots.amount)
  const sure = howSure(dry)
  const part = `${wholeGrams(dry.amount)} of dry glaze, ${percentWords(fractionOfPots)} of what is on the pots`
  if (!sure.isDistinguishableFromZero) {
    return { dry, fractionOfPots, words: 'What was carried off is too little for these readings.' }
  }
  const words = dry.amount.isNegative()
    ? `The pots carry ${wholeGrams(dry.amount.negated())} more than left the bucket. Let them dry, and stir the bucket.`
    : `Carried off to sieve, rag and wash bucket: ${part}.`
  return { dry, fractionOfPots, words }
}

function found(dry: Unsure, words: { used: string; more: string }): GlazeUsed {
  const { isDistinguishableFromZero } = howSure(dry)
  if (!isDistinguishableFromZero) {
    const tooLittle = 'Too little for these readings: it may as well be none.'
    return { dry, standing: 'not_distinguishable', words: tooLittle }
  }
  return dry.amount.isNegative()
    ? { dry, standing: 'more_than_before', words: words.more }
    : { dry, standing: 'used', words: words.used }
}

function waterWords(gone: Unsure): string {
  if (!howSure(gone).isDistinguishableFromZero) return NO_WATER_TO_SPEAK_OF
  return gone.amount.greaterThan(ZERO)
    ? `About ${wholeGrams(gone.amount)} of water dried off.`
    : `About ${wholeGrams(gone.amount.negated())} of water was added.`
}

function wholeGrams(grams: Decimal): string {
  return `${grams.toFixed(0)} g`
}
