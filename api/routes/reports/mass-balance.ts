import { createRoute, z } from '@hono/zod-openapi'
import { massBalance, type MassBalance } from '../../../db/reports/mass-balance.ts'
import { answerCsv, type Column } from '../../csv.ts'
import { massBalanceSchema } from '../../mass-balance-schemas.ts'
import { problemsOfReading } from '../../problem.ts'
import { formatQuery, REPORT_TAG, reportAnswer } from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { idText, monthText, studioHeader } from '../../schemas.ts'

const route = createRoute({
  method: 'get',
  path: '/v1/reports/mass-balance',
  operationId: 'reportMassBalance',
  tags: [REPORT_TAG],
  summary: 'Whether the weigh-ins of a month agree, and which fits least',
  description:
    'What came to each lot, run, vessel and load of one clay must have left it or be there. The readings of a month are adjusted, the sure ones least, until all of it balances; the one that everything else speaks against is named, with the entry that would put it right. It is advice: nothing is posted by asking. Masses are dry clay, and fired clay as the dry clay that it was.',
  request: {
    headers: studioHeader,
    query: z.strictObject({
      month: monthText('The month, on the studio’s wall.'),
      bodyId: idText('The clay.', 'buff'),
      format: formatQuery(['json', 'csv']),
    }),
  },
  responses: {
    200: reportAnswer('What the readings say together', massBalanceSchema, ['text/csv']),
    ...problemsOfReading,
  },
})

/** GET /v1/reports/mass-balance */
export const balance = newRouter().openapi(route, async (c) => {
  const { format, month, bodyId } = c.req.valid('query')
  const asked = { studioId: c.get('studioId'), month, bodyId }
  const found = await massBalance(c.get('services').db, asked)
  if (format !== 'csv') return c.json(found, 200)
  const fileName = `mass-balance-${month}-${bodyId}`
  return answerCsv(c, { fileName, columns: COLUMNS, rows: found.readings }) as never
})

const COLUMNS: Column<MassBalance['readings'][number]>[] = [
  { heading: 'reading', value: (one) => one.readingId },
  { heading: 'label', value: (one) => one.label },
  { heading: 'kind', value: (one) => one.kind },
  { heading: 'from', value: (one) => one.from },
  { heading: 'to', value: (one) => one.to },
  { heading: 'how_known', value: (one) => one.howKnown },
  { heading: 'measured_dry_grams', value: (one) => one.measuredDryGrams },
  {
    heading: 'standard_uncertainty_measured_dry_grams',
    value: (one) => one.measuredUncertaintyGrams,
  },
  { heading: 'reconciled_dry_grams', value: (one) => one.reconciledDryGrams },
  {
    heading: 'standard_uncertainty_reconciled_dry_grams',
    value: (one) => one.standardUncertaintyGrams,
  },
  { heading: 'adjustment_dry_grams', value: (one) => one.adjustmentGrams },
  { heading: 'standing', value: (one) => one.standing },
  { heading: 'would_show_from_dry_grams', value: (one) => one.wouldShowFromGrams },
  { heading: 'trail', value: (one) => one.trail },
]
