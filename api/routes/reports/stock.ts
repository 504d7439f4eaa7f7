import { createRoute, z } from '@hono/zod-openapi'
import { stockReport, type StockReport } from '../../../db/reports/stock.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { problemsOfReading } from '../../problem.ts'
import {
  figure,
  formatQuery,
  idOrNull,
  REPORT_TAG,
  reportAnswer,
  stockFigures,
  tableQuery,
  trail,
} from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { idText, studioHeader } from '../../schemas.ts'

const row = z
  .object({
    bodyId: idOrNull('The clay; null where all are taken together.'),
    place: idOrNull('Where; null where all places are taken together.'),
    ...stockFigures,
    trail,
  })
  .openapi('StockRow')

const holdingRow = z
  .object({
    holdingId: z.string().openapi({ example: 'b0e5f2' }),
    bodyId: z.string().openapi({ example: 'buff' }),
    bodyName: z.string().openapi({ example: 'Buff stoneware' }),
    place: z.string().openapi({ example: 'bench' }),
    label: figure('What it is called: its run, lot or vessel.', 'opened from 40 bags of buff'),
    lotId: idOrNull('The lot.'),
    runId: idOrNull('The run.'),
    vesselId: idOrNull('The vessel.'),
    grade: idOrNull('first or second, of finished pots.'),
    ...stockFigures,
    trail,
  })
  .openapi('StockHolding')

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    currency: z.string().openapi({ example: 'GBP' }),
    rows: z.array(row).openapi({ description: 'By body and place.' }),
    bodies: z.array(row).openapi({ description: 'By body.' }),
    places: z.array(row).openapi({ description: 'By place.' }),
    total: row,
    holdings: z.array(holdingRow).openapi({ description: 'One by one: what can be counted.' }),
  })
  .openapi('StockReport')

const route = createRoute({
  method: 'get',
  path: '/v1/reports/stock',
  operationId: 'reportStock',
  tags: [REPORT_TAG],
  summary: 'What is there now, and how sure that is',
  description:
    'Dry clay, water, bags, pots and cost by body and place, and holding by holding, with the standard uncertainty of each dry mass and cost.',
  request: {
    headers: studioHeader,
    query: z.strictObject({
      bodyId: idText('Only this clay.', 'buff').optional(),
      format: formatQuery(['json', 'csv']),
      table: tableQuery(['rows', 'bodies', 'places', 'holdings']),
    }),
  },
  responses: {
    200: reportAnswer('The stock', report, ['text/csv']),
    ...problemsOfReading,
  },
})

/** GET /v1/reports/stock */
export const stock = newRouter().openapi(route, async (c) => {
  const { bodyId, format, table = 'rows' } = c.req.valid('query')
  const found = await stockReport(c.get('services').db, { studioId: c.get('studioId'), bodyId })
  if (format !== 'csv') return c.json(found, 200)
  const figures = figureColumns(found.currency)
  if (table === 'holdings') {
    const columns = [...HOLDING_COLUMNS, ...figures]
    return answerCsv(c, { fileName: 'stock-holdings', columns, rows: found.holdings }) as never
  }
  const columns = [...ROW_COLUMNS, ...figures]
  return answerCsv(c, { fileName: `stock-${table}`, columns, rows: rowsOf(found, table) }) as never
})

type Row = StockReport['rows'][number]
type Holding = StockReport['holdings'][number]

function rowsOf(found: StockReport, table: string): Row[] {
  if (table === 'bodies') return [...found.bodies, found.total]
  return [...(table === 'places' ? found.places : found.rows), found.total]
}

const ROW_COLUMNS: Column<Row>[] = [
  { heading: 'body', value: (one) => one.bodyId ?? 'all' },
  { heading: 'place', value: (one) => one.place ?? 'all' },
]

const HOLDING_COLUMNS: Column<Holding>[] = [
  { heading: 'holding', value: (one) => one.holdingId },
  { heading: 'body', value: (one) => one.bodyId },
  { heading: 'place', value: (one) => one.place },
  { heading: 'label', value: (one) => one.label },
  { heading: 'lot', value: (one) => one.lotId },
  { heading: 'run', value: (one) => one.runId },
  { heading: 'vessel', value: (one) => one.vesselId },
  { heading: 'grade', value: (one) => one.grade },
]

function figureColumns(currency: string): Column<Row | Holding>[] {
  return [
    { heading: 'wet_grams', value: (one) => one.wetGrams },
    { heading: 'dry_grams', value: (one) => one.dryGrams },
    { heading: 'water_grams', value: (one) => one.waterGrams },
    { heading: 'water_content_wet_basis', value: (one) => one.waterContentWetBasis },
    { heading: 'bags', value: (one) => one.bags },
    { heading: 'pots', value: (one) => one.pots },
    { heading: `cost_${currency}`, value: (one) => one.cost },
    {
      heading: 'standard_uncertainty_dry_grams',
      value: (one) => one.standardUncertaintyGrams,
    },
    { heading: 'dry_grams_from_95', value: (one) => one.interval95.dryGramsFrom },
    { heading: 'dry_grams_to_95', value: (one) => one.interval95.dryGramsTo },
    { heading: `standard_uncertainty_cost_${currency}`, value: (one) => one.costUncertainty },
    { heading: `cost_from_95_${currency}`, value: (one) => one.costInterval95.costFrom },
    { heading: `cost_to_95_${currency}`, value: (one) => one.costInterval95.costTo },
    { heading: 'trail', value: (one) => one.trail },
  ]
}
