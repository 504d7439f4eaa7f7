import { describe, expect, test } from 'vitest'
import { mean } from '../../shared/statistics.ts'
import {
  correlationBetween,
  coverageInterval,
  difference,
  effectiveDegreesOfFreedom,
  functionOf,
  measured,
  measuredTogether,
  product,
  quotient,
  standardUncertaintyOf,
  sum,
  type Uncertain,
} from '../../shared/uncertain.ts'

const within = (found: number, [from, to]: readonly [number, number]) => {
  expect(found).toBeGreaterThanOrEqual(from)
  expect(found).toBeLessThanOrEqual(to)
}

describe('the end gauge of GUM H.1', () => {
  const standard = measured({ value: 50_000_623, standardUncertainty: 25, source: 'standard' })
  const comparison = measured({ value: 215, standardUncertainty: 9.7, source: 'comparison' })
  const expansion = measured({ value: 0, standardUncertainty: 2.9, source: 'expansion' })
  const temperature = measured({ value: 0, standardUncertainty: 16.6, source: 'temperature' })
  const length = sum([standard, comparison, expansion, temperature])
  const degrees = effectiveDegreesOfFreedom(
    length,
    new Map([
      ['standard', 18],
      ['comparison', 25.6],
      ['expansion', 50],
      ['temperature', 2],
    ]),
  )
  const { to } = coverageInterval(length, {
    coverage: 0.99,
    degreesOfFreedom: Math.floor(degrees),
  })
  const source = 'GUM, JCGM 100:2008, H.1 (from rounded contributions)'
  const standing = 'second-hand'
  const RESULTS = [
    { what: 'length, nm', found: length.value, range: [50_000_838, 50_000_838] },
    { what: 'standard uncertainty, nm', found: standardUncertaintyOf(length), range: [31.6, 32] },
    { what: 'degrees of freedom, cut', found: Math.floor(degrees), range: [16, 16] },
    { what: 'expanded at 99 %, nm', found: to - length.value, range: [92, 94] },
  ].map((row) => ({ ...row, source, standing }))
  test.each(RESULTS)('$what lies in $range ($standing: $source)', ({ found, range }) => {
    within(found, range as [number, number])
  })
})

describe('resistance, reactance and impedance of GUM H.2', () => {
  const readings = [
    [5.007, 4.994, 5.005, 4.99, 4.999],
    [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3],
    [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
  ]
  const means = readings.map(mean)
  const covarianceOfMeans = readings.map((one, i) =>
    readings.map((other, j) => {
      const products = one.map(
        (value, k) => (value - (means[i] ?? 0)) * ((other[k] ?? 0) - (means[j] ?? 0)),
      )
      return products.reduce((total, term) => total + term, 0) / (5 * 4)
    }),
  )
  const all = measuredTogether({
    values: means,
    covariance: covarianceOfMeans,
    source: 'five readings',
  })
  const [volts, amperes, phase] = all as [Uncertain, Uncertain, Uncertain]
  const resistance = functionOf(all, ([v = 0, i = 1, p = 0]) => (v / i) * Math.cos(p))
  const reactance = functionOf(
    all,
    ([v = 0, i = 1, p = 0]) => (v / i) * Math.sin(p),
    ([v = 0, i = 1, p = 0]) => [
      Math.sin(p) / i,
      (-v / i ** 2) * Math.sin(p),
      (v / i) * Math.cos(p),
    ],
  )
  const impedance = quotient(volts, amperes)
  const u = standardUncertaintyOf
  const source = 'GUM, JCGM 100:2008, H.2'
  const standing = 'second-hand'
  const RESULTS = [
    { what: 'V', found: volts.value, expected: 4.999, tolerance: 1e-9 },
    { what: 'u(V)', found: u(volts), expected: 0.0032, tolerance: 5e-5 },
    { what: 'u(I)', found: u(amperes), expected: 9.5e-6, tolerance: 5e-8 },
    { what: 'u(phase)', found: u(phase), expected: 7.5e-4, tolerance: 5e-6 },
    {
      what: 'r(V, I)',
      found: correlationBetween(volts, amperes),
      expected: -0.355311,
      tolerance: 1e-6,
    },
    {
      what: 'r(V, phase)',
      found: correlationBetween(volts, phase),
      expected: 0.857624,
      tolerance: 1e-6,
    },
    {
      what: 'r(I, phase)',
      found: correlationBetween(amperes, phase),
      expected: -0.645111,
      tolerance: 1e-6,
    },
    { what: 'R', found: resistance.value, expected: 127.73217, tolerance: 1e-5 },
    { what: 'u(R)', found: u(resistance), expected: 0.071071, tolerance: 1e-6 },
    { what: 'X', found: reactance.value, expected: 219.846512, tolerance: 1e-5 },
    // The guide prints 0.295, which is this cut and not rounded.
    { what: 'u(X)', found: u(reactance), expected: 0.295582, tolerance: 1e-6 },
    { what: 'Z', found: impedance.value, expected: 254.259702, tolerance: 1e-5 },
    { what: 'u(Z)', found: u(impedance), expected: 0.236336, tolerance: 1e-6 },
    {
      what: 'r(R, X)',
      found: correlationBetween(resistance, reactance),
      expected: -0.588,
      tolerance: 5e-4,
    },
    {
      what: 'r(R, Z)',
      found: correlationBetween(resistance, impedance),
      expected: -0.485,
      tolerance: 5e-4,
    },
    {
      what: 'r(X, Z)',
      found: correlationBetween(reactance, impedance),
      expected: 0.993,
      tolerance: 5e-4,
    },
  ].map((row) => ({ ...row, source, standing }))
  test.each(RESULTS)('$what is $expected ($standing: $source)', (row) => {
    expect(Math.abs(row.found - row.expected)).toBeLessThanOrEqual(row.tolerance)
  })

  test('u(Z) would be 0.204076 if the readings were taken as independent, and is not (computed)', () => {
    const apart = all.map((one, index) =>
      measured({ value: one.value, standardUncertainty: u(one), source: String(index) }),
    )
    const [apartVolts, apartAmperes] = apart as [Uncertain, Uncertain]
    const wrong = quotient(apartVolts, apartAmperes)
    expect(u(wrong)).toBeCloseTo(0.204076, 6)
    expect(u(impedance) - u(wrong)).toBeGreaterThan(0.03)
  })
})

describe('the standard solution of QUAM A1', () => {
  const mass = measured({ value: 100.28, standardUncertainty: 0.05, source: 'mass' })
  const purity = measured({ value: 0.9999, standardUncertainty: 0.000058, source: 'purity' })
  const source = 'EURACHEM/CITAC QUAM, ex. A1'
  const VOLUMES = [
    { uncertainty: 0.07, expected: 0.863703, source, standing: 'second-hand' },
    // A copy prints 0.8343, from inputs that it does not round.
    { uncertainty: 0.066473, expected: 0.8352, source, standing: 'computed' },
  ]
  test.each(VOLUMES)('1002.7 mg/L, give or take $expected ($standing: $source)', (row) => {
    const volume = measured({
      value: 0.1,
      standardUncertainty: row.uncertainty / 1000,
      source: 'volume',
    })
    const concentration = quotient(product(mass, purity), volume)
    expect(concentration.value).toBeCloseTo(1002.69972, 5)
    expect(standardUncertaintyOf(concentration)).toBeCloseTo(row.expected, 3)
    within(standardUncertaintyOf(concentration), [0.83, 0.9])
  })
})

describe('differences of two readings', () => {
  const ofScale = (division: number) => division / Math.sqrt(12)
  const gum = 'GUM, JCGM 100:2008, F.2.2.1: the division over the root of twelve'
  const PAIRS = [
    { one: 60.545, other: 60.1562, each: 0.15e-3 / Math.sqrt(3), expected: 0.122474e-3 },
    { one: 12, other: 5, each: ofScale(1), expected: 0.4082482905 },
    { one: 120, other: 50, each: ofScale(5), expected: 2.0412414523 },
  ].map((row, index) => ({
    ...row,
    source: index === 0 ? 'EURACHEM/CITAC QUAM, ex. A2 (prints 0.13 mg, from 0.09)' : gum,
    standing: 'from memory',
  }))
  test.each(PAIRS)('$one less $other, give or take $expected ($standing: $source)', (row) => {
    const reading = (value: number, source: string) =>
      measured({ value, standardUncertainty: row.each, source })
    const net = difference(reading(row.one, 'gross'), reading(row.other, 'tare'))
    expect(net.value).toBeCloseTo(row.one - row.other, 12)
    expect(standardUncertaintyOf(net) / row.expected).toBeCloseTo(1, 5)
  })

  test('one reading of division 1 is off by 0.2886751346 (from memory: GUM F.2.2.1)', () => {
    const reading = measured({ value: 7, standardUncertainty: ofScale(1), source: 'scale' })
    expect(standardUncertaintyOf(reading)).toBeCloseTo(0.2886751346, 10)
  })
})
