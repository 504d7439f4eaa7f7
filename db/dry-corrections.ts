import { and, eq, gt, sql } from 'drizzle-orm'
import { Decimal } from '../shared/decimal.ts'
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
 * has left the studio, stays as it was reckoned; the difference is `counterpart`'s.
 */
export async function correctByTest(
  book: Book,
  test: { found: WaterFound; except: readonly string[]; counterpart: PlaceOutside },
): Promise<string[]> {
  const learned = learnedFrom(test.found)
  if (learned.sources.length === 0) return []
  const ids = await leaningOn(book, learned.sources)
  const slots = await book.holdById(ids.filter((id) => !test.except.includes(id)))
  const corrections = slots.map((slot) => ({
    slot,
    held: slot.held,
    correction: correctionOf(slot.held, learned),
  }))
  const share = believable(corrections)
  const corrected: string[] = []
  for (const { slot, correction } of corrections) {
    const dryGrams = correction.dryGrams.times(share).toDecimalPlaces(6)
    const counterpart = await book.outside(test.counterpart, slot.ref.bodyId)
    correct(book, { slot, counterpart, by: { ...correction, dryGrams } })
    if (!dryGrams.isZero()) corrected.push(slot.holdingId)
  }
  return corrected
}

function correct(book: Book, of: { slot: Slot; counterpart: Slot; by: Correction }): void {
  const { slot, counterpart, by } = of
  const { waterGrams } = slot.held
  book.shiftExactly(counterpart, slot, {
    dryGrams: by.dryGrams,
    // As wet as it was weighed: what is not clay is water. Fired pots hold none.
    waterGrams: Decimal.max(by.dryGrams.negated(), waterGrams.negated()),
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

/** Holdings inside that are unsure by any of these sources and were there when the test was made. */
async function leaningOn(book: Book, sources: readonly string[]): Promise<string[]> {
  const { happenedAt } = book.facts
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
        sql`exists (select from line l
                      join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
                     where l.studio_id = ${holding.studioId} and l.holding_id = ${holding.holdingId}
                       and e.happened_at <= ${happenedAt.toISOString()}::timestamptz)`,
      ),
    )
    .orderBy(holding.holdingId)
  return rows.map((row) => row.holdingId)
}
