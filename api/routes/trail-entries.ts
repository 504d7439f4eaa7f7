import { createRoute, z } from '@hono/zod-openapi'
import { listEntries, traceEntry } from '../../db/reports/entries.ts'
import { ENTRY_KINDS, FLOW_OF_KIND } from '../../shared/entry-kind.ts'
import { WORLD_ROWS, type WorldRowName } from '../../shared/month-world.ts'
import { PLACES_INSIDE, PLACES_OUTSIDE } from '../../shared/place.ts'
import { entrySchema } from '../entry-schemas.ts'
import { problemAnswer, problemsOfReading } from '../problem.ts'
import { TRAIL_TAG } from '../report-schemas.ts'
import { newRouter } from '../router.ts'
import { idText, momentText, monthText, pageOf, studioHeader, timedPageQuery } from '../schemas.ts'
import { pageAnswer, pageAsked } from '../trail-page.ts'
import { entryLinksSchema, entryListedSchema } from '../trail-schemas.ts'

const FLOWS = Object.values(FLOW_OF_KIND)
const WORLD_NAMES = WORLD_ROWS.map(({ row }) => row) as [WorldRowName, ...WorldRowName[]]

/** Several words of a list, with commas between them. */
function wordsOf<const Word extends string>(words: readonly Word[], description: string) {
  return z
    .string()
    .transform((text) => text.split(','))
    .pipe(z.array(z.enum(words as unknown as [Word, ...Word[]])))
    .optional()
    .openapi({
      type: 'string',
      description: `${description} Several with commas.`,
      example: words[0],
    })
}

const filters = z.strictObject({
  ...timedPageQuery.shape,
  month: monthText('Of this month, on the studio’s wall.').optional(),
  fromMonth: monthText('Of this month or later.').optional(),
  toMonth: monthText('Of this month or earlier.').optional(),
  from: momentText('From this moment on.').optional(),
  to: momentText('Before this moment.').optional(),
  kind: wordsOf(ENTRY_KINDS, 'Of this kind.'),
  flow: wordsOf(FLOWS, 'Of this row of the month report; a reversal counts as what it takes back.'),
  world: z.enum(WORLD_NAMES).optional().openapi({
    description: 'Of this way through the door, as in the month report.',
    example: 'sold',
  }),
  place: z
    .enum([...PLACES_INSIDE, ...PLACES_OUTSIDE])
    .optional()
    .openapi({ description: 'That moved something here.', example: 'unexplained' }),
  bodyId: idText('That moved this clay.', 'buff').optional(),
  holdingId: idText('That moved this holding, or took a reading of it.', 'b0e5f2').optional(),
  lotId: idText('That moved this lot.', 'bags').optional(),
  runId: idText('That moved this run.', 'mugs-1').optional(),
  vesselId: idText('That moved what is in this vessel.', 'bucket-1').optional(),
  formId: idText('That moved runs of this form.', 'mug').optional(),
})

const listRoute = createRoute({
  method: 'get',
  path: '/v1/entries',
  operationId: 'listEntries',
  tags: [TRAIL_TAG],
  summary: 'Entries, the newest first',
  description:
    'What happened, narrowed as one likes. Where a place, a body, a lot and the like are named together, one and the same line must fit them all.',
  request: { headers: studioHeader, query: filters },
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
