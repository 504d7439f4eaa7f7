import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, toLedgerScale } from '../../shared/decimal.ts'
import {
  MASS_UNITS,
  convertedExactly,
  divisionGramsFromLastDigit,
  gramsFrom,
  millilitresFrom,
} from '../../shared/units.ts'
import { ledgerAmount } from './arbitrary.ts'

describe('grams from a reading', () => {
  test('kilograms become a thousand grams each, to the digit', () => {
    expect(gramsFrom({ value: '12.46', unit: 'kg' }).toFixed()).toBe('12460')
  })

  test('a pound and sixteen ounces weigh the same', () => {
    expect(gramsFrom({ value: '1', unit: 'lb' })).toEqual(gramsFrom({ value: '16', unit: 'oz' }))
  })

  test('an ounce is rounded once, to ledger scale', () => {
    expect(gramsFrom({ value: '1', unit: 'oz' }).toFixed()).toBe('28.349523')
  })

  test('what is shown in a unit reads back as the same grams', () => {
    fc.assert(
      fc.property(ledgerAmount(0, 100_000_000), fc.constantFrom(...MASS_UNITS), (grams, unit) => {
        const shown = convertedExactly(grams, 'g', unit).toFixed()
        expect(gramsFrom({ value: shown, unit }).toFixed()).toBe(toLedgerScale(grams).toFixed())
      }),
    )
  })

  test('text that is no number is a defect', () => {
    expect(() => gramsFrom({ value: 'NaN', unit: 'g' })).toThrow('a mass is a number')
  })
})

test('a litre has a thousand millilitres, and the two pints differ', () => {
  expect(millilitresFrom({ value: '1.5', unit: 'l' }).toFixed()).toBe('1500')
  expect(millilitresFrom({ value: '1', unit: 'imperial_pint' }).toFixed()).toBe('568.26125')
  expect(millilitresFrom({ value: '1', unit: 'us_pint' }).toFixed()).toBe('473.176473')
})

test.each([
  { value: '12.46', unit: 'kg', division: '10' },
  { value: '12.460', unit: 'kg', division: '1' },
  { value: '400', unit: 'g', division: '1' },
  { value: '0.05', unit: 'g', division: '0.01' },
  { value: '3', unit: 'kg', division: '1000' },
  { value: '3.0', unit: 'oz', division: '2.834952' },
] as const)(
  'the last digit of $value $unit stands for $division g',
  ({ value, unit, division }) => {
    expect(divisionGramsFromLastDigit({ value, unit }).toFixed()).toBe(division)
  },
)

test('grams do not become millilitres', () => {
  expect(() => convertedExactly(decimal(1), 'g', 'ml')).toThrow('measure the same thing')
})
