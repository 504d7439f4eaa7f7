import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  betaCdf,
  betaQuantile,
  chiSquareCdf,
  chiSquareQuantile,
  lagOneAutocorrelation,
  logGamma,
  mean,
  normalCdf,
  normalQuantile,
  sampleStandardDeviation,
  tCdf,
  tQuantile,
  welchSatterthwaite,
} from '../../shared/statistics.ts'

const probability = fc.double({ min: 0.001, max: 0.999, noNaN: true })
const degrees = fc.double({ min: 1, max: 200, noNaN: true })

describe('a distribution', () => {
  test('finds its way back from a value to its probability', () => {
    fc.assert(
      fc.property(probability, degrees, (one, freedom) => {
        expect(normalCdf(normalQuantile(one))).toBeCloseTo(one, 9)
        expect(tCdf(tQuantile(one, freedom), freedom)).toBeCloseTo(one, 7)
        expect(chiSquareCdf(chiSquareQuantile(one, freedom), freedom)).toBeCloseTo(one, 7)
        const shape = { alpha: freedom, beta: 1 + freedom / 2 }
        expect(betaCdf(betaQuantile(one, shape), shape)).toBeCloseTo(one, 7)
      }),
    )
  })

  test('of Student is normal with very many degrees of freedom', () => {
    expect(tQuantile(0.95, 1e6)).toBeCloseTo(normalQuantile(0.95), 4)
  })

  test('of Student is even on both sides', () => {
    expect(tCdf(-1.3, 4) + tCdf(1.3, 4)).toBeCloseTo(1, 12)
    expect(tCdf(0, 4)).toBeCloseTo(0.5, 12)
  })

  test('knows no probability of none, of one or of nothing, and no degrees below zero', () => {
    for (const bad of [0, 1, -0.1, 1.1, Number.NaN]) {
      expect(() => normalQuantile(bad)).toThrow('between 0 and 1')
      expect(() => tQuantile(bad, 3)).toThrow('between 0 and 1')
    }
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => chiSquareQuantile(0.5, bad)).toThrow('above zero')
    }
    expect(() => normalCdf(Number.NaN)).toThrow('finite')
  })

  test('factorials come out of the gamma function', () => {
    expect(Math.exp(logGamma(6))).toBeCloseTo(120, 9)
  })
})

describe('mean and standard deviation', () => {
  const values = fc.array(fc.integer({ min: -1_000_000, max: 1_000_000 }), {
    minLength: 2,
    maxLength: 40,
  })

  test('follow a shift and a change of unit', () => {
    fc.assert(
      fc.property(values, fc.integer({ min: -1000, max: 1000 }), (some, shift) => {
        const moved = some.map((one) => 2 * one + shift)
        expect(mean(moved)).toBeCloseTo(2 * mean(some) + shift, 6)
        expect(sampleStandardDeviation(moved)).toBeCloseTo(2 * sampleStandardDeviation(some), 6)
      }),
    )
  })

  test('of too few values, or of none at all, are a defect', () => {
    expect(() => mean([])).toThrow('one value or more')
    expect(() => sampleStandardDeviation([1])).toThrow('two values or more')
    expect(() => mean([1, Number.NaN])).toThrow('finite')
    expect(() => lagOneAutocorrelation([3, 3, 3])).toThrow('all alike')
  })

  test('a steady climb resembles itself, a seesaw does not', () => {
    expect(lagOneAutocorrelation([1, 2, 3, 4, 5, 6, 7, 8])).toBeGreaterThan(0.5)
    expect(lagOneAutocorrelation([1, -1, 1, -1, 1, -1])).toBeLessThan(-0.5)
  })
})

describe('the degrees of freedom behind several sources', () => {
  test('are those of one source that stands alone', () => {
    expect(welchSatterthwaite([{ standardUncertainty: 3, degreesOfFreedom: 7 }])).toBeCloseTo(7, 12)
  })

  test('lie between the fewest and the sum, and are infinite for what is known exactly', () => {
    const shares = [
      { standardUncertainty: 3, degreesOfFreedom: 7 },
      { standardUncertainty: 2, degreesOfFreedom: 4 },
    ]
    const found = welchSatterthwaite(shares)
    expect(found).toBeGreaterThan(4)
    expect(found).toBeLessThan(11)
    const exact = [{ standardUncertainty: 3, degreesOfFreedom: Number.POSITIVE_INFINITY }]
    expect(welchSatterthwaite(exact)).toBe(Number.POSITIVE_INFINITY)
  })
})
