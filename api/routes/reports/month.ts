import { createRoute, z } from '@hono/zod-openapi'
import { monthReport } from '../../../db/reports/month.ts'
import { answerMonthCsv, MONTH_TABLES } from '../../month-csv.ts'
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
      table: tableQuery(MONTH_TABLES),
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
  return answerMonthCsv(c, report, table) as never
})
