import { createRoute, z } from '@hono/zod-openapi'
import { listRuns, traceRun } from '../../db/reports/runs.ts'
import { problemAnswer, problemsOfReading } from '../problem.ts'
import { TRAIL_TAG } from '../report-schemas.ts'
import { newRouter } from '../router.ts'
import { idText, pageOf, studioHeader } from '../schemas.ts'
import { runFilters } from '../trail-filters.ts'
import { pageAnswer, pageAsked } from '../trail-page.ts'
import { runSchema, runTracedSchema } from '../trail-pot-schemas.ts'

const listRoute = createRoute({
  method: 'get',
  path: '/v1/runs',
  operationId: 'listRuns',
  tags: [TRAIL_TAG],
  summary: 'Runs: pieces thrown together, the newest first',
  description:
    'A run is pieces of one form thrown from one clay together; a one-off is a run of one.',
  request: {
    headers: studioHeader,
    query: runFilters,
  },
  responses: {
    200: {
      description: 'A page of runs',
      content: { 'application/json': { schema: pageOf(runSchema) } },
    },
    ...problemsOfReading,
  },
})

const oneRoute = createRoute({
  method: 'get',
  path: '/v1/runs/{runId}',
  operationId: 'readRun',
  tags: [TRAIL_TAG],
  summary: 'One run: what became of its pieces and its clay',
  description:
    'Pieces by stage, yields, clay by what became of it, losses, and what is still here.',
  request: { headers: studioHeader, params: z.object({ runId: idText('The run.', 'mugs-1') }) },
  responses: {
    200: { description: 'The run', content: { 'application/json': { schema: runTracedSchema } } },
    ...problemsOfReading,
    404: problemAnswer('There is no such run in this studio'),
  },
})

/** GET /v1/runs, GET /v1/runs/{runId} */
export const runs = newRouter()
  .openapi(listRoute, async (c) => {
    const { limit, cursor, ...rest } = c.req.valid('query')
    const page = await listRuns(c.get('services').db, {
      ...rest,
      studioId: c.get('studioId'),
      page: pageAsked({ limit, cursor }),
    })
    return c.json(pageAnswer(page), 200)
  })
  .openapi(oneRoute, async (c) => {
    const { runId } = c.req.valid('param')
    const found = await traceRun(c.get('services').db, { studioId: c.get('studioId'), runId })
    return c.json(found, 200) as never
  })
