import { parse, type Options } from 'csv-parse/sync'
import type { FileRow } from '../shared/sales-reading.ts'

/** The most that a file of sales may hold. */
export const SALES_FILE_BYTES_MAX = 1024 * 1024
export const SALES_ROWS_MAX = 5_000

export const DELIMITERS = [',', ';', '\t', '|'] as const
export type Delimiter = (typeof DELIMITERS)[number]

/** How the letters of a file are written down as bytes; `found` where the bytes shall tell. */
export const LETTERS = [
  'found',
  'utf-8',
  'windows-1252',
  'utf-16le',
  'utf-16be',
  'macintosh',
] as const
export type Letters = (typeof LETTERS)[number]

/** What is wrong with a file as a whole, in the potter's words. */
export class FaultOfFile extends Error {
  override readonly name = 'FaultOfFile'
}

/** A file of sales as rows: cells with the line on which they begin. */
export interface SalesTable {
  readonly rows: readonly FileRow[]
  readonly delimiter: Delimiter
}

const ZIP = [0x50, 0x4b, 0x03, 0x04]
const SAMPLE_BYTES = 4_000
const SAMPLE_ROWS = 50

/**
 * The text in the bytes of a file.
 *
 * A mark at the beginning tells it, or bytes of nothing in every second place, or that all of it is
 * sound UTF-8; whatever is none of these is read as Windows-1252.
 */
export function textOfFile(bytes: Uint8Array, letters: Letters): string {
  if (bytes.length > SALES_FILE_BYTES_MAX) throw new FaultOfFile(TOO_LARGE)
  if (ZIP.every((byte, place) => bytes[place] === byte)) {
    throw new FaultOfFile(
      'This is a workbook or a packed file, not plain text. Open it and save it as CSV first.',
    )
  }
  const text = decoded(bytes, letters === 'found' ? lettersOf(bytes) : letters)
  if (text.includes('\0'))
    throw new FaultOfFile('This file is no plain text. Save it as CSV first.')
  return text
}

export const TOO_LARGE =
  'The file is larger than 1 MB. Save the sales of a shorter time, and bring several files.'

function decoded(bytes: Uint8Array, letters: Exclude<Letters, 'found'>): string {
  try {
    return new TextDecoder(letters, { fatal: true }).decode(bytes)
  } catch {
    throw new FaultOfFile('The letters of this file are written in another way. Choose how below.')
  }
}

function lettersOf(bytes: Uint8Array): Exclude<Letters, 'found'> {
  const [first, second] = bytes
  if (first === 0xff && second === 0xfe) return 'utf-16le'
  if (first === 0xfe && second === 0xff) return 'utf-16be'
  const sample = bytes.subarray(0, SAMPLE_BYTES)
  const nothings = [0, 1].map(
    (parity) => sample.filter((byte, place) => byte === 0 && place % 2 === parity).length,
  )
  const [even = 0, odd = 0] = nothings
  if (even + odd > sample.length / 4) return odd > even ? 'utf-16le' : 'utf-16be'
  return isSoundUtf8(bytes) ? 'utf-8' : 'windows-1252'
}

function isSoundUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    return true
  } catch {
    return false
  }
}

/** The rows of a text, parted as said or as fits it best. Blank rows are left out. */
export function tableOfText(text: string, said: Delimiter | undefined): SalesTable {
  if (Buffer.byteLength(text) > SALES_FILE_BYTES_MAX) throw new FaultOfFile(TOO_LARGE)
  const lines = text.replace(/^\ufeff/, '').replaceAll(/\r\n?/g, '\n')
  if (lines.trim() === '') throw new FaultOfFile('There is nothing in it.')
  const delimiter = said ?? delimiterOf(lines)
  const rows = rowsOf(lines, delimiter).filter(({ cells }) =>
    cells.some((cell) => cell.trim() !== ''),
  )
  return { rows, delimiter }
}

export const TOO_MANY =
  'There are more than 5,000 rows. Save the sales of a shorter time, and bring several files.'

/** The delimiter that parts most rows into as many cells, and into several. */
function delimiterOf(lines: string): Delimiter {
  const scored = DELIMITERS.map((delimiter) => {
    const widths = widthsOf(lines, delimiter)
    const counts = new Map<number, number>()
    for (const width of widths) counts.set(width, (counts.get(width) ?? 0) + 1)
    const [usual = 1, times = 0] = [...counts].sort((one, other) => other[1] - one[1])[0] ?? []
    return { delimiter, score: (times / Math.max(widths.length, 1)) * (usual - 1) }
  })
  return scored.reduce((best, one) => (one.score > best.score ? one : best)).delimiter
}

function widthsOf(lines: string, delimiter: Delimiter): number[] {
  try {
    return parsed(lines, delimiter, { to: SAMPLE_ROWS }).map(({ record }) => record.length)
  } catch {
    return []
  }
}

interface Parsed {
  readonly record: readonly string[]
  readonly info: { readonly lines: number }
}

function parsed(
  lines: string,
  delimiter: Delimiter,
  more: Pick<Options, 'to' | 'on_record'> = {},
): Parsed[] {
  const options: Options = {
    delimiter,
    record_delimiter: '\n',
    info: true,
    relax_column_count: true,
    relax_quotes: true,
    quote: quoteOf(lines, delimiter),
    ...more,
  }
  return parse(lines, options) as unknown as Parsed[]
}

/** A cell may be in single quotes where there are no double ones. */
function quoteOf(lines: string, delimiter: Delimiter): string {
  const isSingle = !lines.includes('"') && lines.includes(`'${delimiter}'`)
  return isSingle ? "'" : '"'
}

function rowsOf(lines: string, delimiter: Delimiter): FileRow[] {
  let ended = 0
  const rows: FileRow[] = []
  const keep: Options['on_record'] = (found) => {
    const { record, info } = found as unknown as Parsed
    rows.push({ line: ended + 1, cells: record.map(withoutGuard) })
    ended = info.lines
    return null
  }
  try {
    parsed(lines, delimiter, { on_record: keep })
  } catch (error) {
    if (!(error instanceof Error && 'code' in error)) throw error
    throw new FaultOfFile(
      `A quotation mark on line ${String(ended + 1)}, or after it, is not closed. Mend the line, or save the file anew.`,
    )
  }
  return rows
}

/** The apostrophe that `csvText` puts before what a spreadsheet would take for a formula, taken off. */
function withoutGuard(cell: string): string {
  return /^'[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell
}
