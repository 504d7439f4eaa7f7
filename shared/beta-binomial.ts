import { assert } from './assert.ts'
import { mean, logGamma, type BetaShape } from './statistics.ts'

/** So many of so many, for one of several groups. */
export interface GroupCount {
  readonly events: number
  readonly trials: number
}

/** How the shares of groups lie about their common mean. */
export interface Spread {
  readonly meanShare: number
  /**
   * How many trials of a group's own weigh as much as all groups together; null where the groups
   * differ no more than chance makes them, and no number is large enough.
   */
  readonly strengthTrials: number | null
}

export interface FittedSpread extends Spread {
  readonly logLikelihood: number
  /** With one share for all groups. */
  readonly pooledLogLikelihood: number
}

const GRID_STEPS = 60
const GOLDEN = (Math.sqrt(5) - 1) / 2
/** The weakest strength looked at: a tenth of a trial, where shares are none or all. */
const STRENGTH_MIN = 0.1
/** The strongest, in all trials together: nothing shows any more that the groups differ. */
const STRENGTH_MAX_TRIALS = 1000
/** A likelihood higher by less than this is not higher. */
const LIKELIHOOD_ROUNDING = 1e-9

/**
 * The spread of the shares that makes all counts together likeliest.
 *
 * Each group has a share of its own, drawn from a beta distribution that all have in common; chance
 * then makes the counts. For each strength the best mean is found, and then the best strength. The
 * optimum is often flat: look at the likelihood and at what it does to the shares, not at the strength.
 *
 * Shape: two groups or more with trials, and some with events but not all trials; whole numbers.
 * Units: shares from 0 to 1; natural logarithm, with the binomial coefficients in it.
 * Source: J. G. Skellam, J. Royal Stat. Soc. B 10 (1948), 257-261 (from memory); maximised by a grid
 * and golden sections, our choice, because the likelihood may have a flat end.
 */
export function fittedSpread(groups: readonly GroupCount[]): FittedSpread {
  const counted = checkedGroups(groups)
  const events = total(counted.map((group) => group.events))
  const trials = total(counted.map((group) => group.trials))
  assert(counted.length >= 2, 'a spread is between groups')
  assert(events > 0 && events < trials, 'a spread is seen where some events happen and some do not')
  const pooledLogLikelihood = pooled(counted, events / trials)
  const profile = (logStrength: number) => {
    const strength = Math.exp(logStrength)
    return betaBinomialLogLikelihood(counted, {
      meanShare: bestMeanShare(counted, strength),
      strength,
    })
  }
  const best = highest(profile, Math.log(STRENGTH_MIN), Math.log(STRENGTH_MAX_TRIALS * trials))
  if (best.height <= pooledLogLikelihood + LIKELIHOOD_ROUNDING) {
    const pooledSpread = { meanShare: events / trials, strengthTrials: null }
    return { ...pooledSpread, logLikelihood: pooledLogLikelihood, pooledLogLikelihood }
  }
  const strengthTrials = Math.exp(best.place)
  return {
    meanShare: bestMeanShare(counted, strengthTrials),
    strengthTrials,
    logLikelihood: best.height,
    pooledLogLikelihood,
  }
}

/**
 * The spread that gives the shares the variance that they have, where all groups have as many trials.
 *
 * What the shares vary beyond chance is the spread. The divisor of their variance matters: for few
 * groups with little spread, the number of groups in place of one less may double the strength.
 *
 * Shape: two groups or more, all of as many trials. Units: shares from 0 to 1.
 * Source: the first two moments of the beta-binomial distribution; J. G. Skellam, J. Royal Stat. Soc. B
 * 10 (1948), 257-261 (from memory).
 */
export function spreadByMoments(
  groups: readonly GroupCount[],
  divisor: 'groups' | 'groups_less_one',
): Spread {
  const counted = checkedGroups(groups)
  const trials = counted[0]?.trials ?? 0
  assert(counted.length >= 2, 'a spread is between groups')
  assert(
    counted.every((group) => group.trials === trials),
    'moments are taken of groups of one size',
  )
  const shares = counted.map(({ events }) => events / trials)
  const meanShare = mean(shares)
  const squares = total(shares.map((share) => (share - meanShare) ** 2))
  const variance = squares / (divisor === 'groups' ? counted.length : counted.length - 1)
  const single = meanShare * (1 - meanShare)
  const beyondChance = variance - single / trials
  const strengthTrials = beyondChance > 0 ? (single - variance) / beyondChance : null
  return { meanShare, strengthTrials }
}

/**
 * The logarithm of how likely all counts are for a mean share and a strength.
 *
 * Shape: whole numbers; a mean share between 0 and 1, both excluded; strength above zero.
 * Units: natural logarithm, binomial coefficients included.
 * Source: the beta-binomial distribution; J. G. Skellam, as `fittedSpread`.
 */
export function betaBinomialLogLikelihood(
  groups: readonly GroupCount[],
  { meanShare, strength }: { meanShare: number; strength: number },
): number {
  // Sums of logarithms, because differences of gamma functions lose their digits at great strength.
  const { alpha, beta } = { alpha: meanShare * strength, beta: (1 - meanShare) * strength }
  return total(
    groups.map(
      ({ events, trials }) =>
        logChoose(trials, events) +
        logRising(alpha, events) +
        logRising(beta, trials - events) -
        logRising(strength, trials),
    ),
  )
}

/**
 * What is believed of a group's share after its own counts, having believed the spread before them.
 *
 * Shape: as `fittedSpread`; strength above zero.
 * Units: the two shapes of a beta distribution, in trials.
 * Source: the beta distribution is conjugate to the binomial; Bayes' rule.
 */
export function groupPosterior(
  { events, trials }: GroupCount,
  { meanShare, strength }: { meanShare: number; strength: number },
): BetaShape {
  assert(strength > 0 && meanShare > 0 && meanShare < 1, 'a spread has a mean and a strength')
  return {
    alpha: meanShare * strength + events,
    beta: (1 - meanShare) * strength + trials - events,
  }
}

/**
 * The mean at which the likelihood, which has one top for a given strength, no longer rises.
 *
 * Shape: as `fittedSpread`; strength above zero. Units: a share from 0 to 1.
 * Source: as `fittedSpread`; found by halving.
 */
export function bestMeanShare(groups: readonly GroupCount[], strength: number): number {
  const slope = (meanShare: number) =>
    total(
      groups.map(
        ({ events, trials }) =>
          reciprocals(meanShare * strength, events) -
          reciprocals((1 - meanShare) * strength, trials - events),
      ),
    )
  let [below, above] = [0, 1]
  for (let halving = 0; halving < 60; halving += 1) {
    const middle = (below + above) / 2
    if (slope(middle) > 0) below = middle
    else above = middle
  }
  return (below + above) / 2
}

/** The highest place of a function: the best of a grid, then between its neighbours. */
function highest(
  height: (place: number) => number,
  from: number,
  to: number,
): { place: number; height: number } {
  const grid = Array.from(
    { length: GRID_STEPS + 1 },
    (_, step) => from + ((to - from) * step) / GRID_STEPS,
  )
  const heights = grid.map(height)
  const top = heights.indexOf(Math.max(...heights))
  let [low, high] = [grid[Math.max(0, top - 1)] ?? from, grid[Math.min(GRID_STEPS, top + 1)] ?? to]
  for (let section = 0; section < 50; section += 1) {
    const [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)]
    if (height(left) < height(right)) low = left
    else high = right
  }
  const place = (low + high) / 2
  return { place, height: height(place) }
}

function pooled(groups: readonly GroupCount[], share: number): number {
  return total(
    groups.map(
      ({ events, trials }) =>
        logChoose(trials, events) +
        events * Math.log(share) +
        (trials - events) * Math.log(1 - share),
    ),
  )
}

function logChoose(trials: number, events: number): number {
  return logGamma(trials + 1) - logGamma(events + 1) - logGamma(trials - events + 1)
}

/** ln x + ln (x + 1) + ..., so many of them. */
function logRising(start: number, count: number): number {
  let sum = 0
  for (let step = 0; step < count; step += 1) sum += Math.log(start + step)
  return sum
}

/** 1 / x + 1 / (x + 1) + ..., so many of them. */
function reciprocals(start: number, count: number): number {
  let sum = 0
  for (let step = 0; step < count; step += 1) sum += 1 / (start + step)
  return sum
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0)
}

function checkedGroups(groups: readonly GroupCount[]): readonly GroupCount[] {
  for (const { events, trials } of groups) {
    assert(Number.isSafeInteger(events) && Number.isSafeInteger(trials), 'pieces are whole')
    assert(events >= 0 && events <= trials, 'no more events than trials')
  }
  return groups.filter(({ trials }) => trials > 0)
}
