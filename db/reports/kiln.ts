import { sql } from 'drizzle-orm'
import type { Database, Transaction } from '../connection.ts'
import { inSnapshot } from '../report-reading.ts'
import { openLoads, type KilnLoadView } from '../kiln-loads.ts'
import { findStudio } from '../studio.ts'
import { trailTo } from '../trail-links.ts'

/** Pots of one run that wait for a fire, or for somebody to look at them. */
export interface WaitingForKiln {
  readonly runId: string
  readonly label: string
  readonly formName: string
  readonly bodyName: string
  readonly place: 'greenware' | 'bisque' | 'glazed'
  /** Those that are in a kiln already are not among them. */
  readonly pieces: number
  readonly trail: string
}

export interface KilnReport {
  readonly loads: readonly KilnLoadView[]
  readonly waiting: readonly WaitingForKiln[]
}

/**
 * What is in the kilns, and what waits for a fire or to be graded, the oldest run first.
 *
 * Grain: one row a load; one row a run and place of which something waits. Units: pieces.
 * Refuses: `studio_not_found`.
 */
export function kilnReport(db: Database, studioId: string): Promise<KilnReport> {
  return inSnapshot(db, async (ledger) => {
    await findStudio(ledger, studioId)
    const loads = await openLoads(ledger, { studioId })
    return { loads, waiting: await waitingOf(ledger, studioId) }
  })
}

type Row = Omit<WaitingForKiln, 'trail'> & Record<string, unknown>

async function waitingOf(ledger: Transaction, studioId: string): Promise<WaitingForKiln[]> {
  const rows = await ledger.execute<Row>(sql`
    select * from (
      select r.run_id as "runId", r.label, f.name as "formName", b.name as "bodyName", h.place,
             r.thrown_at, h.pieces::integer - coalesce((
               select sum(i.pieces)
                 from kiln_load k
                 join kiln_load_run i on i.studio_id = k.studio_id
                                     and i.kiln_load_id = k.kiln_load_id
                where k.studio_id = h.studio_id and i.run_id = h.run_id
                  and k.unloaded_at is null
                  and h.place = case k.kind when 'bisque' then 'greenware' else 'bisque' end
             ), 0)::integer as pieces
        from holding h
        join run r on r.studio_id = h.studio_id and r.run_id = h.run_id
        join form f on f.studio_id = r.studio_id and f.form_id = r.form_id
        join body b on b.studio_id = h.studio_id and b.body_id = h.body_id
       where h.studio_id = ${studioId} and h.place in ('greenware', 'bisque', 'glazed')
         and h.pieces > 0) as waiting
     where pieces > 0
     order by thrown_at, "runId", place`)
  return rows.map((row) => {
    const { runId, label, formName, bodyName, place, pieces } = row
    return { runId, label, formName, bodyName, place, pieces, trail: trailTo('runs', runId) }
  })
}
