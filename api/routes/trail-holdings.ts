import { createRoute, z } from '@hono/zod-openapi'
import { listHoldings, traceHolding } from '../../db/reports/holdings.ts'
import { problemAnswer, problemsOfReading } from '../problem.ts'
import { TRAIL_TAG } from '../report-schemas.ts'
import { newRouter } from '../router.ts'
import { idText, pageOf, studioHeader, timedPageQuery } from '../schemas.ts'
import { holdingFilters } from '../trail-filters.ts'
import { pageAnswer, pageAsked } from '../trail-page.ts'
import { holdingSchema, holdingTracedSchema } from '../trail-schemas.ts'

const listRoute = createRoute({
  method: 'get',
  path: '/v1/holdings',
  operationId: 'listHoldings',
  tags: [TRAIL_TAG],
  summary: 'Holdings: what is where',
  description: 'Each is one thing at one place: a lot, a run, or what is in a vessel.',
  request: {
    headers: studioHeader,
    query: holdingFilters,
  },
  responses: {
    200: {
      description: 'A page of holdings',
      content: { 'application/json': { schema: pageOf(holdingSchema) } },
    },
    ...problemsOfReading,
  },
})

const oneRoute = createRoute({
  method: 'get',
  path: '/v1/holdings/{holdingId}',
  operationId: 'readHolding',
  tags: [TRAIL_TAG],
  summary: 'One holding, and what moved it',
  description:
    'Its lines are in the order in which they happened, newest first, each with what stood there before and after.',
  request: {
    headers: studioHeader,
    params: z.object({ holdingId: idText('The holding.', 'b0e5f2') }),
    query: timedPageQuery,
  },
  responses: {
    200: {
      description: 'The holding',
      content: { 'application/json': { schema: holdingTracedSchema } },
    },
    ...problemsOfReading,
    404: problemAnswer('There is no such holding in this studio'),
  },
})

/** GET /v1/holdings, GET /v1/holdings/{holdingId} */
export const holdings = newRouter()
  .openapi(listRoute, async (c) => {
    const { limit, cursor, nonEmpty, ...rest } = c.req.valid('query')
    const page = await listHoldings(c.get('services').db, {
      ...rest,
      studioId: c.get('studioId'),
      nonEmpty: nonEmpty !== 'false',
      page: pageAsked({ limit, cursor }),
    })
    return c.json(pageAnswer(page), 200)
  })
  .openapi(oneRoute, async (c) => {
    const found = await traceHolding(c.get('services').db, {
      studioId: c.get('studioId'),
      holdingId: c.req.valid('param').holdingId,
      page: pageAsked(c.req.valid('query')),
    })
    const { cameFrom, lines } = found
    return c.json({ ...found, cameFrom: [...cameFrom], lines: pageAnswer(lines) }, 200)
  })
