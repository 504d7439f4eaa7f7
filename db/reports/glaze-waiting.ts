import { sql } from 'drizzle-orm'
import type { Database } from '../connection.ts'
import { inSnapshot } from '../report-reading.ts'
import { findStudio } from '../studio.ts'

/** Bisque pots of one run that glaze can go on. */
export interface WaitingForGlaze {
  readonly runId: string
  readonly label: string
  readonly formId: string
  readonly formName: string
  readonly pieces: number
  /** Glazes that are on pots of the run already, by their names; null where none is. */
  readonly glazes: string | null
}

/**
 * Bisque that waits for glaze, or for the glaze fire with its glaze on, the oldest run first.
 *
 * Grain: one row a run of which pots are bisque; those in a kiln are not among them. Units: pieces.
 * Refuses: `studio_not_found`.
 */
export function waitingForGlaze(db: Database, studioId: string): Promise<WaitingForGlaze[]> {
  return inSnapshot(db, async (ledger) => {
    await findStudio(ledger, studioId)
    const rows = await ledger.execute<WaitingForGlaze & Record<string, unknown>>(sql`
      select * from (
        select r.run_id as "runId", r.label as "label", f.form_id as "formId",
               f.name as "formName", r.thrown_at,
               h.pieces::integer - coalesce((
                 select sum(i.pieces)
                   from kiln_load k
                   join kiln_load_run i on i.studio_id = k.studio_id
                                       and i.kiln_load_id = k.kiln_load_id
                  where k.studio_id = h.studio_id and i.run_id = h.run_id
                    and k.unloaded_at is null and k.kind = 'glaze'
               ), 0)::integer as "pieces",
               (select string_agg(distinct m.name, ', ' order by m.name)
                  from glazing g
                  join material m on m.studio_id = g.studio_id and m.material_id = g.material_id
                 where g.studio_id = h.studio_id and g.run_id = h.run_id and h.material_grams > 0
                   and not exists (select from entry t where t.studio_id = g.studio_id
                                                         and t.reverses_entry_id = g.entry_id)
               ) as "glazes"
          from holding h
          join run r on r.studio_id = h.studio_id and r.run_id = h.run_id
          join form f on f.studio_id = r.studio_id and f.form_id = r.form_id
         where h.studio_id = ${studioId} and h.place = 'bisque' and h.pieces > 0) as waiting
       where "pieces" > 0
       order by thrown_at, "runId"`)
    return rows.map(({ runId, label, formId, formName, pieces, glazes }) => ({
      ...{ runId, label, formId, formName, pieces, glazes },
    }))
  })
}
