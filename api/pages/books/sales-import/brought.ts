import { decimalMarksTold, type DecimalMark } from '../../../../shared/amount-told.ts'
import { dayOrdersTold } from '../../../../shared/day-told.ts'
import {
  columnsGuessed,
  headingsGuessed,
  isForLine,
  SALES_ROLES,
  type SalesColumns,
  type SalesRole,
} from '../../../../shared/sales-columns.ts'
import type { FileRow, SalesReading } from '../../../../shared/sales-reading.ts'
import { wallDay } from '../../../../shared/studio-clock.ts'
import type { DateOrder } from '../../../../shared/written-day.ts'
import {
  FaultOfFile,
  SALES_ROWS_MAX,
  tableOfText,
  TOO_MANY,
  type Delimiter,
} from '../../../sales-file.ts'
import type { Typed } from '../../typed.ts'
import type { Voice } from '../../voice.ts'

/** Delimiters by what they are called in a form and on the page. */
export const DELIMITER_NAMES: Readonly<Record<Delimiter, { value: string; name: string }>> = {
  ',': { value: 'comma', name: 'Comma ( , )' },
  ';': { value: 'semicolon', name: 'Semicolon ( ; )' },
  '\t': { value: 'tab', name: 'Tab' },
  '|': { value: 'bar', name: 'Bar ( | )' },
}

/** A file of sales as it was brought, with what is said and what is guessed about it. */
export interface Brought {
  /** Whose sales they are, so that another tab with another studio changes nothing about it. */
  readonly studioId: string
  readonly text: string
  readonly delimiter: Delimiter
  /** The first rows of the file, among which the headings are. */
  readonly top: readonly FileRow[]
  /** The line of the headings; 0 where there are none. */
  readonly headingsAt: number
  readonly headings: readonly string[]
  readonly rows: readonly FileRow[]
  /** True where the columns were said of this file, parted like this. */
  readonly isSaid: boolean
  readonly columns: SalesColumns
  /** In which orders the days can be read; several where somebody has to say. */
  readonly dayOrders: readonly DateOrder[]
  readonly dayOrder: DateOrder
  readonly isDayOpen: boolean
  readonly marks: readonly DecimalMark[]
  readonly decimalMark: DecimalMark
  readonly isMarkOpen: boolean
  readonly priceFor: 'each' | 'line'
  readonly channel: string
}

const TOP_ROWS = 10

/** The file that a form carries, read as the form says; what it does not say is guessed. */
export function broughtOf(text: string, typed: Typed, voice: Voice): Brought {
  const { rows: all, delimiter } = tableOfText(text, delimiterSaid(typed))
  const top = all.slice(0, TOP_ROWS)
  const headingsAt = headingsSaid(typed, top)
  const rows = all.filter(({ line }) => line > headingsAt)
  if (rows.length > SALES_ROWS_MAX) throw new FaultOfFile(TOO_MANY)
  const headings = headingsOf(all, headingsAt)
  const isSaid = typed.text('cut') === cutOf(delimiter, headingsAt)
  const columns = isSaid ? columnsSaid(typed, headings.length) : guessed(headings, rows)
  return {
    studioId: voice.studio.studioId,
    ...{ text, delimiter, top, headingsAt, headings, rows, isSaid, columns },
    ...daysOf(typed, cellsIn(rows, columns.day), { columns, voice }),
    ...marksOf(typed, cellsIn(rows, columns.price), { columns, delimiter }),
    priceFor: priceForOf(typed, headings[columns.price ?? -1] ?? ''),
    channel: typed.text('where') ?? '',
  }
}

/** How the file was cut into columns: what was said of columns holds for this cut only. */
export function cutOf(delimiter: Delimiter, headingsAt: number): string {
  return `${DELIMITER_NAMES[delimiter].value} ${String(headingsAt)}`
}

/** What stands in a column, from the top; nothing where there is no such column. */
export function cellsIn(rows: readonly FileRow[], column: number | undefined): string[] {
  if (column === undefined) return []
  return rows.map(({ cells }) => (cells[column] ?? '').trim()).filter((cell) => cell !== '')
}

/** How to read the rows, once all of it is said. */
export function readingOf(brought: Brought, voice: Voice): SalesReading {
  const { columns, dayOrder, decimalMark, priceFor, channel } = brought
  const { currency, timeZone } = voice.studio
  const today = wallDay(voice.now, timeZone)
  return { columns, dayOrder, decimalMark, priceFor, channel, currency, timeZone, today }
}

function delimiterSaid(typed: Typed): Delimiter | undefined {
  const said = typed.text('delimiter')
  const found = Object.entries(DELIMITER_NAMES).find(([, { value }]) => value === said)
  return found?.[0] as Delimiter | undefined
}

function headingsSaid(typed: Typed, top: readonly FileRow[]): number {
  const said = Number(typed.text('headings') ?? Number.NaN)
  if (said === 0 || top.some(({ line }) => line === said)) return said
  const guess = headingsGuessed(top.map(({ cells }) => cells))
  return guess === undefined ? 0 : (top[guess]?.line ?? 0)
}

/** A name for each column, also for those that have no heading. */
function headingsOf(rows: readonly FileRow[], headingsAt: number): string[] {
  const row = rows.find(({ line }) => line === headingsAt)?.cells ?? []
  const width = rows.reduce((most, { cells }) => Math.max(most, cells.length), 0)
  return Array.from({ length: width }, (_, column) => {
    const heading = (row[column] ?? '').replaceAll(/\s+/g, ' ').trim()
    return heading === '' ? `Column ${String(column + 1)}` : heading
  })
}

function guessed(headings: readonly string[], rows: readonly FileRow[]): SalesColumns {
  return columnsGuessed(
    headings,
    rows.slice(0, 200).map(({ cells }) => cells),
  )
}

function columnsSaid(typed: Typed, width: number): SalesColumns {
  const said = SALES_ROLES.map((role): [SalesRole, number] => [
    role,
    Number(typed.text(role) ?? Number.NaN),
  ])
  return Object.fromEntries(
    said.filter(([, column]) => Number.isInteger(column) && column >= 0 && column < width),
  )
}

function daysOf(
  typed: Typed,
  cells: readonly string[],
  of: { columns: SalesColumns; voice: Voice },
): Pick<Brought, 'dayOrders' | 'dayOrder' | 'isDayOpen'> {
  const dayOrders = dayOrdersTold(cells)
  const usual = of.voice.studio.dateOrder
  const said = dayOrders.find((order) => order === typed.text('dayOrder'))
  const isAnswered = said !== undefined && typed.text('dayAsked') === String(of.columns.day)
  const [first = usual] = dayOrders
  const guess = dayOrders.includes(usual) ? usual : first
  return {
    dayOrders,
    dayOrder: isAnswered ? said : guess,
    isDayOpen: dayOrders.length > 1 && !isAnswered,
  }
}

function marksOf(
  typed: Typed,
  cells: readonly string[],
  of: { columns: SalesColumns; delimiter: Delimiter },
): Pick<Brought, 'marks' | 'decimalMark' | 'isMarkOpen'> {
  const { marks, isOpen } = decimalMarksTold(cells)
  const said = marks.find((mark) => mark === typed.text('decimalMark'))
  const isAnswered = said !== undefined && typed.text('markAsked') === String(of.columns.price)
  const usual = of.delimiter === ';' ? 'comma' : 'point'
  const [first = usual] = marks
  const guess = marks.includes(usual) ? usual : first
  return {
    marks: isOpen ? marks : marks.slice(0, 1),
    decimalMark: isOpen && isAnswered ? said : guess,
    isMarkOpen: isOpen && !isAnswered,
  }
}

function priceForOf(typed: Typed, heading: string): 'each' | 'line' {
  const said = typed.text('priceFor')
  if (said === 'each' || said === 'line') return said
  return isForLine(heading) ? 'line' : 'each'
}
