import { afterAll, beforeAll, expect, test } from 'vitest'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'

const BUCKET = '/weigh/vessel/bucket-1'
const FORM = 'application/x-www-form-urlencoded'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery({ studios: [STUDIO] })
})
afterAll(() => pottery.close())

const press = (body: string, contentType = FORM) =>
  pottery.ask('POST', BUCKET, {
    raw: body,
    headers: { 'Content-Type': contentType, Origin: 'http://localhost', Host: 'localhost' },
  })

test.each([
  ['a thousand or one and a bit', 'gross=1%2C250&grossUnit=g&key=k1', 'two ways'],
  ['a year that was mistyped', 'gross=2&when=0026-11-25T10:00&key=k2', 'name="gross"'],
  ['letters', 'gross=wet&key=k3', 'not a number'],
  ['an exponent', 'gross=1e5&key=k4', 'exponent'],
  ['less than nothing', 'gross=-3&key=k5', 'at least 0'],
  ['a tag', 'gross=%3Cb%3E&key=k6', '&lt;b&gt;'],
  ['nothing at all', '', 'This is still empty'],
])('%s comes back with what was typed and why', async (_, body, words) => {
  const before = await pottery.entries()
  const { status, text } = await press(body)
  expect(status).toBe(422)
  expect(text).toContain(words)
  expect(await pottery.entries()).toBe(before)
})

test('what is no form is said to be none, and is no fault of ours', async () => {
  for (const [body, type] of [
    ['{}', 'application/json'],
    ['broken', 'multipart/form-data; boundary=x'],
  ] as const) {
    const { status } = await press(body, type)
    expect(status).toBe(422)
  }
  expect(pottery.logged).toEqual([])
})

test('an address that names no entry shows the page alone', async () => {
  for (const did of ['%00', '../../x', 'no-such-entry']) {
    const { status, text } = await pottery.ask('GET', `/?did=${did}`)
    expect(status).toBe(200)
    expect(text).not.toContain('class="recorded"')
  }
})
