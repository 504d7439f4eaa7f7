import { and, eq } from 'drizzle-orm'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { glazing, holding, line } from '../../db/schema.ts'
import { decimal } from '../../shared/decimal.ts'
import { g, kg } from '../support/studio.ts'
import { bucketOf, jugOf, mixCeladon, openGlazePottery } from './glaze-pottery.ts'
import { problem, problemIn, STUDIO, type Body, type Pottery } from './pottery.ts'

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

async function held(where: Partial<typeof holding.$inferSelect>) {
  const same = Object.entries(where).map(([column, value]) =>
    eq(holding[column as 'place'], value as string),
  )
  const [row] = await pottery.db
    .select()
    .from(holding)
    .where(and(eq(holding.studioId, STUDIO), ...same))
  if (row === undefined) throw new Error('there is no such holding')
  return row
}
/** What has gone to a place outside, which keeps no balance. */
async function gone(place: string) {
  const { holdingId } = await held({ place, materialId: 'celadon' })
  const rows = await pottery.db.select().from(line).where(eq(line.holdingId, holdingId))
  const sumOf = (column: 'materialGrams' | 'cost') =>
    rows.reduce((sum, row) => sum.plus(row[column]), decimal(0)).toFixed()
  return { materialGrams: sumOf('materialGrams'), cost: sumOf('cost') }
}
const bucket = () => held({ place: 'glaze_bucket', vesselId: 'bucket-3' })
const bisque = (runId: string) => held({ place: 'bisque', runId })

/** Sixteen jugs on which glaze from bucket-3 lands. */
const JUGS = { glazeId: 'celadon', vesselId: 'bucket-3', runs: [{ runId: 'jugs' }] }
const BY_BUCKET = { before: bucketOf('18.60'), after: bucketOf('16.00') }
const BY_POTS = { before: { net: kg('15.20') }, after: { net: kg('16.48') } }

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

describe('the worked day', () => {
  beforeEach(() => mixCeladon(pottery))

  test('by bucket and pots: 1.311 kg left, 80 g on each jug, 0.031 kg to the wash', async () => {
    const answer = await act('glaze', { ...JUGS, bucket: BY_BUCKET, pots: BY_POTS })
    expect(answer.status, answer.text).toBe(201)
    const made = madeOf(answer.body)
    expect(made).toMatchObject({ how: 'pieces', dryGrams: '1280' })
    expect(Number(made['carriedOffDryGrams'])).toBeCloseTo(31.2, 0)
    expect(await bisque('jugs')).toMatchObject({
      dryGrams: '15200',
      materialGrams: '1280',
      waterGrams: '0',
      pieces: '16',
    })
    const waste = await gone('waste')
    expect(waste.materialGrams).toBe(made['carriedOffDryGrams'])
    const left = await bucket()
    expect(Number(left.materialGrams)).toBeCloseTo(16000 * 0.50432, -1)
    expect(Number(left.materialGrams) + Number(left.waterGrams)).toBe(16000)
  })

  test('moves the glaze’s cost with it, to the last unit, in its own layer', async () => {
    const before = await bucket()
    await pottery.does('glaze', { ...JUGS, pots: BY_POTS })
    const [jugs, left] = [await bisque('jugs'), await bucket()]
    const onJugs = (jugs.costLayers as { glaze: string }).glaze
    // 1280 / 9400 of what the batch cost.
    expect(Number(onJugs)).toBeCloseTo((Number(before.cost) * 1280) / 9400, 6)
    expect(Number(onJugs) + Number(left.cost)).toBeCloseTo(Number(before.cost), 9)
    expect(jugs.cost).toBe((16 + Number(onJugs)).toFixed(6))
  })

  test('by the bucket alone all that left it is on the jugs, and one jug for both readings is surer', async () => {
    await pottery.does('glaze', { ...JUGS, bucket: BY_BUCKET })
    const [row] = await pottery.db.select().from(glazing)
    expect(row).toMatchObject({ how: 'bucket', pieces: 16, runId: 'jugs' })
    expect(Number(row?.dryGrams)).toBeCloseTo(1311, 0)
    // Two jugs, each filled by itself, would leave some 275 g.
    expect(Number(row?.standardUncertaintyGrams)).toBeLessThan(50)
    expect(Number(row?.lossOnIgnitionFraction)).toBeCloseTo(0.047264, 6)
  })

  test('by the bucket less what was said to be washed off', async () => {
    const answer = await act('glaze', {
      ...JUGS,
      bucket: { ...BY_BUCKET, washedOffDryGrams: '31' },
    })
    expect(Number(madeOf(answer.body)['dryGrams'])).toBeCloseTo(1280, 0)
    expect(await gone('waste')).toMatchObject({
      materialGrams: '31',
    })
  })

  test('by two jugs of their own, as unsure as two jugs are', async () => {
    const two = {
      ...bucketOf('16.00'),
      density: jugOf('725', { volume: { value: '500', unit: 'ml' } }),
    }
    await pottery.does('glaze', { ...JUGS, bucket: { before: bucketOf('18.60'), after: two } })
    const [row] = await pottery.db.select().from(glazing)
    expect(Number(row?.standardUncertaintyGrams)).toBeGreaterThan(200)
  })
})

describe('pots that are glazed', () => {
  beforeEach(() => mixCeladon(pottery))

  test('together share what left by the weight of the pots, until their forms are known', async () => {
    const runs = [{ runId: 'jugs' }, { runId: 'mugs' }]
    const pots = { after: { net: kg('19.66') } }
    const { body } = await act('glaze', { ...JUGS, runs, pots })
    const made = body['made'] as { dryGramsByRun: string[]; dryGrams: string; words: string[] }
    // 18.20 kg of pots by the books; 1.46 kg of glaze as 15.2 to 3.0.
    expect(made.dryGrams).toBe('1460')
    expect(made.dryGramsByRun).toEqual(['1219.340659', '240.659341'])
    expect(made.words).toContain('Shared by the weight of the pots.')
    expect(await bisque('mugs')).toMatchObject({ materialGrams: '240.659341' })
  })

  test('as usual take what was learned of their form', async () => {
    expect(await refusedAs('glaze', { ...JUGS, usual: true })).toEqual(
      problem(422, 'glaze_per_piece_must_be_known', ['#/runs/0/runId']),
    )
    const half = [{ runId: 'jugs', pieces: 8 }]
    await pottery.does('glaze', { ...JUGS, runs: half, pots: { after: { net: kg('8.24') } } })
    await pottery.does('glaze', { ...JUGS, runs: half, usual: true })
    // The coat of each half is on the run: twice 8 × 80 g.
    expect(await bisque('jugs')).toMatchObject({ materialGrams: '1280', pieces: '16' })
  })

  test('twice carry both coats', async () => {
    await pottery.does('glaze', { ...JUGS, pots: BY_POTS })
    await pottery.does('glaze', { ...JUGS, pots: { after: { net: kg('16.80') } } })
    expect(await bisque('jugs')).toMatchObject({ materialGrams: '1600' })
  })

  test('weigh their glaze too: such a reading moves no clay', async () => {
    await pottery.does('glaze', { ...JUGS, pots: BY_POTS })
    await pottery.does('weigh-run', {
      ...{ runId: 'jugs', place: 'bisque' },
      reading: { net: kg('16.50') },
    })
    const { holdingId } = await bisque('jugs')
    await pottery.does('count', { holdingId, reading: { net: kg('16.50') } })
    expect(await bisque('jugs')).toMatchObject({ dryGrams: '15200', materialGrams: '1280' })
  })

  test('and counted keep glaze and layers in proportion', async () => {
    await pottery.does('glaze', { ...JUGS, pots: BY_POTS })
    const before = await bisque('jugs')
    await pottery.does('count', { holdingId: before.holdingId, pieces: 18 })
    const after = await bisque('jugs')
    expect(after).toMatchObject({ pieces: '18', dryGrams: '17100', materialGrams: '1440' })
    const glazeIn = (row: typeof before) => Number((row.costLayers as { glaze: string }).glaze)
    expect(glazeIn(after)).toBeCloseTo((glazeIn(before) * 18) / 16, 5)
  })

  test('can be taken back, and teach nothing then', async () => {
    const { entry } = await pottery.does('glaze', { ...JUGS, pots: BY_POTS })
    const { entryId } = entry as { entryId: string }
    const back = await act('correct', { entryId })
    expect(back.status, back.text).toBe(201)
    expect(await bisque('jugs')).toMatchObject({ materialGrams: '0', costLayers: {} })
    expect((await act('glaze', { ...JUGS, usual: true })).status).toBe(422)
  })

  test.each([
    [
      'the bucket holds more than before',
      { bucket: { before: bucketOf('16.00'), after: bucketOf('18.60') } },
      problem(422, 'parts_must_not_exceed_the_whole', ['#/bucket/after']),
    ],
    [
      'more was washed off than left',
      { bucket: { ...BY_BUCKET, washedOffDryGrams: '2000' } },
      problem(422, 'parts_must_not_exceed_the_whole', ['#/bucket/washedOffDryGrams']),
    ],
    [
      'more is on the pots than left the bucket',
      { bucket: BY_BUCKET, pots: { before: { net: kg('15.20') }, after: { net: kg('18.20') } } },
      problem(422, 'parts_must_not_exceed_the_whole', ['#/pots/after']),
    ],
    [
      'the pots are lighter with glaze',
      { pots: { before: { net: kg('15.20') }, after: { net: kg('15.00') } } },
      problem(422, 'reading_must_not_be_below_known_dry', ['#/pots/after']),
    ],
    [
      'the bucket never held so much',
      { pots: { before: { net: kg('15.20') }, after: { net: kg('25.00') } } },
      problem(409, 'material_must_be_enough', ['#/pots/after']),
    ],
    ['nothing says how much', {}, problem(422, 'fields_must_be_right', ['#'])],
    [
      'it was weighed and is usual',
      { pots: BY_POTS, usual: true },
      problem(422, 'fields_must_be_right', ['#/usual']),
    ],
    [
      'there are not so many',
      { usual: true, runs: [{ runId: 'jugs', pieces: 17 }] },
      problem(409, 'stage_must_hold_the_pieces', ['#/runs/0/pieces']),
    ],
    [
      'they are green',
      { usual: true, runs: [{ runId: 'green' }] },
      problem(409, 'stage_must_hold_the_pieces', ['#/runs/0/runId']),
    ],
    [
      'a run is named twice',
      { usual: true, runs: [{ runId: 'jugs' }, { runId: 'jugs' }] },
      problem(422, 'fields_must_be_right', ['#/runs/1/runId']),
    ],
    [
      'the bucket holds another glaze',
      { usual: true, glazeId: 'tenmoku' },
      problem(409, 'material_must_be_enough', ['#/vesselId']),
    ],
    [
      'the jug is lighter than water',
      { bucket: { after: bucketOf('16.00', '900') } },
      problem(422, 'density_must_exceed_water', ['#/bucket/after/density/slurry']),
    ],
  ])('are refused where %s', async (_, said, refused) => {
    expect(await refusedAs('glaze', { ...JUGS, ...said })).toEqual(refused)
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
    expect(await bucket()).toMatchObject({ materialGrams: '0', waterGrams: '0', cost: '0' })
  })

  test.each<[string, string, object, ReturnType<typeof problem>]>([
    [
      'lose-glaze',
      'more than there is',
      { why: 'spilt', dryGrams: '9401' },
      problem(409, 'material_must_be_enough', ['#/dryGrams']),
    ],
    [
      'lose-glaze',
      'more than there is, wet',
      { why: 'spilt', reading: { net: kg('30') } },
      problem(409, 'material_must_be_enough', ['#/reading']),
    ],
    [
      'water-glaze',
      'more water than there is',
      { takenOff: { net: kg('15') } },
      problem(409, 'water_must_be_enough', ['#/takenOff']),
    ],
    [
      'water-glaze',
      'clarity of tap water',
      { water: g('1'), clarity: 'clear' },
      problem(422, 'fields_must_be_right', ['#/clarity']),
    ],
    [
      'water-glaze',
      'an empty bucket',
      { vesselId: 'bucket-1', water: g('1') },
      problem(409, 'material_must_be_enough', ['#/vesselId']),
    ],
    [
      'read-glaze',
      'a bucket that is not there',
      { vesselId: 'nowhere', density: jugOf('1450') },
      problem(404, 'vessel_not_found', ['#/vesselId']),
    ],
    [
      'read-glaze',
      'a jug heavier than its grains',
      { density: jugOf('2700') },
      problem(422, 'density_must_be_below_solids', ['#/density/slurry']),
    ],
  ])('%s refuses %s', async (name, _, said, refused) => {
    expect(await refusedAs(name, { vesselId: 'bucket-3', ...said })).toEqual(refused)
  })
})
