import {
  bestMeanShare,
  betaBinomialLogLikelihood,
  groupPosterior,
  type GroupCount,
} from './beta-binomial.ts'
import { betaCdf, type BetaShape } from './statistics.ts'

/** A spread that the groups may have, and how likely it is after all their counts. */
export interface WeightedSpread {
  readonly meanShare: number
  readonly strength: number
  readonly weight: number
}

/** So many strengths are looked at, and so many means about the best one of each. */
const STRENGTHS = 24
const MEANS = 11
/** The means reach so many standard deviations to either side, in log odds. */
const REACH_DEVIATIONS = 3.5
/** A strength that is less likely than this changes no interval. */
const WEIGHT_MIN = 1e-4
const SHARE_SMALL = 1e-6

/**
 * The spreads that the groups may have, weighed by how well each explains all counts.
 *
 * The likeliest strength is often infinite where groups are few and small, and groups that lean on it
 * would be far too sure of themselves; so all strengths are kept. Before the counts, any leaning of a
 * group of half the mean size is held as likely as any other, and any mean share.
 *
 * Shape: two groups or more with trials, and some with events but not all trials; whole numbers.
 * Units: shares from 0 to 1; strengths in trials; weights that sum to one.
 * Source: the uniform shrinkage prior, C. L. Christiansen and C. N. Morris, J. Am. Stat. Assoc. 92
 * (1997), 618-632 (from memory); sums in place of integrals are our choice, and so is half the mean
 * size, with which the intervals of made-up forms held what they should (tests/unit/yield-leaning.test.ts).
 */
export function believedSpreads(groups: readonly GroupCount[]): WeightedSpread[] {
  const counted = groups.filter(({ trials }) => trials > 0)
  const halfMean = counted.reduce((sum, { trials }) => sum + trials, 0) / counted.length / 2
  const candidates = Array.from({ length: STRENGTHS }, (_, index) => {
    const leaning = (index + 0.5) / STRENGTHS
    return meansAt(counted, (halfMean * (1 - leaning)) / leaning)
  }).flat()
  const highest = Math.max(...candidates.map(({ logWeight }) => logWeight))
  const weights = candidates.map(({ logWeight }) => Math.exp(logWeight - highest))
  const whole = weights.reduce((sum, weight) => sum + weight, 0)
  return candidates.map(({ meanShare, strength }, index) => ({
    ...{ meanShare, strength, weight: (weights[index] ?? 0) / whole },
  }))
}

/** Means about the best one for a strength, evenly spaced in log odds. */
function meansAt(counted: readonly GroupCount[], strength: number) {
  const best = Math.min(1 - SHARE_SMALL, Math.max(SHARE_SMALL, bestMeanShare(counted, strength)))
  const telling = counted.reduce(
    (sum, { trials }) => sum + trials / (1 + (trials - 1) / (strength + 1)),
    0,
  )
  const step =
    (2 * REACH_DEVIATIONS) / (MEANS - 1) / Math.sqrt(Math.max(1, telling * best * (1 - best)))
  const middle = Math.log(best / (1 - best))
  return Array.from({ length: MEANS }, (_, index) => {
    const meanShare = 1 / (1 + Math.exp(-(middle + step * (index - (MEANS - 1) / 2))))
    const likelihood = betaBinomialLogLikelihood(counted, { meanShare, strength })
    // Even steps in log odds are uneven ones in the share, and narrower where the best is known well.
    const logWeight = likelihood + Math.log(meanShare * (1 - meanShare) * step)
    return { meanShare, strength, logWeight }
  })
}

/** What may be believed of a share: several beta distributions, each with its weight. */
export type MixedBelief = readonly (BetaShape & { readonly weight: number })[]

/**
 * What is believed of a group's share after its own counts, whichever of the spreads is the true one.
 *
 * For each strength, the beta distribution with the mean and the variance of all its means mixed.
 *
 * Shape: as `believedSpreads`. Units: the two shapes of beta distributions, in trials; weights.
 * Source: Bayes' rule; the law of total variance.
 */
export function mixedBelief(group: GroupCount, spreads: readonly WeightedSpread[]): MixedBelief {
  const strengths = [...new Set(spreads.map(({ strength }) => strength))]
  return strengths.flatMap((strength) => {
    const alike = spreads.filter((spread) => spread.strength === strength)
    const weight = alike.reduce((sum, spread) => sum + spread.weight, 0)
    if (weight < WEIGHT_MIN) return []
    let [first, second] = [0, 0]
    for (const spread of alike) {
      const { alpha, beta } = groupPosterior(group, spread)
      const mean = alpha / (alpha + beta)
      const variance = (mean * (1 - mean)) / (alpha + beta + 1)
      first += (spread.weight / weight) * mean
      second += (spread.weight / weight) * (variance + mean * mean)
    }
    const size = (first * (1 - first)) / (second - first * first) - 1
    return [{ alpha: first * size, beta: (1 - first) * size, weight }]
  })
}

/**
 * The share that is not exceeded with some probability, under a mixed belief.
 *
 * Shape: one part or more; probability between 0 and 1, both excluded. Units: a share from 0 to 1.
 * Source: the definition of a quantile; found by halving to a millionth.
 */
export function mixedQuantile(belief: MixedBelief, probability: number): number {
  const whole = belief.reduce((sum, { weight }) => sum + weight, 0)
  const below = (share: number) =>
    belief.reduce((sum, { weight, ...shape }) => sum + weight * betaCdf(share, shape), 0) / whole
  let [low, high] = [0, 1]
  while (high - low > SHARE_SMALL) {
    const middle = (low + high) / 2
    if (below(middle) < probability) low = middle
    else high = middle
  }
  return (low + high) / 2
}
