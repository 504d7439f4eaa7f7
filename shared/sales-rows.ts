import type { Decimal } from './decimal.ts'
import type { Grade } from './place.ts'
import { BadCell, channelOf, dayOf, gradeCellOf, nameOf, nthOf, orderOf } from './sales-cells.ts'
import type { SalesColumns, SalesRole } from './sales-columns.ts'
import { parcelsOf, piecesOf } from './sales-prices.ts'
import type { FileRow, Meaning, PieceName, SalesReading } from './sales-reading.ts'

/** A sale as a row of the file tells it. */
export interface SaleTold extends PieceName {
  readonly line: number
  readonly formId: string
  readonly grade: Grade
  readonly day: string
  /** The time beside the day, where there is one. */
  readonly time: string
  readonly order: string
  readonly pieces: number
  readonly priceEach: Decimal
  readonly channel: string
  /** Which of several equal rows this is, where the file says it. */
  readonly nthSaid: number | undefined
}

/** What is wrong with a row, and what would be right. */
export interface RowFault {
  readonly line: number
  readonly column: SalesRole
  readonly found: string
  readonly detail: string
}

export interface SalesRead {
  readonly sales: readonly SaleTold[]
  readonly faults: readonly RowFault[]
  /** Rows of what is not this studio's. */
  readonly leftOut: readonly FileRow[]
  /** Lines whose price does not part evenly, and so are two sales. */
  readonly parted: readonly number[]
}

/**
 * The sales that the rows of a file tell, and what is wrong with the others.
 *
 * A row without a day has the day of the other rows of its order, where they have one day. A price for a
 * line that does not part evenly becomes two sales, so that what was paid stays to the last coin.
 *
 * Units: pieces; money in the studio's currency. Source: our choice.
 */
export function salesRead(
  rows: readonly FileRow[],
  reading: SalesReading,
  meaningOf: (name: PieceName) => Meaning | undefined,
): SalesRead {
  const sales: SaleTold[] = []
  const faults: RowFault[] = []
  const leftOut: FileRow[] = []
  const parted: number[] = []
  const days = daysOfOrders(rows, reading)
  for (const row of rows) {
    try {
      const name = pieceNameOf(row, reading.columns)
      const meaning = meaningOf(name)
      if (meaning === 'not_ours') {
        leftOut.push(row)
        continue
      }
      const told = salesOfRow({ row, name, meaning: meant(meaning, name) }, reading, days)
      if (told.length > 1) parted.push(row.line)
      sales.push(...told)
    } catch (error) {
      if (!(error instanceof BadCell)) throw error
      const { column, found, message } = error
      faults.push({ line: row.line, column, found, detail: message })
    }
  }
  return { sales, faults, leftOut, parted }
}

/**
 * The names of pieces in a file, each once, with how many rows have it.
 *
 * Shape: in the order of the alphabet, whatever the order of the rows. Source: our choice.
 */
export function pieceNamesIn(
  rows: readonly FileRow[],
  columns: SalesColumns,
): (PieceName & { readonly rows: number })[] {
  const found = new Map<string, PieceName & { rows: number }>()
  for (const row of rows) {
    const piece = pieceNameOf(row, columns)
    if (piece.name === '') continue
    const key = keyOfName(piece)
    found.set(key, { ...piece, rows: (found.get(key)?.rows ?? 0) + 1 })
  }
  return [...found].sort(([one], [other]) => (one < other ? -1 : 1)).map(([, piece]) => piece)
}

/**
 * A name and its grade as one text, equal for what a reader takes for equal.
 *
 * Source: our choice: blanks and capitals do not count.
 */
export function keyOfName({ name, gradeCell }: PieceName): string {
  return JSON.stringify([name.toLowerCase(), gradeCell.toLowerCase()])
}

function pieceNameOf(row: FileRow, columns: SalesColumns): PieceName {
  return { name: nameOf(row.cells, columns), gradeCell: gradeCellOf(row.cells, columns) }
}

function meant(meaning: Exclude<Meaning, 'not_ours'> | undefined, { name }: PieceName) {
  if (meaning !== undefined) return meaning
  throw new BadCell(
    'piece',
    name,
    name === ''
      ? 'No piece is named here. Write its name, or take the line out.'
      : `It is not said which form ${name} is.`,
  )
}

function salesOfRow(
  of: { row: FileRow; name: PieceName; meaning: Exclude<Meaning, 'not_ours'> },
  reading: SalesReading,
  days: ReadonlyMap<string, ReadonlySet<string>>,
): SaleTold[] {
  const { row, name, meaning } = of
  const order = orderOf(row.cells, reading.columns)
  const pieces = piecesOf(row.cells, reading.columns)
  const parcels = parcelsOf(row.cells, reading, pieces)
  const { day, time } = dayOf(row.cells, reading, days.get(order))
  const told = {
    ...name,
    ...meaning,
    line: row.line,
    day,
    time,
    order,
    channel: channelOf(row.cells, reading),
    nthSaid: nthOf(row.cells, reading.columns),
  }
  return parcels.map((parcel) => ({ ...told, ...parcel }))
}

/** The days that the rows of each order name. */
function daysOfOrders(
  rows: readonly FileRow[],
  reading: SalesReading,
): Map<string, ReadonlySet<string>> {
  const days = new Map<string, Set<string>>()
  for (const { cells } of rows) {
    const order = orderOf(cells, reading.columns)
    if (order === '') continue
    const day = cells[reading.columns.day ?? -1]?.trim() ?? ''
    if (day === '') continue
    days.set(order, (days.get(order) ?? new Set()).add(day))
  }
  return days
}
