import { NTH_HEADING } from '../../../../shared/sales-columns.ts'
import type { KnownSale } from '../../../../shared/sales-identity.ts'
import { csvText } from '../../../csv.ts'
import type { Brought } from './brought.ts'
import type { RowFault } from '../../../../shared/sales-rows.ts'
import type { SaleRefused } from './progress.ts'

const LINE_HEADING = 'line in the file before'
const WHY_HEADING = 'what is to be mended'

interface RefusedRow {
  readonly line: number
  readonly cells: readonly string[]
  readonly nth: string
  readonly why: string
}

/**
 * The rows that were not recorded, as they were in the file, with what is to be mended.
 *
 * Which of several equal rows one was goes with it, so that it is not taken for the one that was
 * recorded. Where half of a row that was parted was recorded, the other half comes back by itself.
 */
export function refusedCsv(
  brought: Brought,
  result: { readonly refused: readonly SaleRefused[]; readonly faults: readonly RowFault[] },
): string {
  const { headings, rows, columns } = brought
  const cellsOf = new Map(rows.map(({ line, cells }) => [line, cells]))
  const refused = result.refused.map(({ sale, detail }) => ({
    line: sale.line,
    cells: mendable(cellsOf.get(sale.line) ?? [], sale, brought),
    nth: String(sale.nth),
    why: detail,
  }))
  const faulty = result.faults.map(({ line, detail }) => ({
    line,
    cells: cellsOf.get(line) ?? [],
    nth: '',
    why: detail,
  }))
  const inOrder = [...refused, ...faulty].sort((one, other) => one.line - other.line)
  const places = headings
    .map((heading, column) => ({ heading, column }))
    .filter(({ heading, column }) => column !== columns.nth && !isOurs(heading))
  return csvText<RefusedRow>(
    [
      ...places.map(({ heading, column }) => ({
        heading,
        value: (row: RefusedRow) => row.cells[column] ?? '',
      })),
      { heading: NTH_HEADING, value: (row) => row.nth },
      { heading: LINE_HEADING, value: (row) => row.line },
      { heading: WHY_HEADING, value: (row) => row.why },
    ],
    inOrder,
  )
}

/** Headings of ours in a file that came back before. */
function isOurs(heading: string): boolean {
  return [NTH_HEADING, LINE_HEADING, WHY_HEADING].includes(heading)
}

/** The row as it was; of one that was parted, the part that was refused. */
function mendable(cells: readonly string[], sale: KnownSale, brought: Brought): readonly string[] {
  const { columns, decimalMark, priceFor } = brought
  if (priceFor === 'each' || columns.pieces === undefined || columns.price === undefined)
    return cells
  const paid = sale.priceEach.times(sale.pieces).toFixed()
  const changed = [...cells]
  changed[columns.pieces] = String(sale.pieces)
  changed[columns.price] = decimalMark === 'comma' ? paid.replace('.', ',') : paid
  return changed
}
