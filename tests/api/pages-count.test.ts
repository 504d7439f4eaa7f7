import { afterAll, beforeAll, expect, test } from 'vitest'
import { TEST_NOW } from '../support/studio.ts'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'
import { bothWays, opened, pressed } from './pressed.ts'

let pottery: Pottery
let now = TEST_NOW
beforeAll(async () => {
  pottery = await openPottery({ studios: [STUDIO], now: () => now })
  await pottery.does('receive-delivery', {
    clays: [{ bodyId: 'buff', lotId: 'june', bags: 10, bagMass: kg('12.5'), price: '100' }],
  })
  await pottery.does('open-bag', { lotId: 'june', bags: 3, newLotId: 'bench-1' })
  const reading = { gross: kg('4.4'), inVesselId: 'bucket-1' }
  await pottery.does('weigh-scrap', {
    vesselId: 'bucket-1',
    bodyId: 'buff',
    reading,
    state: 'slops',
  })
  await pottery.does('open-books', {
    items: [
      { what: 'basin', bodyId: 'buff', vesselId: 'basin-1', reading: { net: kg('9') } },
      { what: 'pots', bodyId: 'buff', formId: 'mug', at: 'bisque', pieces: 12 },
      {
        what: 'scrap',
        bodyId: 'buff',
        vesselId: 'bucket-2',
        state: 'air_dry',
        reading: { net: kg('2') },
      },
    ],
  })
})
afterAll(() => pottery.close())

const kg = (value: string) => ({ value, unit: 'kg' })
const g = (value: string) => ({ value, unit: 'g' })

async function holdingWhere(place: string, vesselId?: string): Promise<string> {
  const { body } = await pottery.ask('GET', '/v1/reports/stock')
  const holdings = body['holdings'] as {
    holdingId: string
    place: string
    vesselId: string | null
  }[]
  const isIt = (held: (typeof holdings)[number]) =>
    held.place === place && (vesselId === undefined || held.vesselId === vesselId)
  return holdings.find(isIt)?.holdingId ?? ''
}

test('the list of what can be counted leads to the page of each', async () => {
  const { text } = await opened(pottery, '/books/count')
  expect(text).toContain(`href="/books/count/${await holdingWhere('store')}"`)
  expect(text).toContain(`href="/books/count/${await holdingWhere('bisque')}"`)
  expect(text).toContain('href="/weigh/lot/bench-1"')
  expect(text).toContain('href="/weigh/vessel/bucket-1"')
})

test('bags, pots and a basin are counted as the API counts them', async () => {
  const store = await holdingWhere('store')
  const bags = await bothWays(
    pottery,
    { act: 'count', said: { holdingId: store, pieces: 6 } },
    () => pressed(pottery, `/books/count/${store}`, { pieces: '6' }),
  )
  expect(bags.byPage).toEqual(bags.byApi)
  const bisque = await holdingWhere('bisque')
  const pots = await bothWays(
    pottery,
    { act: 'count', said: { holdingId: bisque, pieces: 11, reading: { net: kg('3.1') } } },
    () => pressed(pottery, `/books/count/${bisque}`, { pieces: '11', gross: '3.1', seen: 'yes' }),
  )
  expect(pots.byPage).toEqual(pots.byApi)
  const basin = await holdingWhere('basin')
  const slurry = await bothWays(
    pottery,
    {
      act: 'count',
      said: {
        holdingId: basin,
        reading: { gross: kg('8.9'), inVesselId: 'basin-1' },
        state: 'slurry',
      },
    },
    () => pressed(pottery, `/books/count/${basin}`, { gross: '8.9' }),
  )
  expect(slurry.byPage).toEqual(slurry.byApi)
})

test('a count that is no number comes back with what was typed', async () => {
  const store = await holdingWhere('store')
  const { status, text } = await pressed(pottery, `/books/count/${store}`, { pieces: 'six' })
  expect(status).toBe(422)
  expect(text).toContain('href="#pieces"')
  expect(text).toContain('value="six"')
})

test('where nothing is, the page says so and leads on', async () => {
  const { status, text } = await opened(pottery, '/books/count/nothing-here')
  expect(status).toBe(404)
  expect(text).toMatch(/<h1[ >]/)
})

const SAMPLE = { tin: '48.2', tinUnit: 'g', wet: '248.6', wetUnit: 'g', dry: '204.9', dryUnit: 'g' }
const SAID = { tin: g('48.2'), wetWithTin: g('248.6'), dryWithTin: g('204.9') }

test.each([
  { of: 'lot:bench-1', state: 'wedged', said: { bodyId: 'buff', lotId: 'bench-1' } },
  { of: 'vessel:bucket-1', state: 'slops', said: { bodyId: 'buff', vesselId: 'bucket-1' } },
  { of: 'body:white', state: 'turnings', said: { bodyId: 'white' } },
])('a dried sample of $of tells the same as by the API', async ({ of, state, said }) => {
  const { byApi, byPage } = await bothWays(
    pottery,
    { act: 'dry-test', said: { ...said, state, sample: SAID } },
    () => pressed(pottery, '/books/dry-test', { ...SAMPLE, of, state, seen: 'yes', asked: 'yes' }),
  )
  expect(byPage).toEqual(byApi)
})

test('the dust of a dried sample shows before the press, and a preview says what was found', async () => {
  const page = await opened(pottery, '/books/dry-test?bodyId=white')
  expect(page.text).toContain('Dry clay gives off dust')
  expect(page.text).toContain('name="seen" value="yes"')
  expect(page.text).toMatch(/value="body:white" checked/)
  const preview = await pressed(pottery, '/books/dry-test', {
    ...{ ...SAMPLE, of: 'lot:bench-1', state: 'wedged', preview: 'true' },
  })
  expect(preview.text).toContain('The test found 21.8 % of water')
  const heavier = await pressed(pottery, '/books/dry-test', {
    ...{ ...SAMPLE, dry: '260', of: 'lot:bench-1', state: 'wedged', seen: 'yes' },
  })
  expect(heavier.status).toBe(422)
  expect(heavier.text).toContain('value="260"')
})

test('clay is thrown away, part of it or all', async () => {
  const holdingId = await holdingWhere('scrap', 'bucket-1')
  const page = await opened(pottery, '/books/discard')
  expect(page.text).toContain(`href="/books/discard/${holdingId}"`)
  expect(page.text).not.toContain(`href="/books/discard/${await holdingWhere('store')}"`)
  const path = `/books/discard/${holdingId}`
  const part = await bothWays(
    pottery,
    {
      act: 'discard',
      said: { holdingId, reading: { net: kg('1.5') }, reason: 'plaster in it', dryAct: 'sweeping' },
    },
    () =>
      pressed(pottery, path, {
        ...{ net: '1.5', netUnit: 'kg', reason: 'plaster in it', dryAct: 'sweeping', seen: 'yes' },
      }),
  )
  expect(part.byPage).toEqual(part.byApi)
  const all = await bothWays(
    pottery,
    { act: 'discard', said: { holdingId, reason: 'mouldy' } },
    () => pressed(pottery, path, { reason: 'mouldy' }),
  )
  expect(all.byPage).toEqual(all.byApi)
})

test('clay that is dry shows its dust before it is thrown away, and so does dry work', async () => {
  const path = `/books/discard/${await holdingWhere('scrap', 'bucket-2')}`
  expect((await opened(pottery, path)).text).toContain('less than the 5.0 % below which')
  const entries = await pottery.entries()
  const bench = `/books/discard/${await holdingWhere('bench')}`
  const asked = await pressed(pottery, bench, { reason: 'swept', dryAct: 'sweeping' })
  expect(asked.status).toBe(200)
  expect(asked.text).toContain('Do not sweep')
  expect(await pottery.entries()).toBe(entries)
})

test('a month is closed with a warning before it, and then is closed', async () => {
  expect((await opened(pottery, '/books/close-month')).text).toContain('no month to close')
  now = new Date('2026-07-04T09:00:00Z')
  const page = await opened(pottery, '/books/close-month')
  expect(page.text).toContain('A closed month stays closed.')
  expect(page.text).toContain('href="/books/month/2026-06"')
  expect(page.text).toMatch(/value="2026-06"/)
  const { byApi, byPage } = await bothWays(
    pottery,
    { act: 'close-month', said: { month: '2026-06' } },
    () => pressed(pottery, '/books/close-month', { month: '2026-06' }),
  )
  expect(byPage).toEqual(byApi)
  const again = await pressed(pottery, '/books/close-month', { month: '2026-06' })
  expect(again.status).toBe(409)
  const after = await opened(pottery, '/books/close-month')
  expect(after.text).toContain('All up to June 2026 is closed')
})
