import { expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { writtenMoney } from '../../shared/written-money.ts'

test.each([
  ['3.2', 'GBP', '£3.20'],
  ['3.205', 'GBP', '£3.20'],
  ['3.215', 'GBP', '£3.22'],
  ['-1250', 'USD', '-$1,250.00'],
  ['1234567.891', 'EUR', '€1,234,567.89'],
  ['320', 'JPY', '¥320'],
  ['40', 'CHF', 'CHF 40.00'],
  ['1.5', 'BHD', 'BHD 1.500'],
  ['-0.001', 'GBP', '£0.00'],
])('%s %s is written %s', (amount, currency, words) => {
  expect(writtenMoney(decimal(amount), currency)).toBe(words)
})
