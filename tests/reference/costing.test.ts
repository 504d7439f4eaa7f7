import { describe, expect, test } from 'vitest'
import { costLeaving } from '../../shared/cost.ts'
import { decimal } from '../../shared/decimal.ts'
import type { Decimal } from '../../shared/decimal.ts'
import type { Cited } from './cited.ts'

/** Bought: units and the price of one. Sold: units alone. */
type Step = { readonly buy: number; readonly at: string } | { readonly sell: number }

interface Ledger extends Cited {
  readonly name: string
  readonly steps: readonly Step[]
  readonly averages: readonly string[]
  readonly sold: string
  readonly left: string
  readonly fifo: { readonly sold: string; readonly left: string }
}

const WILD: readonly Step[] = [
  { buy: 100, at: '50' },
  { buy: 400, at: '55' },
  { sell: 420 },
  { buy: 120, at: '60' },
  { buy: 200, at: '62' },
  { sell: 160 },
]
const REPEATING: readonly Step[] = [
  { buy: 7, at: '150' },
  { sell: 4 },
  { buy: 8, at: '170' },
  { sell: 5 },
  { buy: 6, at: '185' },
  { sell: 3 },
  { sell: 4 },
]
const KIESO: readonly Step[] = [
  { buy: 2000, at: '4.00' },
  { buy: 6000, at: '4.40' },
  { sell: 4000 },
  { buy: 2000, at: '4.75' },
]

const LEDGERS: readonly Ledger[] = [
  {
    name: 'two sales out of four purchases',
    steps: WILD,
    averages: ['50.000000', '54.000000', '57.600000', '59.800000'],
    sold: '32248.000000',
    left: '14352.000000',
    fifo: { sold: '31800.000000', left: '14800.000000' },
    source: 'Wild, Fundamental Accounting Principles, in coursehero 31006839 (which shows FIFO)',
    standing: 'from memory',
  },
  {
    name: 'averages that never end',
    steps: REPEATING,
    averages: ['150.000000', '164.545455', '174.772727'],
    sold: '2646.136364',
    left: '873.863636',
    fifo: { sold: '2595.000000', left: '925.000000' },
    source: 'transtutors.com, anyone-125203',
    standing: 'seen',
  },
  {
    name: 'a purchase after the sale',
    steps: KIESO,
    averages: ['4.000000', '4.300000', '4.450000'],
    sold: '17200.000000',
    left: '26700.000000',
    fifo: { sold: '16800.000000', left: '27100.000000' },
    source: 'Kieso, Intermediate Accounting, ch. 8',
    standing: 'from memory',
  },
]

describe('the moving average', () => {
  test.each(LEDGERS)('$name: $sold sold, $left left ($standing: $source)', (row) => {
    const found = byMovingAverage(row.steps)
    expect(found.averages).toEqual(row.averages)
    expect(found.sold.toFixed(6)).toBe(row.sold)
    expect(found.left.toFixed(6)).toBe(row.left)
  })

  test('is not rounded between steps: 873.8636 are left, where the page prints 874 (seen: transtutors.com)', () => {
    expect(byMovingAverage(REPEATING).left.toFixed(4)).toBe('873.8636')
  })

  test.each(LEDGERS)('$name: differs from first in, first out ($standing: $source)', (row) => {
    const found = byFirstInFirstOut(row.steps)
    expect(found.sold.toFixed(6)).toBe(row.fifo.sold)
    expect(found.left.toFixed(6)).toBe(row.fifo.left)
    expect(found.left.equals(byMovingAverage(row.steps).left)).toBe(false)
  })

  test('over the whole period gives 17 560 sold and 26 340 left (from memory: Kieso, ch. 8)', () => {
    const period = { dryGrams: decimal(10_000), cost: decimal(43_900) }
    expect(costLeaving(period, decimal(4000)).toFixed()).toBe('17560')
    expect(costLeaving(period, decimal(6000)).toFixed()).toBe('26340')
  })
})

interface Pool {
  readonly units: string
  readonly cost: string
}
interface Spoilage {
  readonly materials: Pool
  readonly conversion: Pool
}

/** The cost of some units that carry all of their materials and this much of their conversion. */
function costOf(pools: Spoilage, units: { materials: string; conversion: string }): Decimal {
  const leaving = ({ units: all, cost }: Pool, taken: string) =>
    costLeaving({ dryGrams: decimal(all), cost: decimal(cost) }, decimal(taken))
  return leaving(pools.materials, units.materials).plus(leaving(pools.conversion, units.conversion))
}
const finished = (units: string) => ({ materials: units, conversion: units })

describe('spoilage by the weighted average', () => {
  const exhibit: Spoilage = {
    materials: { units: '28000', cost: '50750' },
    conversion: { units: '25060', cost: '39916' },
  }
  const EXHIBIT = [
    {
      what: 'good units before normal spoilage',
      units: finished('20500'),
      exact: '69809.0034',
      printed: '69809',
    },
    { what: 'normal spoilage', units: finished('2050'), exact: '6980.9003', printed: '6981' },
    { what: 'good units with it', units: finished('22550'), exact: '76789.9037', printed: '76790' },
    { what: 'abnormal spoilage', units: finished('1250'), exact: '4256.6465', printed: '4257' },
    {
      what: 'work in process',
      units: { materials: '4200', conversion: '1260' },
      exact: '9619.4497',
      printed: '9619',
    },
  ].map((row) => ({
    ...row,
    source: 'Horngren, exhibit 18-30, coursehero 6847553',
    standing: 'seen' as const,
  }))

  test.each(EXHIBIT)('$what cost $printed ($standing: $source)', (row) => {
    const cost = costOf(exhibit, row.units)
    expect(cost.toFixed(4)).toBe(row.exact)
    expect(cost.toFixed(0)).toBe(row.printed)
  })

  test('the parts of the exhibit make up its 90 666 (seen: Horngren, exhibit 18-30)', () => {
    const parts = [EXHIBIT[2]!, EXHIBIT[3]!, EXHIBIT[4]!]
    const total = parts.reduce((sum, { units }) => sum.plus(costOf(exhibit, units)), decimal(0))
    expect(total.toFixed(5)).toBe('90666.00000')
  })

  // Of 10 000 units 7000 are good, 700 normally and 300 abnormally spoiled, 2000 half converted.
  const textbook: Spoilage = {
    materials: { units: '10000', cost: '88500' },
    conversion: { units: '9000', cost: '98100' },
  }
  const TEXTBOOK = [
    { what: 'good units before normal spoilage', units: finished('7000'), cost: '138250' },
    { what: 'normal spoilage', units: finished('700'), cost: '13825' },
    { what: 'good units with it', units: finished('7700'), cost: '152075' },
    { what: 'abnormal spoilage', units: finished('300'), cost: '5925' },
    { what: 'work in process', units: { materials: '2000', conversion: '1000' }, cost: '28600' },
  ].map((row) => ({
    ...row,
    source: 'Horngren, Cost Accounting 14e, ch. 18, p. 649',
    standing: 'from memory' as const,
  }))

  test.each(TEXTBOOK)('$what cost $cost ($standing: $source)', ({ units, cost }) => {
    expect(costOf(textbook, units).toFixed()).toBe(cost)
  })

  test('is not worked out from prices rounded to cents: 25 188.36, not 25 176.90 (seen: answer.ya.guru 4913962)', () => {
    const pools: Spoilage = {
      materials: { units: '98700', cost: '380400' },
      conversion: { units: '91100', cost: '376200' },
    }
    expect(costOf(pools, finished('3155')).toFixed(2)).toBe('25188.36')
  })
})

function byMovingAverage(steps: readonly Step[]) {
  let held = { dryGrams: decimal(0), cost: decimal(0) }
  let sold = decimal(0)
  const averages: string[] = []
  for (const step of steps) {
    if ('buy' in step) {
      held = {
        dryGrams: held.dryGrams.plus(step.buy),
        cost: held.cost.plus(decimal(step.at).times(step.buy)),
      }
      averages.push(held.cost.dividedBy(held.dryGrams).toFixed(6))
      continue
    }
    const cost = costLeaving(held, decimal(step.sell))
    held = { dryGrams: held.dryGrams.minus(step.sell), cost: held.cost.minus(cost) }
    sold = sold.plus(cost)
  }
  return { averages, sold, left: held.cost }
}

/** A second opinion that shares nothing with the program: a queue of single units. */
function byFirstInFirstOut(steps: readonly Step[]) {
  const queue: Decimal[] = []
  let sold = decimal(0)
  for (const step of steps) {
    if ('buy' in step) {
      queue.push(...Array.from({ length: step.buy }, () => decimal(step.at)))
      continue
    }
    for (const price of queue.splice(0, step.sell)) sold = sold.plus(price)
  }
  return { sold, left: queue.reduce((sum, price) => sum.plus(price), decimal(0)) }
}
