import { sql } from 'drizzle-orm'
import { monthOf, type Month } from '../../shared/month.ts'
import type { Database } from '../connection.ts'
import { inSnapshot } from '../report-reading.ts'
import { findStudio } from '../studio.ts'

export interface MonthsToClose {
  /** Null where none was ever closed. */
  readonly closedUpTo: Month | null
  /** Months that are over and open, and have entries; the oldest first. */
  readonly months: readonly { readonly month: Month; readonly entries: number }[]
}

/**
 * The months that could be closed now, by the studio's own clock.
 *
 * Grain: one row a month. Refuses: `studio_not_found`.
 */
export function monthsToClose(
  db: Database,
  { studioId, now }: { studioId: string; now: Date },
): Promise<MonthsToClose> {
  return inSnapshot(db, async (ledger) => {
    const { timeZone } = await findStudio(ledger, studioId)
    const [last] = await ledger.execute<{ month: Month | null }>(
      sql`select max(month) as "month" from month_closing where studio_id = ${studioId}`,
    )
    const closedUpTo = last?.month ?? null
    const month = sql`to_char(happened_at at time zone ${timeZone}, 'YYYY-MM')`
    const rows = await ledger.execute<{ month: Month; entries: string }>(sql`
      select month, count(*)::text as entries
        from (select ${month} as month from entry where studio_id = ${studioId}) as entries
       where month > ${closedUpTo ?? ''} and month < ${monthOf(now, timeZone)}
       group by month
       order by month`)
    return {
      closedUpTo,
      months: rows.map((row) => ({ month: row.month, entries: Number(row.entries) })),
    }
  })
}
