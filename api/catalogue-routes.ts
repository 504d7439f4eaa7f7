import { createRoute, z, type OpenAPIHono } from '@hono/zod-openapi'
import type { Context } from 'hono'
import type { CatalogueItem } from '../db/catalogue.ts'
import { changeThing, enterThing } from './catalogue/enter.ts'
import type { CatalogueResource } from './catalogue/resource.ts'
import { problemsOfReading, usualProblems } from './problem.ts'
import { newRouter } from './router.ts'
import {
  cursorOf,
  idText,
  keyOfCursor,
  pageItems,
  pageOf,
  pageQuery,
  studioHeader,
} from './schemas.ts'
import type { Environment } from './services.ts'

export { changeOf } from './catalogue/resource.ts'

const versionSchema = z
  .object({
    versionNo: z.int().openapi({ example: 2 }),
    changedAt: z.string().openapi({ format: 'date-time' }),
    facts: z.record(z.string(), z.unknown()).openapi({ description: 'What it was from then on.' }),
  })
  .openapi('Version')

const json = (schema: z.ZodType, description: string) => ({
  description,
  content: { 'application/json': { schema } },
})

const TAG = 'What the studio has'

/** POST, GET, GET one, PATCH and history of one kind of thing. */
export function catalogueRoutes(resource: CatalogueResource): OpenAPIHono<Environment> {
  const router = newRouter()
  router.openapi(createOne(resource), (async (c: Context<Environment>) => {
    const said = c.req.valid('json' as never) as CatalogueItem
    const item = await enterThing(c, resource, said)
    c.header('Location', `/v1/${resource.path}/${String(item[resource.idName])}`)
    return c.json(item, 201)
  }) as never)
  router.openapi(listAll(resource), (async (c: Context<Environment>) =>
    c.json(await pageFor(c, resource))) as never)
  router.openapi(readOne(resource), (async (c: Context<Environment>) =>
    c.json(await resource.catalogue.find(c.get('services').db, ...whichOf(c)))) as never)
  router.openapi(changeOne(resource), (async (c: Context<Environment>) => {
    const changes = c.req.valid('json' as never) as CatalogueItem
    const [, id] = whichOf(c)
    return c.json(await changeThing(c, resource, { id, changes }))
  }) as never)
  router.openapi(readHistory(resource), (async (c: Context<Environment>) => {
    const versions = await resource.catalogue.history(c.get('services').db, ...whichOf(c))
    return c.json({ items: versions })
  }) as never)
  return router
}

/** One page of a kind of thing, with the cursor of the next where there is more. */
async function pageFor(c: Context<Environment>, { catalogue, idName }: CatalogueResource) {
  const { limit, cursor } = c.req.valid('query' as never) as z.output<typeof pageQuery>
  const wanted = pageItems(limit)
  const after = keyOfCursor(cursor)
  const { db } = c.get('services')
  const found = await catalogue.list(db, c.get('studioId'), { limit: wanted + 1, after })
  const items = found.slice(0, wanted)
  const last = found.length > wanted ? items.at(-1) : undefined
  return { items, nextCursor: last === undefined ? null : cursorOf(String(last[idName])) }
}

function whichOf(c: Context<Environment>): [studioId: string, id: string] {
  const { id } = c.req.valid('param' as never) as { id: string }
  return [c.get('studioId'), id]
}

function oneId({ one, example, idName }: CatalogueResource) {
  return z.object({ id: idText(`The ${one}.`, String(example[idName])) })
}

function createOne(resource: CatalogueResource) {
  return createRoute({
    method: 'post',
    path: `/v1/${resource.path}`,
    operationId: `create_${resource.path}`,
    tags: [TAG],
    summary: `Enter a ${resource.one}`,
    request: {
      headers: studioHeader,
      body: {
        required: true,
        content: { 'application/json': { schema: resource.created, example: resource.example } },
      },
    },
    responses: { 201: json(resource.shown, 'Entered'), ...usualProblems },
  })
}

function listAll(resource: CatalogueResource) {
  return createRoute({
    method: 'get',
    path: `/v1/${resource.path}`,
    operationId: `list_${resource.path}`,
    tags: [TAG],
    summary: `List every ${resource.one}, by id`,
    request: { headers: studioHeader, query: pageQuery },
    responses: { 200: json(pageOf(resource.shown), 'One page'), ...problemsOfReading },
  })
}

function readOne(resource: CatalogueResource) {
  return createRoute({
    method: 'get',
    path: `/v1/${resource.path}/{id}`,
    operationId: `read_${resource.path}`,
    tags: [TAG],
    summary: `Read one ${resource.one}`,
    request: { headers: studioHeader, params: oneId(resource) },
    responses: { 200: json(resource.shown, 'As it is now'), ...problemsOfReading },
  })
}

function changeOne(resource: CatalogueResource) {
  return createRoute({
    method: 'patch',
    path: `/v1/${resource.path}/{id}`,
    operationId: `change_${resource.path}`,
    tags: [TAG],
    summary: `Change a ${resource.one}`,
    description:
      'Only the fields that are named change. What was recorded before keeps the figures of its day.',
    request: {
      headers: studioHeader,
      params: oneId(resource),
      body: {
        required: true,
        content: {
          'application/json': { schema: resource.changed, example: resource.exampleOfChange },
        },
      },
    },
    responses: { 200: json(resource.shown, 'As it is now'), ...usualProblems },
  })
}

function readHistory(resource: CatalogueResource) {
  return createRoute({
    method: 'get',
    path: `/v1/${resource.path}/{id}/history`,
    operationId: `read_history_of_${resource.path}`,
    tags: [TAG],
    summary: `Read what a ${resource.one} was, from when`,
    request: { headers: studioHeader, params: oneId(resource) },
    responses: {
      200: json(z.object({ items: z.array(versionSchema) }), 'Every version, the oldest first'),
      ...problemsOfReading,
    },
  })
}
