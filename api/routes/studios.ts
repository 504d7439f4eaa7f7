import { createRoute, z } from '@hono/zod-openapi'
import {
  changeStudio,
  createStudio,
  listStudios,
  viewStudio,
  type NewStudio,
} from '../../db/catalogue-studios.ts'
import type { Services } from '../../db/perform.ts'
import { Refusal } from '../../shared/refusal.ts'
import { changeOf } from '../catalogue-routes.ts'
import { taken } from '../new-name.ts'
import { problemsOfReading, usualProblems } from '../problem.ts'
import { newRouter } from '../router.ts'
import { cursorOf, idText, keyOfCursor, pageItems, pageOf, pageQuery } from '../schemas.ts'
import { newStudioSchema, studioChangeFields, studioSchema } from '../studio-schemas.ts'

const params = z.object({ id: idText('The studio.', 'wrenfold-yard') })
const answer = (description: string) => ({
  description,
  content: { 'application/json': { schema: studioSchema } },
})
const tags = ['What the studio has']

const create = createRoute({
  method: 'post',
  path: '/v1/studios',
  operationId: 'createStudio',
  tags,
  summary: 'Enter a studio',
  request: {
    body: {
      required: true,
      content: {
        'application/json': {
          schema: newStudioSchema,
          example: {
            studioId: 'wrenfold-yard',
            name: 'Wrenfold Yard',
            currency: 'GBP',
            timeZone: 'Europe/London',
            jurisdiction: 'GB',
          },
        },
      },
    },
  },
  responses: { 201: answer('Entered'), ...usualProblems },
})

const list = createRoute({
  method: 'get',
  path: '/v1/studios',
  operationId: 'listStudios',
  tags,
  summary: 'List the studios, by id',
  request: { query: pageQuery },
  responses: {
    200: {
      description: 'One page',
      content: { 'application/json': { schema: pageOf(studioSchema) } },
    },
    ...problemsOfReading,
  },
})

const read = createRoute({
  method: 'get',
  path: '/v1/studios/{id}',
  operationId: 'readStudio',
  tags,
  summary: 'Read one studio',
  request: { params },
  responses: { 200: answer('As it is now'), ...problemsOfReading },
})

const change = createRoute({
  method: 'patch',
  path: '/v1/studios/{id}',
  operationId: 'changeStudio',
  tags,
  summary: 'Change a studio',
  description:
    'Its name, its place in the law, whether its makers are compared, how its pages write masses, days and words, how seconds are costed, and what an hour is to be worth. Money and clock stay: what is recorded was recorded in them.',
  request: {
    params,
    body: {
      required: true,
      content: {
        'application/json': {
          schema: changeOf(studioChangeFields, 'StudioChange'),
          example: { name: 'Wrenfold Pots' },
        },
      },
    },
  },
  responses: { 200: answer('As it is now'), ...usualProblems },
})

export const studios = newRouter()
  .openapi(create, async (c) => {
    const studio = await enter(c.get('services'), c.req.valid('json'))
    c.header('Location', `/v1/studios/${studio.studioId}`)
    return c.json(studio, 201)
  })
  .openapi(list, async (c) => {
    const { limit, cursor } = c.req.valid('query')
    const wanted = pageItems(limit)
    const page = { limit: wanted + 1, after: keyOfCursor(cursor) }
    const found = await listStudios(c.get('services').db, page)
    const items = found.slice(0, wanted)
    const last = found.length > wanted ? items.at(-1) : undefined
    return c.json({ items, nextCursor: last === undefined ? null : cursorOf(last.studioId) }, 200)
  })
  .openapi(read, async (c) =>
    c.json(await viewStudio(c.get('services').db, c.req.valid('param').id), 200),
  )
  .openapi(change, async (c) => {
    const { id } = c.req.valid('param')
    return c.json(await changeStudio(c.get('services'), id, c.req.valid('json')), 200)
  })

/** Of a studio only its id must be new, so that is what is taken. */
async function enter(services: Services, said: NewStudio) {
  try {
    return await createStudio(services, said)
  } catch (error) {
    if (!(error instanceof Refusal) || error.code !== 'name_must_be_new') throw error
    throw taken(error, { one: 'studio', field: 'studioId', value: String(said.studioId) })
  }
}
