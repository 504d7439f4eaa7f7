import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { isCurrency, minorUnitDigits, roundedToSum, shareOut } from '../../shared/money.ts'
import { ledgerAmount, sum } from './arbitrary.ts'

const amounts = (...values: string[]) => values.map((value) => decimal(value))
const shown = (values: readonly { toFixed(): string }[]) => values.map((value) => value.toFixed())

describe('sharing out', () => {
  test('the shares add up to the total, for every total and every weights', () => {
    fc.assert(
      fc.property(
        ledgerAmount(-1_000_000, 1_000_000),
        fc.array(ledgerAmount(0, 100_000), { minLength: 1, maxLength: 30 }),
        (total, weights) => {
          expect(sum(shareOut(total, weights)).toFixed()).toBe(total.toFixed())
        },
      ),
    )
  })

  test('no share is a whole unit away from its quota', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100_000 }),
        fc.array(fc.integer({ min: 1, max: 1000 }), { minLength: 1, maxLength: 12 }),
        (total, weights) => {
          const all = weights.reduce((one, other) => one + other)
          const shares = shareOut(decimal(total), weights.map(decimal), 0)
          for (const [index, share] of shares.entries()) {
            const quota = decimal(total)
              .times(weights[index] ?? 0)
              .dividedBy(all)
            expect(share.minus(quota).abs().lessThan(1)).toBe(true)
          }
        },
      ),
    )
  })

  test('a negative total is shared as its positive twin, with the sign turned', () => {
    const weights = amounts('1', '2', '4')
    const positive = shareOut(decimal('0.05'), weights, 2)
    const negative = shareOut(decimal('-0.05'), weights, 2)
    expect(shown(negative)).toEqual(shown(positive.map((share) => share.negated())))
  })

  test('a line without weight gets nothing while another has weight', () => {
    expect(shown(shareOut(decimal('0.01'), amounts('0', '1', '0'), 2))).toEqual(['0', '0.01', '0'])
  })

  test('lines that all lack weight share equally', () => {
    expect(shown(shareOut(decimal('10'), amounts('0', '0', '0'), 2))).toEqual([
      '3.34',
      '3.33',
      '3.33',
    ])
  })

  test('nothing shared is nothing for each', () => {
    expect(shown(shareOut(decimal(0), amounts('3', '4')))).toEqual(['0', '0'])
  })

  test('a total finer than the digits is a defect', () => {
    expect(() => shareOut(decimal('0.001'), amounts('1'), 2)).toThrow('at most 2 digits')
  })

  test('a total with no line to take it is a defect', () => {
    expect(() => shareOut(decimal('1'), [])).toThrow('there is a line')
  })
})

describe('rounding a column', () => {
  test('the rounded parts add up to the rounded total, and none moves by a unit', () => {
    fc.assert(
      fc.property(fc.array(ledgerAmount(-1000, 1000), { maxLength: 30 }), (parts) => {
        const rounded = roundedToSum(parts, 2)
        expect(sum(rounded).toFixed()).toBe(sum(parts).toDecimalPlaces(2).toFixed())
        for (const [index, part] of parts.entries()) {
          expect(
            part
              .minus(rounded[index] ?? 0)
              .abs()
              .lessThan('0.01'),
          ).toBe(true)
        }
      }),
    )
  })

  test('thirds of a coin keep their sum', () => {
    const thirds = amounts('0.333333', '0.333333', '0.333334')
    expect(shown(roundedToSum(thirds, 2))).toEqual(['0.33', '0.33', '0.34'])
  })

  test('an amount that fits stays as it is', () => {
    expect(shown(roundedToSum(amounts('1.5', '0.26', '0.24'), 1))).toEqual(['1.5', '0.3', '0.2'])
  })
})

describe('currencies', () => {
  test('a code that nobody pays in is no currency', () => {
    for (const code of ['XXX', 'XTS', 'XAU', 'DEM', 'eur', '', 'EURO']) {
      expect(isCurrency(code), code).toBe(false)
    }
  })

  test('the digits of an unknown code are a defect', () => {
    expect(() => minorUnitDigits('ABC')).toThrow('is a currency')
  })
})
