import { createRoute, z } from '@hono/zod-openapi'
import { listEntries, traceEntry } from '../../db/reports/entries.ts'
import { entrySchema } from '../entry-schemas.ts'
import { problemAnswer, problemsOfReading } from '../problem.ts'
import { TRAIL_TAG } from '../report-schemas.ts'
import { newRouter } from '../router.ts'
import { idText, pageOf, studioHeader } from '../schemas.ts'
import { entryFilters } from '../trail-filters.ts'
import { pageAnswer, pageAsked } from '../trail-page.ts'
import { entryLinksSchema, entryListedSchema } from '../trail-schemas.ts'

const listRoute = createRoute({
  method: 'get',
  path: '/v1/entries',
  operationId: 'listEntries',
  tags: [TRAIL_TAG],
  summary: 'Entries, the newest first',
  description:
    'What happened, narrowed as one likes. Where a place, a body, a lot and the like are named together, one and the same line must fit them all.',
  request: { headers: studioHeader, query: entryFilters },
  responses: {
    200: {
      description: 'A page of entries',
      content: { 'application/json': { schema: pageOf(entryListedSchema) } },
    },
    ...problemsOfReading,
  },
})

const oneRoute = createRoute({
  method: 'get',
  path: '/v1/entries/{entryId}',
  operationId: 'readEntry',
  tags: [TRAIL_TAG],
  summary: 'One entry, with all that was read, estimated and moved',
  description: 'What was said and read stands as it was; links lead on to what it moved and made.',
  request: {
    headers: studioHeader,
    params: z.object({ entryId: idText('The entry.', '0199c1de-0000-7000-8000-000000000000') }),
  },
  responses: {
    200: {
      description: 'The entry',
      content: {
        'application/json': {
          schema: z
            .object({ ...entrySchema.shape, links: entryLinksSchema })
            .openapi('TracedEntry'),
        },
      },
    },
    ...problemsOfReading,
    404: problemAnswer('There is no such entry in this studio'),
  },
})

/** GET /v1/entries, GET /v1/entries/{entryId} */
export const entries = newRouter()
  .openapi(listRoute, async (c) => {
    const { limit, cursor, kind, flow, ...rest } = c.req.valid('query')
    const page = await listEntries(c.get('services').db, {
      ...rest,
      studioId: c.get('studioId'),
      kinds: kind,
      flows: flow,
      page: pageAsked({ limit, cursor }),
    })
    return c.json(pageAnswer(page), 200) as never
  })
  .openapi(oneRoute, async (c) => {
    const { entryId } = c.req.valid('param')
    const found = await traceEntry(c.get('services').db, { studioId: c.get('studioId'), entryId })
    return c.json(found, 200) as never
  })
