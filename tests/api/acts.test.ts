import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { ALL_ACTS } from '../../api/acts/all-acts.ts'
import { actAnswerSchema } from '../../api/entry-schemas.ts'
import { g, kg } from '../support/studio.ts'
import { LIFE } from './life-of-clay.ts'
import { NEIGHBOUR, openPottery, problem, problemIn, type Pottery } from './pottery.ts'
import { fillShelf, LIFE_ON_THE_SHELF } from './shelf.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await fillShelf(pottery)
})
afterAll(() => pottery.close())

const COLUMNS = ['dryGrams', 'materialGrams', 'waterGrams', 'pieces', 'cost'] as const

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
  test.each([...LIFE, ...LIFE_ON_THE_SHELF].map(([act, said], index) => ({ act, said, index })))(
    '$index $act is recorded, and adds up to nothing in its five columns',
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

  test('fire-empty works on a kiln', async () => {
    await pottery.ask('POST', '/v1/kilns', { body: { kilnId: 'test-kiln', name: 'Test kiln' } })
    const said = { kilowattHours: '12', pricePerKilowattHour: '0.28' }
    const body = await pottery.does('fire-empty', { kilnId: 'test-kiln', why: 'test', ...said })
    const { lines } = body['entry'] as { lines: Record<string, string>[] }
    for (const column of COLUMNS) expect(sumIn(lines, column)).toBe(0n)
  })

  test('the acts of glaze work on a bucket and on bisque', async () => {
    const jug = { slurry: { net: g('725') }, volume: { value: '500', unit: 'ml' } }
    const vesselId = 'glaze-bin'
    const made: [act: string, said: object][] = [
      [
        'mix-glaze',
        {
          ...{ glazeId: 'clear', vesselId, water: kg('2.9') },
          ingredients: [
            { ingredientId: 'flint', reading: { net: kg('2.1') } },
            { ingredientId: 'whiting', reading: { net: kg('0.9') } },
          ],
        },
      ],
      ['read-glaze', { vesselId, density: jug }],
      ['water-glaze', { vesselId, water: g('120') }],
      ['lose-glaze', { vesselId, why: 'sieve', dryGrams: '15' }],
      [
        'glaze',
        {
          ...{ glazeId: 'clear', vesselId, runs: [{ runId: 'to-glaze' }] },
          pots: { before: { net: kg('3.00') }, after: { net: kg('3.16') } },
        },
      ],
    ]
    const vessel = { vesselId, name: 'Glaze bin', kind: 'bucket', tareGrams: '900' }
    await pottery.ask('POST', '/v1/vessels', { body: vessel })
    const whiting = { materialId: 'whiting', mass: kg('25'), price: '20.00' }
    await pottery.does('receive-materials', { materials: [whiting] })
    const pots = { what: 'pots', bodyId: 'buff', formId: 'mug', runId: 'to-glaze', at: 'bisque' }
    await pottery.does('open-books', {
      items: [{ ...pots, pieces: 8, reading: { net: kg('3.00') } }],
    })
    for (const [act, said] of made) {
      const { entry } = (await pottery.does(act, said)) as {
        entry: { lines: Record<string, string>[] }
      }
      for (const column of COLUMNS) expect(sumIn(entry.lines, column), act).toBe(0n)
    }
  })

  test('close-month closes what is over', async () => {
    expect((await pottery.does('close-month', { month: '2026-05' }))['made']).toEqual({
      month: '2026-05',
    })
    const answer = await pottery.ask('POST', '/v1/acts/close-month', { body: { month: '2026-06' } })
    expect(problemIn(answer)).toEqual(problem(422, 'month_must_be_over', ['#/month']))
  })

  test('none is left out here', () => {
    const done = new Set([
      ...[...LIFE, ...LIFE_ON_THE_SHELF].map(([act]) => act),
      ...['count', 'discard', 'fire-empty', 'close-month'],
      ...['mix-glaze', 'read-glaze', 'water-glaze', 'lose-glaze', 'glaze'],
    ])
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
