import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import { openPottery, problem, problemIn, type Answered, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
})
afterAll(() => pottery.close())

const FORM = [422, 'fields_must_be_right'] as const

/** A weighing of scrap, right but for what is said. */
const scrap = (wrong: object, headers: Record<string, string> = {}): Promise<Answered> =>
  pottery.ask('POST', '/v1/acts/weigh-scrap', {
    body: {
      vesselId: 'bucket-1',
      bodyId: 'buff',
      state: 'turnings',
      reading: { net: g('900') },
      ...wrong,
    },
    headers,
  })

describe('what is said wrongly', () => {
  test('a JSON number is refused, because its last digit counts', async () => {
    const answer = await scrap({ reading: { net: { value: 900.5, unit: 'g' } } })
    expect(problemIn(answer)).toEqual(problem(...FORM, ['#/reading/net/value']))
    expect(answer.body.errors?.[0]?.detail).toContain('Send it as text')
  })

  test('a mass of nothing is refused', async () => {
    const answer = await scrap({ reading: { net: g('0') } })
    expect(problemIn(answer)).toEqual(problem(422, 'reading_must_be_above_zero', ['#/reading']))
  })

  test('a mass beyond every kiln is refused', async () => {
    const answer = await scrap({ reading: { net: kg('100001') } })
    expect(problemIn(answer)).toEqual(problem(...FORM, ['#/reading/net/value']))
  })

  test.each([
    [{}, '#/reading'],
    [{ net: g('9'), gross: g('9') }, '#/reading'],
    [{ gross: g('900') }, '#/reading/gross'],
    [{ gross: g('900'), tare: g('1'), inVesselId: 'bucket-1' }, '#/reading/tare'],
    [{ net: g('900'), tare: g('1') }, '#/reading/tare'],
    [{ net: g('900'), inVesselId: 'bucket-1' }, '#/reading/inVesselId'],
  ])('a reading that is half said is refused: %j', async (reading, pointer) => {
    expect(problemIn(await scrap({ reading }))).toEqual(problem(...FORM, [pointer]))
  })

  test('a plain body is no blend, whatever it is called', async () => {
    const answer = await scrap({ blendBodyId: 'white' })
    const code = 'bodies_must_not_mix_unless_declared'
    expect(problemIn(answer)).toEqual(problem(422, code, ['#/vesselId']))
  })

  test.each([
    '2026-06-01',
    '2026-06-01T10:00:00',
    'yesterday',
    '0001-01-01T00:00:00Z',
    '2026-02-30T00:00:00Z',
  ])('a moment without its offset, or that never was, is refused: %s', async (happenedAt) => {
    const answer = await scrap({ happenedAt })
    expect(problemIn(answer)).toEqual(problem(...FORM, ['#/happenedAt']))
  })

  test('an unknown field far inside is named by its whole path', async () => {
    const answer = await scrap({ reading: { net: { ...kg('1'), 'a/b~c': 1 } } })
    expect(problemIn(answer)).toEqual(problem(...FORM, ['#/reading/net/a~1b~0c']))
  })

  test('every fault is named at once', async () => {
    const answer = await scrap({ vesselId: 'Bucket 1', state: 'soggy', reading: { net: g('-1') } })
    expect(problemIn(answer).pointers.sort()).toEqual(
      ['#/reading/net/value', '#/state', '#/vesselId'].sort(),
    )
  })

  test.each(['a\u0000b', 'a\ud800b', '\u0007'])(
    'text that cannot be kept is refused',
    async (note) => {
      expect(problemIn(await scrap({ note }))).toEqual(problem(...FORM, ['#/note']))
    },
  )

  test.each(['two words', '', 'x'.repeat(201), 'clé'])(
    'a key of other signs is refused',
    async (key) => {
      const answer = await scrap({}, { 'Idempotency-Key': key })
      expect(problemIn(answer)).toEqual(problem(...FORM, ['idempotency-key']))
    },
  )
})

describe('what an act needs under a condition', () => {
  const source = { lotId: 'o1' }
  test.each([
    ['receive-delivery', { clays: [{ bodyId: 'buff', bags: 1, price: '1' }] }, '#/clays/0'],
    [
      'receive-delivery',
      {
        clays: [
          { bodyId: 'buff', bags: 1, price: '1', bagMass: kg('1'), reading: { net: kg('1') } },
        ],
      },
      '#/clays/0',
    ],
    ['throw', { formId: 'mug', from: [source] }, '#/from/0'],
    ['throw', { formId: 'mug', from: [{ ...source, balls: 2 }] }, '#/from/0/ballMass'],
    ['throw', { formId: 'mug', from: [{ ...source, ballMass: g('9') }] }, '#/from/0/balls'],
    ['throw', { formId: 'mug', from: [{ ...source, whatIsLeft: false }] }, '#/from/0/whatIsLeft'],
    ['throw', { formId: 'mug', from: [{ ...source, whatIsLeft: true }] }, '#/pieces'],
    ['throw', { formId: 'mug', from: [] }, '#/from'],
    [
      'throw',
      { formId: 'mug', from: [{ ...source, whatIsLeft: true, reading: { net: g('1') } }] },
      '#/from/0',
    ],
    ['turn', { runId: 'r1', vesselId: 'bucket-1' }, '#'],
    ['turn', { runId: 'r1', vesselId: 'bucket-1', before: { net: g('1') } }, '#/after'],
    ['turn', { runId: 'r1', vesselId: 'bucket-1', after: { net: g('1') } }, '#/before'],
    ['lose', { runId: 'r1', pieces: 1, stage: 'wheel', cause: 'slumped' }, '#/vesselId'],
    ['lose', { runId: 'r1', pieces: 1, stage: 'handling', cause: 'fell' }, '#/grade'],
    [
      'lose',
      { runId: 'r1', pieces: 1, stage: 'glazing', cause: 'fell', grade: 'first' },
      '#/grade',
    ],
    ['weigh-run', { runId: 'r1', place: 'finished', reading: { net: g('1') } }, '#/grade'],
    ['wedge', { from: [] }, '#/from'],
    ['open-bag', { lotId: 'd1', bags: 1, intoLotId: 'o1', newLotId: 'o2' }, '#/newLotId'],
    ['lift', { lotId: 'l1', intoLotId: 'o1', label: 'reclaimed' }, '#/label'],
    ['grade', { runId: 'r1', firsts: 0, seconds: 0, wasters: 0 }, '#/firsts'],
    ['grade', { runId: 'r1', firsts: 1.5, seconds: 0, wasters: 0 }, '#/firsts'],
    ['count', { holdingId: 'h1' }, '#'],
    ['count', { holdingId: 'h1', pieces: 0, reading: { net: g('1') } }, '#/reading'],
    [
      'pour',
      {
        basinVesselId: 'basin-1',
        loads: [
          { batId: 'bat-a', reading: { net: g('1') } },
          { batId: 'bat-a', reading: { net: g('1') } },
        ],
      },
      '#/loads',
    ],
    ['bisque', { runs: [{ runId: 'r1' }, { runId: 'r1' }] }, '#/runs'],
    ['open-books', { items: [{ what: 'gold', bodyId: 'buff' }] }, '#/items/0/what'],
    ['open-books', { items: [{ what: 'bags', bodyId: 'buff', bags: 1 }] }, '#/items/0'],
    ['close-month', { month: '2026-13' }, '#/month'],
  ])('%s refuses %j', async (act, said, pointer) => {
    const answer = await pottery.ask('POST', `/v1/acts/${act}`, { body: said })
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', [pointer]))
    expect(answer.body.errors?.[0]?.detail).toMatch(/[.?]$/)
  })
})
