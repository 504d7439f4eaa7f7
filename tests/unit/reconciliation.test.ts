import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  independentRows,
  innerProduct,
  timesVector,
  transposed,
} from '../../shared/linear-algebra.ts'
import { reconciled } from '../../shared/reconciliation.ts'
import { balancesOf } from './balances.ts'
import { feasibleNetwork } from './networks.ts'

const BYPASS = balancesOf(['1 = 2 + 3', '2 = 4', '3 = 5', '4 + 5 = 6'], 6)
const MEASURED = [101.91, 64.45, 34.65, 64.2, 36.44, 98.88]
const SURE = [1, 1, 1, 1, 1, 1]
const standings = (measured: readonly (number | null)[]) =>
  reconciled({ balances: BYPASS, measured, covariance: SURE }).flows.map(({ standing }) => standing)

describe('reconciled flows', () => {
  test('obey every balance, to a thousand-millionth of the flows', () => {
    fc.assert(
      fc.property(feasibleNetwork, ({ balances, trueFlows, variances, errors }) => {
        const measured = trueFlows.map((flow, index) => flow + (errors[index] ?? 0))
        const { flows } = reconciled({ balances, measured, covariance: variances })
        const values = flows.map(({ value }) => value ?? NaN)
        const size = Math.max(...values.map(Math.abs))
        for (const left of timesVector(balances, values)) {
          expect(Math.abs(left)).toBeLessThan(1e-9 * size)
        }
      }),
    )
  })

  test('obey every balance also where some are known ten thousand times better than others', () => {
    fc.assert(
      fc.property(feasibleNetwork, ({ balances, trueFlows, variances, errors }) => {
        const measured = trueFlows.map((flow, index) => flow + (errors[index] ?? 0))
        const covariance = variances.map(
          (variance, index) => variance * 10 ** ((index % 5) * 2 - 4),
        )
        const { flows } = reconciled({ balances, measured, covariance })
        const values = flows.map(({ value }) => value ?? NaN)
        const size = Math.max(...values.map(Math.abs))
        for (const left of timesVector(balances, values)) {
          expect(Math.abs(left)).toBeLessThan(1e-11 * size)
        }
      }),
    )
  })

  test('are what was measured where that obeys the balances already', () => {
    fc.assert(
      fc.property(feasibleNetwork, ({ balances, trueFlows, variances }) => {
        const { flows, globalTest } = reconciled({
          balances,
          measured: trueFlows,
          covariance: variances,
        })
        flows.forEach(({ value, adjustment }, index) => {
          expect(value).toBeCloseTo(trueFlows[index] ?? NaN, 8)
          expect(Math.abs(adjustment ?? NaN)).toBeLessThan(1e-8)
        })
        expect(globalTest.chiSquare).toBeLessThan(1e-12)
        expect(globalTest.pValue).toBeCloseTo(1, 6)
      }),
    )
  })

  test('leave the same over when any multiple of feasible flows is added to the measurements', () => {
    fc.assert(
      fc.property(
        feasibleNetwork,
        fc.double({ min: -5, max: 5, noNaN: true }),
        ({ balances, trueFlows, variances, errors }, times) => {
          const leftOver = (flows: readonly number[]) =>
            reconciled({ balances, measured: flows, covariance: variances }).residuals.residual
          const before = leftOver(errors)
          const after = leftOver(errors.map((one, index) => one + times * (trueFlows[index] ?? 0)))
          after.forEach((one, index) => expect(one).toBeCloseTo(before[index] ?? NaN, 7))
        },
      ),
    )
  })

  test('are never less sure than nothing, nor less sure than the measurements', () => {
    fc.assert(
      fc.property(feasibleNetwork, ({ balances, trueFlows, variances }) => {
        const { flows } = reconciled({ balances, measured: trueFlows, covariance: variances })
        flows.forEach(({ standardUncertainty }, index) => {
          expect(standardUncertainty).toBeGreaterThanOrEqual(0)
          expect(standardUncertainty).toBeLessThanOrEqual(
            Math.sqrt(variances[index] ?? NaN) * (1 + 1e-12),
          )
        })
      }),
    )
  })

  test('come out the same with a diagonal covariance written in full, and with balances said twice', () => {
    const once = reconciled({ balances: BYPASS, measured: MEASURED, covariance: SURE })
    const full = SURE.map((one, row) => SURE.map((_, column) => (row === column ? one : 0)))
    const twice = reconciled({
      balances: [...BYPASS, ...BYPASS],
      measured: MEASURED,
      covariance: full,
    })
    twice.flows.forEach(({ value }, index) =>
      expect(value).toBeCloseTo(once.flows[index]?.value ?? NaN, 10),
    )
    expect(twice.globalTest.degreesOfFreedom).toBe(4)
    expect(twice.globalTest.chiSquare).toBeCloseTo(once.globalTest.chiSquare, 10)
  })
})

describe('errors that measurements share', () => {
  test('are not held against them where they cancel', () => {
    // What came and what left were both turned into dry clay by the same doubtful figure.
    const shared = [10, 10]
    const covariance = shared.map((one, row) =>
      shared.map((other, column) => one * other + (row === column ? 0.01 : 0)),
    )
    const { globalTest, flows } = reconciled({
      balances: [[1, -1]],
      measured: [100, 101],
      covariance,
    })
    expect(globalTest.chiSquare).toBeCloseTo(1 / 0.02, 8)
    expect(flows[0]?.value).toBeCloseTo(100.5, 8)
    expect(flows[0]?.standardUncertainty).toBeCloseTo(Math.sqrt(100 + 0.005), 8)
  })
})

describe('flows that nobody measured', () => {
  test('are worked out where the others determine them, and said to be open where not', () => {
    expect(standings([101.91, 64.45, 34.65, null, 36.44, 98.88])).toEqual([
      'checked',
      'checked',
      'checked',
      'worked_out',
      'checked',
      'checked',
    ])
    expect(standings([101.91, null, null, null, null, 98.88])).toEqual([
      'checked',
      'open',
      'open',
      'open',
      'open',
      'checked',
    ])
  })

  test('leave a measurement unchecked of which then nothing else speaks', () => {
    expect(standings([101.91, null, null, null, 36.44, 98.88])).toEqual([
      'checked',
      'worked_out',
      'worked_out',
      'worked_out',
      'unchecked',
      'checked',
    ])
  })

  test('come out as if measured without any certainty', () => {
    const left = MEASURED.map((value, index) => (index === 3 ? null : value))
    const unsure = SURE.map((value, index) => (index === 3 ? 1e9 : value))
    const worked = reconciled({ balances: BYPASS, measured: left, covariance: SURE })
    const nearly = reconciled({ balances: BYPASS, measured: MEASURED, covariance: unsure })
    worked.flows.forEach(({ value, standardUncertainty }, index) => {
      expect(value).toBeCloseTo(nearly.flows[index]?.value ?? NaN, 5)
      expect(standardUncertainty).toBeCloseTo(nearly.flows[index]?.standardUncertainty ?? NaN, 5)
    })
    const row = worked.covariance[3] ?? []
    // What leaves by the fourth is what comes by the second: they share their whole uncertainty.
    expect(row[1]).toBeCloseTo(row[3] ?? NaN, 10)
  })

  test('leave as many checks as there are balances, less those that it takes to work them out', () => {
    fc.assert(
      fc.property(feasibleNetwork, fc.nat(255), (network, pattern) => {
        const { balances, trueFlows, variances, errors } = network
        const measured = trueFlows.map((flow, index) =>
          ((pattern >> (index % 8)) & 1) === 1 ? null : flow + (errors[index] ?? 0),
        )
        fc.pre(measured.some((value) => value !== null) && measured.includes(null))
        const ofMissing = balances.map((row) => row.filter((_, flow) => measured[flow] === null))
        const { flows, globalTest } = reconciled({ balances, measured, covariance: variances })
        expect(globalTest.degreesOfFreedom).toBe(
          independentRows(balances).length - independentRows(transposed(ofMissing)).length,
        )
        // What is known of all flows of a balance obeys it.
        for (const row of balances) {
          const isOpen = row.some((sign, flow) => sign !== 0 && flows[flow]?.value === null)
          if (isOpen) continue
          const left = row.reduce((sum, sign, flow) => sum + sign * (flows[flow]?.value ?? 0), 0)
          expect(Math.abs(left)).toBeLessThan(1e-7)
        }
      }),
    )
  })

  test('leave nothing to check where too few are measured', () => {
    const { globalTest, residuals } = reconciled({
      balances: BYPASS,
      measured: [null, 5, null, null, null, null],
      covariance: SURE,
    })
    expect(globalTest).toEqual({ chiSquare: 0, degreesOfFreedom: 0, pValue: 1 })
    expect(innerProduct(residuals.residual, residuals.residual)).toBe(0)
  })
})

describe('what is refused at the door', () => {
  const network = { balances: [[1, -1]], measured: [1, 1], covariance: [1, 1] }
  test.each([
    [{ ...network, measured: [NaN, 1] }, 'finite'],
    [{ ...network, covariance: [1, Infinity] }, 'finite'],
    [{ ...network, covariance: [1, -1] }, 'variance'],
    [{ ...network, balances: [[1]] }, 'every flow'],
    [{ ...network, measured: [null, null] }, 'something was measured'],
    [
      {
        ...network,
        covariance: [
          [1, 0.5],
          [0, 1],
        ],
      },
      'both ways',
    ],
  ])('%j', (bad, promise) => {
    expect(() => reconciled(bad)).toThrow(promise)
  })
})
