import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { present } from '../../shared/assert.ts'
import { decimal } from '../../shared/decimal.ts'
import { doubtNegated, NO_DOUBT } from '../../shared/doubt.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import {
  howSure,
  surely,
  unsureDifference,
  unsureQuotient,
  unsureSum,
  unsureTimes,
  type Unsure,
} from '../../shared/how-sure.ts'
import { doubtPropagated } from '../../shared/propagation.ts'
import { slurrySaid } from '../../shared/slurry-reading.ts'
import { slurryWaterContentWetBasis } from '../../shared/slurry.ts'
import { expandedUncertainty } from '../../shared/statistics.ts'
import {
  correlationBetween,
  isDistinguishable,
  measured,
  measuredTogether,
  uncertaintyOf,
  workedOut,
} from '../support/unsure.ts'

const amount = fc.double({ min: 1, max: 1000, noNaN: true })
const doubt = fc.double({ min: 0.01, max: 10, noNaN: true })

/** The dry clay in a wet mass, as the ledger reckons it. */
function dryIn(wet: Unsure, water: Unsure): Unsure {
  const { dryGrams, dryDoubt } = dryMassFromWet({
    netGrams: wet.amount,
    netDoubt: wet.doubt,
    waterContentWetBasis: water.amount,
    waterDoubt: water.doubt,
    method: 'stated_water_content',
    standing: 'measured',
  })
  return { amount: dryGrams, doubt: dryDoubt }
}

describe('forty balls of one water content', () => {
  const waterContent = measured({ value: 0.22, standardUncertainty: 0.01, source: 'water' })
  const dry = Array.from({ length: 40 }, (_, index) => {
    const source = `ball ${String(index)}`
    return dryIn(measured({ value: 1000, standardUncertainty: 2, source }), waterContent)
  })

  test('are off together: the water counts forty times, the scale root forty times', () => {
    expect(uncertaintyOf(unsureSum(dry))).toBeCloseTo(
      Math.hypot(40 * 1000 * 0.01, Math.sqrt(40) * 2 * 0.78),
      9,
    )
  })

  test('taken as forty strangers would look six times as sure as they are', () => {
    const strangers = Math.sqrt(40) * uncertaintyOf(present(dry[0], 'a ball'))
    expect(uncertaintyOf(unsureSum(dry)) / strangers).toBeGreaterThan(6)
  })

  test('have nothing of the water left in the difference of two', () => {
    const [one, other] = dry
    const gap = unsureDifference(present(one, 'a ball'), present(other, 'another'))
    expect(uncertaintyOf(gap)).toBeCloseTo(Math.SQRT2 * 2 * 0.78, 9)
    expect(isDistinguishable(gap)).toBe(false)
  })
})

describe('figures worked out from others', () => {
  test('one less itself is zero without doubt', () => {
    fc.assert(
      fc.property(amount, doubt, (value, standardUncertainty) => {
        const one = measured({ value, standardUncertainty, source: 'scale' })
        expect(uncertaintyOf(unsureDifference(one, one))).toBe(0)
        expect(uncertaintyOf(unsureQuotient(one, one))).toBeCloseTo(0, 12)
        expect(correlationBetween(one, unsureTimes(one, decimal(-3)))).toBeCloseTo(-1, 12)
      }),
    )
  })

  test('strangers add in quadrature, products and quotients by their relative doubts', () => {
    // In millionths, because what is measured is kept to six digits after the point.
    const millionths = (value: number) => Math.round(value * 1e6)
    fc.assert(
      fc.property(fc.tuple(amount, amount), fc.tuple(doubt, doubt), ([a, b], [ua, ub]) => {
        const one = measured({
          value: millionths(a),
          standardUncertainty: millionths(ua),
          source: 'one',
        })
        const other = measured({ value: b, standardUncertainty: millionths(ub) / 1e6, source: 'o' })
        const exactly = [millionths(ua) / 1e6, millionths(ub) / 1e6] as const
        const sum = unsureSum([unsureTimes(one, decimal('0.000001')), other])
        expect(uncertaintyOf(sum)).toBeCloseTo(Math.hypot(...exactly), 9)
        const quotient = unsureQuotient(one, other)
        const relative = Math.hypot(exactly[0] / (millionths(a) / 1e6), exactly[1] / b)
        expect(uncertaintyOf(quotient) / quotient.amount.toNumber() / relative).toBeCloseTo(1, 9)
        expect(correlationBetween(one, other)).toBe(0)
      }),
    )
  })

  test('a wet mass times its dry fraction is unsure by the relative doubts of both', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1000, max: 1_000_000 }),
        fc.integer({ min: 10, max: 90 }),
        fc.integer({ min: 1, max: 20 }),
        (grams, dryPercent, division) => {
          const wet = measured({
            value: grams * 1e6,
            standardUncertainty: division * 1e6,
            source: 'a',
          })
          const dryFraction = dryPercent / 100
          const water = {
            amount: decimal(100 - dryPercent).dividedBy(100),
            doubt: measured({ value: 0, standardUncertainty: 0.01, source: 'b' }).doubt,
          }
          const dry = dryIn(wet, water)
          const relative = Math.hypot(division / grams, 0.01 / dryFraction)
          expect(uncertaintyOf(dry) / dry.amount.toNumber() / relative).toBeCloseTo(1, 9)
        },
      ),
    )
  })

  test('a function read off numerically agrees with its derivatives', () => {
    fc.assert(
      fc.property(amount, doubt, (value, standardUncertainty) => {
        const one = measured({ value, standardUncertainty: standardUncertainty / 10, source: 'a' })
        const squared = workedOut([one], ([x = 0]) => x * x)
        const given = workedOut(
          [one],
          ([x = 0]) => x * x,
          ([x = 0]) => [2 * x],
        )
        expect(uncertaintyOf(squared) / uncertaintyOf(given)).toBeCloseTo(1, 6)
      }),
    )
  })

  test('measured together keep their covariance', () => {
    const [one, other] = measuredTogether(
      [10, 20],
      [
        [4, 3],
        [3, 9],
      ],
      'session',
    )
    const pair = [present(one, 'one'), present(other, 'other')] as const
    expect(pair.map(uncertaintyOf)).toEqual([2, 3])
    expect(correlationBetween(...pair)).toBeCloseTo(0.5, 12)
  })
})

describe('the water of a jug of slurry', () => {
  const waterOf = ([net = 0, millilitres = 1, solids = 2.6]: readonly number[]) =>
    slurryWaterContentWetBasis({
      densityGramsPerMillilitre: decimal(net).dividedBy(millilitres),
      waterGramsPerMillilitre: decimal('0.9982'),
      solidsGramsPerMillilitre: decimal(solids),
    }).toNumber()

  test('is as unsure as the rule itself says when each reading is moved a little', () => {
    const readings = fc.record({
      millilitres: fc.integer({ min: 100, max: 5000 }),
      density: fc.double({ min: 1.05, max: 1.9, noNaN: true }),
      solids: fc.double({ min: 2.3, max: 2.9, noNaN: true }),
    })
    fc.assert(
      fc.property(readings, ({ millilitres, density, solids }) => {
        const net = measured({
          value: millilitres * density,
          standardUncertainty: 0.3,
          source: 'reading',
        })
        const said = slurrySaid(
          {
            netGrams: net.amount,
            netDoubt: net.doubt,
            millilitres: decimal(millilitres),
            jugSource: 'jug',
          },
          {
            waterGramsPerMillilitre: decimal('0.9982'),
            solidsGramsPerMillilitre: decimal(solids),
            grainSource: 'grain',
          },
        )
        const jug = measured({
          value: millilitres,
          standardUncertainty: millilitres / 100,
          source: 'jug',
        })
        const grain = measured({ value: solids, standardUncertainty: 0.05, source: 'grain' })
        const readOff = workedOut([net, jug, grain], waterOf)
        for (const source of ['reading', 'jug', 'grain']) {
          const [found, expected] = [said.waterDoubt, readOff.doubt].map((of) =>
            present(of.get(source), source).toNumber(),
          )
          expect((found ?? 0) / (expected ?? 1)).toBeCloseTo(1, 6)
        }
      }),
    )
  })
})

describe('how sure a figure is', () => {
  const net = measured({ value: 138, standardUncertainty: 150, source: 'water figures' })

  test('tells a loss that may be none from one that is there', () => {
    expect(isDistinguishable(net)).toBe(false)
    expect(isDistinguishable({ ...net, amount: decimal(400) })).toBe(true)
    expect(isDistinguishable({ ...net, amount: decimal(-400) })).toBe(true)
    expect(isDistinguishable(surely(decimal(1)))).toBe(true)
    expect(isDistinguishable(surely(decimal(0)))).toBe(false)
  })

  test('is wider with few degrees of freedom and with more coverage', () => {
    const half = (degreesOfFreedom: number, confidence: number) =>
      expandedUncertainty([{ standardUncertainty: 150, degreesOfFreedom }], confidence)
    const usual = half(Number.POSITIVE_INFINITY, 0.95)
    expect(half(4, 0.95)).toBeGreaterThan(usual)
    expect(half(Number.POSITIVE_INFINITY, 0.99)).toBeGreaterThan(usual)
    expect(2 * usual).toBeCloseTo(2 * 1.959964 * 150, 3)
    const { from, to } = howSure(net).interval95
    expect(to.minus(from).toNumber()).toBeCloseTo(2 * 1.96 * 150, 9)
  })
})

test('doubt that is no number, and division by zero, are defects', () => {
  const one = surely(decimal(1))
  const boundless = decimal(Number.POSITIVE_INFINITY)
  expect(() => measured({ value: 1, standardUncertainty: Number.NaN, source: 'a' })).toThrow(
    'finite',
  )
  expect(() => doubtPropagated([{ doubt: NO_DOUBT, slope: boundless }])).toThrow('finite')
  expect(() => unsureQuotient(one, surely(decimal(0)))).toThrow('divided by zero')
  expect(() => expandedUncertainty([{ standardUncertainty: 1, degreesOfFreedom: 3 }], 1)).toThrow(
    'between 0 and 1',
  )
})

test('a doubt below zero is the same doubt of what goes the other way', () => {
  const one = measured({ value: 1, standardUncertainty: -1, source: 'a' })
  expect(uncertaintyOf(one)).toBe(1)
  expect(uncertaintyOf({ ...one, doubt: doubtNegated(one.doubt) })).toBe(1)
  expect(correlationBetween(one, { ...one, doubt: doubtNegated(one.doubt) })).toBeCloseTo(-1, 12)
})
