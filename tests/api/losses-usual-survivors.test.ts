import { afterAll, beforeAll, expect, test } from 'vitest'
import { openKilnPottery, pots, type KilnPottery } from './kiln-pottery.ts'

let pottery: KilnPottery
beforeAll(async () => {
  pottery = await openKilnPottery()
})
afterAll(() => pottery.close())

const held = (place: string, runId: string) => pottery.studio.holds({ place, runId })

/** Ten pots at 1.00 each, bisque; some of them go through a glaze fire of 14.00 and 2.40 of wear. */
async function tenOfWhichGlazed(runId: string, pieces: number): Promise<void> {
  await pots(pottery, { runId, pieces: 10, kilograms: '4.00', cost: '10.00', at: 'bisque' })
  const firing = { kilnId: 'electric', kilowattHours: '50' }
  await pottery.does('glaze-fire', { runs: [{ runId, pieces }], firing })
}

const lose = (runId: string, pieces: number, stage: string) =>
  pottery.does('lose', { runId, pieces, stage, cause: 'cracked' })

test('bisque that was not in a glaze fire bears nothing of the pots that were lost in it', async () => {
  await tenOfWhichGlazed('some-glazed', 4)
  const entry = await lose('some-glazed', 1, 'glaze_firing')
  expect(entry.losses[0]).toMatchObject({ abnormalPieces: 0, costLeft: '5.1' })
  const [bisque, glazed] = [
    await held('bisque', 'some-glazed'),
    await held('glazed', 'some-glazed'),
  ]
  expect([bisque.cost, glazed.cost]).toEqual(['6', '20.4'])
})

test('where all that were in the glaze fire are lost, their cost is lost, though bisque is left', async () => {
  await tenOfWhichGlazed('one-glazed', 1)
  const entry = await lose('one-glazed', 1, 'glaze_firing')
  expect(entry.losses[0]).toMatchObject({ abnormalPieces: 0, costLeft: '0', costAbnormal: '0' })
  expect(entry.lines.find(({ place }) => place === 'waste')?.cost).toBe('17.4')
  expect((await held('bisque', 'one-glazed')).cost).toBe('9')
})

test('bisque that is lost leaves its cost to bisque and to all that went on', async () => {
  await tenOfWhichGlazed('bisque-lost', 6)
  await pottery.does('grade', { runId: 'bisque-lost', firsts: 3, seconds: 0, wasters: 0 })
  await lose('bisque-lost', 1, 'glazing')
  const costs = []
  for (const place of ['bisque', 'glazed', 'finished']) {
    costs.push((await held(place, 'bisque-lost')).cost)
  }
  // One pot's 1.00 over nine that weigh alike: three of bisque, three glazed, three on the shelf.
  expect(costs).toEqual(['3.333334', '11.533333', '11.533333'])
})
