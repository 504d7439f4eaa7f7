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
