import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { mistakeTest, singleFlowSuspects } from '../../shared/gross-error.ts'
import { reconciled } from '../../shared/reconciliation.ts'
import { serialElimination } from '../../shared/serial-elimination.ts'
import { balancesOf } from './balances.ts'
import { feasibleNetwork } from './networks.ts'

const BYPASS = balancesOf(['1 = 2 + 3', '2 = 4', '3 = 5', '4 + 5 = 6'], 6)
const TRUE = [100, 64, 36, 64, 36, 100]
const SURE = [1, 1, 1, 1, 1, 1]
const CONFIDENCE = 0.95

function residualsOf(measured: readonly number[], covariance: readonly number[] = SURE) {
  return reconciled({ balances: BYPASS, measured, covariance }).residuals
}

const asked = { suspects: singleFlowSuspects(6), confidence: CONFIDENCE }

describe('the flow that fits least', () => {
  test('is the one whose measurement is wrong by enough, or one that nothing tells from it', () => {
    fc.assert(
      fc.property(
        feasibleNetwork,
        fc.nat(100),
        ({ balances, trueFlows, variances, errors }, chosen) => {
          const bad = chosen % trueFlows.length
          const suspects = singleFlowSuspects(trueFlows.length)
          const network = { balances, covariance: variances }
          const spoilt = trueFlows.map((flow, index) => {
            const size = 1e4 * Math.sqrt(variances[index] ?? 1)
            return flow + (errors[index] ?? 0) * 0.01 + (index === bad ? size : 0)
          })
          const { residuals } = reconciled({ ...network, measured: spoilt })
          const found = mistakeTest(residuals, { suspects, confidence: CONFIDENCE })
          fc.pre(!found.unseen.includes(bad))
          const [first] = found.suspicions
          const named = [first?.suspect, ...(first?.alike.map(({ suspect }) => suspect) ?? [])]
          expect(named).toContain(bad)
        },
      ),
    )
  })

  test('is named by itself in a network that tells all of its flows apart', () => {
    TRUE.forEach((_, bad) => {
      const measured = TRUE.map((flow, index) => flow + (index === bad ? 8 : 0))
      const { suspicions, isAnythingLarge } = mistakeTest(residualsOf(measured), asked)
      expect(suspicions[0]?.suspect).toBe(bad)
      expect(suspicions[0]?.alike).toEqual([])
      expect(suspicions[0]?.size).toBeCloseTo(8, 9)
      expect(isAnythingLarge).toBe(true)
    })
  })

  test('has an adjustment, in its own deviations, that is the standardised size', () => {
    const measured = [101.91, 64.45, 34.65, 64.2, 36.44, 98.88]
    const { flows, covariance } = reconciled({ balances: BYPASS, measured, covariance: SURE })
    const { suspicions } = mistakeTest(residualsOf(measured), asked)
    for (const { suspect, standardised } of suspicions) {
      const adjustment = flows[suspect]?.adjustment ?? NaN
      const deviation = Math.sqrt(1 - (covariance[suspect]?.[suspect] ?? NaN))
      expect(standardised).toBeCloseTo(-adjustment / deviation, 9)
    }
  })

  test('has the size that is left when it is taken for not measured', () => {
    const measured = [101.91, 64.45, 34.65, 64.2, 44.44, 98.88]
    const [first] = mistakeTest(residualsOf(measured), asked).suspicions
    const without = measured.map((value, index) => (index === 4 ? null : value))
    const { flows, globalTest } = reconciled({
      balances: BYPASS,
      measured: without,
      covariance: SURE,
    })
    const flow = flows[4]
    expect(first?.suspect).toBe(4)
    expect(first?.size).toBeCloseTo(44.44 - (flow?.value ?? NaN), 9)
    expect(first?.standardUncertainty).toBeCloseTo(
      Math.hypot(1, flow?.standardUncertainty ?? NaN),
      9,
    )
    const before = mistakeTest(residualsOf(measured), asked).globalTest.chiSquare
    expect(before - globalTest.chiSquare).toBeCloseTo((first?.standardised ?? NaN) ** 2, 8)
  })

  test('passes the critical value by chance no more often than is allowed for all together', () => {
    const { criticalValue } = mistakeTest(residualsOf(TRUE), asked)
    // Six at once: 0.95 ** (1 / 6) each, to both sides.
    expect(criticalValue).toBeCloseTo(2.6310384, 6)
  })
})

describe('flows that cannot be told apart', () => {
  test('are named together, with what each would have to be wrong by', () => {
    const splitter = { balances: [[1, -1, -1]], covariance: [1, 1, 1] }
    const { residuals } = reconciled({ ...splitter, measured: [12, 4, 6] })
    const { suspicions } = mistakeTest(residuals, {
      suspects: singleFlowSuspects(3),
      confidence: CONFIDENCE,
    })
    expect(suspicions).toHaveLength(1)
    expect(suspicions[0]?.size).toBeCloseTo(2, 10)
    expect(
      suspicions[0]?.alike.map(({ suspect, unitsAUnit }) => [suspect, Math.round(unitsAUnit)]),
    ).toEqual([
      [1, -1],
      [2, -1],
    ])
  })

  test('a flow of which no balance speaks is no suspicion', () => {
    const { residuals } = reconciled({
      balances: BYPASS,
      measured: [101, null, null, null, 36, 99],
      covariance: SURE,
    })
    const { suspicions, unseen } = mistakeTest(residuals, asked)
    expect(unseen).toEqual([1, 2, 3, 4])
    expect(suspicions.map(({ suspect }) => suspect)).toEqual([0])
    expect(suspicions[0]?.alike.map(({ suspect }) => suspect)).toEqual([5])
  })
})

describe('mistakes of which it is said how large they usually are', () => {
  test('come later in line where they would have to be absurdly large', () => {
    // Both explain what is left over alike; the second would have to be wrong by a thousand times.
    const network = { balances: [[1, -1]], covariance: [1, 1e-6] }
    const { residuals } = reconciled({ ...network, measured: [13, 10] })
    const [wide = [], narrow = []] = singleFlowSuspects(2).map(({ effect }) => effect)
    const found = mistakeTest(residuals, {
      suspects: [
        { effect: narrow, expectedSize: 0.01 },
        { effect: wide, expectedSize: 10 },
      ],
      confidence: CONFIDENCE,
    })
    expect(found.suspicions[0]?.suspect).toBe(1)
    expect(found.suspicions[0]?.alike[0]?.suspect).toBe(0)
  })

  test('have the evidence that Bayes gives them, twice its logarithm', () => {
    const [effect = []] = singleFlowSuspects(2).map((one) => one.effect)
    const { residuals } = reconciled({ balances: [[1, -1]], measured: [7, 4], covariance: [1, 1] })
    const { suspicions } = mistakeTest(residuals, {
      suspects: [{ effect, expectedSize: 5 }],
      confidence: CONFIDENCE,
    })
    // The difference is 3; by chance alone its variance is 2, with such a mistake 2 + 25.
    const logDensity = (variance: number) => -(9 / variance + Math.log(variance)) / 2
    expect(suspicions[0]?.evidence).toBeCloseTo(2 * (logDensity(27) - logDensity(2)), 10)
  })

  test('have to be said of all or of none', () => {
    const [first = { effect: [] }, ...others] = singleFlowSuspects(6)
    const suspects = [{ ...first, expectedSize: 3 }, ...others]
    expect(() => mistakeTest(residualsOf(TRUE), { suspects, confidence: 0.95 })).toThrow('all')
  })
})

describe('mistakes found one after the other', () => {
  const twoBad = TRUE.map((flow, index) => flow + (index === 1 ? 30 : index === 5 ? -12 : 0))

  test('are all found, each with its size beside the others', () => {
    const { found, tests } = serialElimination(residualsOf(twoBad), { ...asked, limit: 3 })
    expect(found.map(({ suspect }) => suspect)).toEqual([1, 5])
    expect(found[0]?.size).toBeCloseTo(30, 9)
    expect(found[1]?.size).toBeCloseTo(-12, 9)
    expect(tests.map(({ globalTest }) => globalTest.degreesOfFreedom)).toEqual([4, 3, 2])
    expect(tests.at(-1)?.globalTest.chiSquare).toBeLessThan(1e-12)
  })

  test('are as many as the limit allows', () => {
    const limited = serialElimination(residualsOf(twoBad), { ...asked, limit: 1 })
    expect(limited.found.map(({ suspect }) => suspect)).toEqual([1])
    const none = serialElimination(residualsOf(twoBad), { ...asked, limit: 0 })
    expect(none.found).toEqual([])
    expect(none.tests).toHaveLength(1)
  })

  test('are none where all measurements agree', () => {
    expect(serialElimination(residualsOf(TRUE), { ...asked, limit: 3 }).found).toEqual([])
  })

  test('end when nothing is left to check', () => {
    const { residuals } = reconciled({
      balances: [[1, -1, -1]],
      measured: [20, 4, 6],
      covariance: [1, 1, 1],
    })
    const { found, tests } = serialElimination(residuals, {
      suspects: singleFlowSuspects(3),
      confidence: CONFIDENCE,
      limit: 3,
    })
    expect(found).toHaveLength(1)
    expect(tests.at(-1)).toMatchObject({ suspicions: [], unseen: [0, 1, 2] })
  })
})
