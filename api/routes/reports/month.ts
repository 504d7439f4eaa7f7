import { createRoute, z } from '@hono/zod-openapi'
import { monthReport, type MonthReport } from '../../../db/reports/month.ts'
import { PLACES_INSIDE } from '../../../shared/place.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { monthReportSchema } from '../../month-schemas.ts'
import { monthReportText } from '../../month-text.ts'
import { problemsOfReading } from '../../problem.ts'
import { formatQuery, REPORT_TAG, reportAnswer, tableQuery } from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { idText, monthText, studioHeader } from '../../schemas.ts'

const route = createRoute({
  method: 'get',
  path: '/v1/reports/month',
  operationId: 'reportMonth',
  tags: [REPORT_TAG],
  summary: 'A month of the books, from opening to closing',
  description:
    'Dry clay, water, bags, pots and cost: what was where, what each kind of entry moved, and what came and went through the door. Every column adds up, exactly and as printed. What nobody can explain has a row of its own.',
  request: {
    headers: studioHeader,
    query: z.strictObject({
      month: monthText('The month, on the studio’s wall.'),
      bodyId: idText('Only this clay.', 'buff').optional(),
      format: formatQuery(['json', 'csv', 'text']),
      table: tableQuery(['flows', 'world', 'summary']),
    }),
  },
  responses: {
    200: reportAnswer('The month report', monthReportSchema, ['text/csv', 'text/plain']),
    ...problemsOfReading,
  },
})

/** GET /v1/reports/month */
export const month = newRouter().openapi(route, async (c) => {
  const { month, bodyId, format, table = 'flows' } = c.req.valid('query')
  const studioId = c.get('studioId')
  const report = await monthReport(c.get('services').db, { studioId, month, bodyId })
  if (format === 'text') return c.text(monthReportText(report), 200) as never
  if (format !== 'csv') return c.json(report, 200)
  const fileName = `month-${month}-${table}`
  const { currency } = report
  if (table === 'flows') {
    return answerCsv(c, {
      fileName,
      columns: flowColumns(currency),
      rows: cellsOf(report),
    }) as never
  }
  const columns = rowColumns(currency)
  return answerCsv(c, { fileName, columns, rows: rowsOf(report, table) }) as never
})

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
  return sheetsOf(report).flatMap(({ bodyId, flows }) =>
    flows.flatMap(({ row, places, total }) => {
      const of = { body: bodyId ?? 'all', row }
      const cells = PLACES_INSIDE.map((place) => ({ ...of, place: place, ...places[place] }))
      return [...cells, { ...of, place: 'all', ...total }]
    }),
  )
}

interface SheetRow extends Cell {
  readonly body: string
  readonly row: string
  readonly words: string
  readonly isInSum: boolean
  readonly trail: string
}

function rowsOf(report: MonthReport, table: string): SheetRow[] {
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
