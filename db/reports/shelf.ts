import { sql } from 'drizzle-orm'
import type { Grade } from '../../shared/place.ts'
import type { Database } from '../connection.ts'
import { inSnapshot } from '../report-reading.ts'
import { findStudio } from '../studio.ts'

/** Finished pots of one form and grade. */
export interface ShelfRow {
  readonly formId: string
  readonly formName: string
  readonly grade: Grade
  readonly pieces: string
  /** What one fetched the last time, or what the catalogue asks for a first. */
  readonly usualPrice: string | null
}

/**
 * What can be sold: finished pots by form and grade, with the price to begin from.
 *
 * Grain: one row a form and grade of which something is on the shelf. Units: pieces, money.
 * Refuses: `studio_not_found`.
 */
export function shelfReport(db: Database, studioId: string): Promise<ShelfRow[]> {
  return inSnapshot(db, async (ledger) => {
    await findStudio(ledger, studioId)
    const rows = await ledger.execute<ShelfRow & Record<string, unknown>>(sql`
      select f.form_id as "formId", f.name as "formName", h.grade, sum(h.pieces)::text as pieces,
             coalesce(max(s.price_each), case h.grade when 'first' then f.price end)::text
               as "usualPrice"
        from holding h
        join run r on r.studio_id = h.studio_id and r.run_id = h.run_id
        join form f on f.studio_id = r.studio_id and f.form_id = r.form_id
        left join lateral (
          select s.price_each
            from sale s
            join entry e on e.studio_id = s.studio_id and e.entry_id = s.entry_id
           where s.studio_id = f.studio_id and s.form_id = f.form_id and s.grade = h.grade
             and not exists (select from entry b where b.studio_id = e.studio_id
                                                   and b.reverses_entry_id = e.entry_id)
           order by e.happened_at desc, e.entry_id desc limit 1) s on true
       where h.studio_id = ${studioId} and h.place = 'finished' and h.pieces > 0
       group by f.studio_id, f.form_id, f.name, f.price, h.grade
       order by f.name, h.grade`)
    return [...rows]
  })
}
