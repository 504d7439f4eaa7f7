import { and, eq, gt, sql } from 'drizzle-orm'
import { Decimal, decimal, ZERO, toLedgerScale } from '../shared/decimal.ts'
import { doubtTimes } from '../shared/doubt.ts'
import {
  believable,
  correctionOf,
  learnedFrom,
  type Correction,
  type WaterFound,
} from '../shared/doubt-learning.ts'
import { dryMassEstimate } from '../shared/dry-mass.ts'
import type { PlaceOutside } from '../shared/place.ts'
import type { Book, Slot } from './book.ts'
import { holding } from './schema.ts'

/**
 * Corrects what was reckoned with the figures that a dry test has just made surer: each holding by as
 * much as it leant on them, in the entry of the test. Wet masses were weighed and stay.
 *
 * Shape: `except` are holdings that the test has set right already. What came to be after the test, or
 * has left the studio, stays as it was reckoned, and so does what has had less since than would be
 * taken; the difference is `counterpart`'s.
 */
export async function correctByTest(
  book: Book,
  test: { found: WaterFound; except: readonly string[]; counterpart: PlaceOutside },
): Promise<string[]> {
  const learned = learnedFrom(test.found)
  if (learned.sources.length === 0) return []
  const ids = await leaningOn(book, learned.sources)
  const slots = await book.holdById(ids.filter((id) => !test.except.includes(id)))
  const least = await leastSince(book, slots)
  const corrections = slots
    .map((slot) => ({ slot, held: slot.held, correction: correctionOf(slot.held, learned) }))
    .filter(({ slot, correction }) => {
      const had = least.get(slot.holdingId) ?? ZERO
      return had.greaterThan(0) && had.plus(correction.dryGrams).greaterThanOrEqualTo(0)
    })
  const share = believable(corrections)
  const corrected: string[] = []
  for (const { slot, correction } of corrections) {
    // What is corrected in part only is surer in part only.
    const dryGrams = toLedgerScale(correction.dryGrams.times(share))
    const dryDoubt = doubtTimes(correction.dryDoubt, share)
    const counterpart = await book.outside(test.counterpart, slot.ref.bodyId)
    correct(book, { slot, counterpart, by: { dryGrams, dryDoubt } })
    if (!dryGrams.isZero()) corrected.push(slot.holdingId)
  }
  return corrected
}

function correct(book: Book, of: { slot: Slot; counterpart: Slot; by: Correction }): void {
  const { slot, counterpart, by } = of
  const { waterGrams } = slot.held
  book.shiftExactly(counterpart, slot, {
    dryGrams: by.dryGrams,
    // As wet as it was weighed: what is not clay is water. Fired pots hold none, before and after.
    waterGrams: waterGrams.isZero()
      ? ZERO
      : Decimal.max(by.dryGrams.negated(), waterGrams.negated()),
    dryDoubt: by.dryDoubt,
  })
  if (by.dryGrams.isZero()) return
  const now = book.now(slot)
  book.estimated({
    slot,
    of: 'corrected',
    estimate: dryMassEstimate({
      dryGrams: now.dryGrams,
      waterGrams: now.waterGrams,
      dryDoubt: now.dryDoubt,
      method: 'studio_tests',
      standing: 'estimated',
    }),
  })
}

/** Holdings inside that are unsure by any of these sources. */
async function leaningOn(book: Book, sources: readonly string[]): Promise<string[]> {
  const rows = await book.ledger
    .select({ holdingId: holding.holdingId })
    .from(holding)
    .where(
      and(
        eq(holding.studioId, book.studioId),
        eq(holding.isInside, true),
        gt(holding.dryGrams, '0'),
        sql`jsonb_exists_any(${holding.dryDoubt}, array[${sql.join(
          sources.map((source) => sql`${source}`),
          sql`, `,
        )}]::text[])`,
      ),
    )
    .orderBy(holding.holdingId)
  return rows.map((row) => row.holdingId)
}

/**
 * The least dry clay that each holding has had from the moment of the entry on: nothing where its clay
 * came later. A test that is told late is told of then, when there may have been less than now.
 *
 * Units: grams, with what the entry has done so far.
 */
async function leastSince(
  book: Book,
  slots: readonly Slot[],
): Promise<ReadonlyMap<string, Decimal>> {
  if (slots.length === 0) return new Map()
  const then = book.facts.happenedAt.toISOString()
  const ids = slots.map((slot) => sql`${slot.holdingId}`)
  const rows = await book.ledger.execute<{ holdingId: string; least: string; now: string }>(sql`
    select l.holding_id as "holdingId", sum(l.dry_grams)::text as now,
           least(coalesce(sum(l.dry_grams) filter (where l.happened_at <= ${then}::timestamptz), 0),
                 min(l.so_far) filter (where l.happened_at > ${then}::timestamptz))::text as least
      from (select l.holding_id, l.dry_grams, e.happened_at,
                   sum(l.dry_grams) over (partition by l.holding_id order by e.happened_at) as so_far
              from line l join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
             where l.studio_id = ${book.studioId} and l.holding_id in (${sql.join(ids, sql`, `)})) l
     group by l.holding_id`)
  const heldNow = new Map(slots.map((slot) => [slot.holdingId, slot.held.dryGrams]))
  return new Map(
    rows.map(({ holdingId, least, now }) => {
      const done = (heldNow.get(holdingId) ?? ZERO).minus(now)
      return [holdingId, decimal(least).plus(done)]
    }),
  )
}
