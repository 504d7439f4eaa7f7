import { createRoute, z } from '@hono/zod-openapi'
import { listLots, traceLot } from '../../db/reports/lots.ts'
import { problemAnswer, problemsOfReading } from '../problem.ts'
import { TRAIL_TAG } from '../report-schemas.ts'
import { newRouter } from '../router.ts'
import { idText, pageOf, studioHeader } from '../schemas.ts'
import { lotFilters } from '../trail-filters.ts'
import { pageAnswer, pageAsked } from '../trail-page.ts'
import { lotSchema, lotTracedSchema } from '../trail-schemas.ts'

const listRoute = createRoute({
  method: 'get',
  path: '/v1/lots',
  operationId: 'listLots',
  tags: [TRAIL_TAG],
  summary: 'Lots: clay that is kept apart',
  description: 'Deliveries, opened bags, loads on plaster, reclaimed and wedged clay.',
  request: {
    headers: studioHeader,
    query: lotFilters,
  },
  responses: {
    200: {
      description: 'A page of lots',
      content: { 'application/json': { schema: pageOf(lotSchema) } },
    },
    ...problemsOfReading,
  },
})

const oneRoute = createRoute({
  method: 'get',
  path: '/v1/lots/{lotId}',
  operationId: 'readLot',
  tags: [TRAIL_TAG],
  summary: 'One lot: where its clay is, came from and went to',
  description:
    'An entry that brings clay from two places to two others does not say which went where: each place is told with all that it gave or took.',
  request: { headers: studioHeader, params: z.object({ lotId: idText('The lot.', 'bags') }) },
  responses: {
    200: { description: 'The lot', content: { 'application/json': { schema: lotTracedSchema } } },
    ...problemsOfReading,
    404: problemAnswer('There is no such lot in this studio'),
  },
})

/** GET /v1/lots, GET /v1/lots/{lotId} */
export const lots = newRouter()
  .openapi(listRoute, async (c) => {
    const { limit, cursor, ...rest } = c.req.valid('query')
    const page = await listLots(c.get('services').db, {
      ...rest,
      studioId: c.get('studioId'),
      page: pageAsked({ limit, cursor }),
    })
    return c.json(pageAnswer(page), 200) as never
  })
  .openapi(oneRoute, async (c) => {
    const { lotId } = c.req.valid('param')
    const found = await traceLot(c.get('services').db, { studioId: c.get('studioId'), lotId })
    return c.json(found, 200) as never
  })
