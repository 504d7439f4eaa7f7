import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { doubtOfSum, doubtRead, type Doubt } from '../../shared/doubt.ts'
import { believable, correctionOf, learnedFrom } from '../../shared/doubt-learning.ts'
import { leastSquaresSolution, timesVector, type Rows } from '../../shared/linear-algebra.ts'
import { moistureFigure } from '../../shared/moisture.ts'
import { quantities, type Quantities } from '../../shared/quantity.ts'
import { waterDoubtOf } from '../../shared/water-doubt.ts'

const clay = (dry: string, water: string, dryDoubt: Record<string, string>) =>
  quantities({
    dryGrams: decimal(dry),
    waterGrams: decimal(water),
    dryDoubt: doubtRead(dryDoubt),
  })

/** What a test of some clay found, by how much of the wet mass it was wetter than the books said. */
const wetter = (held: Quantities, more: string, uncertainty: string) => {
  const reckoned = held.waterGrams.dividedBy(held.dryGrams.plus(held.waterGrams))
  return {
    reckonedWetBasis: reckoned,
    foundWetBasis: reckoned.plus(more),
    reckonedDoubt: waterDoubtOf(held),
    foundUncertainty: decimal(uncertainty),
  }
}

const contribution = (doubt: Doubt, source: string) => (doubt.get(source) ?? ZERO).toNumber()
const isNear = (one: number, other: number, by = 1e-5) =>
  Math.abs(one - other) <= by * Math.max(1, Math.abs(one), Math.abs(other))

describe('one test of clay with one doubtful figure', () => {
  // 800 g of 1000 g wet, off by 30 g a standard uncertainty: 0.03 of the wet mass. The test is as unsure,
  // by 0.04: of the variance 0.0025 the figure has 0.0009, a gain of 0.36. Found 0.05 wetter, of which
  // 0.36 is the figure's: 0.018, 18 g less clay. Left open: 0.03 x root(1 - 0.36) = 0.024, 24 g.
  const held = clay('800', '200', { 'moisture|x': '-30' })
  const learned = learnedFrom(wetter(held, '0.05', '0.04'))

  test('takes off what the figure is to blame for, and leaves the rest of its doubt', () => {
    expect(learned.shifts[0]).toBeCloseTo(0.6, 12)
    const { dryGrams, dryDoubt } = correctionOf(held, learned)
    expect(dryGrams.toFixed()).toBe('-18')
    expect(contribution(doubtOfSum([held.dryDoubt, dryDoubt]), 'moisture|x')).toBe(-24)
  })

  test('goes the other way where another holding leans on it the other way', () => {
    const other = clay('500', '100', { 'moisture|x': '15', 'reading|1': '2' })
    const { dryGrams, dryDoubt } = correctionOf(other, learned)
    expect(dryGrams.toFixed()).toBe('9')
    expect(dryDoubt).toEqual(doubtRead({ 'moisture|x': '-3' }))
  })

  test('leaves what does not lean on it as it was', () => {
    const { dryGrams, dryDoubt } = correctionOf(clay('5', '1', { 'reading|1': '1' }), learned)
    expect(dryGrams.isZero()).toBe(true)
    expect(dryDoubt.size).toBe(0)
  })
})

describe('a test with nothing to learn from', () => {
  test('teaches nothing: clay that nobody doubts, or of whose mass alone one is unsure', () => {
    for (const dryDoubt of [{}, { 'reading|1': '3', 'guess|e|1': '100' }]) {
      const held = clay('800', '200', dryDoubt)
      expect(learnedFrom(wetter(held, '0.1', '0.01')).sources).toEqual([])
    }
  })

  test('of surely known clay by a perfect sample neither divides by nothing', () => {
    expect(learnedFrom(wetter(clay('800', '200', {}), '0.1', '0')).sources).toEqual([])
  })
})

test('a test that leaves next to nothing of a huge doubt open does not fail', () => {
  // A smear that is left where much was weighed out by another water content.
  const held = clay('0.000001', '0.000001', {
    'moisture|a': '500',
    'moisture|b': '300',
    'batch|c': '1',
  })
  for (const uncertainty of ['0.000001', '0']) {
    const learned = learnedFrom(wetter(held, '0.1', uncertainty))
    expect([...learned.shifts, ...learned.root.flat()].every(Number.isFinite)).toBe(true)
    const { dryDoubt } = correctionOf(held, learned)
    const after = doubtOfSum([held.dryDoubt, dryDoubt])
    for (const source of held.dryDoubt.keys()) {
      expect(Math.abs(contribution(after, source))).toBeLessThanOrEqual(0.000002)
    }
  }
})

const SOURCES = ['batch|1', 'moisture|a', 'said|b', 'moisture|c', 'test|d'] as const
const slopes = fc
  .array(fc.integer({ min: -40, max: 40 }), { minLength: 5, maxLength: 5 })
  .map((all) => new Map(SOURCES.map((source, at) => [source, decimal(all[at] ?? 0).times(1000)])))
const doubtsOf = (all: ReadonlyMap<string, Decimal>): Doubt =>
  new Map([...all].filter(([, one]) => !one.isZero()))

/** Mean and covariance of the sources after a test, by the full matrices: K = P h / (h P h + r). */
function conditioned(h: readonly number[], surprise: number, r: number) {
  const identity: Rows = h.map((_, i) => h.map((__, j) => (i === j ? 1 : 0)))
  const ph = timesVector(identity, h)
  const s = [[h.reduce((sum, one, at) => sum + one * (ph[at] ?? 0), 0) + r ** 2]]
  const gain = ph.map((one) => leastSquaresSolution(s, [one])[0] ?? 0)
  return {
    mean: gain.map((one) => one * surprise),
    covariance: identity.map((row, i) => row.map((one, j) => one - (gain[i] ?? 0) * (ph[j] ?? 0))),
  }
}

const quadratic = (one: readonly number[], matrix: Rows, other: readonly number[]) =>
  timesVector(matrix, other).reduce((sum, value, at) => sum + value * (one[at] ?? 0), 0)

test('corrects means, variances and covariances as conditioning the full matrices does', () => {
  const uncertain = fc.integer({ min: 1, max: 40_000 })
  const more = fc.integer({ min: -100, max: 100 })
  fc.assert(
    fc.property(fc.tuple(slopes, slopes, slopes), uncertain, more, (three, r, surprise) => {
      const [reckoned, one, other] = three
      const found = {
        reckonedWetBasis: decimal('0.2'),
        foundWetBasis: decimal('0.2').plus(decimal(surprise).dividedBy(1000)),
        reckonedDoubt: new Map([...doubtsOf(reckoned)].map(([s, v]) => [s, v.dividedBy(1e6)])),
        foundUncertainty: decimal(r).dividedBy(1e6),
      }
      const learned = learnedFrom(found)
      const h = SOURCES.map((source) => contribution(found.reckonedDoubt, source))
      const expected = conditioned(h, surprise / 1000, r / 1e6)
      const holdings = [one, other].map((doubt) => quantities({ dryDoubt: doubtsOf(doubt) }))
      const before = holdings.map((held) => SOURCES.map((s) => contribution(held.dryDoubt, s)))
      const after = holdings.map((held) => {
        const correction = correctionOf(held, learned)
        const dryDoubt = doubtOfSum([held.dryDoubt, correction.dryDoubt])
        return { correction, now: SOURCES.map((source) => contribution(dryDoubt, source)) }
      })
      for (const [at, { correction }] of after.entries()) {
        const mean = expected.mean.reduce((sum, x, i) => sum + x * (before[at]?.[i] ?? 0), 0)
        expect(isNear(correction.dryGrams.toNumber(), mean)).toBe(true)
      }
      for (const [i, j] of [
        [0, 0],
        [1, 1],
        [0, 1],
      ] as const) {
        const covariance = quadratic(before[i] ?? [], expected.covariance, before[j] ?? [])
        const kept = (after[i]?.now ?? []).reduce((s, x, at) => s + x * (after[j]?.now[at] ?? 0), 0)
        // Contributions are kept to a millionth, beside others of up to 40 000.
        expect(Math.abs(kept - covariance)).toBeLessThanOrEqual(1)
      }
    }),
  )
})

test('what holdings inside and outside are corrected by is nothing together, but for rounding', () => {
  fc.assert(
    fc.property(fc.array(slopes, { minLength: 1, maxLength: 8 }), slopes, (inside, reckoned) => {
      const all = inside.map(doubtsOf)
      const outside = doubtOfSum(
        all.map((one) => new Map([...one].map(([s, v]) => [s, v.negated()]))),
      )
      const learned = learnedFrom({
        reckonedWetBasis: decimal('0.2'),
        foundWetBasis: decimal('0.25'),
        reckonedDoubt: new Map([...doubtsOf(reckoned)].map(([s, v]) => [s, v.dividedBy(1e6)])),
        foundUncertainty: decimal('0.01'),
      })
      const corrections = [...all, outside].map((dryDoubt) =>
        correctionOf(quantities({ dryDoubt }), learned),
      )
      const most = 0.000001 * corrections.length
      const dry = corrections.reduce((sum, one) => sum.plus(one.dryGrams), ZERO)
      expect(dry.abs().toNumber()).toBeLessThanOrEqual(most)
      for (const one of doubtOfSum(corrections.map(({ dryDoubt }) => dryDoubt)).values()) {
        expect(one.abs().toNumber()).toBeLessThanOrEqual(most)
      }
    }),
  )
})

test('tests of one state, one by one, lead where all of them at once lead', () => {
  // As the act does it: each test is compared with the figure before it, as unsure as that figure is of
  // the clay on the whole. How batches differ is held fast here by tests that lie as far apart as was
  // believed: so the spread, of which half of 0.02 was believed, is not learned anew with two of them.
  const bodyFigure = { waterContentWetBasis: decimal('0.2'), standardUncertainty: decimal('0.02') }
  const apart = decimal('0.01').dividedBy(decimal(2).sqrt())
  const test = (at: Decimal) => ({
    waterContentWetBasis: at,
    standardUncertainty: decimal('0.003'),
  })
  const tests = [test(decimal('0.25').plus(apart)), test(decimal('0.25').minus(apart))]
  const figureAfter = (count: number) =>
    moistureFigure({ state: 'turnings', tests: tests.slice(0, count), bodyFigure })
  const before = figureAfter(0)
  let held = clay('800000', '200000', {
    'moisture|t': before.sharedUncertainty.times(-1_000_000).toFixed(6),
  })
  for (const [at, { waterContentWetBasis, standardUncertainty }] of tests.entries()) {
    const known = figureAfter(at)
    const correction = correctionOf(
      held,
      learnedFrom({
        reckonedWetBasis: known.waterContentWetBasis,
        foundWetBasis: waterContentWetBasis,
        reckonedDoubt: new Map([['moisture|t', known.sharedUncertainty]]),
        foundUncertainty: standardUncertainty.pow(2).plus(known.betweenBatches.pow(2)).sqrt(),
      }),
    )
    held = {
      ...held,
      dryGrams: held.dryGrams.plus(correction.dryGrams),
      dryDoubt: doubtOfSum([held.dryDoubt, correction.dryDoubt]),
    }
    const pooled = figureAfter(at + 1)
    expect(pooled.betweenBatches.toFixed(12)).toBe('0.010000000000')
    const water = decimal(1).minus(held.dryGrams.dividedBy(1_000_000))
    expect(water.toFixed(9)).toBe(pooled.waterContentWetBasis.toFixed(9))
    const open = (held.dryDoubt.get('moisture|t') ?? ZERO).dividedBy(-1_000_000)
    expect(open.toFixed(9)).toBe(pooled.sharedUncertainty.toFixed(9))
  }
})

describe('what can be believed of a correction', () => {
  const corrected = (dry: string, by: string, water = '0') => ({
    held: clay(dry, water, {}),
    correction: { dryGrams: decimal(by), dryDoubt: doubtRead({}) },
  })

  test('is all of it, unless a holding would lose more than half of its clay, or of its water', () => {
    expect(believable([]).toFixed()).toBe('1')
    const half = [corrected('100', '-50', '25'), corrected('100', '12.5', '25')]
    expect(believable(half).toFixed()).toBe('1')
  })

  test('takes no more for clay than half of what was water, the wet mass having been weighed', () => {
    expect(believable([corrected('100', '25', '25')]).toFixed()).toBe('0.5')
    // Fired pots hold no water that could turn out to be clay.
    expect(believable([corrected('100', '50')]).toFixed()).toBe('1')
  })

  test('is then so much that the one that would lose most loses half', () => {
    // 80 of 100 may be 50: five eighths. 60 of 100 may be 50: five sixths. The smaller share holds.
    expect(believable([corrected('100', '-60'), corrected('100', '-80')]).toFixed()).toBe('0.625')
  })
})
