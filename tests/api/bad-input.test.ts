import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import {
  NEIGHBOUR,
  openClay,
  openPottery,
  problem,
  problemIn,
  throwMugs,
  type Answered,
  type Pottery,
} from './pottery.ts'

/** Bisque mugs 'r1' and glazed mugs 'r2', turnings of buff in bucket-1 and of white in bucket-2. */
async function prepare(pottery: Pottery): Promise<void> {
  const { does } = pottery
  await openClay(pottery)
  await throwMugs(pottery)
  await does('turn', { runId: 'r1', vesselId: 'bucket-1', turnings: { net: g('800') } })
  await does('bisque', { runs: [{ runId: 'r1' }] })
  await does('throw', {
    formId: 'mug',
    runId: 'r2',
    from: [{ lotId: 'o1', balls: 10, ballMass: g('400') }],
  })
  await does('bisque', { runs: [{ runId: 'r2' }] })
  await does('glaze-fire', { runs: [{ runId: 'r2' }] })
  const of = { bodyId: 'white', state: 'turnings', reading: { net: kg('3.00') } }
  await does('weigh-scrap', { ...of, vesselId: 'bucket-2' })
  await does('slake', { fromVesselId: 'bucket-2', basinVesselId: 'basin-1' })
  await does('weigh-scrap', { ...of, vesselId: 'bucket-3' })
  await does('close-month', { month: '2026-04' })
}

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await prepare(pottery)
})
afterAll(() => pottery.close())

/** Sends what must not be recorded and sees that it was not. */
async function refused(ask: () => Promise<Answered>): Promise<Answered> {
  const before = await pottery.entries()
  const answer = await ask()
  expect(await pottery.entries()).toBe(before)
  expect(before).toBeGreaterThan(0)
  return answer
}

const act = (name: string, body: unknown, headers: Record<string, string> = {}) =>
  refused(() => pottery.ask('POST', `/v1/acts/${name}`, { body, headers }))

/** A weighing of scrap, right but for what is said. */
const scrap = (wrong: object) =>
  act('weigh-scrap', {
    vesselId: 'bucket-1',
    bodyId: 'buff',
    state: 'turnings',
    reading: { net: g('900') },
    ...wrong,
  })

const FORM = [422, 'fields_must_be_right'] as const

describe('readings', () => {
  test('a gross mass below the tare is refused, with both masses', async () => {
    const answer = await scrap({ reading: { gross: g('350'), inVesselId: 'bucket-1' } })
    expect(problemIn(answer)).toEqual(problem(422, 'gross_must_not_be_below_tare', ['#/reading']))
    expect(answer.body.detail).toContain('350 g')
    expect(answer.body.detail).toContain('400 g')
  })

  test.each(['NaN', 'Infinity', '1e5', 'nine', '12,46', '', ' 12', '+12', '.5', '0x10'])(
    'text that is not a plain number is refused: "%s"',
    async (value) => {
      const answer = await scrap({ reading: { net: g(value) } })
      expect(problemIn(answer)).toEqual(problem(...FORM, ['#/reading/net/value']))
    },
  )

  test('a negative mass is refused', async () => {
    const answer = await scrap({ reading: { net: g('-900') } })
    expect(problemIn(answer)).toEqual(problem(...FORM, ['#/reading/net/value']))
  })

  test('a reading over the capacity of its scale is refused', async () => {
    const answer = await scrap({ reading: { net: kg('10.005'), scaleId: 'bench' } })
    const code = 'reading_must_be_within_scale_capacity'
    expect(problemIn(answer)).toEqual(problem(422, code, ['#/reading']))
    expect(answer.body.detail).toContain('10000 g')
  })

  test('a unit that is not one is refused, and the units are named', async () => {
    const answer = await scrap({ reading: { net: { value: '9', unit: 'stone' } } })
    expect(problemIn(answer)).toEqual(problem(...FORM, ['#/reading/net/unit']))
    expect(answer.body.errors?.[0]?.detail).toBe('It must be one of: g, kg, lb, oz.')
  })
})

describe('water', () => {
  test.each(['1', '1.2', '45'])('a wet-basis content of %s is refused', async (content) => {
    const answer = await scrap({ water: { content, basis: 'wet' } })
    const code = 'water_content_must_be_below_one'
    expect(problemIn(answer)).toEqual(problem(422, code, ['#/water']))
  })

  test('a content below zero is refused', async () => {
    const answer = await scrap({ water: { content: '-0.1', basis: 'wet' } })
    expect(problemIn(answer)).toEqual(problem(...FORM, ['#/water/content']))
  })

  test('a content without its basis is refused, in words', async () => {
    const answer = await scrap({ water: { content: '0.21' } })
    expect(problemIn(answer)).toEqual(problem(...FORM, ['#/water/basis']))
    expect(answer.body.errors?.[0]?.detail).toContain('needs its basis')
  })
})

describe('what is there', () => {
  test('more clay than a holding has is refused, with how much it has', async () => {
    const answer = await act('throw', {
      formId: 'mug',
      from: [{ lotId: 'o1', balls: 200, ballMass: g('400') }],
    })
    expect(problemIn(answer)).toEqual(problem(409, 'clay_must_be_enough', ['#/from/0']))
    expect(answer.body.detail).toMatch(/There are [\d.]+ g of dry clay/)
    expect(answer.body.detail).toContain('a count may be due')
    expect(answer.body.facts).toHaveProperty('heldDryGrams')
  })

  test('more bags than the store has are refused, with how many it has', async () => {
    const answer = await act('open-bag', { lotId: 'd1', bags: 9 })
    expect(problemIn(answer)).toMatchObject({
      status: 409,
      type: '/problems/pieces_must_be_enough',
    })
    expect(answer.body.detail).toContain('There are 8 here')
    expect(answer.body.detail).toContain('count')
  })

  test('more pieces graded than were fired are refused', async () => {
    const answer = await act('grade', { runId: 'r2', firsts: 9, seconds: 2, wasters: 0 })
    expect(problemIn(answer)).toEqual(problem(409, 'stage_must_hold_the_pieces', ['#/firsts']))
    expect(answer.body.detail).toContain('10 pieces')
  })

  test('clay that goes into a bucket of another clay is refused', async () => {
    const answer = await act('weigh-scrap', {
      vesselId: 'bucket-3',
      bodyId: 'buff',
      state: 'turnings',
      reading: { net: g('900') },
    })
    const code = 'bodies_must_not_mix_unless_declared'
    expect(problemIn(answer)).toEqual(problem(422, code, ['#/vesselId']))
  })

  test('scrap that goes into a basin of another clay is refused', async () => {
    const answer = await act('slake', { fromVesselId: 'bucket-1', basinVesselId: 'basin-1' })
    const code = 'bodies_must_not_mix_unless_declared'
    expect(problemIn(answer)).toEqual(problem(422, code, ['#/basinVesselId']))
    expect(answer.body.detail).toContain('blendBodyId')
  })

  test('fired shards are no scrap', async () => {
    const answer = await act('lose', {
      runId: 'r1',
      pieces: 1,
      stage: 'bisque_firing',
      cause: 'cracked',
      vesselId: 'bucket-1',
    })
    const code = 'fired_clay_must_not_return_to_scrap'
    expect(problemIn(answer)).toEqual(problem(422, code, ['#/vesselId']))
  })
})

describe('when', () => {
  const delivery = {
    clays: [{ bodyId: 'buff', bags: 1, bagMass: kg('12.5'), price: '15.00' }],
  }

  test('a date in a closed month is refused', async () => {
    const answer = await act('receive-delivery', {
      ...delivery,
      happenedAt: '2026-04-30T23:59:59+01:00',
    })
    expect(problemIn(answer)).toEqual(problem(409, 'month_must_be_open', ['#/happenedAt']))
  })

  test('a date in the future is refused', async () => {
    const answer = await act('receive-delivery', {
      ...delivery,
      happenedAt: '2026-06-15T12:02:01Z',
    })
    const code = 'date_must_not_be_in_the_future'
    expect(problemIn(answer)).toEqual(problem(422, code, ['#/happenedAt']))
  })
})

describe('the request', () => {
  test('an unknown field is named itself, with the fields that there are', async () => {
    const answer = await scrap({ colour: 'buff' })
    expect(problemIn(answer)).toEqual(problem(...FORM, ['#/colour']))
    expect(answer.body.errors?.[0]?.detail).toContain(
      'is not a field here. The fields are: vesselId',
    )
  })

  test('another studio’s run is no run of this one', async () => {
    const said = { runId: 'r1', vesselId: 'bucket-1', turnings: { net: g('100') } }
    const answer = await refused(() =>
      pottery.ask('POST', '/v1/acts/turn', { body: said, studio: NEIGHBOUR }),
    )
    expect(problemIn(answer)).toMatchObject({ status: 404, type: '/problems/run_not_found' })
  })

  test('a body over the limit is refused', async () => {
    const answer = await scrap({ note: 'x'.repeat(256 * 1024) })
    expect(problemIn(answer)).toEqual(problem(413, 'body_must_be_small'))
  })

  test('broken JSON is refused', async () => {
    const answer = await refused(() =>
      pottery.ask('POST', '/v1/acts/weigh-scrap', { raw: '{"vesselId": "bucket-1",' }),
    )
    expect(problemIn(answer)).toEqual(problem(400, 'body_must_be_json'))
  })

  test('a key that comes again with other content is refused', async () => {
    const said = { runId: 'r1', place: 'bisque', reading: { net: kg('5.75') } }
    const headers = { 'Idempotency-Key': 'phone-1-7' }
    const first = await pottery.ask('POST', '/v1/acts/weigh-run', { body: said, headers })
    expect(first.status).toBe(201)
    const answer = await act('weigh-run', { ...said, reading: { net: kg('5.7') } }, headers)
    expect(problemIn(answer)).toEqual(problem(409, 'key_must_keep_its_content'))
  })
})
