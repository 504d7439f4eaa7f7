import { sql, type SQL } from 'drizzle-orm'
import { present } from '../shared/assert.ts'
import { monthAfter, type Month } from '../shared/month.ts'
import type { Database, Transaction } from './connection.ts'
import type { QuantityColumns } from './quantity-columns.ts'

/**
 * Runs `work` on one moment of the ledger: all its queries see the same entries, and none waits for a
 * writer or makes one wait.
 */
export function inSnapshot<T>(db: Database, work: (ledger: Transaction) => Promise<T>): Promise<T> {
  return db.transaction(work, { isolationLevel: 'repeatable read', accessMode: 'read only' })
}

/** Sums of the conserved columns, and their doubts, as the database writes them. */
export type SumRow = QuantityColumns & Record<string, unknown>

/** The conserved columns of `line l`, summed over a query's grain. */
export const SUMS_OF_LINES = sql.raw(
  `sum(l.dry_grams) as "dryGrams", sum(l.material_grams) as "materialGrams",
   sum(l.water_grams) as "waterGrams", sum(l.pieces) as "pieces", sum(l.cost) as "cost",
   doubts_summed(array_agg(l.cost_layers)) as "costLayers",
   doubts_summed(array_agg(l.dry_doubt)) as "dryDoubt",
   doubts_summed(array_agg(l.material_doubt)) as "materialDoubt",
   doubts_summed(array_agg(l.cost_doubt)) as "costDoubt"`,
)

/** Lines with their entry `e`, the entry `r` that it takes back, and their holding `h`. */
export const LINES_IN_CONTEXT = sql.raw(
  `line l
   join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
   left join entry r on r.studio_id = e.studio_id and r.entry_id = e.reverses_entry_id
   join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id`,
)

/** That a `line l` moves something; it may also only say how unsure a holding is. */
export const MOVES_SOMETHING = sql.raw(
  '(l.dry_grams, l.material_grams, l.water_grams, l.pieces, l.cost) <> (0, 0, 0, 0, 0)',
)

/** The kind that an entry counts as: a reversal counts as what it takes back. */
export const COUNTED_KIND = sql.raw('coalesce(r.kind, e.kind)')

/** The moment in which a month begins on a wall of that zone, as SQL. */
export function startOf(month: Month, timeZone: string): SQL {
  return sql`(${`${month}-01`}::timestamp at time zone ${timeZone})`
}

/** The moment in which it ends, which is the next month's first. */
export function endOf(month: Month, timeZone: string): SQL {
  return startOf(monthAfter(month), timeZone)
}

/** The first moment of a month and the first one after it, as ISO 8601 texts. */
export async function boundsOf(
  ledger: Transaction,
  month: Month,
  timeZone: string,
): Promise<{ from: string; to: string }> {
  const [row] = await ledger.execute<{ from: string; to: string }>(sql`
    select ${isoText(startOf(month, timeZone))} as "from", ${isoText(endOf(month, timeZone))} as "to"`)
  return present(row, 'a month has its bounds')
}

/** A moment as ISO 8601 text in UTC, to the millisecond. */
export function isoText(moment: SQL): SQL<string> {
  return sql`to_char(${moment} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`
}
