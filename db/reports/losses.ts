import { sql } from 'drizzle-orm'
import type { Month } from '../../shared/month.ts'
import type { LossStage } from '../../shared/place.ts'
import type { Database } from '../connection.ts'
import { endOf, inSnapshot, startOf } from '../report-reading.ts'
import { findStudio } from '../studio.ts'
import { entriesTrail } from '../trail-links.ts'

/** Pieces of one form that were lost at one stage for one cause. */
export interface LossesOfCause {
  readonly formId: string
  readonly stage: LossStage
  readonly cause: string
  readonly pieces: string
  readonly trail: string
}

/**
 * Why pieces were lost, by form, stage and cause, the most first; what was taken back does not count.
 *
 * Follows the batch, as the yield report: a piece belongs to the month in which its run was thrown.
 * Grain: one row a form, stage and cause. Refuses: `studio_not_found`.
 */
export function lossesByCause(
  db: Database,
  asked: { studioId: string; from?: Month | undefined; to?: Month | undefined },
): Promise<LossesOfCause[]> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, from, to } = asked
    const { timeZone } = await findStudio(ledger, studioId)
    const rows = await ledger.execute<Omit<LossesOfCause, 'trail'> & Record<string, unknown>>(sql`
      select n.form_id as "formId", o.stage as "stage", o.cause as "cause",
             sum(o.pieces) as "pieces"
        from loss o
        join run n on n.studio_id = o.studio_id and n.run_id = o.run_id
       where o.studio_id = ${studioId}
         and not exists (select from entry t
                          where t.studio_id = o.studio_id and t.reverses_entry_id = o.entry_id)
         ${from === undefined ? sql`` : sql`and n.thrown_at >= ${startOf(from, timeZone)}`}
         ${to === undefined ? sql`` : sql`and n.thrown_at < ${endOf(to, timeZone)}`}
       group by 1, 2, 3
       order by sum(o.pieces) desc, 1, 2, 3`)
    return rows.map(({ formId, stage, cause, pieces }) => ({
      ...{ formId, stage, cause, pieces },
      trail: entriesTrail({ formId, kind: 'lose,grade,break_in_shop' }),
    }))
  })
}
