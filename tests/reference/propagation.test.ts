import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { doubtNegated } from '../../shared/doubt.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import {
  howSure,
  unsureDifference,
  unsureQuotient,
  unsureSum,
  type Unsure,
} from '../../shared/how-sure.ts'
import { readingUncertaintyGrams } from '../../shared/reading.ts'
import {
  expandedUncertainty,
  mean,
  tQuantile,
  welchSatterthwaite,
} from '../../shared/statistics.ts'
import {
  correlationBetween,
  measured,
  measuredTogether,
  sharesOf,
  uncertaintyOf,
  workedOut,
} from '../support/unsure.ts'

const within = (found: number, [from, to]: readonly [number, number]) => {
  expect(found).toBeGreaterThanOrEqual(from)
  expect(found).toBeLessThanOrEqual(to)
}

/** As a report says it. */
const u = (one: Unsure) => howSure(one).standardUncertainty.toNumber()

describe('the end gauge of GUM H.1', () => {
  const length = unsureSum([
    measured({ value: 50_000_623, standardUncertainty: 25, source: 'standard' }),
    measured({ value: 215, standardUncertainty: 9.7, source: 'comparison' }),
    measured({ value: 0, standardUncertainty: 2.9, source: 'expansion' }),
    measured({ value: 0, standardUncertainty: 16.6, source: 'temperature' }),
  ])
  const shares = sharesOf(length, {
    standard: 18,
    comparison: 25.6,
    expansion: 50,
    temperature: 2,
  })
  const degrees = Math.floor(welchSatterthwaite(shares))
  // As one source of so many degrees, because the guide cuts them to a whole number.
  const whole = [{ standardUncertainty: u(length), degreesOfFreedom: degrees }]
  const source = 'GUM, JCGM 100:2008, H.1 (from rounded contributions)'
  const standing = 'second-hand'
  const RESULTS = [
    { what: 'length, nm', found: length.amount.toNumber(), range: [50_000_838, 50_000_838] },
    { what: 'standard uncertainty, nm', found: u(length), range: [31.6, 32] },
    { what: 'degrees of freedom, cut', found: degrees, range: [16, 16] },
    { what: 'expanded at 99 %, nm', found: expandedUncertainty(whole, 0.99), range: [92, 94] },
  ].map((row) => ({ ...row, source, standing }))
  test.each(RESULTS)('$what lies in $range ($standing: $source)', ({ found, range }) => {
    within(found, range as [number, number])
  })

  test('uncut, the degrees make it a little narrower (computed)', () => {
    const uncut = expandedUncertainty(shares, 0.99)
    expect(uncut).toBeLessThan(expandedUncertainty(whole, 0.99))
    expect(uncut).toBeGreaterThan(tQuantile(0.995, 17) * u(length))
  })
})

describe('resistance, reactance and impedance of GUM H.2', () => {
  // Nanovolts, microamperes and microradians, because a doubt is kept to six digits after the point.
  const readings = [
    [5.007, 4.994, 5.005, 4.99, 4.999].map((volts) => volts * 1e9),
    [19.663, 19.639, 19.64, 19.685, 19.678].map((milliamperes) => milliamperes * 1e3),
    [1.0456, 1.0438, 1.0468, 1.0428, 1.0433].map((radians) => radians * 1e6),
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
  const all = measuredTogether(means, covarianceOfMeans, 'five readings')
  const [volts, amperes, phase] = all as [Unsure, Unsure, Unsure]
  // A nanovolt over a microampere is a milliohm.
  const resistance = workedOut(all, ([v = 0, i = 1, p = 0]) => (v / i) * Math.cos(p / 1e6))
  const reactance = workedOut(
    all,
    ([v = 0, i = 1, p = 0]) => (v / i) * Math.sin(p / 1e6),
    ([v = 0, i = 1, p = 0]) => [
      Math.sin(p / 1e6) / i,
      (-v / i ** 2) * Math.sin(p / 1e6),
      ((v / i) * Math.cos(p / 1e6)) / 1e6,
    ],
  )
  const impedance = unsureQuotient(volts, amperes)
  const value = (one: Unsure, unit: number) => one.amount.toNumber() * unit
  const source = 'GUM, JCGM 100:2008, H.2'
  const standing = 'second-hand'
  const RESULTS = [
    { what: 'V', found: value(volts, 1e-9), expected: 4.999, tolerance: 1e-9 },
    { what: 'u(V)', found: u(volts) * 1e-9, expected: 0.0032, tolerance: 5e-5 },
    { what: 'u(I)', found: u(amperes) * 1e-6, expected: 9.5e-6, tolerance: 5e-8 },
    { what: 'u(phase)', found: u(phase) * 1e-6, expected: 7.5e-4, tolerance: 5e-6 },
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
    { what: 'R', found: value(resistance, 1e-3), expected: 127.73217, tolerance: 1e-5 },
    { what: 'u(R)', found: u(resistance) * 1e-3, expected: 0.071071, tolerance: 1e-6 },
    { what: 'X', found: value(reactance, 1e-3), expected: 219.846512, tolerance: 1e-5 },
    // The guide prints 0.295, which is this cut and not rounded.
    { what: 'u(X)', found: u(reactance) * 1e-3, expected: 0.295582, tolerance: 1e-6 },
    { what: 'Z', found: value(impedance, 1e-3), expected: 254.259702, tolerance: 1e-5 },
    { what: 'u(Z)', found: u(impedance) * 1e-3, expected: 0.236336, tolerance: 1e-6 },
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
      measured({
        value: one.amount.toNumber(),
        standardUncertainty: uncertaintyOf(one),
        source: String(index),
      }),
    )
    const [apartVolts, apartAmperes] = apart as [Unsure, Unsure]
    const wrong = unsureQuotient(apartVolts, apartAmperes)
    expect(u(wrong) * 1e-3).toBeCloseTo(0.204076, 6)
    expect((u(impedance) - u(wrong)) * 1e-3).toBeGreaterThan(0.03)
  })
})

describe('the standard solution of QUAM A1', () => {
  // In micrograms and millilitres; what is not pure is what a wet mass has of water.
  const mass = measured({ value: 100_280, standardUncertainty: 50, source: 'mass' })
  const purity = measured({ value: 0.9999, standardUncertainty: 0.000058, source: 'purity' })
  const pure = dryMassFromWet({
    netGrams: mass.amount,
    netDoubt: mass.doubt,
    waterContentWetBasis: decimal(1).minus(purity.amount),
    waterDoubt: doubtNegated(purity.doubt),
    method: 'stated_water_content',
    standing: 'measured',
  })
  const source = 'EURACHEM/CITAC QUAM, ex. A1'
  const VOLUMES = [
    { uncertainty: 0.07, expected: 0.863703, source, standing: 'second-hand' },
    // A copy prints 0.8343, from inputs that it does not round.
    { uncertainty: 0.066473, expected: 0.8352, source, standing: 'computed' },
  ]
  test.each(VOLUMES)('1002.7 mg/L, give or take $expected ($standing: $source)', (row) => {
    const volume = measured({
      value: 100,
      standardUncertainty: row.uncertainty,
      source: 'volume',
    })
    const concentration = unsureQuotient({ amount: pure.dryGrams, doubt: pure.dryDoubt }, volume)
    expect(concentration.amount.toNumber()).toBeCloseTo(1002.69972, 5)
    expect(u(concentration)).toBeCloseTo(row.expected, 3)
    within(u(concentration), [0.83, 0.9])
  })
})

describe('differences of two readings', () => {
  // In micrograms, because a doubt is kept to six digits after the point.
  const MICRO = 1e6
  const ofScale = (division: number) =>
    readingUncertaintyGrams({ divisionGrams: decimal(division * MICRO), readings: 1 }).toNumber()
  const gum = 'GUM, JCGM 100:2008, F.2.2.1: the division over the root of twelve'
  const PAIRS = [
    // Within 0.15 mg to either side is a division of 0.30 mg.
    { one: 60.545, other: 60.1562, each: ofScale(0.3e-3), expected: 0.122474e-3 },
    { one: 12, other: 5, each: ofScale(1), expected: 0.4082482905 },
    { one: 120, other: 50, each: ofScale(5), expected: 2.0412414523 },
  ].map((row, index) => ({
    ...row,
    source: index === 0 ? 'EURACHEM/CITAC QUAM, ex. A2 (prints 0.13 mg, from 0.09)' : gum,
    standing: 'from memory',
  }))
  test.each(PAIRS)('$one less $other, give or take $expected ($standing: $source)', (row) => {
    const reading = (value: number, source: string) =>
      measured({ value: value * MICRO, standardUncertainty: row.each, source })
    const net = unsureDifference(reading(row.one, 'gross'), reading(row.other, 'tare'))
    expect(net.amount.toNumber() / MICRO).toBeCloseTo(row.one - row.other, 12)
    expect(u(net) / MICRO / row.expected).toBeCloseTo(1, 5)
  })

  test('one reading of division 1 is off by 0.2886751346 (from memory: GUM F.2.2.1)', () => {
    const reading = measured({ value: 7, standardUncertainty: ofScale(1), source: 'scale' })
    expect(u(reading) / MICRO).toBeCloseTo(0.2886751346, 10)
  })
})
