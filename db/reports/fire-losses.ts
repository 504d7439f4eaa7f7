import { sql } from 'drizzle-orm'
import type { LossShown } from '../../shared/loss-in-words.ts'
import type { Database } from '../connection.ts'
import { inSnapshot } from '../report-reading.ts'

/** What did not come out whole of the fire that an entry tells of. Grain: one row a run. Units: pieces, money. */
export function lossesOfFire(
  db: Database,
  { studioId, entryId }: { readonly studioId: string; readonly entryId: string },
): Promise<LossShown[]> {
  return inSnapshot(db, async (ledger) => {
    const rows = await ledger.execute<LossShown & Record<string, unknown>>(sql`
      select o.pieces, o.stage, o.cost_left as "costLeft", o.abnormal_pieces as "abnormalPieces",
             o.cost_abnormal as "costAbnormal", o.usual_words as "usualWords"
        from kiln_load k
        join kiln_load_run r on r.studio_id = k.studio_id and r.kiln_load_id = k.kiln_load_id
        join loss o on o.studio_id = r.studio_id and o.entry_id = r.lost_by_entry_id
       where k.studio_id = ${studioId} and k.fired_by_entry_id = ${entryId}
       order by r.run_id`)
    return [...rows]
  })
}
