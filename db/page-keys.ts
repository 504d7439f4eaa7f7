import { sql, type SQL } from 'drizzle-orm'

/** A page that is asked for: so many, after the key that the page before ended with. */
export interface PageAsked {
  readonly limit: number
  readonly after?: string | undefined
}

export interface Page<Item> {
  readonly items: readonly Item[]
  /** The key that the next page goes on after; null on the last. */
  readonly nextKey: string | null
}

/** Rows of one more than was asked for, cut to a page. */
export function pageFrom<Row, Item>(
  rows: readonly Row[],
  page: PageAsked,
  read: { key: (row: Row) => string; item: (row: Row) => Item },
): Page<Item> {
  const shown = rows.slice(0, page.limit)
  const last = shown.at(-1)
  const hasMore = rows.length > page.limit && last !== undefined
  return { items: shown.map(read.item), nextKey: hasMore ? read.key(last) : null }
}

const MOMENT_AND_ID = /^(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{6}Z)\|(.+)$/

/** A moment as text to the microsecond, as the keys of lists in order of time begin. */
export function momentKey(column: SQL): SQL<string> {
  return sql`to_char(${column} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"')`
}

/** What comes after a key in a list that is newest first; all of it where no page gave that key. */
export function olderThan(after: string | undefined, columns: { moment: SQL; id: SQL }): SQL {
  const found = MOMENT_AND_ID.exec(after ?? '')
  const [, moment, id] = found ?? []
  if (moment === undefined || id === undefined || Number.isNaN(Date.parse(moment))) return sql``
  return sql`and (${columns.moment}, ${columns.id}) < (${moment}::timestamptz, ${id})`
}
