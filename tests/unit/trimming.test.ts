import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { profileInterval } from '../../shared/logistic-interval.ts'
import { logisticRegression, type BinomialRow } from '../../shared/logistic-regression.ts'
import { trimmingLink, type TrimmedRun } from '../../shared/trimming.ts'

const row = (regressor: number, events: number, trials: number): BinomialRow => ({
  regressors: [regressor],
  events,
  trials,
})
const ROWS = [row(1, 2, 10), row(2, 3, 10), row(3, 5, 10), row(4, 4, 10), row(5, 8, 10)]

function fitted(rows: readonly BinomialRow[]) {
  const fit = logisticRegression(rows)
  if (fit.outcome !== 'fitted') throw new Error(fit.outcome)
  return fit
}

describe('the odds against the circumstances', () => {
  test('predict as many events as there were, as a best fit has to', () => {
    const [constant, slope] = fitted(ROWS).coefficients.map(({ estimate }) => estimate)
    const predicted = ROWS.map(({ regressors: [x = 0], trials }) => {
      return trials / (1 + Math.exp(-((constant ?? NaN) + (slope ?? NaN) * x)))
    })
    const sum = (values: readonly number[]) => values.reduce((so, one) => so + one, 0)
    expect(sum(predicted)).toBeCloseTo(sum(ROWS.map(({ events }) => events)), 8)
  })

  test('are the share itself where there is no regressor', () => {
    const fit = fitted([0, 1, 2].map((events) => ({ regressors: [], events, trials: 4 })))
    expect(fit.coefficients[0]?.estimate).toBeCloseTo(Math.log(3 / 9), 10)
    expect(fit.coefficients[0]?.standardUncertainty).toBeCloseTo(Math.sqrt(1 / 3 + 1 / 9), 10)
  })

  test('do not depend on how rows of one circumstance are put together', () => {
    const together = fitted(ROWS)
    const apart = fitted(
      ROWS.flatMap(({ regressors, events, trials }) =>
        Array.from({ length: trials }, (_, one) => ({
          ...{ regressors, events: one < events ? 1 : 0, trials: 1 },
        })),
      ),
    )
    together.coefficients.forEach(({ estimate, standardUncertainty }, index) => {
      expect(apart.coefficients[index]?.estimate).toBeCloseTo(estimate, 8)
      expect(apart.coefficients[index]?.standardUncertainty).toBeCloseTo(standardUncertainty, 8)
    })
  })

  test('have no best slope exactly where the regressor parts the events from the rest', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -5, max: 5 }), fc.boolean()), {
          minLength: 4,
          maxLength: 14,
        }),
        (pairs) => {
          const xs = pairs.map(([x]) => x)
          fc.pre(new Set(xs).size > 1)
          const at = (wanted: boolean) => pairs.filter(([, is]) => is === wanted).map(([x]) => x)
          const [hit, missed] = [at(true), at(false)]
          const isParted =
            hit.length === 0 ||
            missed.length === 0 ||
            Math.max(...hit) <= Math.min(...missed) ||
            Math.max(...missed) <= Math.min(...hit)
          const { outcome } = logisticRegression(pairs.map(([x, is]) => row(x, is ? 1 : 0, 1)))
          expect(outcome).toBe(isParted ? 'separated' : 'fitted')
        },
      ),
    )
  })

  test('cannot be told from a regressor that does not vary, or that another says already', () => {
    const flat = ROWS.map(({ events, trials }) => row(7, events, trials))
    expect(logisticRegression(flat).outcome).toBe('regressors_do_not_vary')
    const doubled = ROWS.map(({ regressors: [x = 0], ...rest }) => ({
      ...{ regressors: [x, 2 * x + 1], ...rest },
    }))
    expect(logisticRegression(doubled).outcome).toBe('regressors_do_not_vary')
  })

  test('refuse what is not finite, not whole or too little', () => {
    expect(() => logisticRegression([...ROWS, row(NaN, 1, 2)])).toThrow('finite')
    expect(() => logisticRegression([...ROWS, row(1, 0.5, 2)])).toThrow('whole')
    expect(() => logisticRegression([...ROWS, row(1, 3, 2)])).toThrow('no more events')
    expect(() => logisticRegression(ROWS.slice(0, 2))).toThrow('more rows')
  })
})

describe('the interval of a slope by its likelihood', () => {
  test('ends where the deviance has risen by 3.84', () => {
    const { deviance } = fitted(ROWS)
    const interval = profileInterval(ROWS, { index: 0, confidence: 0.95 })
    for (const slope of [interval.from, interval.to]) {
      // A row's offset moves into its own odds when the regressor is held at this slope.
      const deviances = Array.from({ length: 4001 }, (_, step) => {
        const constant = -8 + step * 0.004
        return ROWS.reduce((sum, { regressors: [x = 0], events, trials }) => {
          const share = 1 / (1 + Math.exp(-(constant + slope * x)))
          const others = trials - events
          return (
            sum +
            2 * (events * Math.log(events / (trials * share))) +
            2 * (others * Math.log(others / (trials * (1 - share))))
          )
        }, 0)
      })
      expect(Math.min(...deviances) - deviance).toBeCloseTo(3.8415, 3)
    }
  })

  test('is near the estimate give or take twice its uncertainty where there is much data', () => {
    const many = ROWS.map(({ regressors, events, trials }) => ({
      ...{ regressors, events: events * 1000, trials: trials * 1000 },
    }))
    const slope = fitted(many).coefficients[1]
    const { from, to } = profileInterval(many, { index: 0, confidence: 0.95 })
    const [estimate = NaN, unsure = NaN] = [slope?.estimate, slope?.standardUncertainty]
    expect(from).toBeCloseTo(estimate - 1.96 * unsure, 4)
    expect(to).toBeCloseTo(estimate + 1.96 * unsure, 4)
  })

  test('is wider where events come in clumps', () => {
    const plain = profileInterval(ROWS, { index: 0, confidence: 0.95 })
    const clumped = profileInterval(ROWS, {
      index: 0,
      confidence: 0.95,
      clumping: { dispersion: 2, degreesOfFreedom: 3 },
    })
    expect(clumped.from).toBeLessThan(plain.from)
    expect(clumped.to).toBeGreaterThan(plain.to)
  })
})

describe('whether thin turning costs pots', () => {
  const runs = (losses: readonly number[], formId = 'mug'): TrimmedRun[] =>
    losses.map((lostPieces, index) => ({
      ...{ formId, turnedOffFraction: 0.1 + 0.01 * index, firedPieces: 20, lostPieces },
    }))

  test('is said where the losses rise with what was turned off', () => {
    const link = trimmingLink(runs([0, 1, 0, 1, 2, 2, 3, 4, 5, 7]))
    expect(link.verdict).toBe('thinner_loses_more')
    expect(link.oddsRatioAPoint?.interval95.from).toBeGreaterThan(1)
    expect(link.words).toMatch(
      /^Runs that were turned thinner lost more in the kiln\. .* 25 of 200 pots lost in 10 runs\)\.$/,
    )
  })

  test('is said the other way round where they fall', () => {
    expect(trimmingLink(runs([7, 5, 4, 3, 2, 2, 1, 0, 1, 0])).verdict).toBe('thinner_loses_fewer')
  })

  test('is not said where losses do not follow, or follow too loosely', () => {
    const link = trimmingLink(runs([2, 1, 3, 2, 1, 2, 3, 1, 2, 2]))
    expect(link.verdict).toBe('no_link_seen')
    expect(link.words).toContain('there may still be one')
    // As many losses in all, but most of them from one bad firing.
    expect(trimmingLink(runs([0, 0, 0, 0, 0, 0, 0, 16, 0, 1])).verdict).toBe('no_link_seen')
  })

  test('is not said from fewer than ten losses, or fewer than eight runs', () => {
    const few = trimmingLink(runs([0, 0, 0, 0, 0, 1, 1, 2, 2, 3]))
    expect(few.verdict).toBe('too_little_to_say')
    expect(few.words).toBe(
      'Too little to say whether thin turning costs pots: 9 of 200 lost in 10 runs that tell of it; it takes 10 losses and as many that came through, in 8 runs or more.',
    )
    expect(trimmingLink(runs([0, 1, 2, 4, 5, 9, 9])).verdict).toBe('too_little_to_say')
    expect(trimmingLink([]).verdict).toBe('too_little_to_say')
  })

  test('is judged within forms: a thin form that breaks often does not make turning guilty', () => {
    const thick = runs([0, 1, 0, 1, 0, 1, 0, 1, 1, 1, 1, 0]).map((run) => ({
      ...run,
      formId: 'mug',
    }))
    const thin = runs([7, 8, 6, 7, 8, 7, 6, 7]).map((run) => ({
      ...{ ...run, formId: 'plate', turnedOffFraction: run.turnedOffFraction + 0.2 },
    }))
    const link = trimmingLink([...thick, ...thin])
    expect(link.verdict).toBe('no_link_seen')
    expect(link.runs).toBe(20)
    const taken = [...thick, ...thin].map((run) => ({ ...run, formId: 'all one' }))
    expect(trimmingLink(taken).verdict).toBe('thinner_loses_more')
  })

  test('leaves forms aside that lost none, or were always turned alike', () => {
    const whole = runs([0, 0, 0, 0], 'bowl')
    const alike = runs([3, 2, 4], 'jug').map((run) => ({ ...run, turnedOffFraction: 0.2 }))
    expect(trimmingLink([...whole, ...alike])).toMatchObject({ runs: 0, lostPieces: 0 })
  })

  test('refuses shares and losses that cannot be', () => {
    const [run] = runs([1])
    if (run === undefined) throw new Error('there is a run')
    expect(() => trimmingLink([{ ...run, lostPieces: 21 }])).toThrow('no more are lost')
    expect(() => trimmingLink([{ ...run, turnedOffFraction: NaN }])).toThrow('fraction')
  })
})
