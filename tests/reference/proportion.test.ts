import { describe, expect, test } from 'vitest'
import {
  exactInterval,
  exactUpperLimit,
  jeffreysInterval,
  shareDifference,
  wilsonCorrectedInterval,
  wilsonInterval,
  type ShareInterval,
} from '../../shared/proportion.ts'

const NEWCOMBE = 'R. G. Newcombe, Statistics in Medicine 17 (1998), 857-872, table I'
const METHODS = {
  wilson: wilsonInterval,
  exact: exactInterval,
  jeffreys: jeffreysInterval,
  corrected: wilsonCorrectedInterval,
}

/** Events, trials, and the two ends at 95 %, by the method. */
const ROWS = [
  ...rowsOf({ method: 'wilson', source: `${NEWCOMBE}, method 3`, standing: 'second-hand' }, [
    [81, 263, 0.25528852, 0.36620958],
    [15, 148, 0.0623864, 0.16048724],
    [0, 20, 0, 0.16112516],
    [1, 29, 0.00611321, 0.17175522],
    [0, 10, 0, 0.2775328],
    [10, 10, 0.7224672, 1],
  ]),
  ...rowsOf({ method: 'wilson', source: 'the score interval', standing: 'computed' }, [
    [3, 10, 0.10779127, 0.60322185],
    [1, 12, 0.01486509, 0.35387991],
    [5, 100, 0.02154368, 0.11175047],
  ]),
  ...rowsOf(
    { method: 'exact', source: `${NEWCOMBE}, method 5, recomputed`, standing: 'from memory' },
    [
      [81, 263, 0.25273675, 0.36762192],
      [15, 148, 0.05784401, 0.16165049],
      [0, 20, 0, 0.16843347],
      [1, 29, 0.00087265, 0.1776443],
    ],
  ),
  ...rowsOf(
    { method: 'exact', source: 'quantiles of the beta distribution', standing: 'computed' },
    [
      [0, 10, 0, 0.30849711],
      [10, 10, 0.69150289, 1],
      [3, 10, 0.06673951, 0.65245285],
      [1, 12, 0.00210759, 0.38479617],
      [5, 100, 0.01643188, 0.11283491],
    ],
  ),
  ...rowsOf(
    {
      method: 'jeffreys',
      source: 'quantiles of the beta distribution; convention at the ends',
      standing: 'computed',
    },
    [
      [81, 263, 0.25452193, 0.3656475],
      [15, 148, 0.06044852, 0.15764314],
      [0, 20, 0, 0.11663898],
      [1, 29, 0.00374617, 0.15007769],
      [0, 10, 0, 0.21719627],
      [10, 10, 0.78280373, 1],
      [3, 10, 0.09269459, 0.60581832],
      [1, 12, 0.00914433, 0.32849573],
      [5, 100, 0.01933181, 0.10610007],
    ],
  ),
]

/** With the correction, only four digits are known. */
const CORRECTED = rowsOf(
  { method: 'corrected', source: `${NEWCOMBE}, method 4, recomputed`, standing: 'from memory' },
  [
    [81, 263, 0.2535, 0.3682],
    [15, 148, 0.0598, 0.1644],
    [0, 20, 0, 0.2005],
    [1, 29, 0.0018, 0.1963],
  ],
)

type Line = readonly [events: number, trials: number, from: number, to: number]

interface Group {
  readonly method: keyof typeof METHODS
  readonly source: string
  readonly standing: 'second-hand' | 'from memory' | 'computed'
}

function rowsOf({ method, source, standing }: Group, lines: readonly Line[]) {
  return lines.map(([events, trials, from, to]) => ({
    ...{ method, events, trials, from, to },
    source,
    standing,
  }))
}

function expectNear(found: ShareInterval, row: ShareInterval, halfDigit: number) {
  expect(Math.abs(found.from - row.from)).toBeLessThanOrEqual(halfDigit)
  expect(Math.abs(found.to - row.to)).toBeLessThanOrEqual(halfDigit)
}

describe('a share of which so many of so many are known', () => {
  test.each(ROWS)('$method, $events of $trials: $from to $to ($standing: $source)', (row) => {
    expectNear(METHODS[row.method](row), row, 0.6e-8)
  })

  test.each(CORRECTED)('$method, $events of $trials: $from to $to ($standing: $source)', (row) => {
    // 0.16445 is printed as 0.1644.
    expectNear(METHODS[row.method](row), row, 0.6e-4)
  })

  test.each([
    {
      upper: 0.13910834,
      source: 'one less the twentieth root of a twentieth',
      standing: 'computed',
    },
  ])('after 0 of 20 is not above $upper, at 95 % ($standing: $source)', ({ upper }) => {
    expect(exactUpperLimit({ events: 0, trials: 20 })).toBeCloseTo(upper, 8)
    expect(exactUpperLimit({ events: 0, trials: 20 })).toBeCloseTo(1 - 0.05 ** (1 / 20), 12)
  })
})

describe('by how much one share exceeds another', () => {
  const source =
    'R. G. Newcombe, Statistics in Medicine 17 (1998), 873-890, table II, method 10; recomputed'
  const standing = 'from memory'
  const DIFFERENCES = [
    { one: [56, 70], other: [48, 80], from: 0.0524, to: 0.3339, source, standing },
    { one: [9, 10], other: [3, 10], from: 0.1705, to: 0.809, source, standing },
    { one: [6, 7], other: [2, 7], from: 0.0582, to: 0.8062, source, standing },
    { one: [5, 56], other: [0, 29], from: -0.0381, to: 0.1926, source, standing },
    { one: [0, 10], other: [0, 20], from: -0.1611, to: 0.2775, source, standing },
    { one: [10, 10], other: [0, 10], from: 0.6075, to: 1, source, standing },
  ] as const

  test.each(DIFFERENCES)('$one against $other: $from to $to ($standing: $source)', (row) => {
    const counted = ([events, trials]: readonly [number, number]) => ({ events, trials })
    const found = shareDifference([counted(row.one), counted(row.other)], 1.959964)
    expectNear(found, row, 0.6e-4)
    expect(found.difference).toBeCloseTo(row.one[0] / row.one[1] - row.other[0] / row.other[1], 12)
  })
})
