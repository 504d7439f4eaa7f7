import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { costOfGrades } from '../../shared/seconds-cost.ts'
import type { Cited } from './cited.ts'

interface Shared extends Cited {
  readonly cost: string
  readonly firsts: number
  readonly seconds: number
  readonly price: string
  readonly expected: readonly [string, string]
}

// Sales values of 80 x 24 and 20 x 12: 1920 and 240, so that 8/9 and 1/9 of the cost go to them.
const ROWS: readonly Shared[] = [
  {
    cost: '432',
    firsts: 80,
    seconds: 20,
    price: '0.5',
    expected: ['384', '48'],
    source: 'relative sales value, IAS 2 paragraph 14, on figures of our own',
    standing: 'computed',
  },
  {
    cost: '100',
    firsts: 1,
    seconds: 2,
    price: '1',
    expected: ['33.333333', '66.666667'],
    source: 'the largest remainder, T. Hare, on figures of our own',
    standing: 'computed',
  },
]

describe('cost shared by relative sales value', () => {
  test.each(ROWS)('$cost over $firsts and $seconds at $price ($standing: $source)', (row) => {
    const found = costOfGrades(
      {
        cost: decimal(row.cost),
        firsts: decimal(row.firsts),
        seconds: decimal(row.seconds),
      },
      { rule: 'by_price', secondsPriceFraction: decimal(row.price) },
    )
    expect([found.firsts.toFixed(), found.seconds.toFixed()]).toEqual(row.expected)
  })
})
