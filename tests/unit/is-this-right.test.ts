import { expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { doubtfulBags, doubtfulSample } from '../../shared/is-this-right.ts'

test.each([
  [20, '12500', 0],
  [40, '22680', 0],
  [1, '25000', 0],
  [10, '125000', 1],
  [10, '12.5', 1],
  [2000, '12500', 1],
  [2000, '1', 2],
])('%i bags of %s g are asked about %i times', (bags, grams, times) => {
  expect(doubtfulBags({ bags, bagGrams: decimal(grams) })).toHaveLength(times)
})

test('a sample of 250 g in its tin is not asked about, one of 250 kg is', () => {
  expect(doubtfulSample({ wetWithTin: decimal('250') })).toEqual([])
  expect(doubtfulSample({ wetWithTin: decimal('250000') })).toHaveLength(1)
})
