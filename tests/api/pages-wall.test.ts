import { afterAll, beforeAll, expect, test } from 'vitest'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery({ studios: [STUDIO] })
})
afterAll(() => pottery.close())

test('the wall has forms, clays, vessels and bats, each with its figure', async () => {
  const { status, text } = await pottery.ask('GET', '/books/wall', { studio: null })
  expect(status).toBe(200)
  expect(text.match(/<h1>/g)).toHaveLength(1)
  expect(text).toMatch(/>Mug<\/th><td class="number">400 g<\/td><td class="number">5 %<\/td>/)
  expect(text).toMatch(/>Plate<\/th><td class="number">1\.600 kg<\/td><td class="number">–<\/td>/)
  expect(text).toMatch(/>bucket-1<\/th><td class="number">400 g<\/td>/)
  expect(text).toMatch(/>bat-a<\/th><td class="number">7\.000 kg<\/td>/)
  expect(text).toMatch(/>Buff stoneware<\/th><td class="number">21\.0 % <small>assumed<\/small>/)
})

test('what a dry test found is said to be measured', async () => {
  await pottery.does('dry-test', {
    bodyId: 'buff',
    state: 'as_delivered',
    sample: {
      wetWithTin: { value: '100.0', unit: 'g' },
      dryWithTin: { value: '80.0', unit: 'g' },
    },
  })
  const { text } = await pottery.ask('GET', '/books/wall', { studio: null })
  expect(text).toMatch(/>Buff stoneware<\/th><td class="number">20\.\d % <small>measured<\/small>/)
})

test('the dust caution has the limits of the place with their source, and the law comes first', async () => {
  const { text } = await pottery.ask('GET', '/books/wall', { studio: null })
  expect(text).toContain('Do not sweep')
  expect(text).toContain('Health and Safety Executive')
  expect(text).toContain('0.1 mg/m³ over 8 h (EH40/2005')
  expect(text).not.toContain('OSHA')
  expect(text).toContain('Local law and licensed practice come first')
})

test('where there is nothing yet, the sheet stands all the same', async () => {
  const bare = await openPottery({ studios: [] })
  const body = {
    studioId: 'new',
    name: 'New',
    currency: 'USD',
    timeZone: 'America/Denver',
    jurisdiction: 'US',
  }
  await bare.ask('POST', '/v1/studios', { studio: null, body })
  const wall = await bare.ask('GET', '/books/wall', { studio: null })
  expect(wall.text).toContain('OSHA')
  const labels = await bare.ask('GET', '/books/labels', { studio: null })
  expect([wall.status, labels.status]).toEqual([200, 200])
  await bare.close()
})
