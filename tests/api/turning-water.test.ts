import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { g, kg } from '../support/studio.ts'
import { openPottery, type Pottery } from './pottery.ts'

// eslint-disable-next-line @typescript-eslint/no-explicit-any
type Json = any

/** Wet turnings of a potter who turns as ever, g. */
const AS_EVER = [1500, 1520, 1480, 1510, 1490, 1530, 1470, 1500, 1515, 1485, 1525, 1495]
const AS_EVER_AFTER = [1505, 1475, 1520, 1490, 1510, 1480, 1530, 1495]
const SAMPLE_OF_22 = { wetWithTin: g('100.00'), dryWithTin: g('78.00') }

let halfHours = 0
const soon = (): string => {
  halfHours += 1
  return new Date(Date.parse('2026-03-01T10:00:00Z') + halfHours * 30 * 60_000).toISOString()
}

/** Runs of twenty balls, and a test of turnings after the twelfth, which finds more water than believed. */
async function runsWith(pottery: Pottery, wetGrams: readonly number[], water?: object) {
  await pottery.does('receive-delivery', {
    happenedAt: soon(),
    clays: [
      { bodyId: 'buff', lotId: 'd1', bags: 40, bagMass: kg('12.5'), water: SAID, price: '600' },
    ],
  })
  await pottery.does('open-bag', { happenedAt: soon(), lotId: 'd1', bags: 40, newLotId: 'o1' })
  for (const [index, grams] of wetGrams.entries()) {
    const runId = `plates-${String(index + 1)}`
    if (index === 12) {
      await pottery.does('bisque', { happenedAt: soon(), runs: [{ runId: 'plates-2' }] })
      const tested = { bodyId: 'buff', state: 'turnings', sample: SAMPLE_OF_22 }
      await pottery.does('dry-test', { happenedAt: soon(), ...tested })
    }
    await pottery.does('throw', {
      ...{ happenedAt: soon(), formId: 'plate', runId, label: runId },
      from: [{ lotId: 'o1', balls: 20, ballMass: g('400') }],
    })
    if (index % 3 === 0) {
      const slops = { runIds: [runId], vesselId: 'basin-1', state: 'slops' }
      await pottery.does('collect-slops', {
        happenedAt: soon(),
        ...slops,
        reading: { net: g('300') },
      })
    }
    await pottery.does('turn', {
      ...{ happenedAt: soon(), runId, vesselId: 'bucket-1' },
      ...(water === undefined || index < 12 ? {} : { water }),
      turnings: { net: g(String(grams)) },
    })
  }
  const answer = await pottery.ask('GET', '/v1/reports/turning/plate')
  expect(answer.status).toBe(200)
  return answer.body as Json
}

const SAID = { content: '0.2', basis: 'wet', standing: 'measured' }

describe('a dry test of turnings', () => {
  let pottery: Pottery
  beforeAll(async () => {
    pottery = await openPottery()
  })
  afterAll(() => pottery.close())

  test('fakes no drift: all runs are reckoned with the figure as it is known now', async () => {
    const report = await runsWith(pottery, [...AS_EVER, ...AS_EVER_AFTER])
    expect([report.lately, report.signals]).toEqual(['as_usual', []])
    expect(report.points).toHaveLength(20)
    const dryOf = (index: number) => Number(report.points[index].turnedOffDryGrams)
    // The first and the eighth were 1500 g wet, the one as well as the other before the test.
    expect(dryOf(0)).toBe(dryOf(7))
    expect(dryOf(13) / 1475).toBeCloseTo(dryOf(0) / 1500, 6)
    // Nearer the 22 % of the test than the 15 % of the default.
    expect(1 - dryOf(0) / 1500).toBeGreaterThan(0.19)
    expect(report.points.every(({ hasOwnWater }: Json) => !hasOwnWater)).toBe(true)
    expect(report.waterWords).toContain('figure as it is known now')
  }, 60_000)

  test('leaves fired pots as light as pots that were made alike after it', async () => {
    await pottery.does('bisque', { happenedAt: soon(), runs: [{ runId: 'plates-15' }] })
    const { body } = await pottery.ask('GET', '/v1/reports/turning/plate')
    const { points } = body as Json
    // Both were turned by 1520 g, the one fired before the test and the other after it.
    expect(Number(points[1].dryGramsAPiece)).toBeGreaterThan(200)
    expect(Number(points[14].dryGramsAPiece)).toBeCloseTo(Number(points[1].dryGramsAPiece), 4)
  })

  test('of slops sets the pots before turning right, in all runs alike', async () => {
    const tested = { bodyId: 'buff', state: 'slops', sample: SAMPLE_OF_22 }
    const before = await pottery.ask('GET', '/v1/reports/turning/plate')
    await pottery.does('dry-test', { happenedAt: soon(), ...tested })
    const after = await pottery.ask('GET', '/v1/reports/turning/plate')
    const grams = ({ body }: { body: Json }, index: number) =>
      Number(body.points[index].beforeDryGrams)
    // 300 g of slops hold the more dry clay the less water they hold, and the pots the less.
    const first = grams(before, 0) - grams(after, 0)
    expect(first).toBeGreaterThan(50)
    expect(grams(before, 18) - grams(after, 18)).toBeCloseTo(first, 5)
    expect(grams(before, 1)).toBe(grams(after, 1))
  })
})

describe('true drift', () => {
  let pottery: Pottery
  beforeAll(async () => {
    pottery = await openPottery()
  })
  afterAll(() => pottery.close())

  test('after a dry test is seen as ever', async () => {
    const more = AS_EVER_AFTER.map((grams) => grams + 150)
    const report = await runsWith(pottery, [...AS_EVER, ...more])
    expect(report.lately).toBe('thinner')
    expect(report.signals.at(-1)).toMatchObject({ direction: 'thinner', isNow: true })
  }, 60_000)
})

describe('runs whose water was measured', () => {
  let pottery: Pottery
  beforeAll(async () => {
    pottery = await openPottery()
  })
  afterAll(() => pottery.close())

  test('keep it, and the chart says that not all are reckoned alike', async () => {
    const report = await runsWith(pottery, [...AS_EVER, 1500], SAID)
    expect(report.points.at(-1)).toMatchObject({ hasOwnWater: true, turnedOffDryGrams: '1200' })
    expect(report.waterWords).toContain('The turnings of 1 of 13 runs have water contents of their')
  }, 60_000)
})
