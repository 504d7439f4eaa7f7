import { afterAll, beforeAll, expect, test } from 'vitest'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'

const kg = (value: string) => ({ value, unit: 'kg' })

let pottery: Pottery
beforeAll(async () => {
  // The clock stands at 15 June 2026.
  pottery = await openPottery({ studios: [STUDIO] })
  const { does } = pottery
  await does('receive-delivery', {
    happenedAt: '2026-03-02T09:00:00Z',
    clays: [{ bodyId: 'buff', lotId: 'old-bags', bags: 3, bagMass: kg('10'), price: '30' }],
  })
  await does('receive-delivery', {
    happenedAt: '2026-06-01T09:00:00Z',
    clays: [{ bodyId: 'buff', lotId: 'new-bags', bags: 2, bagMass: kg('10'), price: '20' }],
  })
  await does('open-bag', {
    happenedAt: '2026-06-02T09:00:00Z',
    lotId: 'new-bags',
    bags: 1,
    newLotId: 'open',
  })
  await does('throw', {
    happenedAt: '2026-06-10T09:00:00Z',
    formId: 'mug',
    runId: 'mugs',
    from: [{ lotId: 'open', balls: 10, ballMass: kg('0.4') }],
  })
  await does('throw', {
    happenedAt: '2026-06-11T09:00:00Z',
    formId: 'plate',
    runId: 'plates',
    from: [{ lotId: 'open', balls: 2, ballMass: kg('1.6') }],
  })
  await does('turn', {
    happenedAt: '2026-06-12T09:00:00Z',
    runId: 'mugs',
    vesselId: 'bucket-1',
    turnings: { net: kg('0.3') },
  })
})
afterAll(() => pottery.close())

test('pots wait at their stage, and turning that was taken back is no turning', async () => {
  const pots = async () => {
    const { body } = await pottery.ask('GET', '/v1/reports/waiting')
    return (body['pots'] as { runId: string; isTurned: boolean; pieces: string }[]).map(
      ({ runId, isTurned, pieces }) => [runId, isTurned, pieces],
    )
  }
  expect(await pots()).toEqual([
    ['mugs', true, '10'],
    ['plates', false, '2'],
  ])
  const turned = await pottery.ask('GET', '/v1/entries?kind=turn')
  const [entry] = turned.body['items'] as { entryId: string }[]
  await pottery.does('correct', { entryId: entry?.entryId })
  expect((await pots())[0]).toEqual(['mugs', false, '10'])
})

test('what nobody counted for thirty days is due, and nothing else', async () => {
  const { body } = await pottery.ask('GET', '/v1/reports/waiting')
  const due = body['countsDue'] as { place: string; countedAt: string }[]
  expect(due).toHaveLength(1)
  expect(due[0]).toMatchObject({ place: 'store', countedAt: '2026-03-02T09:00:00.000Z' })
})

test('clay lasts as long as the pace of eight weeks lets it', async () => {
  const { body } = await pottery.ask('GET', '/v1/reports/waiting')
  const clays = body['clays'] as Record<string, string | null>[]
  expect(clays.map(({ name }) => name)).toEqual(['Buff stoneware', 'White stoneware'])
  const [buff, white] = clays
  // 7.2 kg of wedged clay were thrown and 42.8 kg are left: at 7.2 kg in eight weeks, 47.6 weeks.
  expect(Number(buff?.['weeks'])).toBeCloseTo((8 * 42.8) / 7.2, 0)
  expect(buff?.['isDue']).toBe(false)
  expect(white?.['weeks']).toBeNull()
})
