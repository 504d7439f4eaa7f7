import { describe, expect, test } from 'vitest'
import { mistakeTest, singleFlowSuspects } from '../../shared/gross-error.ts'
import { reconciled } from '../../shared/reconciliation.ts'
import { chiSquareQuantile } from '../../shared/statistics.ts'
import { balancesOf } from '../unit/balances.ts'

const NETWORKS = [
  {
    name: 'a heat exchanger with a bypass',
    measured: [101.91, 64.45, 34.65, 64.2, 36.44, 98.88],
    lines: ['1 = 2 + 3', '2 = 4', '3 = 5', '4 + 5 = 6'],
    variances: [1, 1, 1, 1, 1, 1],
    expected: [100.22, 64.5, 35.72, 64.5, 35.72, 100.22],
    chiSquare: 6.4075,
    degrees: 4,
    critical: 9.487729,
    isAccepted: true,
    source:
      'S. Narasimhan and C. Jordache, Data Reconciliation (2000), ch. 1; inputs seen in a copy',
    standing: 'from memory',
  },
  {
    name: 'three nodes with a recycle',
    measured: [11, 9.9, 21.25, 11.1, 7, 3.8],
    lines: ['1 + 2 = 3', '3 = 2 + 4', '4 = 5 + 6'],
    variances: [0.032, 0.026, 0.12, 0.033, 0.052, 0.015],
    expected: [11.02931184, 9.95710885, 20.98642069, 11.02931184, 7.17797337, 3.85133847],
    chiSquare: 1.6674925,
    degrees: 3,
    critical: 7.814728,
    isAccepted: true,
    source: 'inputs of V. G. Dovì and C. Solisio, Chem. Eng. J. 84 (2001), 309, seen in a copy',
    standing: 'computed',
  },
  {
    name: 'four nodes and seven streams',
    measured: [5.026, 14.722, 14.721, 4.968, 10.088, 5.131, 4.835],
    lines: ['1 + 4 + 6 = 2', '2 = 3', '3 = 4 + 5', '5 = 6 + 7'],
    variances: [1, 1, 1, 1, 1, 1, 1],
    expected: [4.90495238, 14.79861905, 14.79861905, 4.8137619, 9.98485714, 5.07990476, 4.90495238],
    chiSquare: 0.0684796,
    degrees: 4,
    critical: 9.487729,
    isAccepted: true,
    source: 'inputs of J. Rosenberg, R. S. H. Mah and C. Iordache (1987), seen in a copy',
    standing: 'computed',
  },
  {
    name: 'a splitter with a gross error',
    measured: [9.22, 4.83, 3.22],
    lines: ['1 = 2 + 3'],
    variances: [9.22, 4.83, 3.22].map((reading) => (0.03 * reading) ** 2),
    expected: [8.38213098, 5.05993684, 3.32219415],
    chiSquare: 12.8132,
    degrees: 1,
    critical: 3.8415,
    isAccepted: false,
    source: 'inputs of R. R. Rao and S. Narasimhan (1996), seen in a copy',
    standing: 'computed',
  },
] as const

describe('a network of flows', () => {
  test.each(NETWORKS)('$name is reconciled ($standing: $source)', (row) => {
    const { flows, globalTest } = reconciled({
      balances: balancesOf(row.lines, row.measured.length),
      measured: row.measured,
      covariance: row.variances,
    })
    flows.forEach(({ value }, flow) => expect(value).toBeCloseTo(row.expected[flow] ?? NaN, 7))
    expect(globalTest.chiSquare).toBeCloseTo(row.chiSquare, row.chiSquare > 10 ? 4 : 6)
    expect(globalTest.degreesOfFreedom).toBe(row.degrees)
    expect(chiSquareQuantile(0.95, row.degrees)).toBeCloseTo(row.critical, 4)
    expect(globalTest.chiSquare < row.critical).toBe(row.isAccepted)
    expect(globalTest.pValue > 0.05).toBe(row.isAccepted)
  })

  test('leaves each flow around the bypass unsure by the root of a third', () => {
    const [bypass] = NETWORKS
    const { flows, covariance } = reconciled({
      balances: balancesOf(bypass.lines, 6),
      measured: bypass.measured,
      covariance: bypass.variances,
    })
    for (const { standardUncertainty } of flows) {
      expect(standardUncertainty).toBeCloseTo(0.57735027, 8)
    }
    expect(covariance.map((row, flow) => row[flow]?.toFixed(9))).toEqual(
      Array.from({ length: 6 }, () => (1 / 3).toFixed(9)),
    )
  })

  test('does not name the faulty stream of a splitter: one balance tells none apart', () => {
    const splitter = NETWORKS[3]
    const { residuals } = reconciled({
      balances: balancesOf(splitter.lines, 3),
      measured: splitter.measured,
      covariance: splitter.variances,
    })
    const { suspicions } = mistakeTest(residuals, {
      suspects: singleFlowSuspects(3),
      confidence: 0.95,
    })
    expect(suspicions).toHaveLength(1)
    expect(suspicions[0]?.alike.map(({ suspect }) => suspect)).toEqual([1, 2])
    expect(suspicions[0]?.size).toBeCloseTo(9.22 - 4.83 - 3.22, 10)
    expect((suspicions[0]?.standardised ?? 0) ** 2).toBeCloseTo(splitter.chiSquare, 4)
  })
})
