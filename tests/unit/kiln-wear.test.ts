import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { wearBalance, wearPerFiring } from '../../shared/kiln-wear.ts'
import { ledgerAmount, sum } from './arbitrary.ts'

describe('wear of a firing', () => {
  test('is the price over the firings, or as said', () => {
    const found = wearPerFiring([
      { name: 'elements', price: decimal(200), expectedFirings: 120 },
      { name: 'shelves', costPerFiringSaid: decimal('0.6') },
    ])
    expect(found.costs.map((one) => one.toFixed())).toEqual(['1.666667', '0.6'])
    expect(found.cost.toFixed()).toBe('2.266667')
  })

  test('no part costs nothing', () => {
    expect(wearPerFiring([]).cost.toFixed()).toBe('0')
  })

  test('a set that lasts no firing is a defect', () => {
    const set = { name: 'elements', price: decimal(200), expectedFirings: 0 }
    expect(() => wearPerFiring([set])).toThrow('one firing or more')
  })

  test('the parts make up the whole, and a life of firings its price but for the last units', () => {
    fc.assert(
      fc.property(
        ledgerAmount(0, 1_000),
        fc.integer({ min: 1, max: 500 }),
        ledgerAmount(0, 10),
        (price, firings, costPerFiringSaid) => {
          const found = wearPerFiring([
            { name: 'elements', price, expectedFirings: firings },
            { name: 'shelves', costPerFiringSaid },
          ])
          expect(sum(found.costs).toFixed()).toBe(found.cost.toFixed())
          const off = (found.costs[0] ?? decimal(0)).times(firings).minus(price).abs()
          expect(off.lessThanOrEqualTo(decimal('0.0000005').times(firings))).toBe(true)
        },
      ),
    )
  })
})

describe('charged against put in', () => {
  const balance = (charged: string, putIn: string, firings = 40) =>
    wearBalance({
      chargedSoFar: decimal(charged),
      putIn: decimal(putIn),
      firings,
      digits: 2,
    })

  test('says what firings have still to pay', () => {
    const found = balance('96', '180')
    expect(found.stillToCharge.toFixed()).toBe('84')
    expect(found.putInPerFiring?.toFixed()).toBe('4.5')
    expect(found.words).toBe(
      'Charged so far 96.00, put in 180.00. Firings have 84.00 still to pay.',
    )
  })

  test('says what firings have paid ahead, and that the two are even', () => {
    expect(balance('96', '80').words).toBe(
      'Charged so far 96.00, put in 80.00. Firings have paid 16.00 towards the next set.',
    )
    expect(balance('96', '96').words).toContain('The two are even.')
  })

  test('before the first firing there is nothing a firing', () => {
    expect(balance('0', '180', 0).putInPerFiring).toBeNull()
  })
})
