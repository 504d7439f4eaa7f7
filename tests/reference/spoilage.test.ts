import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { probabilityOfAtLeast } from '../../shared/loss-allowance.ts'
import {
  normalSpoilageOfGood,
  spoilageByWeightedAverage,
  type CostPool,
  type SpoilageCosts,
} from '../../shared/spoilage.ts'
import type { Cited } from './cited.ts'

type Units = readonly [
  good: string,
  normallySpoiled: string,
  abnormallySpoiled: string,
  inProcess: string,
]

function pool(cost: string, [good, normal, abnormal, inProcess]: Units): CostPool {
  return {
    cost: decimal(cost),
    equivalentUnits: {
      good: decimal(good),
      normallySpoiled: decimal(normal),
      abnormallySpoiled: decimal(abnormal),
      inProcess: decimal(inProcess),
    },
  }
}

interface Exhibit extends Cited {
  readonly name: string
  readonly pools: readonly CostPool[]
  readonly digits: number
  readonly expected: Readonly<Record<keyof SpoilageCosts, string>>
  readonly total: string
}

const EXHIBITS: readonly Exhibit[] = [
  {
    name: '7000 good of 10 000, a tenth of the good normally spoiled',
    pools: [
      pool('88500', ['7000', '700', '300', '2000']),
      pool('98100', ['7000', '700', '300', '1000']),
    ],
    digits: 0,
    expected: {
      goodBeforeSpoilage: '138250',
      normalSpoilage: '13825',
      goodWithNormal: '152075',
      abnormalSpoilage: '5925',
      inProcess: '28600',
    },
    total: '186600',
    source: 'Horngren, Cost Accounting 14e, ch. 18, p. 649 (the money; its 700 and 300 were seen)',
    standing: 'from memory',
  },
  {
    name: '20 500 good, 2050 normally and 1250 abnormally spoiled',
    pools: [
      pool('50750', ['20500', '2050', '1250', '4200']),
      pool('39916', ['20500', '2050', '1250', '1260']),
    ],
    digits: 4,
    expected: {
      goodBeforeSpoilage: '69809.0034',
      normalSpoilage: '6980.9003',
      goodWithNormal: '76789.9037',
      abnormalSpoilage: '4256.6465',
      inProcess: '9619.4497',
    },
    total: '90666',
    source: 'Horngren, exhibit 18-30, coursehero 6847553, printed in whole dollars',
    standing: 'seen',
  },
]

describe('spoilage by the weighted average', () => {
  test.each(EXHIBITS)('$name ($standing: $source)', ({ pools, digits, expected, total }) => {
    const found = spoilageByWeightedAverage(pools)
    for (const [name, amount] of Object.entries(expected)) {
      expect([name, found[name as keyof SpoilageCosts].toFixed(digits)]).toEqual([name, amount])
    }
    const all = found.goodWithNormal.plus(found.abnormalSpoilage).plus(found.inProcess)
    expect(all.toFixed()).toBe(total)
  })

  test('is not worked out from prices rounded to cents: 25 188.36, not 25 176.90 (seen: answer.ya.guru 4913962)', () => {
    const found = spoilageByWeightedAverage([
      pool('380400', ['72900', '3645', '3155', '19000']),
      pool('376200', ['72900', '3645', '3155', '11400']),
    ])
    expect(found.abnormalSpoilage.toFixed(2)).toBe('25188.36')
  })
})

const NORMS = [
  {
    good: '7000',
    spoiled: '1000',
    norm: '0.1',
    normal: '700',
    abnormal: '300',
    source: 'Horngren, Cost Accounting 14e, ch. 18, yumpu 58332972, p. 673',
    standing: 'seen',
  },
  {
    good: '20500',
    spoiled: '3300',
    norm: '0.1',
    normal: '2050',
    abnormal: '1250',
    source: 'Horngren, exhibit 18-30, coursehero 6847553',
    standing: 'seen',
  },
  {
    good: '72900',
    spoiled: '6800',
    norm: '0.05',
    normal: '3645',
    abnormal: '3155',
    source: 'answer.ya.guru 4913962, homeworkclinic 871009',
    standing: 'seen',
  },
] as const satisfies readonly (Cited & Readonly<Record<string, unknown>>)[]

describe('normal spoilage as a share of the good units', () => {
  test.each(NORMS)('$norm of $good: $normal and $abnormal ($standing: $source)', (row) => {
    const found = normalSpoilageOfGood({
      goodUnits: decimal(row.good),
      spoiledUnits: decimal(row.spoiled),
      normalFractionOfGood: decimal(row.norm),
    })
    expect([found.normalPieces.toFixed(), found.abnormalPieces.toFixed()]).toEqual([
      row.normal,
      row.abnormal,
    ])
  })
})

const PREDICTIVES = [
  {
    name: 'with every share as likely as any other, every number is: 1 of 11 for 10 of 10',
    belief: { alpha: 1, beta: 1 },
    count: { events: 10, trials: 10 },
    expected: 1 / 11,
    source: 'T. Bayes, 1763; Laplace: 1 / (n + 1)',
    standing: 'from memory',
  },
  {
    name: 'the sun that rose n times rises again with (n + 1) / (n + 2)',
    belief: { alpha: 1 + 12, beta: 1 },
    count: { events: 1, trials: 1 },
    expected: 13 / 14,
    source: 'the rule of succession, Laplace, 1774',
    standing: 'from memory',
  },
  {
    name: 'two or more of three, with shapes 2 and 3: 13 of 35',
    belief: { alpha: 2, beta: 3 },
    count: { events: 2, trials: 3 },
    // B(2 + k, 6 - k) / B(2, 3), times 3 over k: 10/35, 12/35, 9/35, 4/35.
    expected: 13 / 35,
    source: 'the beta-binomial distribution, in exact fractions',
    standing: 'computed',
  },
] as const satisfies readonly (Cited & Readonly<Record<string, unknown>>)[]

describe('how likely so many or more are', () => {
  test.each(PREDICTIVES)('$name ($standing: $source)', ({ belief, count, expected }) => {
    expect(probabilityOfAtLeast(count, [{ ...belief, weight: 1 }])).toBeCloseTo(expected, 10)
  })
})
