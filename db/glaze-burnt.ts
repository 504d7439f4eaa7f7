import { sql } from 'drizzle-orm'
import { decimal, toLedgerScale, ZERO, type Decimal } from '../shared/decimal.ts'
import { doubtOfPart } from '../shared/doubt.ts'
import type { Quantities } from '../shared/quantity.ts'
import type { Book, Slot } from './book.ts'

/**
 * The coat of pots that were just fired loses its loss on ignition: what the run's glazings lose, each
 * by its dry mass; nothing where no glazing of the run is known.
 *
 * Units: grams dry. Source: mass balance; that all coats of a run are alike is our choice.
 */
export async function burnCoat(
  book: Book,
  coat: { runId: string; pots: Slot; moved: Quantities },
): Promise<void> {
  const { runId, pots, moved } = coat
  if (moved.materialGrams.isZero()) return
  const fraction = await coatLossFraction(book, runId)
  const materialGrams = toLedgerScale(moved.materialGrams.times(fraction))
  if (materialGrams.isZero()) return
  const share = { part: materialGrams, whole: moved.materialGrams }
  book.shiftExactly(pots, await book.outsideLike('fire', pots.ref), {
    materialGrams,
    materialDoubt: doubtOfPart(moved.materialDoubt, share),
  })
}

/** Grain: one row; glazings of the run that stand and had happened by then. */
async function coatLossFraction(book: Book, runId: string): Promise<Decimal> {
  const [row] = await book.ledger.execute<{ burnt: string | null; whole: string | null }>(sql`
    select sum(g.dry_grams * g.loss_on_ignition_fraction)::text as "burnt",
           sum(g.dry_grams)::text as "whole"
      from glazing g
      join entry e on e.studio_id = g.studio_id and e.entry_id = g.entry_id
     where g.studio_id = ${book.studioId} and g.run_id = ${runId}
       and e.happened_at <= ${book.facts.happenedAt.toISOString()}::timestamptz
       and not exists (select from entry t
                        where t.studio_id = e.studio_id and t.reverses_entry_id = e.entry_id)`)
  const whole = decimal(row?.whole ?? 0)
  return whole.isZero() ? ZERO : decimal(row?.burnt ?? 0).dividedBy(whole)
}
