import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { ALL_ACTS } from '../../api/acts/all-acts.ts'
import { newApp } from '../../api/app.ts'
import { PROBLEM_CODES, PROBLEM_KINDS } from '../../api/problem-kinds.ts'
import type { ApiServices } from '../../api/services.ts'
import { REFUSAL_CODES } from '../../shared/refusal.ts'
import { openPottery, problem, problemIn, type Answered, type Pottery } from './pottery.ts'

interface Described {
  readonly $ref?: string
  readonly allOf?: readonly Described[]
  readonly description?: string
  readonly properties?: Readonly<Record<string, Described>>
  readonly additionalProperties?: unknown
  readonly items?: Described
}

interface Operation {
  readonly operationId?: string
  readonly summary?: string
  readonly tags?: readonly string[]
  readonly parameters?: readonly { name: string; in: string; description?: string }[]
  readonly requestBody?: {
    readonly required?: boolean
    readonly content: Readonly<Record<string, { schema: Described; example?: unknown }>>
  }
  readonly responses: Readonly<Record<string, { content?: Readonly<Record<string, unknown>> }>>
}

interface Route {
  readonly name: string
  readonly method: string
  readonly path: string
  readonly operation: Operation
}

// The routes are read from the description before any test runs; nothing here asks a database.
const description = newApp({
  log: { info: () => undefined, error: () => undefined },
} as unknown as ApiServices).getOpenAPI31Document({
  openapi: '3.1.0',
  info: { title: 'routes', version: '1' },
})
const schemas = (description.components?.schemas ?? {}) as Readonly<Record<string, Described>>
const routes = Object.entries(description.paths ?? {}).flatMap(([path, operations]) =>
  Object.entries(operations as Readonly<Record<string, Operation>>).map(
    ([method, operation]): Route => ({
      name: `${method.toUpperCase()} ${path}`,
      method: method.toUpperCase(),
      path: path.replaceAll(/\{\w+\}/g, 'nothing'),
      operation,
    }),
  ),
)
const named = (some: readonly Route[]) => some.map((route) => [route.name, route] as const)
const withBody = routes.filter((route) => route.operation.requestBody !== undefined)
const withStudio = routes.filter((route) =>
  (route.operation.parameters ?? []).some((one) => one.name.toLowerCase() === 'studio-id'),
)
const bodyOf = (route: Route) => route.operation.requestBody?.content['application/json']

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
})
afterAll(() => pottery.close())

/** Whatever is wrong, the answer is a problem of RFC 9457 and says nothing of our insides. */
function expectProblem(answer: Answered): void {
  const { body } = answer
  expect(answer.contentType).toBe('application/problem+json')
  expect(body.status).toBe(answer.status)
  expect(body.type).toMatch(/^\/problems\/[a-z_]+$/)
  expect(body.instance).toBe(answer.headers.get('x-request-id'))
  expect(typeof body['title']).toBe('string')
  expect(typeof body.detail).toBe('string')
  expect(answer.text).not.toMatch(/zod|drizzle|postgres|select |insert |\.ts:|node_modules/i)
}

describe('the description', () => {
  test('there are routes, and each is told apart, grouped and summed up', () => {
    expect(routes.length).toBeGreaterThan(50)
    const ids = routes.map((route) => route.operation.operationId)
    expect(new Set(ids).size).toBe(routes.length)
    const bare = routes.filter(({ operation }) => !operation.summary || !operation.tags?.length)
    expect(bare.map((route) => route.name)).toEqual([])
  })

  test('every body is needed, and comes with an example', () => {
    expect(withBody.length).toBeGreaterThan(30)
    const bare = withBody.filter(
      (route) =>
        route.operation.requestBody?.required !== true || bodyOf(route)?.example === undefined,
    )
    expect(bare.map((route) => route.name)).toEqual([])
  })

  test('every field of every body says what it is', () => {
    const bare = withBody.flatMap((route) =>
      bareFields(bodyOf(route)?.schema ?? {}, route.name, new Set()),
    )
    expect(bare).toEqual([])
  })

  test('every body takes the fields that are described and no others', () => {
    const loose = withBody.filter((route) => {
      const schema = resolved(bodyOf(route)?.schema ?? {})
      return schema.additionalProperties !== false
    })
    expect(loose.map((route) => route.name)).toEqual([])
  })

  test('every parameter says what it is', () => {
    const bare = routes.flatMap((route) =>
      (route.operation.parameters ?? [])
        .filter((one) => !JSON.stringify(one).includes('"description"'))
        .map((one) => `${route.name}: ${one.name}`),
    )
    expect(bare).toEqual([])
  })

  test.each(named(withBody))('%s names every problem that it may answer', (_, route) => {
    const statuses = Object.keys(route.operation.responses)
    expect(statuses).toEqual(expect.arrayContaining(['400', '404', '413', '415', '422', '500']))
  })
})

function resolved(schema: Described): Described {
  const ref = schema.$ref ?? schema.allOf?.find((part) => part.$ref !== undefined)?.$ref
  return ref === undefined ? schema : (schemas[ref.split('/').at(-1) ?? ''] ?? {})
}

/** Fields without a word about them; a named schema that stands for itself is described by its fields. */
function bareFields(schema: Described, path: string, seen: Set<Described>): string[] {
  const whole = resolved(schema)
  if (seen.has(whole)) return []
  seen.add(whole)
  return Object.entries(whole.properties ?? {}).flatMap(([name, field]) => {
    const at = `${path}/${name}`
    const isNamed = field.$ref !== undefined
    const isBare = !JSON.stringify(field).includes('"description"') && !isNamed
    return [...(isBare ? [at] : []), ...bareFields(field.items ?? field, at, seen)]
  })
}

describe('what is asked wrongly', () => {
  test.each(named(withBody))('%s refuses a field that there is not', async (_, route) => {
    const answer = await pottery.ask(route.method, route.path, {
      body: { ...(bodyOf(route)?.example as object), notAField: 1 },
    })
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/notAField']))
    expectProblem(answer)
  })

  test.each(named(withBody))('%s refuses broken JSON', async (_, route) => {
    const answer = await pottery.ask(route.method, route.path, { raw: '{"a": ' })
    expect(problemIn(answer)).toEqual(problem(400, 'body_must_be_json'))
    expectProblem(answer)
  })

  test.each(named(withBody))('%s refuses JSON that is no object', async (_, route) => {
    for (const raw of ['null', '[]', '"text"', '1']) {
      const answer = await pottery.ask(route.method, route.path, { raw })
      expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#']))
      expectProblem(answer)
    }
  })

  test.each(named(withBody))('%s refuses another content type', async (_, route) => {
    const answer = await pottery.ask(route.method, route.path, {
      raw: '{}',
      headers: { 'Content-Type': 'text/plain' },
    })
    expect(problemIn(answer)).toEqual(problem(415, 'content_type_must_be_json'))
    expectProblem(answer)
  })

  test.each(named(withBody))('%s refuses a body over the limit', async (_, route) => {
    const answer = await pottery.ask(route.method, route.path, { raw: ' '.repeat(256 * 1024 + 1) })
    expect(problemIn(answer)).toEqual(problem(413, 'body_must_be_small'))
    expectProblem(answer)
  })

  test.each(named(withBody))('%s takes its own example for well-formed', async (_, route) => {
    const answer = await pottery.ask(route.method, route.path, { body: bodyOf(route)?.example })
    expect(answer.body.type).not.toBe('/problems/fields_must_be_right')
    expect(answer.status).not.toBe(500)
  })

  test.each(named(withStudio))('%s asks which studio is meant', async (_, route) => {
    const body = route.operation.requestBody === undefined ? {} : { body: bodyOf(route)?.example }
    const unnamed = await pottery.ask(route.method, route.path, { ...body, studio: null })
    expect(problemIn(unnamed)).toEqual(problem(400, 'studio_must_be_named'))
    const unknown = await pottery.ask(route.method, route.path, { ...body, studio: 'nowhere' })
    expect(problemIn(unknown)).toEqual(problem(404, 'studio_not_found'))
    expectProblem(unknown)
  })

  test.each(named(routes))('%s does not take another method', async (_, route) => {
    const answer = await pottery.ask('DELETE', route.path)
    expect(problemIn(answer)).toEqual(problem(405, 'method_must_be_allowed'))
    expect(answer.headers.get('allow')).toContain(route.method)
    expectProblem(answer)
  })

  test('an address that leads nowhere is told so, whatever the method', async () => {
    for (const method of ['GET', 'POST', 'DELETE']) {
      const answer = await pottery.ask(method, '/v1/nowhere', { studio: null })
      expect(problemIn(answer)).toEqual(problem(404, 'address_must_exist'))
      expectProblem(answer)
    }
  })
})

describe('the examples', () => {
  test.each(ALL_ACTS.map((act) => [act.name, act] as const))('that of %s holds', (_, act) => {
    expect(act.schema.safeParse(act.example).error?.issues ?? []).toEqual([])
  })
})

describe('the problems', () => {
  test.each(PROBLEM_CODES)('%s has a page that says what to do', async (code) => {
    const answer = await pottery.ask('GET', `/problems/${code}`, { studio: null })
    expect(answer.status).toBe(200)
    expect(answer.contentType).toContain('text/html')
    expect(answer.text).toContain('What to do')
    expect(PROBLEM_KINDS[code].whatToDo.length).toBeGreaterThan(20)
  })

  test('every refusal of the ledger is on the list, with its page', async () => {
    const { body } = await pottery.ask('GET', '/v1/refusals', { studio: null })
    const items = body['items'] as { code: string; page: string; status: number }[]
    expect(items.map((item) => item.code)).toEqual(expect.arrayContaining([...REFUSAL_CODES]))
    expect(items.every((item) => item.page === `/problems/${item.code}`)).toBe(true)
    expect(items.every((item) => item.status >= 400)).toBe(true)
  })

  test('the page of a problem that there is not is not there', async () => {
    const answer = await pottery.ask('GET', '/problems/clay_must_sing')
    expect(problemIn(answer)).toEqual(problem(404, 'address_must_exist'))
  })
})
