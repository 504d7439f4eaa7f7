import { stringify } from 'csv-stringify/sync'
import type { Context } from 'hono'
import type { Environment } from './services.ts'

/** A column of a table: its heading, with the unit, and what stands in it. */
export interface Column<Row> {
  readonly heading: string
  readonly value: (row: Row) => string | number | boolean | null
}

const PLAIN_NUMBER = /^-?\d+(\.\d+)?$/
const BEGINS_A_FORMULA = /^[=+\-@\t\r]/

/**
 * A table as CSV: RFC 4180, with a line of headings.
 *
 * Text that a spreadsheet would take for a formula gets an apostrophe before it; a number is left alone,
 * and so is one below zero.
 */
export function csvText<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  return stringify(
    [
      columns.map(({ heading }) => heading),
      ...rows.map((row) => columns.map(({ value }) => cellOf(value(row)))),
    ],
    { record_delimiter: '\r\n' },
  )
}

function cellOf(value: string | number | boolean | null): string {
  if (value === null) return ''
  const text = String(value)
  return BEGINS_A_FORMULA.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text
}

/** Answers with a table as a file of its own. */
export function answerCsv<Row>(
  c: Context<Environment>,
  table: {
    readonly fileName: string
    readonly columns: readonly Column<Row>[]
    readonly rows: readonly Row[]
  },
): Response {
  return c.body(csvText(table.columns, table.rows), 200, {
    'Content-Type': 'text/csv; charset=utf-8',
    'Content-Disposition': `attachment; filename="${table.fileName}.csv"`,
  })
}
