import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { NEIGHBOUR, openPottery, problem, problemIn, type Pottery } from './pottery.ts'

/** One row a resource: what may be said of it, what of that changes, and what it then is. */
const RESOURCES = [
  {
    path: 'bodies',
    idName: 'bodyId',
    said: { name: 'Red earthenware', lossOnIgnitionFraction: '0.0925', isBlend: false },
    usually: { grainGramsPerMillilitre: '2.6', moisture: {}, dustThresholdWetBasis: null },
    change: {
      moisture: { wedged: { waterContentWetBasis: '0.23', standardUncertainty: '0.01' } },
      dustThresholdWetBasis: '0.06',
    },
    wrong: { lossOnIgnitionFraction: '1' },
    pointer: '#/lossOnIgnitionFraction',
    existing: 'buff',
    notFound: 'body_not_found',
  },
  {
    path: 'forms',
    idName: 'formId',
    said: { name: 'Bowl', ballGrams: '850.5', price: '32.50' },
    usually: { turnedOffFraction: null, kilnHeightCentimetres: null, packing: [] },
    change: { price: null, turnedOffFraction: '0.125', glazeGramsPerPiece: '52' },
    wrong: { price: '1.0000001' },
    pointer: '#/price',
    existing: 'mug',
    notFound: 'form_not_found',
  },
  {
    path: 'vessels',
    idName: 'vesselId',
    said: { name: 'Yellow bucket', kind: 'bucket', tareGrams: '0' },
    usually: {},
    change: { tareGrams: '512.5' },
    wrong: { tareGrams: '-1' },
    pointer: '#/tareGrams',
    existing: 'bucket-1',
    notFound: 'vessel_not_found',
  },
  {
    path: 'scales',
    idName: 'scaleId',
    said: { name: 'Floor scale', divisionGrams: '50', capacityGrams: '150000' },
    usually: {},
    change: { divisionGrams: '20' },
    wrong: { divisionGrams: '0' },
    pointer: '#/divisionGrams',
    existing: 'bench',
    notFound: 'scale_not_found',
  },
  {
    path: 'bats',
    idName: 'batId',
    said: { name: 'Round bat', dryGrams: '8100', thicknessMillimetres: '45' },
    usually: { lengthMillimetres: null, widthMillimetres: null },
    change: { dryGrams: '8090' },
    wrong: { thicknessMillimetres: '0' },
    pointer: '#/thicknessMillimetres',
    existing: 'bat-a',
    notFound: 'bat_not_found',
  },
  {
    path: 'materials',
    idName: 'materialId',
    said: {
      name: 'Flint, fine',
      kind: 'ingredient',
      keptBy: 'mass',
      hazards: [{ hazard: 'silica', statement: 'H372', percentage: '99.5' }],
      packSize: '25000',
    },
    usually: {
      ...{ supplier: null, crystallineSilicaFraction: null, dataSheetOn: null, reorderPoint: null },
      ...{ waterContentWetBasis: '0', lossOnIgnitionFraction: '0', grainGramsPerMillilitre: '2.6' },
      priceSteps: [],
    },
    change: {
      dataSheetOn: '2026-03-14',
      waterContentWetBasis: '0.005',
      priceSteps: [
        { atLeast: '25', pricePerUnit: '1.1234' },
        { atLeast: '100', pricePerUnit: '0.98' },
      ],
    },
    wrong: {
      priceSteps: [
        { atLeast: '25', pricePerUnit: '1.12' },
        { atLeast: '25', pricePerUnit: '0.98' },
      ],
    },
    pointer: '#/priceSteps/1/atLeast',
    existing: 'whiting',
    notFound: 'material_not_found',
  },
  {
    path: 'kilns',
    idName: 'kilnId',
    said: { name: 'Front loader', volumeLitres: '198', ratedKilowatts: '11.5' },
    usually: {
      ...{ usableFraction: '0.6', shareBy: 'shelf_space', wearPerFiring: '0' },
      ...{ pricePerKilowattHour: null, bisqueHours: null, glazeHours: null, fuelMaterialId: null },
    },
    change: { pricePerKilowattHour: '0.2831', shareBy: 'mass' },
    wrong: { usableFraction: '1.1' },
    pointer: '#/usableFraction',
    existing: 'old-kiln',
    notFound: 'kiln_not_found',
  },
] as const

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
