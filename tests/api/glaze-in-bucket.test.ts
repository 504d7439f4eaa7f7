import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import { jugOf, openGlazePottery } from './glaze-pottery.ts'
import type { Pottery } from './pottery.ts'

let pottery: Pottery
beforeEach(async () => {
  pottery = await openGlazePottery()
})
afterEach(async () => {
  await pottery.close()
})

const IN = { glazeId: 'celadon', vesselId: 'bucket-3' }
const powder = (ingredientId: string, grams: string) => ({
  ingredientId,
  reading: { net: g(grams) },
})
const mix = (ingredients: object[], more: object = {}) =>
  pottery.does('mix-glaze', { ...IN, ingredients, water: g('1000'), ...more })
const empty = () =>
  pottery.does('lose-glaze', { vesselId: 'bucket-3', why: 'thrown_away', whatIsLeft: true })
const bucketNow = async (vesselId = 'bucket-3') => {
  const { body } = await pottery.ask('GET', '/v1/reports/glaze-buckets')
  const rows = body['items'] as Record<string, string>[]
  return rows.find((row) => row['vesselId'] === vesselId)
}
const lossNow = async (vesselId?: string) =>
  Number((await bucketNow(vesselId))?.['lossOnIgnitionFraction'])

describe('what burns off the glaze in a bucket', () => {
  test('is moved by a batch by as much as it is of what is there', async () => {
    await mix([powder('feldspar', '9000')])
    expect(await lossNow()).toBe(0.005)
    // Manganese loses a tenth.
    await mix([powder('manganese', '50')])
    expect(await lossNow()).toBeCloseTo((9000 * 0.005 + 50 * 0.1) / 9050, 6)
  })

  test('goes by what was left in it, and starts anew in an empty bucket', async () => {
    await mix([powder('feldspar', '1000')])
    await pottery.does('lose-glaze', { vesselId: 'bucket-3', why: 'spilt', dryGrams: '900' })
    await mix([powder('silica', '100')])
    expect(await lossNow()).toBe(0.0025)
    await empty()
    await mix([powder('manganese', '50')])
    expect(await lossNow()).toBe(0.1)
  })

  test('leaves out a batch that was taken back', async () => {
    await mix([powder('feldspar', '900')])
    const { entry } = await mix([powder('manganese', '100')])
    expect(await lossNow()).toBe(0.0145)
    const { entryId } = entry as { entryId: string }
    await pottery.does('correct', { entryId })
    expect(await lossNow()).toBe(0.005)
  })

  test('is not what went into another bucket', async () => {
    await mix([powder('feldspar', '900')])
    await mix([powder('manganese', '100')], { vesselId: 'bucket-1' })
    expect(await lossNow()).toBe(0.005)
    expect(await lossNow('bucket-1')).toBe(0.1)
  })

  test('of glaze from before the books is as its recipe has it, and a batch moves that too', async () => {
    await pottery.does('open-books', {
      items: [],
      materials: [{ materialId: 'celadon', vesselId: 'bucket-3', mass: kg('1') }],
    })
    const before = await lossNow()
    expect(before).toBe(0.047264)
    const there = Number((await bucketNow())?.['dryGrams'])
    await mix([powder('manganese', '50')])
    expect(await lossNow()).toBeCloseTo((there * before + 5) / (there + 50), 5)
  })
})

describe('what the glaze in a bucket carries', () => {
  const titles = async (name: string, body: object) => {
    const answer = await pottery.ask('POST', `/v1/acts/${name}?preview=true`, { body })
    expect(answer.status, answer.text).toBe(200)
    return (answer.body['cautions'] as { title?: string }[]).map(({ title }) => title)
  }
  const vesselId = 'bucket-3'
  const acts: [string, object][] = [
    ['read-glaze', { vesselId, density: jugOf('1100') }],
    ['water-glaze', { vesselId, water: g('10') }],
    ['water-glaze', { vesselId, takenOff: { net: g('10') } }],
    ['lose-glaze', { vesselId, why: 'sieve', dryGrams: '1' }],
  ]

  test.each(acts)('is told by %s, though the recipe no longer has it: %#', async (name, said) => {
    await mix([powder('feldspar', '900'), powder('manganese', '50')])
    const parts = [{ ingredientId: 'feldspar', parts: '100' }]
    await pottery.ask('POST', '/v1/materials/celadon/recipes', { body: { parts } })
    expect(await titles(name, said)).toContain('Manganese')
  })

  test.each(acts)(
    'is not told by %s of what the recipe has and no batch: %#',
    async (name, said) => {
      await mix([powder('manganese', '50')])
      await empty()
      await mix([powder('feldspar', '900')])
      expect(await titles(name, said)).not.toContain('Manganese')
    },
  )
})
