import { createRoute, z } from '@hono/zod-openapi'
import { waitingReport } from '../../../db/reports/waiting.ts'
import { problemsOfReading } from '../../problem.ts'
import { figure, REPORT_TAG, reportAnswer, trail } from '../../report-schemas.ts'
import { newRouter } from '../../router.ts'
import { studioHeader } from '../../schemas.ts'

const moment = z.string().openapi({ format: 'date-time', example: '2026-03-14T08:30:00.000Z' })

const report = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    at: moment,
    pots: z
      .array(
        z.object({
          runId: z.string().openapi({ example: 'mugs-1' }),
          label: figure('What the run is called.', 'Mugs of 14 March'),
          formName: z.string().openapi({ example: 'Mug' }),
          place: z.enum(['greenware', 'bisque', 'glazed']),
          pieces: figure('How many of it are there.', '24'),
          isTurned: z.boolean().openapi({ description: 'Whether any turning of it was told.' }),
          thrownAt: moment,
          latestAt: moment,
          trail,
        }),
      )
      .openapi({ description: 'Pots that are not finished, run by run, the oldest first.' }),
    countsDue: z
      .array(
        z.object({
          holdingId: z.string().openapi({ example: 'b0e5f2' }),
          place: z.string().openapi({ example: 'store' }),
          name: z.string().openapi({ example: 'Buff of 2 March' }),
          countedAt: moment.nullable(),
          trail,
        }),
      )
      .openapi({ description: 'Clay that nobody weighed or counted for thirty days.' }),
    clays: z
      .array(
        z.object({
          bodyId: z.string().openapi({ example: 'buff' }),
          name: z.string().openapi({ example: 'Buff stoneware' }),
          usableDryGrams: figure('Dry clay in bags and on the bench, g.'),
          onPlasterDryGrams: figure('Dry clay on plaster, g.'),
          thrownDryGrams: figure('Dry clay thrown and joined on in eight weeks, g.'),
          weeks: figure('For how many weeks it lasts at that pace.', '4.3').nullable(),
          isDue: z.boolean().openapi({ description: 'Whether that is less than four weeks.' }),
          trail,
        }),
      )
      .openapi({ description: 'Each clay that is bought, and how long it lasts.' }),
  })
  .openapi('WaitingReport')

const route = createRoute({
  method: 'get',
  path: '/v1/reports/waiting',
  operationId: 'reportWaiting',
  tags: [REPORT_TAG],
  summary: 'What waits for somebody',
  description:
    'Pots at their stages, clay that was not counted for a month, and clay that runs low at the pace of the last eight weeks.',
  request: { headers: studioHeader },
  responses: { 200: reportAnswer('What waits', report, []), ...problemsOfReading },
})

/** GET /v1/reports/waiting */
export const waiting = newRouter().openapi(route, async (c) => {
  const { db, now } = c.get('services')
  return c.json(await waitingReport(db, { studioId: c.get('studioId'), now: now() }), 200)
})
