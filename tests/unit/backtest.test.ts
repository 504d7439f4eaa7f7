import { describe, expect, test } from 'vitest'
import type { Act, Circumstances } from '../../db/perform.ts'
import { coverageOf, outcomeOf, together } from '../backtest/coverage.ts'
import { habitNamings, namingLines } from '../backtest/naming.ts'
import { readinessRows, readinessTable } from '../backtest/readiness.ts'
import { threeWeeks } from '../backtest/three-weeks.ts'
import { TruePotter } from '../backtest/true-potter.ts'
import { SCALES, shown } from '../backtest/true-scale.ts'
import { yieldStudios, yieldTable } from '../backtest/yield.ts'
import { Chance } from '../support/chance.ts'

const silent = () => undefined
const MINUTE = 60_000

/** Three weeks of true clay and what was said of it, told to nobody. */
async function weeksOf(seed: number) {
  const said: unknown[] = []
  const does = <Said extends Circumstances>({ kind }: Act<Said>, what: Said) => {
    said.push({ kind, what })
    return Promise.resolve()
  }
  const potter = new TruePotter(new Chance(seed), 'beside', does)
  await threeWeeks(potter, true)
  return { said, heaps: [...potter.truth.heaps] }
}

describe('the backtest finds the same again with the same seed', () => {
  test('for readiness', { timeout: MINUTE }, async () => {
    const [one, other] = [await readinessRows(1, silent), await readinessRows(1, silent)]
    expect(one).toEqual(other)
    expect(readinessTable(one)).toContain('| as believed |')
  })

  test('for yield', async () => {
    const [one, other] = [await yieldStudios(2, silent), await yieldStudios(2, silent)]
    expect(one).toEqual(other)
    expect(yieldTable(one)).toContain('Wilson 90')
  })

  test('for the planted weigh-in', { timeout: MINUTE }, async () => {
    const [one, other] = [await habitNamings(1, silent), await habitNamings(1, silent)]
    expect(one).toEqual(other)
    expect(namingLines(one)).toContain('named first')
  })

  test('for what is truly in stock, and what the ledger is told of it', async () => {
    const [one, same, another] = [await weeksOf(5), await weeksOf(5), await weeksOf(6)]
    expect(one.said).toEqual(same.said)
    expect(one.heaps).toEqual(same.heaps)
    expect(one.said).not.toEqual(another.said)
  })
})

describe('true clay', () => {
  test('is moved about and never lost, nor gained but by deliveries', async () => {
    const { heaps } = await weeksOf(9)
    const dryGrams = heaps.reduce((sum, [, clay]) => sum + clay.dryGrams, 0)
    const bought = 17 * 12_500
    // Each bag within a per cent of its label; 21 % of water, and what studios and batches differ.
    expect(dryGrams).toBeGreaterThan(bought * 0.65)
    expect(dryGrams).toBeLessThan(bought * 0.93)
    for (const [, clay] of heaps) expect(clay.dryGrams).toBeGreaterThanOrEqual(0)
  })

  test('shows on a scale to the nearest division', () => {
    expect(shown(SCALES.bench, 1002.4)).toEqual({ value: '1000', unit: 'g' })
    expect(shown(SCALES.pocket, 71.26)).toEqual({ value: '71.3', unit: 'g' })
  })
})

describe('how often intervals hold', () => {
  const tally = (held: number, early: number, late: number) => ({ held, early, late })

  test('an end belongs to its interval', () => {
    const interval = { from: 1, to: 2 }
    expect([0.9, 1, 2, 2.1].map((truth) => outcomeOf(truth, interval))).toEqual([
      ...['early', 'held', 'held', 'late'],
    ])
  })

  test('is told with Wilson’s margin where each studio has one interval', () => {
    const studios = [...Array.from({ length: 90 }, () => tally(1, 0, 0)), tally(0, 1, 0)]
    const seen = coverageOf([...studios, ...Array.from({ length: 9 }, () => tally(0, 0, 1))])
    expect(seen).toMatchObject({ held: 0.9, early: 0.01, late: 0.09, intervals: 100 })
    expect(seen?.from).toBeCloseTo(0.8256, 4)
    expect(seen?.to).toBeCloseTo(0.9448, 4)
  })

  test('is less sure where the intervals of a studio stand and fall together', () => {
    const apart = coverageOf(Array.from({ length: 40 }, () => tally(9, 1, 0)))
    const once = [...Array.from({ length: 36 }, () => tally(10, 0, 0))]
    const allOrNone = coverageOf([...once, ...Array.from({ length: 4 }, () => tally(0, 10, 0))])
    expect(apart?.held).toBeCloseTo(allOrNone?.held ?? NaN, 12)
    expect((allOrNone?.to ?? 0) - (allOrNone?.from ?? 0)).toBeGreaterThan(0.15)
  })

  test('is not told of nothing', () => {
    expect(coverageOf([tally(0, 0, 0)])).toBeUndefined()
    expect(together([])).toEqual(tally(0, 0, 0))
  })
})
