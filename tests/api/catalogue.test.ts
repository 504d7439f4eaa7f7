import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { RESOURCES } from './catalogue-resources.ts'
import { NEIGHBOUR, openPottery, problem, problemIn, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  const body = { materialId: 'whiting', name: 'Whiting', kind: 'ingredient', keptBy: 'mass' }
  await pottery.ask('POST', '/v1/materials', { body })
  await pottery.ask('POST', '/v1/kilns', { body: { kilnId: 'old-kiln', name: 'Old kiln' } })
})
afterAll(() => pottery.close())

describe.each(RESOURCES)('/v1/$path', (resource) => {
  const { path, idName, said, usually, change, wrong, pointer, existing, notFound } = resource
  const base = `/v1/${path}`
  const post = (body: unknown) => pottery.ask('POST', base, { body })

  test('enters one under the id that was given, and tells where it is', async () => {
    const answer = await post({ [idName]: 'new-one', ...said })
    expect(answer.status).toBe(201)
    expect(answer.headers.get('location')).toBe(`${base}/new-one`)
    const read = await pottery.ask('GET', `${base}/new-one`)
    expect(read.status).toBe(200)
    expect(read.body).toEqual(answer.body)
    expect(read.body).toMatchObject({ [idName]: 'new-one', ...said, ...usually })
    expect(read.body).not.toHaveProperty('studioId')
  })

  test('makes an id where none is given', async () => {
    const answer = await post({ ...said, name: 'without an id' })
    expect(answer.status).toBe(201)
    expect(answer.body[idName]).toMatch(/^id-\d+$/)
  })

  test('changes what is named, and nothing else', async () => {
    const answer = await pottery.ask('PATCH', `${base}/new-one`, { body: change })
    expect(answer.status).toBe(200)
    expect(answer.body).toMatchObject({ ...said, ...usually, ...change })
  })

  test('remembers what it was', async () => {
    const { body } = await pottery.ask('GET', `${base}/new-one/history`)
    const versions = body['items'] as { versionNo: number; facts: object }[]
    expect(versions.map((version) => version.versionNo)).toEqual([1, 2])
    expect(versions[0]?.facts).toMatchObject({ ...said, ...usually })
    expect(versions[1]?.facts).toMatchObject(change)
  })

  test('lists all of them once, page by page', async () => {
    const whole = await pottery.ask('GET', base)
    const ids = (whole.body['items'] as Record<string, string>[]).map((item) => item[idName])
    expect(whole.body['nextCursor']).toBeNull()
    const found: unknown[] = []
    let cursor: unknown = undefined
    for (let pages = 0; cursor !== null && pages < 20; pages += 1) {
      const query = cursor === undefined ? '?limit=1' : `?limit=1&cursor=${String(cursor)}`
      const { body } = await pottery.ask('GET', `${base}${query}`)
      found.push(...(body['items'] as Record<string, string>[]).map((item) => item[idName]))
      cursor = body['nextCursor']
    }
    expect(found).toEqual(ids)
    expect(found).toContain('new-one')
  })

  test('refuses what cannot be', async () => {
    const answer = await post({ ...said, ...wrong, name: 'wrong' })
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', [pointer]))
    const change = await pottery.ask('PATCH', `${base}/${existing}`, { body: wrong })
    expect(problemIn(change)).toEqual(problem(422, 'fields_must_be_right', [pointer]))
  })

  test('refuses a change of nothing, of its id, and of its name to nothing', async () => {
    const at = `${base}/${existing}`
    for (const [body, where] of [
      [{}, '#'],
      [{ [idName]: 'other' }, `#/${idName}`],
      [{ name: '  ' }, '#/name'],
      [{ name: null }, '#/name'],
    ] as const) {
      const answer = await pottery.ask('PATCH', at, { body })
      expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', [where]))
    }
  })

  test('refuses a name and an id that are taken', async () => {
    const sameName = await post(said)
    expect(problemIn(sameName)).toEqual(problem(409, 'name_must_be_new', ['#/name']))
    expect(sameName.body.detail).toContain(`'${said.name}'`)
    const sameId = await post({ [idName]: 'new-one', ...said, name: 'another name' })
    expect(problemIn(sameId)).toEqual(problem(409, 'name_must_be_new', [`#/${idName}`]))
    expect(sameId.body.detail).toContain("'new-one'")
    const renamed = await pottery.ask('PATCH', `${base}/${existing}`, { body: { name: said.name } })
    expect(problemIn(renamed)).toEqual(problem(409, 'name_must_be_new', ['#/name']))
  })

  test('has none of another studio’s', async () => {
    for (const [method, at, body] of [
      ['GET', `${base}/new-one`, undefined],
      ['GET', `${base}/new-one/history`, undefined],
      ['PATCH', `${base}/new-one`, change],
    ] as const) {
      const answer = await pottery.ask(method, at, { studio: NEIGHBOUR, body })
      expect(problemIn(answer)).toEqual(problem(404, notFound))
    }
    const { text } = await pottery.ask('GET', base, { studio: NEIGHBOUR })
    expect(text).not.toContain('new-one')
    const theirs = await pottery.ask('POST', base, {
      studio: NEIGHBOUR,
      body: { [idName]: 'new-one', ...said },
    })
    expect(theirs.status).toBe(201)
  })

  test('asks for a page of a size that there is, and for a cursor that it gave', async () => {
    for (const [query, parameter] of [
      ['limit=0', 'limit'],
      ['limit=201', 'limit'],
      ['limit=ten', 'limit'],
      ['cursor=%00', 'cursor'],
      ['cursor=AAAA', 'cursor'],
      ['page=2', 'page'],
    ]) {
      const answer = await pottery.ask('GET', `${base}?${String(query)}`)
      expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', [String(parameter)]))
    }
  })
})

test('a scale whose step exceeds what it carries is refused', async () => {
  const answer = await pottery.ask('POST', '/v1/scales', {
    body: { name: 'Exchanged', divisionGrams: '6000', capacityGrams: '5' },
  })
  expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/divisionGrams']))
})

test('a scale whose step is no number is told so', async () => {
  const answer = await pottery.ask('POST', '/v1/scales', {
    body: { name: 'Wordy', divisionGrams: 'five', capacityGrams: '30000' },
  })
  expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/divisionGrams']))
})
