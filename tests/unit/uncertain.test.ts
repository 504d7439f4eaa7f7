import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { present } from '../../shared/assert.ts'
import {
  correlationBetween,
  coverageInterval,
  difference,
  distinguishableFromZero,
  exactly,
  functionOf,
  measured,
  measuredTogether,
  product,
  quotient,
  scaled,
  standardUncertaintyOf,
  sum,
} from '../../shared/uncertain.ts'

const amount = fc.double({ min: 1, max: 1000, noNaN: true })
const doubt = fc.double({ min: 0.01, max: 10, noNaN: true })

describe('forty balls of one water content', () => {
  const waterContent = measured({ value: 0.22, standardUncertainty: 0.01, source: 'water' })
  const dry = Array.from({ length: 40 }, (_, index) => {
    const source = `ball ${String(index)}`
    const wet = measured({ value: 1000, standardUncertainty: 2, source })
    return product(wet, difference(exactly(1), waterContent))
  })

  test('are off together: the water counts forty times, the scale root forty times', () => {
    expect(standardUncertaintyOf(sum(dry))).toBeCloseTo(
      Math.hypot(40 * 1000 * 0.01, Math.sqrt(40) * 2 * 0.78),
      9,
    )
  })

  test('taken as forty strangers would look six times as sure as they are', () => {
    const strangers = Math.sqrt(40) * standardUncertaintyOf(present(dry[0], 'a ball'))
    expect(standardUncertaintyOf(sum(dry)) / strangers).toBeGreaterThan(6)
  })

  test('have nothing of the water left in the difference of two', () => {
    const [one, other] = dry
    const gap = difference(present(one, 'a ball'), present(other, 'another'))
    expect(standardUncertaintyOf(gap)).toBeCloseTo(Math.SQRT2 * 2 * 0.78, 9)
    expect(distinguishableFromZero(gap)).toBe(false)
  })
})

describe('values worked out from others', () => {
  test('one less itself is zero without doubt', () => {
    fc.assert(
      fc.property(amount, doubt, (value, standardUncertainty) => {
        const one = measured({ value, standardUncertainty, source: 'scale' })
        expect(standardUncertaintyOf(difference(one, one))).toBe(0)
        expect(standardUncertaintyOf(quotient(one, one))).toBeCloseTo(0, 12)
        expect(correlationBetween(one, scaled(one, -3))).toBeCloseTo(-1, 12)
      }),
    )
  })

  test('strangers add in quadrature, products by their relative doubts', () => {
    fc.assert(
      fc.property(fc.tuple(amount, amount), fc.tuple(doubt, doubt), ([a, b], [ua, ub]) => {
        const one = measured({ value: a, standardUncertainty: ua, source: 'one' })
        const other = measured({ value: b, standardUncertainty: ub, source: 'other' })
        expect(standardUncertaintyOf(sum([one, other]))).toBeCloseTo(Math.hypot(ua, ub), 9)
        const relative = Math.hypot(ua / a, ub / b)
        const made = [product(one, other), quotient(one, other)]
        for (const each of made) {
          expect(standardUncertaintyOf(each) / each.value / relative).toBeCloseTo(1, 9)
        }
        expect(correlationBetween(one, other)).toBe(0)
      }),
    )
  })

  test('a function read off numerically agrees with its derivatives', () => {
    fc.assert(
      fc.property(amount, doubt, (value, standardUncertainty) => {
        const one = measured({ value, standardUncertainty: standardUncertainty / 10, source: 'a' })
        const squared = functionOf([one], ([x = 0]) => x * x)
        const given = functionOf(
          [one],
          ([x = 0]) => x * x,
          ([x = 0]) => [2 * x],
        )
        expect(standardUncertaintyOf(squared) / standardUncertaintyOf(given)).toBeCloseTo(1, 6)
      }),
    )
  })

  test('measured together keep their covariance', () => {
    const [one, other] = measuredTogether({
      values: [10, 20],
      covariance: [
        [4, 3],
        [3, 9],
      ],
      source: 'session',
    })
    const pair = [present(one, 'one'), present(other, 'other')] as const
    expect(pair.map(standardUncertaintyOf)).toEqual([2, 3])
    expect(correlationBetween(...pair)).toBeCloseTo(0.5, 12)
  })
})

describe('a coverage interval', () => {
  const net = measured({ value: 138, standardUncertainty: 150, source: 'water figures' })

  test('tells a loss that may be none from one that is there', () => {
    expect(distinguishableFromZero(net)).toBe(false)
    expect(distinguishableFromZero({ ...net, value: 400 })).toBe(true)
    expect(distinguishableFromZero({ ...net, value: -400 })).toBe(true)
    expect(distinguishableFromZero(exactly(1))).toBe(true)
    expect(distinguishableFromZero(exactly(0))).toBe(false)
  })

  test('is wider with few degrees of freedom and with more coverage', () => {
    const width = (wanted: { coverage?: number; degreesOfFreedom?: number }) => {
      const { from, to } = coverageInterval(net, wanted)
      return to - from
    }
    expect(width({ degreesOfFreedom: 4 })).toBeGreaterThan(width({}))
    expect(width({ coverage: 0.99 })).toBeGreaterThan(width({}))
    expect(width({})).toBeCloseTo(2 * 1.959964 * 150, 3)
  })
})

test('doubt that is no number, and division by zero, are defects', () => {
  expect(() => exactly(Number.NaN)).toThrow('finite')
  expect(() => measured({ value: 1, standardUncertainty: -1, source: 'a' })).toThrow('below zero')
  expect(() => quotient(exactly(1), exactly(0))).toThrow('divided by zero')
  expect(() => coverageInterval(exactly(1), { coverage: 1 })).toThrow('less than all')
})
