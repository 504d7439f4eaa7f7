import betaCdfOf from '@stdlib/stats-base-dists-beta-cdf'
import betaQuantileOf from '@stdlib/stats-base-dists-beta-quantile'
import chiSquareCdfOf from '@stdlib/stats-base-dists-chisquare-cdf'
import chiSquareQuantileOf from '@stdlib/stats-base-dists-chisquare-quantile'
import normalCdfOf from '@stdlib/stats-base-dists-normal-cdf'
import normalQuantileOf from '@stdlib/stats-base-dists-normal-quantile'
import tQuantileOf from '@stdlib/stats-base-dists-t-quantile'
import logGammaOf from '@stdlib/math-base-special-gammaln'
import { assert } from './assert.ts'

/** The two shapes of a beta distribution, both above zero. */
export interface BetaShape {
  readonly alpha: number
  readonly beta: number
}

/** One source's share in a combined uncertainty, and how many degrees of freedom stand behind it. */
export interface UncertaintyShare {
  readonly standardUncertainty: number
  readonly degreesOfFreedom: number
}

/**
 * The value below which a standard normal quantity lies with a given probability.
 *
 * Units: a probability between 0 and 1, both excluded, to standard deviations.
 * Source: the definition of the normal distribution.
 */
export function normalQuantile(probability: number): number {
  return normalQuantileOf(within(probability), 0, 1)
}

/**
 * The probability that a standard normal quantity lies at or below a value.
 *
 * Units: standard deviations to a probability. Source: the definition of the normal distribution.
 */
export function normalCdf(value: number): number {
  return normalCdfOf(finite(value), 0, 1)
}

/**
 * The value below which Student's t lies with a given probability.
 *
 * Units: a probability between 0 and 1, both excluded; degrees of freedom above 0, not only whole.
 * Source: Student, Biometrika 6 (1908), 1-25, in the form of every table since.
 */
export function tQuantile(probability: number, degreesOfFreedom: number): number {
  return tQuantileOf(within(probability), positive(degreesOfFreedom))
}

/**
 * The probability that Student's t lies at or below a value.
 *
 * Units: standard deviations to a probability; degrees of freedom above 0.
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.5.27 and 26.7.1 (from
 * memory): half an incomplete beta function on either side.
 */
export function tCdf(value: number, degreesOfFreedom: number): number {
  const squared = finite(value) ** 2
  const degrees = positive(degreesOfFreedom)
  const bothTails = betaCdfOf(degrees / (degrees + squared), degrees / 2, 0.5)
  return value < 0 ? bothTails / 2 : 1 - bothTails / 2
}

/**
 * The value below which chi-square lies with a given probability.
 *
 * Units: a probability between 0 and 1, both excluded; degrees of freedom above 0.
 * Source: the definition of the chi-square distribution.
 */
export function chiSquareQuantile(probability: number, degreesOfFreedom: number): number {
  return chiSquareQuantileOf(within(probability), positive(degreesOfFreedom))
}

/**
 * The probability that chi-square lies at or below a value.
 *
 * Units: a value of any sign to a probability; degrees of freedom above 0.
 * Source: the definition of the chi-square distribution.
 */
export function chiSquareCdf(value: number, degreesOfFreedom: number): number {
  return chiSquareCdfOf(finite(value), positive(degreesOfFreedom))
}

/**
 * The share below which a beta-distributed share lies with a given probability.
 *
 * Units: a probability between 0 and 1, both excluded, to a share from 0 to 1.
 * Source: the definition of the beta distribution.
 */
export function betaQuantile(probability: number, { alpha, beta }: BetaShape): number {
  return betaQuantileOf(within(probability), positive(alpha), positive(beta))
}

/**
 * The probability that a beta-distributed share lies at or below a value.
 *
 * Units: a share to a probability. Source: the definition of the beta distribution.
 */
export function betaCdf(share: number, { alpha, beta }: BetaShape): number {
  return betaCdfOf(finite(share), positive(alpha), positive(beta))
}

/**
 * The natural logarithm of the gamma function, for counting without overflow.
 *
 * Units: a number above 0. Source: the definition of the gamma function.
 */
export function logGamma(value: number): number {
  return logGammaOf(positive(value))
}

/**
 * The arithmetic mean.
 *
 * A second pass adds what rounding took from the first, so that large values close together keep
 * their last digits.
 *
 * Shape: one value or more. Units: as given.
 * Source: the definition; T. F. Chan, G. H. Golub & R. J. LeVeque, The American Statistician 37 (1983),
 * 242-247 (from memory), for the second pass.
 */
export function mean(values: readonly number[]): number {
  assert(values.length >= 1, 'a mean is of one value or more')
  const first = total(values) / values.length
  return first + total(values.map((value) => value - first)) / values.length
}

/**
 * The sample standard deviation, with one degree of freedom spent on the mean.
 *
 * Shape: two values or more. Units: as given.
 * Source: GUM, JCGM 100:2008, 4.2.2 (from memory); the corrected two-pass form of T. F. Chan,
 * G. H. Golub & R. J. LeVeque, The American Statistician 37 (1983), 242-247 (from memory).
 */
export function sampleStandardDeviation(values: readonly number[]): number {
  assert(values.length >= 2, 'a standard deviation is of two values or more')
  const centre = mean(values)
  const away = values.map((value) => value - centre)
  const leftOver = total(away)
  const squares = total(away.map((one) => one * one)) - (leftOver * leftOver) / values.length
  return Math.sqrt(squares / (values.length - 1))
}

/**
 * How much each value resembles the one before it: the autocorrelation at lag one.
 *
 * Shape: two values or more, in order, not all alike. Units: from -1 to 1.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.12 (from memory).
 */
export function lagOneAutocorrelation(values: readonly number[]): number {
  assert(values.length >= 2, 'an autocorrelation is of two values or more')
  const centre = mean(values)
  const away = values.map((value) => value - centre)
  const own = total(away.map((one) => one * one))
  assert(own > 0, 'values that are all alike have no autocorrelation')
  return total(away.slice(1).map((one, index) => one * (away[index] ?? 0))) / own
}

/**
 * The degrees of freedom behind an uncertainty that several independent sources make up.
 *
 * Shape: one share or more, not all zero; a source that is known exactly has infinite degrees.
 * Units: standard uncertainties in one unit, to degrees of freedom; not cut to a whole number.
 * Source: the Welch-Satterthwaite formula, GUM, JCGM 100:2008, G.4.1 (from memory).
 */
export function welchSatterthwaite(shares: readonly UncertaintyShare[]): number {
  const variance = total(shares.map(({ standardUncertainty: one }) => one * one))
  assert(variance > 0, 'an uncertainty comes from somewhere')
  const spent = total(
    shares.map(({ standardUncertainty, degreesOfFreedom }) => {
      assert(degreesOfFreedom > 0, 'degrees of freedom are above zero')
      return standardUncertainty ** 4 / degreesOfFreedom
    }),
  )
  return variance ** 2 / spent
}

/**
 * How far to either side of a value the truth lies as often as is said.
 *
 * Shape: as `welchSatterthwaite`. Units: of the standard uncertainties; a confidence between 0 and 1.
 * Source: GUM, JCGM 100:2008, G.4 (from memory): Student's t with few degrees of freedom, the normal
 * distribution with infinitely many. The degrees are not cut to a whole number.
 */
export function expandedUncertainty(
  shares: readonly UncertaintyShare[],
  confidence: number,
): number {
  const degrees = welchSatterthwaite(shares)
  const upTo = (1 + confidence) / 2
  const factor = Number.isFinite(degrees) ? tQuantile(upTo, degrees) : normalQuantile(upTo)
  return factor * Math.hypot(...shares.map(({ standardUncertainty }) => standardUncertainty))
}

/** A sum that carries along what rounding cuts off each time. */
function total(values: readonly number[]): number {
  let sum = 0
  let cutOff = 0
  for (const value of values) {
    const next = sum + finite(value)
    cutOff += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum
    sum = next
  }
  return sum + cutOff
}

function finite(value: number): number {
  assert(Number.isFinite(value), 'statistics are made of finite numbers')
  return value
}

function positive(value: number): number {
  assert(Number.isFinite(value) && value > 0, 'this number is finite and above zero')
  return value
}

function within(probability: number): number {
  assert(probability > 0 && probability < 1, 'a probability lies between 0 and 1')
  return probability
}
