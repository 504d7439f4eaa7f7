import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { ALL_ACTS } from '../../api/acts/all-acts.ts'
import { actAnswerSchema } from '../../api/entry-schemas.ts'
import { g, kg } from '../support/studio.ts'
import { NEIGHBOUR, openPottery, problem, problemIn, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
})
afterAll(() => pottery.close())

/** A life of clay in the order in which it happens: every act at least once. */
const LIFE: readonly (readonly [act: string, said: object])[] = [
  [
    'open-books',
    {
      items: [
        { what: 'bags', bodyId: 'white', lotId: 'old', bags: 3, bagMass: kg('10'), cost: '30.00' },
        { what: 'clay', bodyId: 'white', lotId: 'old-clay', reading: { net: kg('4.5') } },
        { what: 'scrap', bodyId: 'white', vesselId: 'bucket-3', reading: { net: kg('2.2') } },
        { what: 'basin', bodyId: 'white', vesselId: 'basin-2', reading: { net: kg('5.0') } },
        {
          what: 'load',
          bodyId: 'white',
          batId: 'bat-b',
          lotId: 'from-before',
          reading: { net: kg('3.0') },
        },
        {
          what: 'pots',
          bodyId: 'white',
          runId: 'old-plates',
          formId: 'plate',
          at: 'finished',
          grade: 'second',
          pieces: 6,
          reading: { net: kg('6.6') },
        },
      ],
    },
  ],
  [
    'receive-delivery',
    {
      clays: [{ bodyId: 'buff', lotId: 'd1', bags: 10, bagMass: kg('12.5'), price: '150.00' }],
      freight: '20.00',
    },
  ],
  ['open-bag', { lotId: 'd1', bags: 2, newLotId: 'o1', reading: { net: kg('24.90') } }],
  ['rewet', { lotId: 'o1', place: 'bench', water: g('100') }],
  [
    'dry-test',
    {
      bodyId: 'buff',
      state: 'wedged',
      lotId: 'o1',
      sample: { tin: g('20.0'), wetWithTin: g('120.0'), dryWithTin: g('98.0') },
    },
  ],
  [
    'throw',
    {
      formId: 'mug',
      runId: 'r1',
      from: [{ lotId: 'o1', balls: 20, ballMass: kg('0.400') }],
      happenedAt: '2026-06-15T13:00:00+01:00',
      by: 'Ines',
      note: 'first of the week',
    },
  ],
  [
    'join',
    {
      runId: 'r1',
      from: [{ lotId: 'o1', reading: { net: kg('1.60') } }],
      offCuts: { reading: { net: kg('0.4') }, vesselId: 'bucket-1' },
    },
  ],
  [
    'collect-slops',
    { runIds: ['r1'], vesselId: 'bucket-1', state: 'slops', reading: { net: kg('0.90') } },
  ],
  [
    'turn',
    { runId: 'r1', vesselId: 'bucket-1', before: { net: kg('7.0') }, after: { net: kg('6.4') } },
  ],
  ['weigh-run', { runId: 'r1', place: 'greenware', reading: { net: kg('7.2') } }],
  ['lose', { runId: 'r1', pieces: 2, stage: 'drying', cause: 'handle off', vesselId: 'bucket-1' }],
  [
    'weigh-scrap',
    { vesselId: 'bucket-1', bodyId: 'buff', state: 'slops', reading: { net: kg('3.1') } },
  ],
  ['bisque', { runs: [{ runId: 'r1' }] }],
  ['lose', { runId: 'r1', pieces: 1, stage: 'bisque_firing', cause: 'blew' }],
  ['glaze-fire', { runs: [{ runId: 'r1' }] }],
  ['grade', { runId: 'r1', firsts: 14, seconds: 2, wasters: 1, cause: 'crawled' }],
  ['sell', { formId: 'mug', grade: 'first', pieces: 6, priceEach: '18.00', channel: 'fair' }],
  ['give-away', { formId: 'mug', grade: 'first', pieces: 1, reason: 'a wedding' }],
  ['keep', { formId: 'mug', grade: 'second', pieces: 1 }],
  ['break-in-shop', { formId: 'mug', grade: 'first', pieces: 1, reason: 'fell' }],
  ['slake', { fromVesselId: 'bucket-1', basinVesselId: 'basin-1', water: { net: kg('2.0') } }],
  ['decant', { basinVesselId: 'basin-1', reading: { net: kg('0.5') }, clarity: 'clear' }],
  [
    'read-slurry',
    {
      basinVesselId: 'basin-1',
      slurry: { net: g('1300') },
      volume: { value: '1000', unit: 'ml' },
      celsius: '18.5',
    },
  ],
  [
    'pour',
    {
      basinVesselId: 'basin-1',
      loads: [
        { batId: 'bat-a', lotId: 'l0', reading: { net: kg('2.0') }, thicknessMillimetres: '24' },
      ],
    },
  ],
  ['lift', { lotId: 'from-before', newLotId: 'rec0', bat: { net: kg('7.6') } }],
  [
    'move-load',
    {
      lotId: 'l0',
      batId: 'bat-b',
      newLotId: 'l1',
      reading: { net: kg('1.85') },
      bat: { net: kg('7.12') },
    },
  ],
  [
    'weigh-on-plaster',
    {
      lotId: 'l1',
      reading: { net: kg('1.7') },
      withPlaster: false,
      bat: { net: kg('7.2') },
      turned: true,
    },
  ],
  ['weigh-on-plaster', { lotId: 'l1', reading: { net: kg('8.7') }, withPlaster: true }],
  ['lift', { lotId: 'l1', newLotId: 'rec1', reading: { net: kg('1.5') } }],
  [
    'wedge',
    {
      from: [
        { lotId: 'rec1', whatIsLeft: true },
        { lotId: 'o1', reading: { net: kg('3') } },
      ],
      additions: [{ name: 'grog', reading: { net: g('50') }, price: '0.10' }],
      newLotId: 'w1',
    },
  ],
]

const COLUMNS = ['dryGrams', 'waterGrams', 'pieces', 'cost'] as const

/** Six digits after the point, so that a sum of whole millionths is exact. */
function sumIn(lines: readonly Record<string, string>[], column: string): bigint {
  const millionths = (text: string) => {
    const [before = '0', after = ''] = text.replace('-', '').split('.')
    const size = BigInt(before + after.padEnd(6, '0'))
    return text.startsWith('-') ? -size : size
  }
  return lines.reduce((sum, line) => sum + millionths(line[column] ?? '0'), 0n)
}

describe('every act', () => {
  test.each(LIFE.map(([act, said], index) => ({ act, said, index })))(
    '$index $act is recorded, and adds up to nothing in its four columns',
    async ({ act, said }) => {
      const before = await pottery.entries()
      const answer = await pottery.ask('POST', `/v1/acts/${act}`, { body: said })
      expect(answer.body.detail).toBeUndefined()
      expect(answer.status).toBe(201)
      expect(await pottery.entries()).toBe(before + 1)
      const entry = answer.body['entry'] as Record<string, unknown>
      expect(entry['kind']).toBe(act.replaceAll('-', '_'))
      expect(entry['said']).toEqual(said)
      const lines = entry['lines'] as Record<string, string>[]
      for (const column of COLUMNS) expect(sumIn(lines, column)).toBe(0n)
    },
  )

  test.each(['count', 'discard'])('%s works on a holding', async (act) => {
    const holdingId = await pottery.holdingAt('scrap')
    await pottery.does('weigh-scrap', {
      vesselId: 'bucket-1',
      bodyId: 'buff',
      state: 'air_dry',
      reading: { net: kg('1.0') },
    })
    const said =
      act === 'count'
        ? { holdingId, reading: { net: kg('0.9') }, state: 'air_dry' }
        : { holdingId, reason: 'plaster in it', dryAct: 'sweeping' }
    const body = await pottery.does(act, said)
    expect(body['cautions']).not.toEqual([])
  })

  test('close-month closes what is over', async () => {
    expect((await pottery.does('close-month', { month: '2026-05' }))['made']).toEqual({
      month: '2026-05',
    })
    const answer = await pottery.ask('POST', '/v1/acts/close-month', { body: { month: '2026-06' } })
    expect(problemIn(answer)).toEqual(problem(422, 'month_must_be_over', ['#/month']))
  })

  test('none is left out here', () => {
    const done = new Set([...LIFE.map(([act]) => act), 'count', 'discard', 'close-month'])
    expect(ALL_ACTS.map((act) => act.name).filter((name) => !done.has(name))).toEqual([])
  })
})

describe('an answer', () => {
  const delivery = (bags: number) => ({
    clays: [{ bodyId: 'buff', bags, bagMass: kg('12.5'), price: '15.00' }],
  })
  const post = (said: unknown, headers: Record<string, string> = {}, query = '') =>
    pottery.ask('POST', `/v1/acts/receive-delivery${query}`, { body: said, headers })

  test('has the form that is described', async () => {
    const { body } = await post(delivery(1))
    const { success, data } = actAnswerSchema.safeParse(body)
    expect(success).toBe(true)
    expect(data).toEqual(body)
  })

  test('to a preview says what would be, and records nothing', async () => {
    const before = await pottery.entries()
    const answer = await post(delivery(7), { 'Idempotency-Key': 'p-1' }, '?preview=true')
    expect(answer.status).toBe(200)
    expect(answer.body['preview']).toBe(true)
    expect(await pottery.entries()).toBe(before)
    const real = await post(delivery(7), { 'Idempotency-Key': 'p-1' })
    expect(real.status).toBe(201)
    expect(real.headers.get('idempotency-replayed')).toBeNull()
  })

  test('to a preview refuses as the act would', async () => {
    const said = { lotId: 'd1', bags: 400 }
    const answer = await pottery.ask('POST', '/v1/acts/open-bag?preview=true', { body: said })
    expect(problemIn(answer)).toMatchObject({ type: '/problems/pieces_must_be_enough' })
  })

  test('to a retry is the first answer, and nothing is recorded twice', async () => {
    const first = await post(delivery(2), { 'Idempotency-Key': 'k-1' })
    const before = await pottery.entries()
    const again = await post(delivery(2), { 'Idempotency-Key': 'k-1' })
    expect(again.status).toBe(201)
    expect(again.headers.get('idempotency-replayed')).toBe('true')
    expect(again.body).toEqual(first.body)
    expect(await pottery.entries()).toBe(before)
  })

  test('to ten requests at once with one key is one', async () => {
    const before = await pottery.entries()
    const answers = await Promise.all(
      Array.from({ length: 10 }, () => post(delivery(3), { 'Idempotency-Key': 'k-2' })),
    )
    expect(new Set(answers.map((answer) => answer.status))).toEqual(new Set([201]))
    expect(new Set(answers.map((answer) => JSON.stringify(answer.body['made']))).size).toBe(1)
    expect(await pottery.entries()).toBe(before + 1)
  })

  test('to the same key in another studio is that studio’s own', async () => {
    const headers = { 'Idempotency-Key': 'k-1' }
    const answer = await pottery.ask('POST', '/v1/acts/receive-delivery', {
      body: delivery(9),
      headers,
      studio: NEIGHBOUR,
    })
    expect(answer.status).toBe(201)
    expect(answer.headers.get('idempotency-replayed')).toBeNull()
  })

  test('to a refused request leaves its key free for what is right', async () => {
    const headers = { 'Idempotency-Key': 'k-3' }
    const wrong = { clays: [{ ...delivery(1).clays[0], bodyId: 'nothing' }] }
    expect(problemIn(await post(wrong, headers))).toMatchObject({
      status: 404,
      type: '/problems/body_not_found',
    })
    expect((await post(delivery(1), headers)).status).toBe(201)
  })
})
