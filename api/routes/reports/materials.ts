import { createRoute, z } from '@hono/zod-openapi'
import { materialsReport, type MaterialsReport } from '../../../db/reports/materials.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { problemsOfReading } from '../../problem.ts'
import {
  figure,
  formatQuery,
  idOrNull,
  REPORT_TAG,
  reportAnswer,
  trail,
} from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { studioHeader } from '../../schemas.ts'

const materialRow = z
  .object({
    materialId: z.string().openapi({ example: 'feldspar' }),
    name: figure('Its name.', 'Feldspar'),
    kind: figure('ingredient, glaze, packaging, kiln_furniture or fuel.', 'ingredient'),
    keptBy: figure('mass or count.', 'mass'),
    place: figure('materials, on the shelf; or glaze_bucket.', 'materials'),
    dryGrams: figure('Dry, g.', '8000'),
    dryUncertaintyGrams: figure('One standard deviation of that, g.', '12'),
    waterGrams: figure('Water in it, g.', '0'),
    pieces: figure('Of what is counted: how many.', '0'),
    cost: figure('What it cost, in the studio’s currency.', '16'),
    costPerUnit: idOrNull('A kilogram dry, or a piece; null of nothing.'),
    reorderPoint: idOrNull('Order when so much is left: g dry, or pieces.'),
    isReorderReached: z.boolean().nullable().openapi({
      description: 'True where it is time to order; null where no point is said.',
      example: true,
    }),
    lastDelivery: z
      .object({
        happenedAt: figure('When.', '2026-04-02T09:00:00.000Z'),
        pricePerUnit: idOrNull('A kilogram as supplied, or a piece, with freight.'),
      })
      .openapi('LastDelivery')
      .nullable()
      .openapi({ description: 'Null where none was told.' }),
    nextPriceStep: z
      .object({
        atLeast: figure('From so many kilograms as supplied, or pieces, on.', '25'),
        pricePerUnit: figure('So much each.', '1.5'),
      })
      .openapi('NextPriceStep')
      .nullable()
      .openapi({ description: 'The step of the price list above what was bought last.' }),
    hazards: z
      .array(z.record(z.string(), z.unknown()))
      .openapi({ description: 'As the supplier’s data sheet states them.' }),
    trail,
  })
  .openapi('MaterialStock')

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    currency: z.string().openapi({ example: 'GBP' }),
    materials: z.array(materialRow),
    cost: figure('All of them together.', '52.2'),
  })
  .openapi('MaterialsReport')

const route = createRoute({
  method: 'get',
  path: '/v1/reports/materials',
  operationId: 'reportMaterials',
  tags: [REPORT_TAG],
  summary: 'What is on the shelf and in buckets beside clay, and what to order',
  description:
    'Powders, glazes, boxes, kiln shelves and fuel: how much there is and how sure that is, what it cost, whether it is time to order, what was paid last and from how much on it is cheaper, and what its data sheet warns of.',
  request: {
    headers: studioHeader,
    query: z.strictObject({ format: formatQuery(['json', 'csv']) }),
  },
  responses: { 200: reportAnswer('The materials', report, ['text/csv']), ...problemsOfReading },
})

/** GET /v1/reports/materials */
export const materialsStock = newRouter().openapi(route, async (c) => {
  const { format } = c.req.valid('query')
  const found = await materialsReport(c.get('services').db, c.get('studioId'))
  if (format !== 'csv') return c.json(found, 200)
  const columns = columnsOf(found.currency)
  return answerCsv(c, { fileName: 'materials', columns, rows: found.materials }) as never
})

type Row = MaterialsReport['materials'][number]

function columnsOf(currency: string): Column<Row>[] {
  return [
    { heading: 'material', value: (row) => row.materialId },
    { heading: 'name', value: (row) => row.name },
    { heading: 'kind', value: (row) => row.kind },
    { heading: 'place', value: (row) => row.place },
    { heading: 'dry_grams', value: (row) => row.dryGrams },
    { heading: 'standard_uncertainty_dry_grams', value: (row) => row.dryUncertaintyGrams },
    { heading: 'water_grams', value: (row) => row.waterGrams },
    { heading: 'pieces', value: (row) => row.pieces },
    { heading: `cost_${currency}`, value: (row) => row.cost },
    { heading: `cost_per_unit_${currency}`, value: (row) => row.costPerUnit },
    { heading: 'reorder_point', value: (row) => row.reorderPoint },
    { heading: 'is_reorder_reached', value: (row) => row.isReorderReached },
    {
      heading: `last_price_per_unit_${currency}`,
      value: (row) => row.lastDelivery?.pricePerUnit ?? null,
    },
    { heading: 'trail', value: (row) => row.trail },
  ]
}
