import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openPottery, problem, problemIn, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  const body = { materialId: 'whiting', name: 'Whiting', kind: 'ingredient', keptBy: 'mass' }
  await pottery.ask('POST', '/v1/materials', { body })
})
afterAll(() => pottery.close())

describe('/v1/materials', () => {
  const enter = (body: object) => pottery.ask('POST', '/v1/materials', { body })

  test.each(['ingredient', 'glaze', 'fuel'])('%s is kept by mass', async (kind) => {
    const answer = await enter({ name: `counted ${kind}`, kind, keptBy: 'count' })
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', ['#/keptBy']))
    expect(answer.text).toContain('kept by mass')
  })

  test.each(['packaging', 'kiln_furniture'])('%s may be counted, in whole packs', async (kind) => {
    const said = { name: `counted ${kind}`, kind, keptBy: 'count' }
    const halves = await enter({ ...said, packSize: '2.5' })
    expect(problemIn(halves)).toEqual(problem(422, 'fields_must_be_right', ['#/packSize']))
    expect((await enter({ ...said, packSize: '20' })).status).toBe(201)
  })

  test('what it is and how it is kept are fixed for good, and the refusal says so', async () => {
    for (const [field, value] of [
      ['kind', 'glaze'],
      ['keptBy', 'count'],
    ] as const) {
      const answer = await pottery.ask('PATCH', '/v1/materials/whiting', {
        body: { [field]: value },
      })
      expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', [`#/${field}`]))
      expect(answer.text).toContain('fixed for good')
    }
  })

  test.each([
    ['hazards', [{ hazard: 'plutonium' }], '#/hazards/0/hazard'],
    ['hazards', [{ hazard: 'lead', percentage: '101' }], '#/hazards/0/percentage'],
    ['dataSheetOn', '14 March 2026', '#/dataSheetOn'],
    ['dataSheetOn', '2026-02-30', '#/dataSheetOn'],
    ['waterContentWetBasis', '1', '#/waterContentWetBasis'],
    ['priceSteps', [{ atLeast: '0', pricePerUnit: '1' }], '#/priceSteps/0/atLeast'],
    ['reorderPoint', '-1', '#/reorderPoint'],
  ])('refuses a %s that cannot be', async (field, value, pointer) => {
    const answer = await pottery.ask('PATCH', '/v1/materials/whiting', { body: { [field]: value } })
    expect(problemIn(answer)).toEqual(problem(422, 'fields_must_be_right', [pointer]))
  })
})

describe('what a form is packed in', () => {
  const pack = (packing: unknown) => pottery.ask('PATCH', '/v1/forms/mug', { body: { packing } })

  test('is packaging that there is', async () => {
    const body = { materialId: 'mug-box', name: 'Mug box', kind: 'packaging', keptBy: 'count' }
    await pottery.ask('POST', '/v1/materials', { body })
    const packing = [{ materialId: 'mug-box', perPiece: '1' }]
    expect((await pack(packing)).body).toMatchObject({ packing })
    const unknown = await pack([...packing, { materialId: 'nothing', perPiece: '1' }])
    expect(problemIn(unknown)).toEqual(
      problem(404, 'material_not_found', ['#/packing/1/materialId']),
    )
    const powder = await pack([{ materialId: 'whiting', perPiece: '1' }])
    expect(problemIn(powder)).toEqual(
      problem(422, 'material_must_be_of_the_kind', ['#/packing/0/materialId']),
    )
    const none = await pack([{ materialId: 'mug-box', perPiece: '0' }])
    expect(problemIn(none)).toEqual(problem(422, 'fields_must_be_right', ['#/packing/0/perPiece']))
    expect(problemIn(await pack([...packing, ...packing]))).toEqual(
      problem(422, 'fields_must_be_right', ['#/packing']),
    )
    const read = await pottery.ask('GET', '/v1/forms/mug')
    expect(read.body).toMatchObject({ packing })
  })
})
