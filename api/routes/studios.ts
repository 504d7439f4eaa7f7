import { createRoute, z } from '@hono/zod-openapi'
import {
  changeStudio,
  createStudio,
  listStudios,
  viewStudio,
  type NewStudio,
} from '../../db/catalogue-studios.ts'
import type { Services } from '../../db/perform.ts'
import { isCurrency } from '../../shared/money.ts'
import { Refusal } from '../../shared/refusal.ts'
import { JURISDICTIONS } from '../../shared/silica.ts'
import { TRADE_SPEECHES } from '../../shared/trade-words.ts'
import { DATE_ORDERS } from '../../shared/written-day.ts'
import { MASS_SYSTEMS } from '../../shared/written-mass.ts'
import { changeOf } from '../catalogue-routes.ts'
import { taken } from '../new-name.ts'
import { problemsOfReading, usualProblems } from '../problem.ts'
import { newRouter } from '../router.ts'
import {
  cursorOf,
  idText,
  keyOfCursor,
  labelText,
  pageItems,
  pageOf,
  pageQuery,
} from '../schemas.ts'

const name = labelText('What it is called.', 'Wrenfold Yard')
const jurisdiction = z.enum(JURISDICTIONS).openapi({
  description: 'Where it is, for the limits that apply to dust: GB, US, EU, AU or other.',
  example: 'GB',
})
const comparesMakers = z.boolean().openapi({
  description: 'Whether the turning report may compare makers with each other. Off unless said.',
  example: false,
})
const massUnits = z.enum(MASS_SYSTEMS).openapi({
  description:
    'How its pages write masses: metric (g, kg) or pounds_ounces. The API takes any unit and answers in grams.',
  example: 'metric',
})
const dateOrder = z.enum(DATE_ORDERS).openapi({
  description: 'How its pages write days: 14 Mar 2026, Mar 14, 2026 or 2026-03-14.',
  example: 'day_month_year',
})
const tradeWords = z.enum(TRADE_SPEECHES).openapi({
  description: "Whose form of the trade's words its pages use: UK (turnings) or US (trimmings).",
  example: 'UK',
})
const ways = { massUnits, dateOrder, tradeWords }
const currency = z
  .string()
  .refine(isCurrency, { error: 'It must be a code of ISO 4217 in capitals: EUR, GBP, USD.' })
  .openapi({ description: 'The money it reckons in, ISO 4217; fixed for good.', example: 'GBP' })
const timeZone = z
  .string()
  .refine(isTimeZone, { error: 'It must be a name of the IANA time zone list: Europe/London.' })
  .openapi({
    description: 'The clock on its wall, which tells the month of an entry; fixed for good.',
    example: 'Europe/London',
  })

const created = z
  .strictObject({
    studioId: idText('An id of your own; made where none is given.', 'wrenfold-yard').optional(),
    name,
    currency,
    timeZone,
    jurisdiction: jurisdiction.default('other'),
    comparesMakers: comparesMakers.optional(),
    massUnits: massUnits.optional(),
    dateOrder: dateOrder.optional(),
    tradeWords: tradeWords.optional(),
  })
  .openapi('NewStudio')

const shown = z
  .object({
    studioId: z.string(),
    name: z.string(),
    currency: z.string(),
    timeZone: z.string(),
    jurisdiction,
    comparesMakers,
    createdAt: z.string().openapi({ format: 'date-time' }),
    ...ways,
  })
  .openapi('Studio')

const params = z.object({ id: idText('The studio.', 'wrenfold-yard') })
const answer = (description: string) => ({
  description,
  content: { 'application/json': { schema: shown } },
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
          schema: created,
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
      content: { 'application/json': { schema: pageOf(shown) } },
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
    'Its name, its place in the law, whether its makers are compared, and how its pages write masses, days and words. Money and clock stay: what is recorded was recorded in them.',
  request: {
    params,
    body: {
      required: true,
      content: {
        'application/json': {
          schema: changeOf({ name, jurisdiction, comparesMakers, ...ways }, 'StudioChange'),
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

function isTimeZone(name: string): boolean {
  // An offset such as +02:00 would pass, and has no summer.
  if (!/^[A-Za-z]/.test(name)) return false
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== ''
  } catch (error) {
    if (error instanceof RangeError) return false
    throw error
  }
}
