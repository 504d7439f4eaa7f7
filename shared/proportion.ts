import { assert } from './assert.ts'
import { betaQuantile, normalQuantile } from './statistics.ts'

/** So many of so many, and how often an interval for the share behind them shall hold it. */
export interface Counted {
  readonly events: number
  readonly trials: number
  /** From 0 to 1, both excluded; 0.95 where nothing is said. */
  readonly confidence?: number
}

export interface ShareInterval {
  readonly from: number
  readonly to: number
}

const USUAL_CONFIDENCE = 0.95

/**
 * The score interval for a share: the shares that a test at this confidence would not reject.
 *
 * Good for few pieces and for shares near none or all, where the textbook's plus-or-minus fails; it
 * holds the true share about as often as it says, neither always nor at least.
 *
 * Shape: whole numbers, 0 <= events <= trials, trials >= 1.
 * Units: shares from 0 to 1.
 * Source: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927), 209-212; method 3 of R. G. Newcombe, Statistics
 * in Medicine 17 (1998), 857-872.
 */
export function wilsonInterval(counted: Counted): ShareInterval {
  const { confidence, ...told } = checked(counted)
  return scoreInterval(told, normalQuantile((1 + confidence) / 2))
}

/**
 * The score interval that reaches so many deviations to either side.
 *
 * Where pieces are lost in clumps, the deviations are widened by the root of the dispersion.
 *
 * Shape: as `wilsonInterval`; deviations above zero. Units: shares from 0 to 1; standard deviations.
 * Source: as `wilsonInterval`.
 */
export function scoreInterval(counted: Counted, deviations: number): ShareInterval {
  const { events, trials } = checked(counted)
  const z = deviations
  const centre = events + (z * z) / 2
  const spread = z * Math.sqrt((events * (trials - events)) / trials + (z * z) / 4)
  const over = trials + z * z
  return {
    from: events === 0 ? 0 : (centre - spread) / over,
    to: events === trials ? 1 : (centre + spread) / over,
  }
}

/**
 * By how much one share exceeds another, from the score intervals of the two.
 *
 * Shape: as `wilsonInterval`, twice. Units: differences from −1 to 1.
 * Source: method 10 of R. G. Newcombe, Statistics in Medicine 17 (1998), 873-890 (from memory).
 */
export function shareDifference(
  [one, other]: readonly [Counted, Counted],
  deviations: number,
): ShareInterval & { readonly difference: number } {
  const [first, second] = [scoreInterval(one, deviations), scoreInterval(other, deviations)]
  const [share, less] = [one.events / one.trials, other.events / other.trials]
  const difference = share - less
  return {
    difference,
    from: difference - Math.hypot(share - first.from, second.to - less),
    to: difference + Math.hypot(first.to - share, less - second.from),
  }
}

/**
 * The score interval widened by half a piece to either side.
 *
 * It seldom holds the true share less often than it says, and pays for that with its width.
 *
 * Shape: as `wilsonInterval`. Units: shares from 0 to 1; 0 at no events and 1 at all.
 * Source: method 4 of R. G. Newcombe, Statistics in Medicine 17 (1998), 857-872 (from memory).
 */
export function wilsonCorrectedInterval(counted: Counted): ShareInterval {
  const { events, trials, confidence } = checked(counted)
  const z = normalQuantile((1 + confidence) / 2)
  const share = events / trials
  const others = trials - events
  const over = 2 * (trials + z * z)
  const below = Math.sqrt(z * z - 2 - 1 / trials + 4 * share * (others + 1))
  const above = Math.sqrt(z * z + 2 - 1 / trials + 4 * share * (others - 1))
  const middle = 2 * events + z * z
  return {
    from: events === 0 ? 0 : Math.max(0, (middle - 1 - z * below) / over),
    to: events === trials ? 1 : Math.min(1, (middle + 1 + z * above) / over),
  }
}

/**
 * The exact interval for a share: it holds the true share at least as often as it says.
 *
 * Each end is the share at which so many, or more extreme, would be seen in half of the rest of the
 * cases. Wider than need be for most shares.
 *
 * Shape: as `wilsonInterval`. Units: shares from 0 to 1.
 * Source: C. J. Clopper and E. S. Pearson, Biometrika 26 (1934), 404-413 (from memory).
 */
export function exactInterval(counted: Counted): ShareInterval {
  const { events, trials, confidence } = checked(counted)
  const tail = (1 - confidence) / 2
  return {
    from: exactLower({ events, trials, tail }),
    to: exactUpper({ events, trials, tail }),
  }
}

/**
 * The share that is not exceeded, with this confidence, to the one side only.
 *
 * After no event in n trials it is near 3/n at 95 %, the rule of three.
 *
 * Shape: as `wilsonInterval`. Units: a share from 0 to 1.
 * Source: as `exactInterval`, with all of the doubt on one side.
 */
export function exactUpperLimit(counted: Counted): number {
  const { events, trials, confidence } = checked(counted)
  return exactUpper({ events, trials, tail: 1 - confidence })
}

/**
 * The middle of what is believed of a share after the pieces, having believed no share before them.
 *
 * Equal tails of a beta distribution, from Jeffreys' prior of half an event to either side.
 *
 * Shape: as `wilsonInterval`. Units: shares from 0 to 1; 0 at no events and 1 at all, by convention.
 * Source: L. D. Brown, T. T. Cai and A. DasGupta, Statistical Science 16 (2001), 101-133 (from memory).
 */
export function jeffreysInterval(counted: Counted): ShareInterval {
  const { events, trials, confidence } = checked(counted)
  const tail = (1 - confidence) / 2
  const shape = { alpha: events + 0.5, beta: trials - events + 0.5 }
  return {
    from: events === 0 ? 0 : betaQuantile(tail, shape),
    to: events === trials ? 1 : betaQuantile(1 - tail, shape),
  }
}

interface Tailed {
  readonly events: number
  readonly trials: number
  readonly tail: number
}

function exactLower({ events, trials, tail }: Tailed): number {
  if (events === 0) return 0
  return betaQuantile(tail, { alpha: events, beta: trials - events + 1 })
}

function exactUpper({ events, trials, tail }: Tailed): number {
  if (events === trials) return 1
  return betaQuantile(1 - tail, { alpha: events + 1, beta: trials - events })
}

function checked({ events, trials, confidence = USUAL_CONFIDENCE }: Counted): Required<Counted> {
  assert(Number.isSafeInteger(events) && Number.isSafeInteger(trials), 'pieces are whole')
  assert(trials >= 1, 'a share is of something')
  assert(events >= 0 && events <= trials, 'no more events than trials')
  assert(confidence > 0 && confidence < 1, 'a confidence is between nothing and certainty')
  return { events, trials, confidence }
}
