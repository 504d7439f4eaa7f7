import { createRoute, z } from '@hono/zod-openapi'
import { stockValueReport, type StockValueReport } from '../../../db/reports/stock-value.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { moneyColumns } from '../../money-columns.ts'
import { problemsOfReading } from '../../problem.ts'
import {
  figure,
  formatQuery,
  idOrNull,
  moneyAndTotal,
  REPORT_TAG,
  reportAnswer,
  tableQuery,
  trail,
} from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { studioHeader } from '../../schemas.ts'

const valued = {
  dryGrams: figure('Dry or fired clay, g.', '12800'),
  materialGrams: figure('Dry powders and glaze, g; on pots, the glaze on them.', '9600'),
  pieces: figure('Bags, pots, boxes and shelves together.', '2'),
  money: moneyAndTotal,
  shown: moneyAndTotal.openapi({ description: 'As printed: each line adds up.' }),
}

const group = figure('raw, in_making or finished.', 'raw')

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    currency: z.string().openapi({ example: 'GBP' }),
    on: idOrNull('The day at whose end it was valued; null of now.'),
    groups: z.array(
      z
        .object({ group, words: figure('In words.', 'finished pots'), ...valued })
        .openapi('StockGroup'),
    ),
    places: z.array(
      z
        .object({ place: figure('Where.', 'bench'), group, ...valued, trail })
        .openapi('StockPlaceValue'),
    ),
    total: z.object({ ...valued, trail }).openapi('StockTotalValue'),
    finished: z.array(
      z
        .object({
          formId: z.string().openapi({ example: 'mug' }),
          formName: z.string().openapi({ example: 'Mug' }),
          grade: figure('first or second.', 'first'),
          pieces: figure('How many.', '2'),
          cost: figure('What they cost together.', '5.9'),
          costPerPiece: moneyAndTotal,
          price: idOrNull('What one sells at; of seconds, by the studio’s fraction.'),
          isCostAbovePrice: z.boolean().openapi({
            description: 'True where it cost more than it sells at; nothing is written down.',
            example: false,
          }),
          words: figure('In words.', 'It cost less than it sells at.'),
          trail,
        })
        .openapi('FinishedValue'),
    ),
    words: figure('What is in the figure.', 'Valued at what it cost. Labour is not in it.'),
  })
  .openapi('StockValueReport')

const FIRST_DAY = '1900-01-01'

const route = createRoute({
  method: 'get',
  path: '/v1/reports/stock-value',
  operationId: 'reportStockValue',
  tags: [REPORT_TAG],
  summary: 'What the stock had cost at the end of a day',
  description:
    'Raw (packaging and kiln furniture on the shelf among it), in the making and finished, by place and by layer of cost, at the end of a day on the studio’s wall. Finished pots stand beside what they sell at: which of the two counts is the accountant’s to say (IAS 2, paragraph 9); nothing is written down. Scrap, slaking clay and clay on plaster are raw, for they are used again.',
  request: {
    headers: studioHeader,
    query: z.strictObject({
      on: z.iso
        .date()
        .refine((day) => day >= FIRST_DAY, { error: 'A day is from 1900-01-01 on.' })
        .optional()
        .openapi({
          description:
            'The day, year-month-day, from 1900 to today on the studio’s wall; now where it is not said.',
          example: '2026-03-31',
        }),
      format: formatQuery(['json', 'csv']),
      table: tableQuery(['places', 'finished']),
    }),
  },
  responses: {
    200: reportAnswer('The value of the stock', report, ['text/csv']),
    ...problemsOfReading,
  },
})

/** GET /v1/reports/stock-value */
export const stockValue = newRouter().openapi(route, async (c) => {
  const { on, format, table = 'places' } = c.req.valid('query')
  const { db, now } = c.get('services')
  const found = await stockValueReport(db, { studioId: c.get('studioId'), on, now: now() })
  if (format !== 'csv') return c.json(found, 200)
  const { currency } = found
  if (table === 'finished') {
    const columns = finishedColumns(currency)
    return answerCsv(c, {
      fileName: 'stock-value-finished',
      columns,
      rows: found.finished,
    }) as never
  }
  const rows: Place[] = [...found.places, { ...found.total, place: 'all', group: 'all' }]
  return answerCsv(c, { fileName: 'stock-value', columns: placeColumns(currency), rows }) as never
})

type Valued = Omit<StockValueReport['places'][number], 'place' | 'group'>
type Place = Valued & { readonly place: string; readonly group: string }
type Finished = StockValueReport['finished'][number]

function placeColumns(currency: string): Column<Place>[] {
  return [
    { heading: 'group', value: (row) => row.group },
    { heading: 'place', value: (row) => row.place },
    { heading: 'dry_grams', value: (row) => row.dryGrams },
    { heading: 'material_grams', value: (row) => row.materialGrams },
    { heading: 'pieces', value: (row) => row.pieces },
    ...moneyColumns<Place>('', currency, (row) => row.money),
    { heading: 'trail', value: (row) => row.trail },
  ]
}

function finishedColumns(currency: string): Column<Finished>[] {
  return [
    { heading: 'form', value: (row) => row.formId },
    { heading: 'form_name', value: (row) => row.formName },
    { heading: 'grade', value: (row) => row.grade },
    { heading: 'pieces', value: (row) => row.pieces },
    { heading: `cost_${currency}`, value: (row) => row.cost },
    ...moneyColumns<Finished>('per_piece_', currency, (row) => row.costPerPiece),
    { heading: `price_${currency}`, value: (row) => row.price },
    { heading: 'cost_is_above_price', value: (row) => row.isCostAbovePrice },
    { heading: 'trail', value: (row) => row.trail },
  ]
}
