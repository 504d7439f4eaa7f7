import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ZERO } from '../../shared/decimal.ts'
import {
  doubtBy,
  doubtNegated,
  doubtOfDifference,
  doubtOfPart,
  doubtOfSum,
  doubtOnly,
  doubtRead,
  doubtTimes,
  doubtWritten,
  NO_DOUBT,
  standardUncertaintyOfDoubt,
  type Doubt,
} from '../../shared/doubt.ts'
import { aDoubt, ledgerAmount } from '../support/arbitraries.ts'

const doubt = (kept: Record<string, string>): Doubt => doubtRead(kept)
const size = (one: Doubt) => standardUncertaintyOfDoubt(one).toFixed()

describe('the doubt of a sum', () => {
  test('adds what comes of one source with its sign, and squares only what does not', () => {
    // One water content: 3 and 4 of it are 7. Two readings: 3 and 4 are 5. Together root(49 + 25).
    expect(size(doubtOfSum([doubt({ w: '3' }), doubt({ w: '4' })]))).toBe('7')
    expect(size(doubtOfSum([doubt({ a: '3' }), doubt({ b: '4' })]))).toBe('5')
    const both = doubtOfSum([doubt({ w: '3', a: '3' }), doubt({ w: '4', b: '4' })])
    expect(size(both)).toBe(decimal(74).sqrt().toDecimalPlaces(6).toFixed())
  })

  test('forgets a source that cancels, so that what is left names it no more', () => {
    expect(doubtOfDifference(doubt({ w: '3', a: '1' }), doubt({ w: '3', b: '1' }))).toEqual(
      doubt({ a: '1', b: '-1' }),
    )
    expect(doubtOfSum([])).toEqual(NO_DOUBT)
  })

  test('with its own negative is none', () => {
    fc.assert(
      fc.property(aDoubt, (one) => {
        expect(doubtOfSum([one, doubtNegated(one)]).size).toBe(0)
        expect(doubtWritten(doubtNegated(doubtNegated(one)))).toEqual(doubtWritten(one))
      }),
    )
  })

  test('is never more than the sum of the uncertainties, nor less than their difference', () => {
    fc.assert(
      fc.property(aDoubt, aDoubt, (one, other) => {
        const [u, v] = [one, other].map(standardUncertaintyOfDoubt) as [typeof ZERO, typeof ZERO]
        const sum = standardUncertaintyOfDoubt(doubtOfSum([one, other]))
        expect(sum.minus(u.plus(v)).lessThanOrEqualTo('0.000002')).toBe(true)
        expect(u.minus(v).abs().minus(sum).lessThanOrEqualTo('0.000002')).toBe(true)
      }),
    )
  })
})

describe('a part of a doubt', () => {
  test('is the same part of each source; all of it is all of it', () => {
    const whole = doubt({ w: '-9', a: '1' })
    expect(doubtOfPart(whole, { part: decimal(1), whole: decimal(3) })).toEqual(
      doubt({ w: '-3', a: '0.333333' }),
    )
    expect(doubtOfPart(whole, { part: decimal(3), whole: decimal(3) })).toBe(whole)
    expect(doubtOfPart(whole, { part: ZERO, whole: decimal(3) })).toEqual(NO_DOUBT)
  })

  test('of nothing is none, and nothing is divided by', () => {
    expect(doubtOfPart(doubt({ w: '9' }), { part: decimal(1), whole: ZERO })).toEqual(NO_DOUBT)
  })

  test('and the rest make up the whole to the last digit', () => {
    fc.assert(
      fc.property(aDoubt, ledgerAmount(100), (whole, part) => {
        const one = doubtOfPart(whole, { part, whole: decimal(100) })
        const rest = doubtOfDifference(whole, one)
        expect(doubtWritten(doubtOfSum([one, rest]))).toEqual(doubtWritten(whole))
      }),
    )
  })
})

describe('a doubt as it is kept', () => {
  test('has six digits after the point at most, and no source that says nothing', () => {
    expect(doubtBy('a', decimal('0.0000004'))).toEqual(NO_DOUBT)
    expect(doubtWritten(doubtBy('a', decimal('-1.23456789')))).toEqual({ a: '-1.234568' })
    expect(doubtTimes(doubt({ a: '0.000001', b: '2' }), decimal('0.1'))).toEqual(
      doubt({ b: '0.2' }),
    )
  })

  test('is read as it was written, in plain digits however small or large', () => {
    const tiny = { a: '0.000001', b: '-100000000000000000000.5' }
    expect(doubtWritten(doubtRead(tiny))).toEqual(tiny)
    expect(doubtRead(null)).toEqual(NO_DOUBT)
    fc.assert(
      fc.property(aDoubt, (one) => {
        const again = doubtRead(JSON.parse(JSON.stringify(doubtWritten(one))))
        expect(doubtWritten(again)).toEqual(doubtWritten(one))
      }),
    )
  })

  test('is chosen from by its sources', () => {
    const some = doubt({ 'moisture|x': '1', 'reading|y': '2' })
    expect(doubtOnly(some, (source) => source.startsWith('r'))).toEqual(doubt({ 'reading|y': '2' }))
  })
})

test('a doubt that is finer than the ledger, as of a water content, is negated to the last digit', () => {
  const fine: Doubt = new Map([['grain', decimal(1).dividedBy(135)]])
  expect(doubtOfDifference(fine, fine).size).toBe(0)
})
