import type { Context } from 'hono'
import type { MonthReport } from '../db/reports/month.ts'
import { isOfMaterials, PLACES_INSIDE, type PlaceInside } from '../shared/place.ts'
import { answerCsv, type Column } from './csv.ts'
import { moneyColumns } from './money-columns.ts'
import type { Environment } from './services.ts'

/** The tables of a month report. */
export const MONTH_TABLES = ['flows', 'world', 'summary', 'costs', 'forms'] as const
export type MonthTable = (typeof MONTH_TABLES)[number]

/** A month report as a file: a row a figure, or a row a line of the sheet. */
export function answerMonthCsv(
  c: Context<Environment>,
  report: MonthReport,
  table: MonthTable,
): Response {
  const fileName = `month-${report.month}-${table}`
  const { currency } = report
  if (table === 'flows') {
    return answerCsv(c, { fileName, columns: flowColumns(currency), rows: cellsOf(report) })
  }
  if (table === 'costs') {
    const rows = report.costs === null ? [] : [...report.costs.rows, report.costs.total]
    return answerCsv(c, { fileName, columns: costColumns(currency), rows })
  }
  if (table === 'forms') {
    const rows = report.costs?.forms ?? []
    return answerCsv(c, { fileName, columns: formColumns(currency), rows })
  }
  return answerCsv(c, { fileName, columns: rowColumns(currency), rows: rowsOf(report, table) })
}

type Costs = NonNullable<MonthReport['costs']>
type CostRow = Costs['rows'][number]
type CostForm = Costs['forms'][number]

function costColumns(currency: string): Column<CostRow>[] {
  return [
    { heading: 'row', value: ({ row }) => row },
    { heading: 'words', value: ({ words }) => words },
    ...moneyColumns<CostRow>('', currency, ({ money }) => money),
    ...moneyColumns<CostRow>('shown_', currency, ({ shown }) => shown),
  ]
}

function formColumns(currency: string): Column<CostForm>[] {
  return [
    { heading: 'form', value: (form) => form.formId },
    { heading: 'form_name', value: (form) => form.formName },
    { heading: 'sold_pieces', value: (form) => form.soldPieces },
    { heading: 'fired_kilograms', value: (form) => form.firedKilograms },
    ...moneyColumns<CostForm>('', currency, (form) => form.money),
    ...moneyColumns<CostForm>('per_piece_', currency, (form) => form.perPiece),
    ...moneyColumns<CostForm>('per_kilogram_', currency, (form) => form.perKilogram),
    { heading: 'trail', value: (form) => form.trail },
  ]
}

type Sheet = Pick<MonthReport, 'bodyId' | 'flows' | 'world' | 'summary'>
type Cell = MonthReport['flows'][number]['total']
interface FlowCell extends Cell {
  readonly body: string
  readonly row: string
  readonly place: string
}

function sheetsOf(report: MonthReport): Sheet[] {
  return [report, ...report.bodies]
}

/** A line for each body, row and place, and one for the row's total: a table to be pivoted. */
function cellsOf(report: MonthReport): FlowCell[] {
  return sheetsOf(report).flatMap(({ bodyId, flows }) => {
    const told = PLACES_INSIDE.filter((place) => isTold(place, flows))
    return flows.flatMap(({ row, places, total }) => {
      const of = { body: bodyId ?? 'all', row }
      const cells = told.map((place) => ({ ...of, place: place, ...places[place] }))
      return [...cells, { ...of, place: 'all', ...total }]
    })
  })
}

/** Materials have a line where they cost anything; a studio of clay alone has none of them. */
function isTold(place: PlaceInside, flows: Sheet['flows']): boolean {
  return !isOfMaterials(place) || flows.some(({ places }) => places[place].cost !== '0')
}

interface SheetRow extends Cell {
  readonly body: string
  readonly row: string
  readonly words: string
  readonly isInSum: boolean
  readonly trail: string
}

function rowsOf(report: MonthReport, table: 'world' | 'summary'): SheetRow[] {
  return sheetsOf(report).flatMap(({ bodyId, world, summary }): SheetRow[] => {
    const body = bodyId ?? 'all'
    if (table === 'world') return world.map((row) => ({ ...row, body, isInSum: true }))
    return summary.map((row) => ({ ...row, body, isInSum: row.isWorld }))
  })
}

function amountColumns(currency: string): Column<Cell>[] {
  return [
    { heading: 'dry_grams', value: (cell) => cell.dryGrams },
    { heading: 'water_grams', value: (cell) => cell.waterGrams },
    { heading: 'bags', value: (cell) => cell.bags },
    { heading: 'pots', value: (cell) => cell.pots },
    { heading: `cost_${currency}`, value: (cell) => cell.cost },
    { heading: 'standard_uncertainty_dry_grams', value: (cell) => cell.dryUncertaintyGrams },
    { heading: `standard_uncertainty_cost_${currency}`, value: (cell) => cell.costUncertainty },
    { heading: 'shown_dry_kilograms', value: (cell) => cell.shown.dryKilograms },
    { heading: 'shown_water_kilograms', value: (cell) => cell.shown.waterKilograms },
    { heading: `shown_cost_${currency}`, value: (cell) => cell.shown.cost },
  ]
}

function flowColumns(currency: string): Column<FlowCell>[] {
  return [
    { heading: 'body', value: (cell) => cell.body },
    { heading: 'row', value: (cell) => cell.row },
    { heading: 'place', value: (cell) => cell.place },
    ...amountColumns(currency),
  ]
}

function rowColumns(currency: string): Column<SheetRow>[] {
  return [
    { heading: 'body', value: (row) => row.body },
    { heading: 'row', value: (row) => row.row },
    { heading: 'words', value: (row) => row.words },
    { heading: 'is_in_sum', value: (row) => row.isInSum },
    ...amountColumns(currency),
    { heading: 'trail', value: (row) => row.trail },
  ]
}
