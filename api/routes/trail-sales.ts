import { createRoute } from '@hono/zod-openapi'
import { listSales } from '../../db/reports/sales.ts'
import { problemsOfReading } from '../problem.ts'
import { TRAIL_TAG } from '../report-schemas.ts'
import { newRouter } from '../router.ts'
import { pageOf, studioHeader } from '../schemas.ts'
import { saleFilters } from '../trail-filters.ts'
import { pageAnswer, pageAsked } from '../trail-page.ts'
import { saleSchema } from '../trail-pot-schemas.ts'

const route = createRoute({
  method: 'get',
  path: '/v1/sales',
  operationId: 'listSales',
  tags: [TRAIL_TAG],
  summary: 'Sales, the newest first',
  description: 'With what was paid and what the pieces had cost. One that was taken back says so.',
  request: {
    headers: studioHeader,
    query: saleFilters,
  },
  responses: {
    200: {
      description: 'A page of sales',
      content: { 'application/json': { schema: pageOf(saleSchema) } },
    },
    ...problemsOfReading,
  },
})

/** GET /v1/sales */
export const sales = newRouter().openapi(route, async (c) => {
  const { limit, cursor, ...rest } = c.req.valid('query')
  const page = await listSales(c.get('services').db, {
    ...rest,
    studioId: c.get('studioId'),
    page: pageAsked({ limit, cursor }),
  })
  return c.json(pageAnswer(page), 200) as never
})
