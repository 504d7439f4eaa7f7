import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { glazing } from '../../db/schema.ts'
import { kg } from '../support/studio.ts'
import {
  BY_BUCKET,
  BY_POTS,
  JUGS,
  bucketOf,
  jugOf,
  mixCeladon,
  glazeBooks,
  openGlazePottery,
} from './glaze-pottery.ts'
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
const { bucket, bisque, gone } = glazeBooks(() => pottery)

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
