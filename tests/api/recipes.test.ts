import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openGlazePottery, RECIPE } from './glaze-pottery.ts'
import { openPottery, problem, problemIn, type Pottery } from './pottery.ts'

const CELADON = '/v1/materials/celadon/recipes'

interface RecipeBody {
  readonly versionNo: number
  readonly parts: readonly Record<string, unknown>[]
  readonly [field: string]: unknown
}

const itemsOf = (body: unknown) => (body as { items: RecipeBody[] }).items

describe('recipes of a glaze', () => {
  let pottery: Pottery
  beforeAll(async () => {
    pottery = await openGlazePottery()
  })
  afterAll(async () => {
    await pottery.close()
  })
  const post = (parts: unknown, path = CELADON) => pottery.ask('POST', path, { body: { parts } })

  test('tell what they come to, what burns off, what a dry gram costs and what they carry', async () => {
    const [recipe] = itemsOf((await pottery.ask('GET', CELADON)).body)
    expect(recipe).toMatchObject({
      versionNo: 1,
      baseParts: '100',
      additionParts: '0.5',
      isBaseOneHundred: true,
      // (60 × 0.005 + 10 × 0.44 + 0.5 × 0.1) / 100.5
      lossOnIgnitionFraction: '0.047264',
      grainGramsPerMillilitre: '2.6',
      // (60 × 45/25000 + 30 × 10/10000 + 10 × 12.34/9900 + 0.5 × 9.99/1000) / 100.5
      costPerDryGram: '0.001546862',
    })
    expect(recipe?.parts[1]).toMatchObject({
      ingredientId: 'silica',
      hazards: [{ hazard: 'silica', statement: 'H372' }],
    })
  })

  test('count up, the newest first, and earlier ones stay', async () => {
    const made = await post([{ ingredientId: 'feldspar', parts: '80' }])
    expect(made.status).toBe(201)
    expect(made.body).toMatchObject({ versionNo: 2, baseParts: '80', isBaseOneHundred: false })
    const items = itemsOf((await pottery.ask('GET', CELADON)).body)
    expect(items.map(({ versionNo }) => versionNo)).toEqual([2, 1])
    expect(items[1]?.parts).toHaveLength(RECIPE.length)
  })

  test('that are entered at once get numbers of their own', async () => {
    const all = await Promise.all(
      ['1', '2', '3', '4'].map((parts) =>
        post([{ ingredientId: 'feldspar', parts }], '/v1/materials/tenmoku/recipes'),
      ),
    )
    expect(all.map(({ status }) => status)).toEqual([201, 201, 201, 201])
    expect(all.map(({ body }) => body['versionNo']).sort()).toEqual([1, 2, 3, 4])
  })

  test('have no price where a powder is not there, and say which', async () => {
    const ask = { materialId: 'rutile', name: 'Rutile', kind: 'ingredient', keptBy: 'mass' }
    await pottery.ask('POST', '/v1/materials', { body: ask })
    const { body } = await post([
      { ingredientId: 'feldspar', parts: '90' },
      { ingredientId: 'rutile', parts: '10' },
    ])
    expect(body['costPerDryGram']).toBeNull()
    expect(body['costWords']).toContain('Rutile is not on the shelf')
  })

  test.each([
    [
      'one powder twice',
      [
        { ingredientId: 'feldspar', parts: '1' },
        { ingredientId: 'feldspar', parts: '2' },
      ],
      problem(422, 'fields_must_be_right', ['#/parts/1/ingredientId']),
    ],
    [
      'the glaze itself',
      [{ ingredientId: 'celadon', parts: '1' }],
      problem(422, 'material_must_be_of_the_kind', ['#/parts/0/ingredientId']),
    ],
    [
      'packaging',
      [
        { ingredientId: 'feldspar', parts: '1' },
        { ingredientId: 'carton', parts: '1' },
      ],
      problem(422, 'material_must_be_of_the_kind', ['#/parts/1/ingredientId']),
    ],
    [
      'what is not there',
      [{ ingredientId: 'unobtainium', parts: '1' }],
      problem(404, 'material_not_found', ['#/parts/0/ingredientId']),
    ],
    [
      'no parts of it',
      [{ ingredientId: 'feldspar', parts: '0' }],
      problem(422, 'fields_must_be_right', ['#/parts/0/parts']),
    ],
  ])('take no %s', async (_, parts, refused) => {
    expect(problemIn(await post(parts))).toEqual(refused)
  })

  test('are of glazes of this studio only', async () => {
    const parts = [{ ingredientId: 'feldspar', parts: '1' }]
    expect((await post(parts, '/v1/materials/feldspar/recipes')).status).toBe(422)
    expect((await post(parts, '/v1/materials/nowhere/recipes')).status).toBe(404)
    const next = await pottery.ask('GET', CELADON, { studio: 'quay-side' })
    expect(next.status).toBe(404)
  })
})

describe('what to weigh out', () => {
  let pottery: Pottery
  beforeAll(async () => {
    pottery = await openGlazePottery()
  })
  afterAll(async () => {
    await pottery.close()
  })
  const batch = (query: string) => pottery.ask('GET', `/v1/materials/celadon/batch?${query}`)

  test('for so much dry glaze: each powder dry and as supplied, water, cost, and what is missing', async () => {
    const { status, body } = await batch('dryGrams=10050&gramsPerMillilitre=1.45')
    expect(status).toBe(200)
    expect(body).toMatchObject({ versionNo: 1, dryGrams: '10050', isEnough: true, forRuns: null })
    const lines = body['ingredients'] as Record<string, string>[]
    expect(lines.map(({ dryGrams }) => dryGrams)).toEqual(['6000', '3000', '1000', '50'])
    expect(lines.map(({ cost }) => cost)).toEqual(['10.8', '3', '1.246465', '0.4995'])
    expect(body['cost']).toBe('15.545965')
    expect(Number(body['waterToAddGrams'])).toBeCloseTo(Number(body['waterGrams']), 6)
  })

  test('says what the shelf has too little of', async () => {
    const { body } = await batch('dryGrams=50250')
    expect(body).toMatchObject({ isEnough: false })
    const lines = body['ingredients'] as Record<string, unknown>[]
    expect(lines[1]).toMatchObject({ haveDryGrams: '10000', missingDryGrams: '5000' })
    expect(body['words']).toContain('Potash feldspar, Flint')
  })

  test('of so many millilitres: half of the weight at 1.45', async () => {
    const { body } = await batch('millilitres=10000&gramsPerMillilitre=1.45')
    expect(body['slurryGrams']).toBe('14500')
    expect(Number(body['dryGrams']) / 14500).toBeCloseTo(0.5058, 3)
  })

  test('for runs that wait, less what the bucket has', async () => {
    expect(problemIn(await batch('runIds=jugs'))).toEqual(
      problem(422, 'glaze_per_piece_must_be_known', ['#/runIds']),
    )
    const told = await pottery.ask('PATCH', '/v1/forms/jug', { body: { glazeGramsPerPiece: '80' } })
    expect(told.status).toBe(200)
    const { body } = await batch('runIds=jugs&carriedOffFraction=0.025')
    expect(body['forRuns']).toMatchObject({
      onPotsDryGrams: '1280',
      neededDryGrams: '1312',
      toMakeDryGrams: '1312',
      runs: [{ runId: 'jugs', formId: 'jug', pieces: '16', dryGramsPerPiece: '80' }],
    })
    await pottery.does('mix-glaze', {
      glazeId: 'celadon',
      vesselId: 'bucket-3',
      dryGrams: '1000',
    })
    const less = await batch('runIds=jugs&carriedOffFraction=0.025&vesselId=bucket-3')
    expect(less.body).toMatchObject({ dryGrams: '312' })
  })

  test.each([
    ['', 'dryGrams'],
    ['dryGrams=1&millilitres=1', 'millilitres'],
    ['dryGrams=1&vesselId=bucket-1', 'vesselId'],
    ['runIds=jugs,jugs', 'runIds'],
    ['dryGrams=1,5', 'dryGrams'],
  ])('asked as ?%s, names the parameter %s', async (query, parameter) => {
    expect(problemIn(await batch(query))).toEqual(problem(422, 'fields_must_be_right', [parameter]))
  })

  test('by a version that there is', async () => {
    expect(problemIn(await batch('dryGrams=1&versionNo=7'))).toEqual(
      problem(404, 'glaze_recipe_not_found', ['#/versionNo']),
    )
  })
})

test('a studio without glaze has no buckets', async () => {
  const pottery = await openPottery()
  const { body } = await pottery.ask('GET', '/v1/reports/glaze-buckets')
  expect(body).toEqual({ studioId: 'mill-lane', items: [] })
  await pottery.close()
})
