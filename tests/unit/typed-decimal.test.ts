import { expect, test } from 'vitest'
import { typedDecimal } from '../../shared/typed-decimal.ts'

test.each([
  ['12,46', '12.46'],
  ['12.460', '12.460'],
  [' 9,4 ', '9.4'],
  ['0,125', '0.125'],
  ['1234,567', '1234.567'],
  ['1.250', '1.250'],
])('%s is %s', (typed, text) => {
  expect(typedDecimal(typed)).toEqual({ text })
})

test.each(['1,250', '12,500', '125,000'])('%s may be thousands, and is asked about', (typed) => {
  expect(typedDecimal(typed)).toEqual({ fault: expect.stringContaining('two ways') })
})
