import { afterAll, beforeAll, expect, test } from 'vitest'
import { BY_POTS, JUGS, mixCeladon, openGlazePottery } from './glaze-pottery.ts'
import { problem, problemIn, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openGlazePottery()
  await pottery.ask('PATCH', '/v1/forms/mug', { body: { glazeGramsPerPiece: '30' } })
  await mixCeladon(pottery)
  await pottery.does('glaze', { ...JUGS, pots: BY_POTS })
})
afterAll(async () => {
  await pottery.close()
})

const batch = (query: string) => pottery.ask('GET', `/v1/materials/celadon/batch?${query}`)

test('enough for runs leaves out pots that carry glaze already, and says so', async () => {
  const { status, body, text } = await batch('runIds=jugs,mugs,green&carriedOffFraction=0')
  expect(status, text).toBe(200)
  expect(body['forRuns']).toMatchObject({
    onPotsDryGrams: '420',
    runs: [
      { runId: 'mugs', pieces: '10' },
      { runId: 'green', pieces: '4' },
    ],
  })
  expect(body['words']).toBe(
    "The shelf has it all. Left out: 16 pots of 'jugs' in bisque, which carry glaze already.",
  )
})

test('of runs that are all glazed there is nothing to weigh out', async () => {
  const answer = await batch('runIds=jugs')
  expect(problemIn(answer)).toEqual(problem(409, 'stage_must_hold_the_pieces', ['#/runIds']))
  expect(answer.text).toContain('carry glaze already')
})

test('each line says what its powder carries', async () => {
  const { body } = await batch('dryGrams=100')
  const lines = body['ingredients'] as { hazards: unknown }[]
  expect(lines.map(({ hazards }) => hazards)).toEqual([
    [],
    [{ hazard: 'silica', statement: 'H372' }],
    [],
    [{ hazard: 'manganese', statement: 'H302' }],
  ])
})
