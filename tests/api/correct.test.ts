import { afterAll, beforeAll, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import {
  NEIGHBOUR,
  openClay,
  openPottery,
  problem,
  problemIn,
  throwMugs,
  type Body,
  type Pottery,
} from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await openClay(pottery)
  await throwMugs(pottery)
})
afterAll(() => pottery.close())

const turnings = (grams: string) => ({
  runId: 'r1',
  vesselId: 'bucket-1',
  turnings: { net: g(grams) },
})
const correct = (body: unknown, headers: Record<string, string> = {}) =>
  pottery.ask('POST', '/v1/acts/correct', { body, headers })
const entryOf = (body: Body) => body['entry'] as Record<string, unknown>
const idOf = (body: Body) => String(entryOf(body)['entryId'])

test('takes an entry back by its mirror image', async () => {
  const wrong = await pottery.does('turn', turnings('800'))
  const answer = await correct({ entryId: idOf(wrong), note: 'another bucket' })
  expect(answer.status).toBe(201)
  expect(entryOf(answer.body)).toMatchObject({
    kind: 'reverse',
    note: 'another bucket',
    reversesEntryId: idOf(wrong),
  })
})

test('takes an entry back and posts what happened instead, both in one', async () => {
  const wrong = await pottery.does('turn', turnings('800'))
  const before = await pottery.entries()
  const answer = await correct({
    entryId: idOf(wrong),
    postAgain: { act: 'turn', content: turnings('600') },
  })
  expect(answer.status).toBe(201)
  expect(entryOf(answer.body)).toMatchObject({ kind: 'turn', said: turnings('600') })
  expect(answer.body['made']).toHaveProperty('reversalEntryId')
  expect(await pottery.entries()).toBe(before + 2)
})

test('recorded neither where what is posted again is refused, and points into it', async () => {
  const wrong = await pottery.does('turn', turnings('100'))
  const before = await pottery.entries()
  const answer = await correct({
    entryId: idOf(wrong),
    postAgain: {
      act: 'turn',
      content: { ...turnings('1'), turnings: { gross: g('1'), tare: g('400') } },
    },
  })
  const pointer = '#/postAgain/content/turnings'
  expect(problemIn(answer)).toEqual(problem(422, 'gross_must_not_be_below_tare', [pointer]))
  expect(await pottery.entries()).toBe(before)
})

test('points into what is posted again where that is not of the form', async () => {
  const answer = await correct({
    entryId: 'any',
    postAgain: { act: 'turn', content: { ...turnings('1'), colour: 1 } },
  })
  const pointer = '#/postAgain/content/colour'
  expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', [pointer]))
})

test('names the acts that there are', async () => {
  const answer = await correct({ entryId: 'any', postAgain: { act: 'correct', content: {} } })
  expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/postAgain/act']))
  expect(answer.body.errors?.[0]?.detail).toContain('receive-delivery')
})

test('refuses to take back twice, a reversal, a closing, or nothing', async () => {
  const wrong = await pottery.does('turn', turnings('50'))
  const reversal = await correct({ entryId: idOf(wrong) })
  const closing = await pottery.does('close-month', { month: '2026-04' })
  const table = [
    [idOf(wrong), 409, 'entry_must_not_be_reversed_already'],
    [idOf(reversal.body), 422, 'entry_must_not_be_a_reversal'],
    [idOf(closing), 422, 'closed_month_must_stay_closed'],
  ] as const
  for (const [entryId, status, code] of table) {
    expect(problemIn(await correct({ entryId }))).toEqual(problem(status, code, ['#/entryId']))
  }
  const unknown = await correct({ entryId: 'nothing' })
  expect(problemIn(unknown)).toMatchObject({ status: 404, type: '/problems/entry_not_found' })
})

test('refuses to take back what has moved on', async () => {
  const opened = await pottery.does('open-bag', { lotId: 'd1', bags: 1, newLotId: 'o2' })
  await pottery.does('throw', {
    formId: 'mug',
    from: [{ lotId: 'o2', reading: { net: kg('6') } }],
    pieces: 12,
  })
  const answer = await correct({ entryId: idOf(opened) })
  const code = 'reversal_must_find_what_it_takes_back'
  expect(problemIn(answer)).toEqual(problem(409, code, ['#/entryId']))
})

test('an entry that only kept a reading can be taken back too', async () => {
  const kept = await pottery.does('dry-test', {
    bodyId: 'buff',
    state: 'wedged',
    sample: { wetWithTin: g('100.0'), dryWithTin: g('78.0') },
  })
  expect((await correct({ entryId: idOf(kept) })).status).toBe(201)
})

test('is done once for its key', async () => {
  const wrong = await pottery.does('turn', turnings('70'))
  const headers = { 'Idempotency-Key': 'c-1' }
  const first = await correct({ entryId: idOf(wrong) }, headers)
  const again = await correct({ entryId: idOf(wrong) }, headers)
  expect(again.headers.get('idempotency-replayed')).toBe('true')
  expect(again.body).toEqual(first.body)
})

test('finds no entry of another studio', async () => {
  const ours = await pottery.does('turn', turnings('60'))
  const answer = await pottery.ask('POST', '/v1/acts/correct', {
    body: { entryId: idOf(ours) },
    studio: NEIGHBOUR,
  })
  expect(problemIn(answer)).toMatchObject({ status: 404, type: '/problems/entry_not_found' })
})
