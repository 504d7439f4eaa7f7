import { createRoute, z } from '@hono/zod-openapi'
import { turningOverview, turningReport, type TurningReport } from '../../../db/reports/turning.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { problemsOfReading } from '../../problem.ts'
import { formatQuery, REPORT_TAG, reportAnswer } from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { idText, studioHeader } from '../../schemas.ts'
import { formListedSchema, kilnLossesSchema, turningFields } from '../../turning-schemas.ts'

const overview = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    forms: z.array(formListedSchema),
    kilnLosses: kilnLossesSchema,
  })
  .openapi('TurningOverview')

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    formId: z.string().openapi({ example: 'dinner-plate' }),
    formName: z.string().openapi({ example: 'Dinner plate' }),
    ...turningFields,
  })
  .openapi('TurningReport')

const list = createRoute({
  method: 'get',
  path: '/v1/reports/turning',
  operationId: 'reportTurnings',
  tags: [REPORT_TAG],
  summary: 'Which forms are turned thinner than their habit, and whether it costs pots',
  description:
    'The turned-off share of a run is its dry turnings over its dry pots before turning; entries that were taken back count for nothing. More turned off than the habit means thinner walls or feet. Whether thin pots are lost in the kiln more often is said of all these forms together, each compared within itself, and only where the runs carry it.',
  request: {
    headers: studioHeader,
    query: z.strictObject({ formId: idText('Only this form.', 'dinner-plate').optional() }),
  },
  responses: {
    200: reportAnswer('The forms', overview, []),
    ...problemsOfReading,
  },
})

const read = createRoute({
  method: 'get',
  path: '/v1/reports/turning/{formId}',
  operationId: 'reportTurning',
  tags: [REPORT_TAG],
  summary: 'How one form is turned, run by run',
  description:
    'A chart of single values: the habit, the limits of what chance explains, and what chance alone seldom does. Eight runs make a chart; from sixteen on the last eight are judged by those before them. Makers are compared only where the studio has switched that on.',
  request: {
    headers: studioHeader,
    params: z.object({ formId: idText('The form.', 'dinner-plate') }),
    query: z.strictObject({ format: formatQuery(['json', 'csv']) }),
  },
  responses: {
    200: reportAnswer('The form', report, ['text/csv']),
    ...problemsOfReading,
  },
})

/** GET /v1/reports/turning and /v1/reports/turning/{formId} */
export const turning = newRouter()
  .openapi(list, async (c) => {
    const { formId } = c.req.valid('query')
    const studioId = c.get('studioId')
    return c.json(await turningOverview(c.get('services').db, { studioId, formId }), 200)
  })
  .openapi(read, async (c) => {
    const { formId } = c.req.valid('param')
    const studioId = c.get('studioId')
    const found = await turningReport(c.get('services').db, { studioId, formId })
    if (c.req.valid('query').format !== 'csv') return c.json(found, 200)
    const table = { fileName: `turning-${formId}`, columns: columnsFor(found), rows: found.points }
    return answerCsv(c, table) as never
  })

type Point = TurningReport['points'][number]

/** The limits stand on each line, so that a spreadsheet can draw them. */
function columnsFor({ formId, chart }: TurningReport): Column<Point>[] {
  return [
    { heading: 'form', value: () => formId },
    { heading: 'run', value: (row) => row.runId },
    { heading: 'label', value: (row) => row.label },
    { heading: 'thrown_at', value: (row) => row.thrownAt },
    { heading: 'turned_off_fraction', value: (row) => row.turnedOffFraction },
    { heading: 'standard_uncertainty_fraction', value: (row) => row.standardUncertainty },
    { heading: 'before_dry_grams', value: (row) => row.beforeDryGrams },
    { heading: 'turned_off_dry_grams', value: (row) => row.turnedOffDryGrams },
    { heading: 'has_own_water', value: (row) => row.hasOwnWater },
    { heading: 'centre_fraction', value: () => chart?.centreFraction ?? null },
    { heading: 'lower_limit_fraction', value: () => chart?.lowerLimitFraction ?? null },
    { heading: 'upper_limit_fraction', value: () => chart?.upperLimitFraction ?? null },
    { heading: 'moving_range_fraction', value: (row) => row.movingRangeFraction },
    {
      heading: 'moving_range_limit_fraction',
      value: () => chart?.movingRangeLimitFraction ?? null,
    },
    { heading: 'is_jump', value: (row) => row.isJump },
    { heading: 'signals', value: (row) => row.signals.join(' ') },
    { heading: 'dry_grams_a_piece', value: (row) => row.dryGramsAPiece },
    { heading: 'fired_pieces', value: (row) => row.firedPieces },
    { heading: 'lost_pieces', value: (row) => row.lostPieces },
    { heading: 'trail', value: (row) => row.trail },
  ]
}
