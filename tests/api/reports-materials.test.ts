import { afterAll, beforeAll, expect, test } from 'vitest'
import { fillFiredStudio } from '../support/fired-studio.ts'
import { reportAppOf, type ReportApp } from '../support/report-app.ts'
import { openTestStudio } from '../support/studio.ts'

let app: Omit<ReportApp, 'soldEntryId'>

beforeAll(async () => {
  const studio = await openTestStudio()
  await fillFiredStudio(studio)
  app = await reportAppOf(studio)
})
afterAll(() => app.close())

test('the materials say what is there, what it cost, and what to order', async () => {
  const report = await app.json('/v1/reports/materials')
  const of = (materialId: string) =>
    report.materials.find((one: { materialId: string }) => one.materialId === materialId)
  // 10 kg for 20, of which 2 kg became glaze; 8 kg is under the 9 kg at which to order.
  expect(of('feldspar')).toMatchObject({
    ...{ dryGrams: '8000', cost: '16', costPerUnit: '2', isReorderReached: true },
    lastDelivery: { pricePerUnit: '2' },
    nextPriceStep: { atLeast: '25', pricePerUnit: '1.5' },
    hazards: [{ hazard: 'crystalline_silica' }],
  })
  expect(of('clear')).toMatchObject({ place: 'glaze_bucket', dryGrams: '1600', cost: '3.2' })
  expect(of('box')).toMatchObject({ pieces: '6', costPerUnit: '0.5', isReorderReached: false })
  expect(of('shelf')).toMatchObject({ pieces: '3', cost: '30', isReorderReached: null })
  expect(report.cost).toBe('52.2')
  const text = await (await app.ask('/v1/reports/materials?format=csv')).text()
  expect(text).toContain('feldspar,Feldspar,ingredient,materials,8000,0,0,0,16,2,9000,true,2')
})

test('what changes if clay and energy grow dearer, each by itself and together', async () => {
  const address = '/v1/reports/what-changes-if?formId=mug&clay=20&energy=20'
  const { before, effects, prices, words } = await app.json(address)
  // Two lost of ten left 0.18 of clay and 0.15 of firing to each of eight, five sixths of it energy.
  expect(before).toMatchObject({
    own: { clay: '0.72', glaze: '0.1', fire: '1.5', wear: '0.3', packaging: '0.5' },
    ofLost: { clay: '0.18', glaze: '0', fire: '0.125', wear: '0.025', packaging: '0' },
    ...{ yieldAfterBisque: '0.8', yieldBeforeBisque: '1', total: '3.45' },
  })
  expect(effects).toMatchObject({
    together: { total: '3.955', difference: '0.505' },
    alone: [
      { words: 'price of clay', after: { difference: '0.18' } },
      { words: 'price of energy', after: { difference: '0.325' } },
    ],
    interplay: '0',
  })
  expect([prices, words]).toEqual([
    null,
    'No price is said of this form, so none can be worked out anew.',
  ])
  // In a full kiln twice the pots share the firing: half of 1.95.
  const fuller = await app.json(
    '/v1/reports/what-changes-if?formId=mug&kilnFullFrom=50&kilnFullTo=100',
  )
  expect(fuller.effects.together.difference).toBe('-0.975')
  const none = await app.json('/v1/reports/what-changes-if?formId=plate&clay=20')
  expect(none).toMatchObject({ before: null, effects: null })
  expect((await app.ask('/v1/reports/what-changes-if?formId=mug&clay=-101')).status).toBe(422)
  expect((await app.ask('/v1/reports/what-changes-if?formId=teapot')).status).toBe(404)
})
