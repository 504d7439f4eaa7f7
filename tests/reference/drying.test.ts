import { describe, expect, test } from 'vitest'
import { hoursToMoistureRatio, moistureRatioAfter } from '../../shared/drying-models.ts'
import { fittedCurve, type FittedCurve } from '../../shared/least-squares.ts'
import { refusedWith } from '../unit/refused.ts'
import { digitsHeld } from './digits.ts'

// The one published drying table that is complete: of fruit, not of clay. Times in minutes.
const TABLE = 'PMC10571025 (Ultrason. Sonochem. 2023, 100:106633), table 1'
const MINUTES = [0, 15, 30, 45, 60, 75, 90]
const RATIOS = [1.0, 0.646, 0.525, 0.408, 0.329, 0.258, 0.192]

describe('the printed parameters give the printed curve', () => {
  const PRINTED = [
    {
      model: 'Newton',
      shape: { rateConstant: 0.0198, exponent: 1 },
      ratios: ['1.000', '0.743', '0.552', '0.410', '0.305', '0.227', '0.168'],
      source: TABLE,
      standing: 'seen',
    },
    {
      model: 'Page',
      shape: { rateConstant: 0.0504, exponent: 0.761 },
      ratios: ['1.000', '0.673', '0.511', '0.401', '0.321', '0.260', '0.213'],
      source: TABLE,
      standing: 'seen',
    },
  ]
  test.each(PRINTED)('$model ($standing: $source)', ({ shape, ratios }) => {
    expect(MINUTES.map((one) => moistureRatioAfter(shape, one).toFixed(3))).toEqual(ratios)
  })

  test.each(PRINTED)('and back: each ratio of $model has its time ($standing: $source)', (row) => {
    for (const minutes of MINUTES) {
      const ratio = moistureRatioAfter(row.shape, minutes)
      expect(hoursToMoistureRatio(row.shape, ratio)).toBeCloseTo(minutes, 9)
    }
  })
})

const fitted = (
  start: readonly number[],
  ratio: (parameters: readonly number[], minutes: number) => number,
): FittedCurve =>
  fittedCurve({
    curve: (parameters) => MINUTES.map((minutes) => ratio(parameters, minutes)),
    observed: RATIOS,
    start,
  })

describe('the printed points give the refitted parameters', () => {
  const source = `${TABLE}, refitted by another program`
  const FITS = [
    {
      model: 'Newton',
      found: fitted([0.02], ([k = 0], t) =>
        moistureRatioAfter({ rateConstant: k, exponent: 1 }, t),
      ),
      parameters: [0.01995691],
      deviations: [0.00114272],
      residualSum: 0.0122588,
      residualDeviation: 0.045201,
      source,
      standing: 'computed',
    },
    {
      model: 'Page',
      found: fitted([0.02, 1], ([k = 0, n = 1], t) =>
        moistureRatioAfter({ rateConstant: k, exponent: n }, t),
      ),
      parameters: [0.05299889, 0.7498184],
      deviations: [0.00782179, 0.03771297],
      residualSum: 0.001414835,
      residualDeviation: 0.01682162,
      source,
      standing: 'computed',
    },
    {
      model: 'Henderson and Pabis',
      found: fitted([1, 0.02], ([a = 0, k = 0], t) => a * Math.exp(-k * t)),
      parameters: [0.95129921, 0.01875783],
      deviations: [0.03664361, 0.00137512],
      residualSum: 0.009140386,
      residualDeviation: 0.04275602,
      source,
      standing: 'computed',
    },
    {
      model: 'logarithmic',
      found: fitted([0.9, 0.02, 0.1], ([a = 0, k = 0, c = 0], t) => a * Math.exp(-k * t) + c),
      parameters: [0.82890244, 0.02777976, 0.15103176],
      deviations: [],
      residualSum: 0.004826067,
      residualDeviation: 0.03473495,
      source,
      standing: 'computed',
    },
    {
      model: 'Midilli',
      found: fitted([1, 0.05, 0.8, 0.001], ([a = 0, k = 0, n = 1, b = 0], t) => {
        return a * Math.exp(-k * t ** n) + b * t
      }),
      parameters: [0.999882, 0.0963775, 0.50908, -0.00216586],
      deviations: [],
      residualSum: 0.000158289,
      residualDeviation: 0.00726382,
      source,
      standing: 'computed',
    },
  ]
  test.each(FITS)('$model, to five digits ($standing: $source)', (row) => {
    const pairs = [
      ...row.parameters.map((one, index) => [row.found.parameters[index], one]),
      ...row.deviations.map((one, index) => [row.found.standardUncertainties[index], one]),
      [row.found.residualSumOfSquares, row.residualSum],
      [row.found.residualStandardDeviation, row.residualDeviation],
    ]
    const fewest = Math.min(...pairs.map(([one = 0, given = 0]) => digitsHeld(one, given)))
    expect(fewest).toBeGreaterThan(5)
  })

  test('two exponentials are refused: seven points cannot tell them apart (computed)', () => {
    for (const start of [
      [0.5, 0.05, 0.5, 0.01],
      [0.3, 0.2, 0.7, 0.015],
      [0.2, 0.03, 0.8, 0.02],
    ]) {
      const twoTerms = () =>
        fitted(start, ([a = 0, k = 0, b = 0, l = 0], t) => {
          return a * Math.exp(-k * t) + b * Math.exp(-l * t)
        })
      expect(refusedWith(twoTerms)).toBe('parameters_must_be_identifiable')
    }
  })
})
