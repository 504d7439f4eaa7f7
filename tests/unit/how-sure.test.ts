import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { doubtRead, NO_DOUBT } from '../../shared/doubt.ts'
import {
  costOf,
  dryOf,
  howSure,
  surely,
  unsureDifference,
  unsurePer,
  unsureQuotient,
  unsureSum,
  unsureTimes,
} from '../../shared/how-sure.ts'
import { quantities } from '../../shared/quantity.ts'
import { aDoubt, ledgerAmount } from '../support/arbitraries.ts'

const unsure = (amount: string, doubt: Record<string, string>) => ({
  amount: decimal(amount),
  doubt: doubtRead(doubt),
})

describe('how sure an amount is', () => {
  test('is 1.96 standard uncertainties to either side', () => {
    // 3 and 4 of two sources are 5; 1.96 x 5 = 9.8.
    const sure = howSure(unsure('100', { a: '3', b: '-4' }))
    expect(sure.standardUncertainty.toFixed()).toBe('5')
    expect(sure.interval95.from.toFixed()).toBe('90.2')
    expect(sure.interval95.to.toFixed()).toBe('109.8')
    expect(sure.isDistinguishableFromZero).toBe(true)
  })

  const EDGES = [
    { amount: '9.8', isDistinguishable: false },
    { amount: '9.800001', isDistinguishable: true },
    { amount: '-9.8', isDistinguishable: false },
    { amount: '-9.800001', isDistinguishable: true },
    { amount: '0', isDistinguishable: false },
  ]
  test.each(EDGES)('$amount give or take 9.8 is no finding: $isDistinguishable', (edge) => {
    const { isDistinguishableFromZero } = howSure(unsure(edge.amount, { a: '3', b: '4' }))
    expect(isDistinguishableFromZero).toBe(edge.isDistinguishable)
  })

  test('of a count that nobody doubts is not in question, and surely nothing is nothing', () => {
    expect(howSure(surely(decimal(3))).isDistinguishableFromZero).toBe(true)
    expect(howSure(surely(decimal(3))).standardUncertainty.toFixed()).toBe('0')
    expect(howSure(surely(ZERO)).isDistinguishableFromZero).toBe(false)
  })
})

describe('amounts worked out from others', () => {
  const one = unsure('10', { w: '1', a: '0.5' })
  const other = unsure('4', { w: '0.4', b: '0.2' })

  test('keep apart what is of two sources and join what is of one', () => {
    expect(unsureSum([one, other])).toEqual(unsure('14', { w: '1.4', a: '0.5', b: '0.2' }))
    expect(unsureDifference(one, other)).toEqual(unsure('6', { w: '0.6', a: '0.5', b: '-0.2' }))
    expect(unsureTimes(one, decimal(-2))).toEqual(unsure('-20', { w: '-2', a: '-1' }))
    expect(unsurePer(one, decimal(4))).toEqual(unsure('2.5', { w: '0.25', a: '0.125' }))
    expect(unsureSum([])).toEqual({ amount: ZERO, doubt: NO_DOUBT })
  })

  test('are no longer unsure by a source that makes both parts of a quotient unsure alike', () => {
    // 10/4 = 2.5; of w: 1/4 - 2.5 x 0.4/4 = 0; of a: 0.5/4; of b: -2.5 x 0.2/4.
    expect(unsureQuotient(one, other)).toEqual(unsure('2.5', { a: '0.125', b: '-0.125' }))
  })

  test('move with each source as the quotient itself does', () => {
    fc.assert(
      fc.property(
        fc.tuple(ledgerAmount(1000), aDoubt),
        fc.tuple(ledgerAmount(1000), aDoubt),
        ([over, n], [under, d]) => {
          const [top, bottom] = [over.plus(1000), under.plus(1000)]
          const { doubt } = unsureQuotient({ amount: top, doubt: n }, { amount: bottom, doubt: d })
          for (const source of new Set([...n.keys(), ...d.keys()])) {
            const at = (by: number) => {
              const moved = (amount: typeof ZERO, of: typeof n) =>
                amount.plus((of.get(source) ?? ZERO).times(by))
              return moved(top, n).dividedBy(moved(bottom, d))
            }
            const slope = at(1e-6).minus(at(-1e-6)).dividedBy(2e-6)
            const found = doubt.get(source) ?? ZERO
            expect(found.minus(slope).abs().lessThan('0.000003')).toBe(true)
          }
        },
      ),
    )
  })
})

test('dry clay and cost of a holding come each with its own doubt', () => {
  const held = quantities({
    ...{ dryGrams: decimal(8), dryDoubt: doubtRead({ w: '2' }) },
    ...{ cost: decimal(5), costDoubt: doubtRead({ w: '-1' }) },
  })
  expect(dryOf(held)).toEqual(unsure('8', { w: '2' }))
  expect(costOf(held)).toEqual(unsure('5', { w: '-1' }))
})
