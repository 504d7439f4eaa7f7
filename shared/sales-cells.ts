import { countTold } from './amount-told.ts'
import { dayTold } from './day-told.ts'
import type { SalesColumns, SalesRole } from './sales-columns.ts'
import type { SalesReading } from './sales-reading.ts'
import type { DateOrder } from './written-day.ts'

const CHANNEL_CHARACTERS_MAX = 120

/** A cell that cannot be read: which, what stands in it, and what would be right. */
export class BadCell extends Error {
  override readonly name = 'BadCell'
  readonly column: SalesRole
  readonly found: string

  constructor(column: SalesRole, found: string, detail: string) {
    super(detail)
    this.column = column
    this.found = found
  }
}

type Cells = readonly string[]

const ORDER_WORDS: Readonly<Record<DateOrder, string>> = {
  day_month_year: 'with the day first',
  month_day_year: 'with the month first',
  year_month_day: 'with the year first',
}

/**
 * What stands in the column of a role, on one line; nothing where there is no such column.
 *
 * Source: our choice: control characters and runs of blanks count as one blank.
 */
export function cellOf(cells: Cells, columns: SalesColumns, role: SalesRole): string {
  const column = columns[role]
  const cell = column === undefined ? '' : (cells[column] ?? '')
  return cell.replaceAll(/[\p{Cc}\p{Cs}\s]+/gu, ' ').trim()
}

/** The name of the piece, with its variant. Source: our choice. */
export function nameOf(cells: Cells, columns: SalesColumns): string {
  const name = cellOf(cells, columns, 'piece')
  const variant = cellOf(cells, columns, 'variant')
  return name === '' || variant === '' ? name : `${name}, ${variant}`
}

/** What stands in the column of the grade. Source: our choice. */
export function gradeCellOf(cells: Cells, columns: SalesColumns): string {
  return cellOf(cells, columns, 'grade')
}

/** The number of the order, or nothing. Source: our choice. */
export function orderOf(cells: Cells, columns: SalesColumns): string {
  return cellOf(cells, columns, 'order')
}

/** Where it was sold: as the row says, or as is said of the file. Source: our choice. */
export function channelOf(cells: Cells, reading: SalesReading): string {
  const channel = cellOf(cells, reading.columns, 'channel')
  if (channel.length <= CHANNEL_CHARACTERS_MAX) return channel === '' ? reading.channel : channel
  throw new BadCell('channel', channel, 'The name of the place is too long. Shorten it.')
}

/** Which of several equal rows this is, where the file says it. Units: from 1. Source: our choice. */
export function nthOf(cells: Cells, columns: SalesColumns): number | undefined {
  const nth = countTold(cellOf(cells, columns, 'nth'))
  return nth === undefined || nth < 1 ? undefined : nth
}

/**
 * The day of a sale, and the time beside it where there is one.
 *
 * Units: ISO 8601, as 2026-03-14; the time as it is written. Source: as `dayTold`.
 */
export function dayOf(
  cells: Cells,
  reading: SalesReading,
  daysOfOrder: ReadonlySet<string> | undefined,
): { day: string; time: string } {
  const own = cellOf(cells, reading.columns, 'day')
  const [only, other] = daysOfOrder ?? []
  const cell = own === '' && other === undefined ? (only ?? '') : own
  if (cell === '') {
    throw new BadCell('day', '', 'No day stands here. Write the day of the sale: 2026-03-14.')
  }
  const day = dayTold(cell, { order: reading.dayOrder, timeZone: reading.timeZone })
  if (day === undefined) throw new BadCell('day', cell, wordsForNoDay(cell, reading.dayOrder))
  if (day > reading.today) {
    throw new BadCell('day', cell, `${day} has not come yet. Look at which number is the month.`)
  }
  return { day, time: /\d{1,2}:\d{2}(:\d{2})?/.exec(cell)?.[0] ?? '' }
}

function wordsForNoDay(cell: string, order: DateOrder): string {
  return /^\d{5}(\.\d+)?$/.test(cell)
    ? 'This is how a spreadsheet numbers its days. Format the column as a date and save it anew.'
    : `This is no day, read ${ORDER_WORDS[order]}. Write it as 2026-03-14.`
}
