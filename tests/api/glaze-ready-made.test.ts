import { afterEach, beforeEach, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import { glazeBooks, openGlazePottery } from './glaze-pottery.ts'
import { problem, problemIn, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeEach(async () => {
  pottery = await openGlazePottery()
})
afterEach(async () => {
  await pottery.close()
})

const { held, bucket } = glazeBooks(() => pottery)
const mix = (ingredients: object[], glazeId = 'clear') =>
  pottery.ask('POST', '/v1/acts/mix-glaze', {
    body: { glazeId, vesselId: 'bucket-3', ingredients, water: g('900') },
  })
const powder = (ingredientId: string, grams: string) => ({
  ingredientId,
  reading: { net: g(grams) },
})

/** Five kilograms of a clear glaze, bought as powder. */
async function buyClear(): Promise<void> {
  const body = {
    ...{ materialId: 'clear', name: 'Clear', kind: 'glaze', keptBy: 'mass' },
    ...{ lossOnIgnitionFraction: '0.08', grainGramsPerMillilitre: '2.5' },
    hazards: [{ hazard: 'silica', statement: 'H372' }],
  }
  const made = await pottery.ask('POST', '/v1/materials', { body })
  expect(made.status, made.text).toBe(201)
  await pottery.does('receive-materials', {
    materials: [{ materialId: 'clear', mass: kg('5'), price: '50.00' }],
  })
}

test('a glaze that was bought as powder is wetted into its bucket, as its supplier says it is', async () => {
  await buyClear()
  const { status, body, text } = await mix([powder('clear', '1000')])
  expect(status, text).toBe(201)
  expect(body['made']).not.toHaveProperty('words')
  expect(await bucket()).toMatchObject({ materialId: 'clear', materialGrams: '1000', cost: '10' })
  expect(await held({ place: 'materials', materialId: 'clear' })).toMatchObject({
    ...{ materialGrams: '4000', cost: '40' },
  })
  const report = await pottery.ask('GET', '/v1/reports/glaze-buckets')
  const [row] = report.body['items'] as object[]
  expect(row).toMatchObject({ lossOnIgnitionFraction: '0.08' })
})

test('another glaze is no ingredient, nor is a glaze of its own recipe', async () => {
  await buyClear()
  const wrong = problem(422, 'material_must_be_of_the_kind', ['#/ingredients/0/ingredientId'])
  expect(problemIn(await mix([powder('clear', '10')], 'celadon'))).toEqual(wrong)
  const body = { parts: [{ ingredientId: 'clear', parts: '100' }] }
  expect(problemIn(await pottery.ask('POST', '/v1/materials/clear/recipes', { body }))).toEqual(
    problem(422, 'material_must_be_of_the_kind', ['#/parts/0/ingredientId']),
  )
})

test('a powder that is named twice is refused where it stands again', async () => {
  const twice = [powder('silica', '10'), powder('feldspar', '10'), powder('silica', '20')]
  expect(problemIn(await mix(twice, 'celadon'))).toEqual(
    problem(422, 'fields_must_be_right', ['#/ingredients/2/ingredientId']),
  )
})
