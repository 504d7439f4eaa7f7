import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import { bucketOf, jugOf, mixCeladon, glazeBooks, openGlazePottery } from './glaze-pottery.ts'
import { problem, problemIn, type Body, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeEach(async () => {
  pottery = await openGlazePottery()
})
afterEach(async () => {
  await pottery.close()
})

const act = (name: string, body: unknown, query = '') =>
  pottery.ask('POST', `/v1/acts/${name}${query}`, { body })
const refusedAs = async (name: string, body: unknown) => problemIn(await act(name, body))
const madeOf = (body: Body) => body['made'] as Record<string, string> & { words: string[] }
const { held, bucket, gone } = glazeBooks(() => pottery)

describe('a batch', () => {
  test('by the recipe takes powders off the shelf with their cost, to the last unit', async () => {
    await pottery.does('mix-glaze', {
      ...{ glazeId: 'celadon', vesselId: 'bucket-3', dryGrams: '10050' },
      waterVolume: { value: '10', unit: 'l' },
    })
    expect(await bucket()).toMatchObject({
      materialGrams: '10050',
      cost: '15.545965',
      costLayers: { glaze: '15.545965' },
      // 10 l at 20 °C and what the damp whiting brings.
      waterGrams: '9992.168466',
    })
    expect(await held({ place: 'materials', materialId: 'feldspar' })).toMatchObject({
      materialGrams: '19000',
      cost: '34.2',
    })
  })

  test('as weighed is what was weighed, and says how it differs', async () => {
    const answer = await act('mix-glaze', {
      ...{ glazeId: 'celadon', vesselId: 'bucket-3' },
      ingredients: [
        { ingredientId: 'feldspar', reading: { net: g('6000') } },
        { ingredientId: 'silica', reading: { net: g('3000') } },
        { ingredientId: 'whiting', reading: { net: g('2000') } },
      ],
    })
    expect(answer.status).toBe(201)
    expect(madeOf(answer.body).words).toEqual([
      'Potash feldspar is 54.6 % of this batch; the recipe has 59.7 %.',
      'Flint is 27.3 % of this batch; the recipe has 29.9 %.',
      'Whiting is 18.0 % of this batch; the recipe has 10.0 %.',
      'Manganese dioxide was left out; the recipe has 0.5 % of it.',
    ])
    // The whiting is as damp as it lies there: 1 %.
    expect(await bucket()).toMatchObject({ materialGrams: '10980', waterGrams: '20' })
  })

  test('shows before the press what its powders carry', async () => {
    const said = { glazeId: 'celadon', vesselId: 'bucket-3', dryGrams: '1000' }
    const { status, body } = await act('mix-glaze', said, '?preview=true')
    expect(status).toBe(200)
    const cautions = body['cautions'] as { title?: string; why: string }[]
    expect(cautions.some(({ title }) => title === 'Manganese')).toBe(true)
    expect(cautions.some(({ why }) => why.includes('Dust rises from dry work'))).toBe(true)
    expect(await pottery.entries()).toBe(5)
  })

  test('is refused where it cannot be, at its field', async () => {
    const said = { glazeId: 'celadon', vesselId: 'bucket-3' }
    expect(await refusedAs('mix-glaze', { ...said, dryGrams: '60000' })).toEqual(
      problem(409, 'material_must_be_enough', ['#/dryGrams']),
    )
    expect(await refusedAs('mix-glaze', { ...said, dryGrams: '1', versionNo: 9 })).toEqual(
      problem(404, 'glaze_recipe_not_found', ['#/versionNo']),
    )
    expect(await refusedAs('mix-glaze', { ...said, glazeId: 'tenmoku', dryGrams: '1' })).toEqual(
      problem(404, 'glaze_recipe_not_found', ['#/glazeId']),
    )
    expect(await refusedAs('mix-glaze', { ...said, glazeId: 'feldspar', dryGrams: '1' })).toEqual(
      problem(422, 'material_must_be_of_the_kind', ['#/glazeId']),
    )
    expect(await refusedAs('mix-glaze', said)).toMatchObject({ status: 422 })
    const much = { ingredientId: 'whiting', reading: { net: g('10001') } }
    expect(await refusedAs('mix-glaze', { ...said, ingredients: [much] })).toEqual(
      problem(409, 'material_must_be_enough', ['#/ingredients/0/reading']),
    )
    const box = { ingredientId: 'carton', reading: { net: g('1') } }
    expect(await refusedAs('mix-glaze', { ...said, ingredients: [box] })).toEqual(
      problem(422, 'material_must_be_of_the_kind', ['#/ingredients/0/ingredientId']),
    )
    await mixCeladon(pottery)
    await act('mix-glaze', { ...said, glazeId: 'tenmoku', ingredients: [] })
    const other = {
      ...{ glazeId: 'tenmoku', vesselId: 'bucket-3' },
      ingredients: [{ ingredientId: 'silica', reading: { net: g('1') } }],
    }
    expect(await refusedAs('mix-glaze', other)).toEqual(
      problem(422, 'bodies_must_not_mix_unless_declared', ['#/vesselId']),
    )
  })
})

describe('a bucket', () => {
  beforeEach(() => mixCeladon(pottery))

  test('that is read is set by the reading, and the difference shows', async () => {
    const { differences } = await pottery.does('read-glaze', {
      vesselId: 'bucket-3',
      ...bucketOf('18.60'),
    })
    const left = await bucket()
    expect(Number(left.materialGrams)).toBeCloseTo(9380.4, 0)
    expect(differences).toHaveLength(1)
    const lost = await gone('unexplained')
    expect(Number(lost.materialGrams) + Number(left.materialGrams)).toBeCloseTo(9400, 6)
  })

  test('of which a jug alone is read moves nothing, and remembers its density', async () => {
    const before = await bucket()
    const { made } = await pottery.does('read-glaze', {
      ...{ vesselId: 'bucket-3', density: jugOf('1440') },
    })
    expect(made).toMatchObject({ gramsPerMillilitre: '1.44' })
    expect(await bucket()).toMatchObject({
      materialGrams: before.materialGrams,
      waterGrams: before.waterGrams,
    })
    const { body } = await pottery.ask('GET', '/v1/reports/glaze-buckets')
    const [row] = body['items'] as Record<string, unknown>[]
    expect(row).toMatchObject({
      ...{ vesselId: 'bucket-3', materialId: 'celadon', dryGrams: '9400' },
      lastRead: { gramsPerMillilitre: '1.44' },
      covers: [],
    })
  })

  test('says how many more pots of each form it covers', async () => {
    await pottery.ask('PATCH', '/v1/forms/jug', { body: { glazeGramsPerPiece: '80' } })
    const { body } = await pottery.ask('GET', '/v1/reports/glaze-buckets')
    const [row] = body['items'] as { covers: Record<string, string>[] }[]
    // 9400 / (80 × 1.05), and a said figure is within a quarter.
    expect(row?.covers).toMatchObject([{ formId: 'jug', pieces: '111', dryGramsPerPiece: '80' }])
    expect(Number(row?.covers[0]?.['piecesFrom'])).toBeLessThan(70)
    const csv = await pottery.ask('GET', '/v1/reports/glaze-buckets?format=csv')
    expect(csv.text).toContain('jug 111')
  })

  test('is thinned from the tap, and thickened by drawing water off', async () => {
    const before = await bucket()
    await pottery.does('water-glaze', { vesselId: 'bucket-3', water: g('500') })
    const thin = await bucket()
    expect(thin.waterGrams).toBe((Number(before.waterGrams) + 500).toFixed(6))
    await pottery.does('water-glaze', {
      ...{ vesselId: 'bucket-3', takenOff: { net: g('1000') }, clarity: 'cloudy' },
    })
    const after = await bucket()
    expect(after).toMatchObject({ materialGrams: '9370' })
    expect(Number(thin.waterGrams) - Number(after.waterGrams)).toBeCloseTo(970, 6)
  })

  test('loses glaze with its cost, and says where it must not go', async () => {
    const before = await bucket()
    const answer = await act('lose-glaze', { vesselId: 'bucket-3', why: 'sieve', dryGrams: '94' })
    expect(madeOf(answer.body).words[0]).toContain('neither into clay reclaim nor down the drain')
    const waste = await gone('waste')
    expect(waste.materialGrams).toBe('94')
    expect(Number(waste.cost)).toBeCloseTo(Number(before.cost) / 100, 6)
    await pottery.does('lose-glaze', { vesselId: 'bucket-3', why: 'thrown_away', whatIsLeft: true })
    const left = await bucket()
    expect([left.materialGrams, left.waterGrams, left.cost].map(Number)).toEqual([0, 0, 0])
  })

  test.each<[string, string, [object, ReturnType<typeof problem>]]>([
    [
      'lose-glaze',
      'more than there is',
      [{ why: 'spilt', dryGrams: '9401' }, problem(409, 'material_must_be_enough', ['#/dryGrams'])],
    ],
    [
      'lose-glaze',
      'more than there is, wet',
      [
        { why: 'spilt', reading: { net: kg('30') } },
        problem(409, 'material_must_be_enough', ['#/reading']),
      ],
    ],
    [
      'water-glaze',
      'more water than there is',
      [{ takenOff: { net: kg('15') } }, problem(409, 'water_must_be_enough', ['#/takenOff'])],
    ],
    [
      'water-glaze',
      'clarity of tap water',
      [{ water: g('1'), clarity: 'clear' }, problem(422, 'fields_must_be_right', ['#/clarity'])],
    ],
    [
      'water-glaze',
      'an empty bucket',
      [
        { vesselId: 'bucket-1', water: g('1') },
        problem(409, 'material_must_be_enough', ['#/vesselId']),
      ],
    ],
    [
      'read-glaze',
      'a bucket that is not there',
      [
        { vesselId: 'nowhere', density: jugOf('1450') },
        problem(404, 'vessel_not_found', ['#/vesselId']),
      ],
    ],
    [
      'read-glaze',
      'a jug heavier than its grains',
      [
        { density: jugOf('2700') },
        problem(422, 'density_must_be_below_solids', ['#/density/slurry']),
      ],
    ],
  ])('%s refuses %s', async (name, _, [said, refused]) => {
    expect(await refusedAs(name, { vesselId: 'bucket-3', ...said })).toEqual(refused)
  })
})
