import { describe, expect, test } from 'vitest'
import { ALL_CLAY } from '../../shared/cost-layer.ts'
import { costLeaving, costLeftToSurvivors, type CostedClay } from '../../shared/cost.ts'
import { decimal } from '../../shared/decimal.ts'
import type { Cited } from './cited.ts'

interface Bought {
  readonly units: number
  readonly at: string
}
interface Row extends Cited {
  readonly name: string
  readonly held: CostedClay
  readonly bought: Bought
  readonly sold: number
  readonly cost: string
  readonly left: string
  /** The unit cost in cents, times the units: what must not be found. */
  readonly roundedLeft: string
}

const held = (units: number, cost: string) => ({ dryGrams: decimal(units), cost: decimal(cost) })

const ROWS: readonly Row[] = [
  {
    name: 'averages that never end: 3 units at 150, and 8 at 170',
    held: held(3, '450'),
    bought: { units: 8, at: '170' },
    sold: 5,
    cost: '822.727273',
    left: '987.272727',
    roundedLeft: '987.3',
    source: 'transtutors.com, anyone-125203, which prints 164.55 a unit',
    standing: 'seen',
  },
  {
    name: '80 units at 54, and then 120 at 60 and 200 at 62',
    held: held(200, '11520'),
    bought: { units: 200, at: '62' },
    sold: 160,
    cost: '9568',
    left: '14352',
    roundedLeft: '14352',
    source: 'Wild, Fundamental Accounting Principles, coursehero 31006839',
    standing: 'from memory',
  },
  {
    name: '4000 units at 4.30, and 2000 at 4.75',
    held: held(4000, '17200'),
    bought: { units: 2000, at: '4.75' },
    sold: 3000,
    cost: '13350',
    left: '13350',
    roundedLeft: '13350',
    source: 'Kieso, Intermediate Accounting, ch. 8 (half of its 26 700)',
    standing: 'from memory',
  },
]

describe('the moving average, step by step', () => {
  test.each(ROWS)('$name: $cost of it leaves ($standing: $source)', (row) => {
    const { units, at } = row.bought
    const all = {
      dryGrams: row.held.dryGrams.plus(units),
      cost: row.held.cost.plus(decimal(at).times(units)),
    }
    const cost = costLeaving(all, decimal(row.sold))
    expect(cost.toFixed()).toBe(row.cost)
    expect(all.cost.minus(cost).toFixed()).toBe(row.left)
    const rounded = all.cost.dividedBy(all.dryGrams).toDecimalPlaces(2)
    const left = rounded.times(all.dryGrams.minus(row.sold))
    expect(left.toFixed()).toBe(row.roundedLeft)
  })

  test('what was sold and what is left of 46 600 make 46 600 (from memory: Wild; seen: its total)', () => {
    const first = costLeaving(held(500, '27000'), decimal(420))
    const rest = decimal(27_000).minus(first).plus(7200).plus(12_400)
    const second = costLeaving({ dryGrams: decimal(400), cost: rest }, decimal(160))
    expect([first, second, rest.minus(second)].map((one) => one.toFixed())).toEqual([
      '22680',
      '9568',
      '14352',
    ])
    expect(first.plus(rest).toFixed()).toBe('46600')
  })
})

const SHARED = [
  {
    cost: '100',
    survivors: 3,
    expected: '33.333334 33.333333 33.333333',
    source: 'the largest remainder to a millionth, ties to the earlier line',
    standing: 'computed',
  },
  {
    cost: '13825',
    survivors: 2,
    expected: '6912.5 6912.5',
    source: 'Horngren, Cost Accounting 14e, ch. 18, p. 649: normal spoilage goes to the good units',
    standing: 'from memory',
  },
] as const satisfies readonly (Cited & Readonly<Record<string, unknown>>)[]

describe('normal spoilage, left to the survivors', () => {
  test.each(SHARED)('$cost over $survivors ($standing: $source)', (row) => {
    const alike = Array.from({ length: row.survivors }, () => ({ dryGrams: decimal(400) }))
    const clay = { cost: decimal(row.cost), costLayers: ALL_CLAY }
    const shares = costLeftToSurvivors(clay, alike)
    expect(shares.map(({ cost }) => cost.toFixed()).join(' ')).toBe(row.expected)
  })
})
