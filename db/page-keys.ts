import { sql, type SQL } from 'drizzle-orm'
import { present } from '../shared/assert.ts'

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

const ID = '[a-z0-9][a-z0-9-]{0,63}'
const ID_KEY = new RegExp(`^${ID}$`)
const MOMENT_KEY = new RegExp(
  `^(([12]\\d{3}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d)\\.\\d{6}Z)\\|(${ID})$`,
)

/** True for a key that a list in order of ids can give. */
export function isIdKey(key: string): boolean {
  return ID_KEY.test(key)
}

/** True for a key that a list in order of time can give: a day that the calendar has, and an id. */
export function isMomentKey(key: string): boolean {
  return partsOf(key) !== undefined
}

/** A moment as text to the microsecond, as the keys of lists in order of time begin. */
export function momentKey(column: SQL): SQL<string> {
  return sql`to_char(${column} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"')`
}

/** What comes after a key in a list that is newest first; all of it where there is none. */
export function olderThan(after: string | undefined, columns: { moment: SQL; id: SQL }): SQL {
  if (after === undefined) return sql``
  const { moment, id } = present(partsOf(after), 'a key that is no moment and id is refused before')
  return sql`and (${columns.moment}, ${columns.id}) < (${moment}::timestamptz, ${id})`
}

function partsOf(key: string): { moment: string; id: string } | undefined {
  const [, moment = '', second = '', id = ''] = MOMENT_KEY.exec(key) ?? []
  const time = Date.parse(`${second}Z`)
  // What the calendar does not have is read as the day after, and written otherwise.
  if (Number.isNaN(time) || !new Date(time).toISOString().startsWith(second)) return undefined
  return { moment, id }
}
