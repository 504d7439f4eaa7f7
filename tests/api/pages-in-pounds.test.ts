import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { faultsIn, openBags, pageAt, pressed, send, sendKept } from './page-acts.ts'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await openBags(pottery)
  const body = { massUnits: 'pounds_ounces', tradeWords: 'US' }
  await pottery.ask('PATCH', `/v1/studios/${STUDIO}`, { body })
})
afterAll(() => pottery.close())

const GRAMS = /\d g\b/
const POUNDS = /There are [\d.]+ lb [\d.]+ oz of dry clay/

describe('a refusal in a studio of pounds', () => {
  const tooMany = { lotId: 'o1', how: 'balls', balls: '900', ballMass: '400', ballMassUnit: 'g' }

  test('says its masses in pounds and ounces, above the form', async () => {
    const faults = faultsIn(await send(pottery, '/wheel/throw/mug', tooMany)).join()
    expect(faults).toMatch(POUNDS)
    expect(faults).not.toMatch(GRAMS)
  })

  test('while one types, and to the phone’s own queue', async () => {
    const typing = await send(pottery, '/wheel/throw/mug', { ...tooMany, preview: 'true' })
    expect(typing.text).toMatch(POUNDS)
    expect(typing.text).not.toMatch(GRAMS)
    const { status, body } = await sendKept(pottery, '/wheel/throw/mug', tooMany)
    expect(status).toBe(409)
    expect(body.detail).toMatch(POUNDS)
  })

  test('to a program that asks the API, in grams as ever', async () => {
    const from = [{ lotId: 'o1', balls: 900, ballMass: { value: '400', unit: 'g' } }]
    const said = { formId: 'mug', label: 'Mugs', from }
    const { body } = await pottery.ask('POST', '/v1/acts/throw', { body: said })
    expect(body.detail).toMatch(/There are [\d.]+ g of dry clay/)
  })
})

test('a hint about a vessel is in pounds too', async () => {
  const { text } = await pageAt(pottery, '/books/things/vessels/new')
  expect(text).toContain('A bucket of 10 liters has 12.3 oz to 1 lb 1.6 oz')
})

describe('American words stand', () => {
  test.each([
    ['/books/wall', '>Trimmed off<', 'Turned off'],
    ['/books/piece', 'trimmed off and lost. Labor is not', 'Labour'],
    ['/books/month/2026-06', 'labor is not in the books.', 'labour'],
    ['/books/studio', 'In the trimming report.', 'turning report'],
  ])('on %s', async (path, american, british) => {
    const { text } = await pageAt(pottery, path)
    expect(text).toContain(american)
    expect(text).not.toContain(british)
  })

  test('where pots are lost, where scrap is slaked, and where their clay is traced', async () => {
    const some = { lotId: 'o1', how: 'balls', balls: '4', ballMass: '400', ballMassUnit: 'g' }
    const { to } = await pressed(pottery, '/wheel/throw/mug', some)
    expect((await pageAt(pottery, `${to}/lose`)).text).toContain('Drying, or bone dry')
    await pressed(pottery, `${to}/turn`, {
      ...{ way: 'alone', amount: '0.1', amountUnit: 'kg', vesselId: 'bucket-1' },
    })
    const { text } = await pageAt(pottery, to.replace('/wheel/run', '/books/trail/run'))
    expect(text).toContain('<th scope="row">trimmed off</th>')
    expect((await pageAt(pottery, '/plaster/slake')).text).toContain('by some centimeters')
  })
})
