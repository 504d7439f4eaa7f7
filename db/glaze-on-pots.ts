import { decimal, ZERO, type Decimal } from '../shared/decimal.ts'
import { doubtOfPart, doubtOfSum, NO_DOUBT, type Doubt } from '../shared/doubt.ts'
import { carriedOff, GLAZED_POTS_DRY_CAUTION, glazeUsedFromPieces } from '../shared/glaze-used.ts'
import { howSure, unsureDifference, unsureSum, type Unsure } from '../shared/how-sure.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Book, Slot } from './book.ts'
import type { BucketDrop } from './glaze-drop.ts'
import { takeReading, type ReadingSaid } from './readings.ts'

/** Pots of a run that are glazed. */
export interface PotsToGlaze {
  readonly runId: string
  readonly formId: string
  readonly slot: Slot
  readonly pieces: Decimal
}

/** All the named pots together, without glaze and with it, dry both times. */
export interface PotsWeighedSaid {
  /** By the books where they were not weighed. */
  readonly before?: ReadingSaid | undefined
  readonly after: ReadingSaid
}

interface Measured {
  readonly dryGrams: Decimal
  readonly dryDoubt: Doubt
}

interface OnPots {
  readonly onPots: Measured
  readonly words: readonly string[]
  readonly carriedOff?: Measured
}

/**
 * The dry glaze on pots that were weighed.
 *
 * Units: grams dry. Refuses: `reading_must_not_be_below_known_dry` where they weigh no more than without.
 */
export async function findOnPots(
  book: Book,
  said: PotsWeighedSaid,
  pots: readonly PotsToGlaze[],
): Promise<OnPots> {
  const beforeGrams =
    said.before === undefined
      ? byTheBooks(book, pots)
      : unsureOf(await takeReading(book, said.before, { pointer: '/pots/before' }))
  const pointer = '/pots/after'
  const glazedGrams = unsureOf(await takeReading(book, said.after, { pointer }))
  const used = glazeUsedFromPieces({ beforeGrams, glazedGrams })
  if (used.standing === 'more_than_before' || !used.dry.amount.greaterThan(0)) {
    const [before, after] = [beforeGrams, glazedGrams].map(({ amount }) =>
      amount.toDecimalPlaces(1).toFixed(),
    )
    throw new Refusal(
      'reading_must_not_be_below_known_dry',
      `Without glaze they weigh ${before ?? ''} g and with it ${after ?? ''} g. The pots weigh no more with glaze than without: they were damp before, or some are missing. Weigh the same pots, both times dry.`,
      { pointer, facts: { beforeGrams: before ?? '', glazedGrams: after ?? '' } },
    )
  }
  return { onPots: measuredOf(used.dry), words: [used.words, GLAZED_POTS_DRY_CAUTION] }
}

/** What the books say that the named pots weigh: their clay, and glaze that is on them already. */
function byTheBooks(book: Book, pots: readonly PotsToGlaze[]): Unsure {
  return unsureSum(
    pots.map(({ slot, pieces }) => {
      const held = book.now(slot)
      const share = { part: pieces, whole: held.pieces }
      const amount = held.dryGrams.plus(held.materialGrams).times(pieces).dividedBy(held.pieces)
      return {
        amount: amount.toDecimalPlaces(6),
        doubt: doubtOfPart(doubtOfSum([held.dryDoubt, held.materialDoubt]), share),
      }
    }),
  )
}

/**
 * What of the glaze that left a bucket is on the pots, and what was carried off: as the pots were weighed,
 * or as it was said; all of it is on the pots where neither tells.
 *
 * Units: grams dry. Refuses: `parts_must_not_exceed_the_whole` where more is told than left the bucket.
 */
export function glazeOnPots(
  drop: BucketDrop,
  told: { weighed: OnPots | undefined; washedOff: string | undefined },
): OnPots {
  const { weighed, washedOff } = told
  if (weighed === undefined) return lessWashedOff(drop, washedOff)
  const onPots = unsure(weighed.onPots)
  const { dry, words } = carriedOff({ fromBucket: drop.used, onPots })
  if (dry.amount.isNegative() && howSure(dry).isDistinguishableFromZero) {
    throw tooMuch('/pots/after', words, drop.used.amount)
  }
  return {
    onPots: weighed.onPots,
    words: [...drop.words, ...weighed.words, words],
    // What is below nothing by chance is left to the reading of the bucket.
    ...(dry.amount.greaterThan(0) ? { carriedOff: measuredOf(dry) } : {}),
  }
}

function lessWashedOff(drop: BucketDrop, washedOff: string | undefined): OnPots {
  const washed = { amount: decimal(washedOff ?? '0'), doubt: NO_DOUBT }
  if (washed.amount.greaterThanOrEqualTo(drop.used.amount)) {
    const detail = `${drop.used.amount.toDecimalPlaces(1).toFixed()} g of dry glaze left the bucket; less than that was washed off, or none is on the pots.`
    throw tooMuch('/bucket/washedOffDryGrams', detail, drop.used.amount)
  }
  return {
    onPots: measuredOf(unsureDifference(drop.used, washed)),
    words: drop.words,
    ...(washed.amount.equals(ZERO) ? {} : { carriedOff: measuredOf(washed) }),
  }
}

function tooMuch(pointer: string, detail: string, left: Decimal): Refusal {
  return new Refusal('parts_must_not_exceed_the_whole', detail, {
    pointer,
    facts: { leftBucketDryGrams: left.toFixed() },
  })
}

function unsureOf(reading: { netGrams: Decimal; netDoubt: Doubt }): Unsure {
  return { amount: reading.netGrams, doubt: reading.netDoubt }
}

function unsure({ dryGrams, dryDoubt }: Measured): Unsure {
  return { amount: dryGrams, doubt: dryDoubt }
}

function measuredOf({ amount, doubt }: Unsure): Measured {
  return { dryGrams: amount, dryDoubt: doubt }
}
