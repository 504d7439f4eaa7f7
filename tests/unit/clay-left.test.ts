import { expect, test } from 'vitest'
import { weeksOfClay } from '../../shared/clay-left.ts'
import { decimal } from '../../shared/decimal.ts'

const weeks = (usable: string, thrown: string) =>
  weeksOfClay({ usableDryGrams: decimal(usable), thrownDryGrams: decimal(thrown) })?.toFixed()

test('clay lasts as many weeks as it is times what a week uses', () => {
  expect(weeks('100000', '200000')).toBe('4')
  expect(weeks('0', '200000')).toBe('0')
})

test('where nothing was thrown nobody knows', () => {
  expect(weeks('100000', '0')).toBeUndefined()
})
