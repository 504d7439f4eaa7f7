import { eq } from 'drizzle-orm'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { studio } from '../../db/schema.ts'
import { openKilnPottery, pots, type KilnPottery } from './kiln-pottery.ts'

let pottery: KilnPottery
beforeAll(async () => {
  pottery = await openKilnPottery()
})
afterAll(() => pottery.close())

const costOf = async (runId: string, grade: string) =>
  (await pottery.studio.holds({ place: 'finished', runId, grade })).cost

const grade = (runId: string, firsts: number, seconds: number) =>
  pottery.does('grade', { runId, firsts, seconds, wasters: 0 })

/** Pots at 1.00 each out of the glaze fire. */
async function glazed(runId: string, pieces: number): Promise<void> {
  const cost = `${String(pieces)}.00`
  await pots(pottery, { runId, pieces, kilograms: '8.00', cost, at: 'bisque' })
  await pottery.does('glaze-fire', { runs: [{ runId }] })
}

test('a shelf that falls with nineteen of twenty does not land on the one that is left', async () => {
  await glazed('fallen', 20)
  await grade('fallen', 20, 0)
  const entry = await pottery.does('lose', {
    ...{ runId: 'fallen', pieces: 19, stage: 'handling', cause: 'the shelf came down' },
    grade: 'first',
  })
  expect(entry.losses[0]).toMatchObject({ abnormalPieces: 13, costLeft: '6', costAbnormal: '13' })
  expect(String(entry.losses[0]?.['usualWords'])).toContain('19 of 20 lost: 13 are beyond it')
  expect(await costOf('fallen', 'first')).toBe('7')
})

test('what falls from the shelf leaves its cost to finished pots alone', async () => {
  await glazed('some-shelved', 10)
  await grade('some-shelved', 4, 0)
  const dropped = { runId: 'some-shelved', pieces: 1, stage: 'handling', cause: 'dropped' }
  await pottery.does('lose', { ...dropped, grade: 'first' })
  const there = await pottery.studio.holds({ place: 'glazed', runId: 'some-shelved' })
  expect([await costOf('some-shelved', 'first'), there.cost]).toEqual(['4', '6'])
})

test('by price, it is of no matter how many gradings tell of firsts and seconds', async () => {
  await pottery.studio.services.db
    .update(studio)
    .set({ secondsCostRule: 'by_price', secondsPriceFraction: '0.5' })
    .where(eq(studio.studioId, 'mill-lane'))
  await glazed('at-once', 10)
  await grade('at-once', 5, 5)
  await glazed('in-two', 10)
  await grade('in-two', 5, 0)
  await grade('in-two', 0, 5)
  for (const runId of ['at-once', 'in-two']) {
    // Five parts of firsts and two and a half of seconds.
    expect([await costOf(runId, 'first'), await costOf(runId, 'second')]).toEqual([
      '6.666667',
      '3.333333',
    ])
  }
})

test('by price, what was sold between two gradings stays sold as it was', async () => {
  await glazed('sold-between', 10)
  await grade('sold-between', 6, 0)
  const sold = { formId: 'mug', grade: 'first', pieces: 2, runId: 'sold-between' }
  const entry = await pottery.does('sell', { ...sold, priceEach: '20.00', channel: 'fair' })
  expect(entry.lines.find(({ place }) => place === 'customer')?.cost).toBe('2')
  await grade('sold-between', 0, 4)
  // Eight for four firsts and four seconds: six parts.
  const now = [await costOf('sold-between', 'first'), await costOf('sold-between', 'second')]
  expect(now).toEqual(['5.333333', '2.666667'])
})
