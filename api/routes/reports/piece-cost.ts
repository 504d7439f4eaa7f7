import { createRoute, z } from '@hono/zod-openapi'
import { pieceCostReport, type PieceCostReport } from '../../../db/reports/piece-cost.ts'
import { ALL_LAYERS } from '../../../shared/cost-layer.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { problemsOfReading } from '../../problem.ts'
import {
  figure,
  formatQuery,
  howSureSchema,
  idOrNull,
  moneyOfLayers,
  REPORT_TAG,
  reportAnswer,
  tableQuery,
  trail,
} from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { idText, monthText, studioHeader } from '../../schemas.ts'

const partedWith = z
  .object({
    pieces: figure('How many.', '1'),
    cost: figure('What they cost, in all layers.', '0.63'),
    costPerSoldPiece: idOrNull('That, shared by the pieces sold; null where none was.'),
  })
  .openapi('PartedWith')

const form = z
  .object({
    formId: z.string().openapi({ example: 'mug' }),
    formName: z.string().openapi({ example: 'Mug' }),
    steps: z
      .array(
        z
          .object({
            step: figure('The step.', 'clay_at_bag_price'),
            words: figure('In words.', 'clay at the price of the bag'),
            costPerPiece: figure('Money a sold piece.', '0.64'),
            costPerPieceShown: figure('In the currency’s digits; these add up too.', '0.64'),
            sure: howSureSchema,
          })
          .openapi('CostStep'),
      )
      .openapi({ description: 'From the price of the bag to the true cost, which they sum to.' }),
    costPerSoldPiece: idOrNull('What a sold piece cost; null where none was sold.'),
    costPerSoldPieceShown: idOrNull('In the currency’s digits.'),
    costByLayer: moneyOfLayers.nullable().openapi({
      description: 'What of it each layer is; they sum to it. Null where none was sold.',
    }),
    costByLayerShown: moneyOfLayers
      .nullable()
      .openapi({ description: 'The same in the currency’s digits; these add up too.' }),
    sure: howSureSchema.nullable().openapi({
      description: 'How sure the cost of a sold piece is; null where nothing was sold.',
    }),
    words: figure(
      'What is not in it, because nobody told it.',
      'No glaze was told for 1 of 4 runs: its glaze is not in this figure. Labour is not in the books.',
    ),
    soldPieces: figure('Pieces sold.', '22'),
    soldFirsts: figure('Firsts among them.', '20'),
    soldSeconds: figure('Seconds among them.', '2'),
    soldCost: figure('What they cost, packaging among it.', '13.86'),
    soldCostUncertainty: figure('One standard deviation of that.', '0.2'),
    revenue: figure('What was paid for them.', '510'),
    brokenInShop: partedWith,
    givenAway: partedWith,
    kept: partedWith,
    trail,
  })
  .openapi('FormCost')

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    currency: z.string().openapi({ example: 'GBP' }),
    from: idOrNull('The first month of selling that was asked for.'),
    to: idOrNull('The last.'),
    forms: z.array(form),
  })
  .openapi('PieceCostReport')

const route = createRoute({
  method: 'get',
  path: '/v1/reports/piece-cost',
  operationId: 'reportPieceCost',
  tags: [REPORT_TAG],
  summary: 'What a sold piece of each form cost, step by step and by layer',
  description:
    'From clay at the price of the bag, over freight, what went back to the bucket, glaze, firing energy, wear of the kiln, what was lost and packaging, to what the books moved with the sold pieces. The steps sum to that, and so do the layers. Labour is not in it; where a run’s glaze or fire was never told, the words say so.',
  request: {
    headers: studioHeader,
    query: z.strictObject({
      formId: idText('Only this form.', 'mug').optional(),
      from: monthText('Sold in this month or later.').optional(),
      to: monthText('Sold in this month or earlier.').optional(),
      format: formatQuery(['json', 'csv']),
      table: tableQuery(['steps', 'forms']),
    }),
  },
  responses: {
    200: reportAnswer('The costs', report, ['text/csv']),
    ...problemsOfReading,
  },
})

/** GET /v1/reports/piece-cost */
export const pieceCost = newRouter().openapi(route, async (c) => {
  const { format, table = 'steps', ...asked } = c.req.valid('query')
  const studioId = c.get('studioId')
  const found = await pieceCostReport(c.get('services').db, { studioId, ...asked })
  if (format !== 'csv') return c.json(found, 200)
  const { currency } = found
  if (table === 'forms') {
    const columns = formColumns(currency)
    return answerCsv(c, { fileName: 'piece-cost-forms', columns, rows: found.forms }) as never
  }
  const columns = stepColumns(currency)
  return answerCsv(c, { fileName: 'piece-cost-steps', columns, rows: stepsOf(found) }) as never
})

type Form = PieceCostReport['forms'][number]
interface Step {
  readonly form: Form
  readonly step: string
  readonly words: string
  readonly costPerPiece: string | null
  readonly costPerPieceShown: string | null
  readonly costUncertainty: string | null
}

/** The true cost closes each form's steps, as the sum that they come to. */
function stepsOf(found: PieceCostReport): Step[] {
  return found.forms
    .filter(({ steps }) => steps.length > 0)
    .flatMap((form): Step[] => [
      ...form.steps.map(({ sure, ...step }) => ({
        ...{ form, ...step },
        costUncertainty: sure.standardUncertainty,
      })),
      {
        form,
        step: 'true_cost',
        words: 'true cost of a sold piece',
        costPerPiece: form.costPerSoldPiece,
        costPerPieceShown: form.costPerSoldPieceShown,
        costUncertainty: form.sure?.standardUncertainty ?? null,
      },
    ])
}

function stepColumns(currency: string): Column<Step>[] {
  return [
    { heading: 'form', value: (row) => row.form.formId },
    { heading: 'form_name', value: (row) => row.form.formName },
    { heading: 'step', value: (row) => row.step },
    { heading: 'words', value: (row) => row.words },
    { heading: `cost_per_sold_piece_${currency}`, value: (row) => row.costPerPiece },
    { heading: `shown_cost_per_sold_piece_${currency}`, value: (row) => row.costPerPieceShown },
    { heading: `standard_uncertainty_${currency}`, value: (row) => row.costUncertainty },
  ]
}

function formColumns(currency: string): Column<Form>[] {
  const beside = ['brokenInShop', 'givenAway', 'kept'] as const
  const names = { brokenInShop: 'broken_in_shop', givenAway: 'given_away', kept: 'kept' }
  return [
    { heading: 'form', value: (row) => row.formId },
    { heading: 'form_name', value: (row) => row.formName },
    { heading: 'sold_pieces', value: (row) => row.soldPieces },
    { heading: 'sold_firsts', value: (row) => row.soldFirsts },
    { heading: 'sold_seconds', value: (row) => row.soldSeconds },
    { heading: `sold_cost_${currency}`, value: (row) => row.soldCost },
    { heading: `revenue_${currency}`, value: (row) => row.revenue },
    { heading: `cost_per_sold_piece_${currency}`, value: (row) => row.costPerSoldPiece },
    {
      heading: `standard_uncertainty_cost_per_sold_piece_${currency}`,
      value: (row) => row.sure?.standardUncertainty ?? null,
    },
    ...ALL_LAYERS.map((layer): Column<Form> => ({
      heading: `${layer}_cost_per_sold_piece_${currency}`,
      value: (row) => row.costByLayer?.[layer] ?? null,
    })),
    ...beside.flatMap((name): Column<Form>[] => [
      { heading: `${names[name]}_pieces`, value: (row) => row[name].pieces },
      { heading: `${names[name]}_cost_${currency}`, value: (row) => row[name].cost },
      {
        heading: `${names[name]}_cost_per_sold_piece_${currency}`,
        value: (row) => row[name].costPerSoldPiece,
      },
    ]),
    { heading: 'words', value: (row) => row.words },
    { heading: 'trail', value: (row) => row.trail },
  ]
}
