import type { DecimalMark } from './amount-told.ts'
import type { Grade } from './place.ts'
import type { SalesColumns } from './sales-columns.ts'
import type { DateOrder } from './written-day.ts'

/** A row of a file, with the line of the file on which it begins, from 1. */
export interface FileRow {
  readonly line: number
  readonly cells: readonly string[]
}

/** How the rows of a file of sales are to be read. */
export interface SalesReading {
  readonly columns: SalesColumns
  readonly dayOrder: DateOrder
  readonly decimalMark: DecimalMark
  /** What a price is for, where several pieces are on one line. */
  readonly priceFor: 'each' | 'line'
  /** Where these were sold, where the file does not say it. */
  readonly channel: string
  readonly currency: string
  readonly timeZone: string
  /** The day on the studio's wall. */
  readonly today: string
}

/** What a name in the file means: a form and grade, or nothing of this studio's. */
export type Meaning = { readonly formId: string; readonly grade: Grade } | 'not_ours'

/** A name as the file has it, with what stands in the column of the grade. */
export interface PieceName {
  readonly name: string
  readonly gradeCell: string
}
