import { describe, expect, test } from 'vitest'
import { individualsChart, movingRangeLimit } from '../../shared/individuals-chart.ts'
import { logisticRegression } from '../../shared/logistic-regression.ts'

describe('a chart of single values', () => {
  const ROWS = [
    {
      values: [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1],
      mean: 50.81,
      movingRange: 1.877778,
      upper: 55.80409,
      lower: 45.81591,
      // 3.267 times the mean moving range.
      movingRangeUpper: 6.1347,
      source: 'NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2; recomputed',
      standing: 'from memory',
    },
  ]
  test.each(ROWS)('has limits $lower and $upper ($standing: $source)', (row) => {
    const chart = individualsChart(row.values)
    expect(chart.mean).toBeCloseTo(row.mean, 10)
    expect(chart.meanMovingRange).toBeCloseTo(row.movingRange, 6)
    expect(chart.upperLimit).toBeCloseTo(row.upper, 6)
    expect(chart.lowerLimit).toBeCloseTo(row.lower, 6)
    expect(movingRangeLimit(chart)).toBeCloseTo(row.movingRangeUpper, 4)
    expect(chart.signals).toEqual([])
  })
})

describe('the odds of an event against one circumstance', () => {
  const launches = (text: string) => text.split(' ').map((value) => Number(value))
  const degrees = launches('66 70 69 68 67 72 73 70 57 63 70 78 67 53 67 75 70 81 76 79 75 76 58')
  const events = launches('0 1 0 0 0 0 0 0 1 1 1 0 0 1 0 0 0 0 0 0 1 0 1')
  const ROWS = [
    {
      intercept: [15.042902, 7.378636],
      slope: [-0.232163, 0.108237],
      deviance: 20.315193,
      degreesOfFreedom: 21,
      source:
        'S. R. Dalal, E. B. Fowlkes and B. Hoadley, J. Am. Stat. Assoc. 84 (1989), 945-957; recomputed',
      standing: 'from memory',
    },
  ] as const
  test.each(ROWS)('23 launches: slope $slope.0, deviance $deviance ($standing: $source)', (row) => {
    const fit = logisticRegression(
      degrees.map((regressor, index) => ({
        regressors: [regressor],
        events: events[index] ?? NaN,
        trials: 1,
      })),
    )
    if (fit.outcome !== 'fitted') throw new Error(fit.outcome)
    const [intercept, slope] = fit.coefficients
    expect(intercept?.estimate).toBeCloseTo(row.intercept[0], 6)
    expect(intercept?.standardUncertainty).toBeCloseTo(row.intercept[1], 6)
    expect(slope?.estimate).toBeCloseTo(row.slope[0], 6)
    expect(slope?.standardUncertainty).toBeCloseTo(row.slope[1], 6)
    expect(fit.deviance).toBeCloseTo(row.deviance, 6)
    expect(fit.degreesOfFreedom).toBe(row.degreesOfFreedom)
  })
})
