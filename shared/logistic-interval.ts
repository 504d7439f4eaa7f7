import { assert, present } from './assert.ts'
import {
  bestCoefficients,
  checkedRows,
  standardise,
  type BinomialRow,
} from './logistic-regression.ts'
import { chiSquareQuantile, tQuantile } from './statistics.ts'

/** How much more events vary than chance alone makes them, and how well that is known. */
export interface Clumping {
  readonly dispersion: number
  readonly degreesOfFreedom: number
}

/**
 * The interval of a coefficient within which the data are not clearly less likely than at the best.
 *
 * The other coefficients are fitted anew at each trial value, so that the interval may be lopsided, as
 * the likelihood is. Where events come in clumps, the deviance counts for less by the dispersion, and
 * what that leaves open of the dispersion itself widens the interval too.
 *
 * Shape: `index` counts the regressors from zero; the rows must have a fit.
 * Units: of the coefficient.
 * Source: profile likelihood; P. McCullagh and J. A. Nelder, Generalized Linear Models, 2nd ed. (1989),
 * 7.4.3 (from memory); the division by the dispersion is their quasi-likelihood, ch. 9.
 */
export function profileInterval(
  rows: readonly BinomialRow[],
  asked: { index: number; confidence: number; clumping?: Clumping },
): { from: number; to: number } {
  const counted = checkedRows(rows)
  const standardised = present(standardise(counted), 'what is profiled has been fitted')
  const { columns } = standardised
  const zeros = counted.map(() => 0)
  const best = bestCoefficients({ rows: counted, columns, offsets: zeros })
  assert(typeof best !== 'string', 'what is profiled has been fitted')
  const rise = riseOf(asked.confidence, asked.clumping)
  const profiled = present(columns[asked.index], 'the regressor is there')
  const others = columns.filter((_, index) => index !== asked.index)
  const excess = (value: number) => {
    const offsets = profiled.map((one) => one * value)
    const fit = bestCoefficients({ rows: counted, columns: others, offsets })
    return typeof fit === 'string' ? Infinity : fit.deviance - best.deviance - rise
  }
  const estimate = present(best.coefficients[asked.index + 1], 'each regressor has a coefficient')
  const variance = present(best.covariance[asked.index + 1]?.[asked.index + 1], 'and its variance')
  const step = Math.sqrt(variance * rise)
  const scale = present(standardised.scales[asked.index], 'each regressor has a scale')
  return {
    from: crossing(excess, estimate, -step) / scale,
    to: crossing(excess, estimate, step) / scale,
  }
}

/** How much the deviance may rise within the interval. */
function riseOf(confidence: number, clumping: Clumping | undefined): number {
  if (clumping === undefined) return chiSquareQuantile(confidence, 1)
  const { dispersion, degreesOfFreedom } = clumping
  return dispersion * tQuantile((1 + confidence) / 2, degreesOfFreedom) ** 2
}

/** Where a function that is below zero at the start rises through it, going by steps, then halving. */
function crossing(excess: (value: number) => number, start: number, step: number): number {
  let inside = start
  let outside = start + step
  for (let doubling = 0; excess(outside) < 0; doubling += 1) {
    assert(doubling < 60, 'a likelihood with a best value falls to either side of it')
    inside = outside
    outside += step * 2 ** doubling
  }
  while (Math.abs(outside - inside) > 1e-10 * Math.abs(step)) {
    const middle = (inside + outside) / 2
    if (middle === inside || middle === outside) break
    if (excess(middle) < 0) inside = middle
    else outside = middle
  }
  return (inside + outside) / 2
}
