import { describe, expect, test } from 'vitest'
import { leastSquaresSolution } from '../../shared/linear-algebra.ts'
import {
  betaQuantile,
  chiSquareCdf,
  chiSquareQuantile,
  lagOneAutocorrelation,
  mean,
  normalCdf,
  normalQuantile,
  sampleStandardDeviation,
  tCdf,
  tQuantile,
} from '../../shared/statistics.ts'
import { digitsHeld } from './digits.ts'
import { NORRIS } from './norris.ts'

const alternating = (middle: number, low: number, high: number) => [
  middle,
  ...Array.from({ length: 500 }, () => [low, high]).flat(),
]

describe('mean, standard deviation and autocorrelation', () => {
  const source = 'NIST StRD, univariate'
  const standing = 'second-hand'
  // The doubles nearest to the data of the third and fourth set are off in the tenth and ninth digit.
  const SETS = [
    {
      name: 'NumAcc1',
      values: [10_000_001, 10_000_003, 10_000_002],
      mean: 10_000_002,
      deviation: 1,
      autocorrelation: -0.5,
      digits: 14,
      source,
      standing,
    },
    {
      name: 'NumAcc2',
      values: alternating(1.2, 1.1, 1.3),
      mean: 1.2,
      deviation: 0.1,
      autocorrelation: -0.999,
      digits: 14,
      source,
      standing,
    },
    {
      name: 'NumAcc3',
      values: alternating(1_000_000.2, 1_000_000.1, 1_000_000.3),
      mean: 1_000_000.2,
      deviation: 0.1,
      autocorrelation: -0.999,
      digits: 9,
      source,
      standing,
    },
    {
      name: 'NumAcc4',
      values: alternating(10_000_000.2, 10_000_000.1, 10_000_000.3),
      mean: 10_000_000.2,
      deviation: 0.1,
      autocorrelation: -0.999,
      digits: 8,
      source,
      standing,
    },
    {
      name: 'Mavro',
      values: [
        2.0018, 2.0017, 2.0018, 2.0019, 2.0018, 2.0017, 2.0015, 2.0014, 2.0015, 2.0015, 2.0017,
        2.0018, 2.0018, 2.0019, 2.0019, 2.0021, 2.002, 2.0016, 2.0014, 2.0013, 2.0013, 2.0015,
        2.0015, 2.0016, 2.0015, 2.0014, 2.0013, 2.0014, 2.0015, 2.0014, 2.0015, 2.0016, 2.0015,
        2.0016, 2.0019, 2.002, 2.002, 2.0021, 2.0022, 2.0023, 2.0024, 2.0025, 2.0027, 2.0026,
        2.0026, 2.0026, 2.0027, 2.0026, 2.0025, 2.0024,
      ],
      mean: 2.001856,
      deviation: 0.000429123454003053,
      autocorrelation: 0.937989183438248,
      digits: 12,
      source,
      standing,
    },
  ]
  test.each(SETS)('$name to $digits digits ($standing: $source)', (row) => {
    expect(digitsHeld(mean(row.values), row.mean)).toBeGreaterThan(14)
    const deviation = sampleStandardDeviation(row.values)
    expect(digitsHeld(deviation, row.deviation)).toBeGreaterThan(row.digits)
    const autocorrelation = lagOneAutocorrelation(row.values)
    expect(digitsHeld(autocorrelation, row.autocorrelation)).toBeGreaterThan(row.digits)
  })
})

describe('a straight line through the set Norris', () => {
  const xs = NORRIS.map(([x]) => x)
  const ys = NORRIS.map(([, y]) => y)
  const [intercept = 0, slope = 0] = leastSquaresSolution(
    xs.map((x) => [1, x]),
    ys,
  )
  const residuals = ys.map((y, index) => y - intercept - slope * (xs[index] ?? 0))
  const left = residuals.reduce((sum, one) => sum + one * one, 0)
  const explained = ys.reduce((sum, _, index) => {
    const fitted = intercept + slope * (xs[index] ?? 0)
    return sum + (fitted - mean(ys)) ** 2
  }, 0)
  const deviation = Math.sqrt(left / (xs.length - 2))
  const spread = sampleStandardDeviation(xs) * Math.sqrt(xs.length - 1)
  const source = 'NIST StRD, linear: Norris'
  const standing = 'seen'
  const CERTIFIED = [
    { what: 'intercept', found: intercept, certified: -0.262323073774029, source, standing },
    { what: 'slope', found: slope, certified: 1.00211681802045, source, standing },
    {
      what: 'standard deviation of the intercept',
      found: deviation * Math.sqrt(1 / xs.length + (mean(xs) / spread) ** 2),
      certified: 0.232818234301152,
      source,
      standing,
    },
    {
      what: 'standard deviation of the slope',
      found: deviation / spread,
      certified: 0.429796848199937e-3,
      source,
      standing,
    },
    {
      what: 'residual standard deviation',
      found: deviation,
      certified: 0.884796396144373,
      source,
      standing,
    },
    {
      what: 'R squared',
      found: explained / (explained + left),
      certified: 0.999993745883712,
      source,
      standing,
    },
    { what: 'F', found: explained / deviation ** 2, certified: 5436385.54079785, source, standing },
  ]
  test.each(CERTIFIED)('$what is $certified, to eleven digits ($standing: $source)', (row) => {
    expect(digitsHeld(row.found, row.certified)).toBeGreaterThan(11)
  })
})

describe('values of the distributions', () => {
  const VALUES = [
    {
      what: 'z of 0.975',
      found: normalQuantile(0.975),
      expected: 1.959964,
      digits: 6,
      source: 'the 95 % point of every table',
      standing: 'from memory',
    },
    {
      what: 'the normal share below 1.96',
      found: normalCdf(1.959963984540054),
      expected: 0.975,
      digits: 10,
      source: 'the same, backwards',
      standing: 'computed',
    },
    {
      what: 't of 0.995 with 16 degrees',
      found: tQuantile(0.995, 16),
      expected: 2.920782,
      digits: 6,
      source: 'GUM, JCGM 100:2008, H.1.6, prints 2.92',
      standing: 'second-hand',
    },
    {
      what: 'the share of t below 2.920782 with 16 degrees',
      found: tCdf(2.9207816224251, 16),
      expected: 0.995,
      digits: 10,
      source: 'the same, backwards',
      standing: 'computed',
    },
    {
      what: 'chi-square of 0.95 with 4 degrees',
      found: chiSquareQuantile(0.95, 4),
      expected: 9.487729,
      digits: 6,
      source: 'Narasimhan & Jordache 2000, ch. 1',
      standing: 'from memory',
    },
    {
      what: 'the share of chi-square below 3.841459 with 1 degree',
      found: chiSquareCdf(3.841458820694124, 1),
      expected: 0.95,
      digits: 10,
      source: 'the square of the 95 % point',
      standing: 'computed',
    },
    {
      what: 'beta of 0.95 after none of 20',
      found: betaQuantile(0.95, { alpha: 1, beta: 20 }),
      expected: 0.13910834,
      digits: 7,
      source: '1 - 0.05^(1/20)',
      standing: 'computed',
    },
  ]
  test.each(VALUES)('$what is $expected ($standing: $source)', (row) => {
    expect(digitsHeld(row.found, row.expected)).toBeGreaterThan(row.digits)
  })
})
