import { assert, present } from './assert.ts'

export const SIGNAL_KINDS = ['beyond_limits', 'eight_on_one_side', 'six_in_one_direction'] as const
export type SignalKind = (typeof SIGNAL_KINDS)[number]

/** Something that chance alone seldom does, and where: places in the row of values, both included. */
export interface ChartSignal {
  readonly kind: SignalKind
  readonly direction: 'up' | 'down'
  readonly firstIndex: number
  readonly lastIndex: number
}

export interface IndividualsChart {
  readonly mean: number
  readonly meanMovingRange: number
  readonly upperLimit: number
  readonly lowerLimit: number
  readonly signals: readonly ChartSignal[]
}

/** The mean range of two values from one normal distribution, in its standard deviations. */
const RANGE_OF_TWO = 1.128
const LIMIT_DEVIATIONS = 3
/** How far a range of two goes at three of its own standard deviations above its mean, in means. */
const RANGE_LIMIT_MEANS = 3.267
const ON_ONE_SIDE = 8
const IN_ONE_DIRECTION = 6

/**
 * The chart of single values in the order in which they came, with what chance alone seldom does.
 *
 * How far neighbours differ says what chance does from one to the next; a slow drift hardly widens it,
 * and so shows. Limits are drawn from the first `usualCount` values where that is given, so that a
 * drift does not move the limits that it is judged by.
 *
 * Shape: values oldest first, two or more; `usualCount` from 2 to their number.
 * Units: as given.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (limits; d2 = 1.128); the run of
 * eight from the Western Electric handbook, the six in one direction from L. S. Nelson, J. Quality
 * Technology 16 (1984), 237-239 (both from memory).
 */
export function individualsChart(
  values: readonly number[],
  usualCount: number = values.length,
): IndividualsChart {
  assert(values.every(Number.isFinite), 'a chart is of finite values')
  assert(
    Number.isSafeInteger(usualCount) && usualCount >= 2 && usualCount <= values.length,
    'what is usual is told by two values or more, all of them there',
  )
  const usual = values.slice(0, usualCount)
  const ranges = usual.slice(1).map((value, index) => Math.abs(value - (usual[index] ?? value)))
  const mean = meanOf(usual)
  const meanMovingRange = meanOf(ranges)
  const reach = (LIMIT_DEVIATIONS * meanMovingRange) / RANGE_OF_TWO
  const limits = { upperLimit: mean + reach, lowerLimit: mean - reach }
  const sides = values.map((value) => Math.sign(value - mean))
  const beyond = values.map((value) =>
    value > limits.upperLimit ? 1 : value < limits.lowerLimit ? -1 : 0,
  )
  return {
    mean,
    meanMovingRange,
    ...limits,
    signals: [
      ...stretches(beyond, 1).map(signalOf('beyond_limits')),
      ...stretches(sides, ON_ONE_SIDE).map(signalOf('eight_on_one_side')),
      ...directions(values),
    ],
  }
}

/**
 * How far two neighbours on such a chart differ by chance at most.
 *
 * Units: as the values. Source: the factor D4 for ranges of two, 3.267, NIST/SEMATECH e-Handbook of
 * Statistical Methods, 6.3.2.1 (from memory): 1 + 3 √(2 − 4/π) / (2/√π).
 */
export function movingRangeLimit({ meanMovingRange }: IndividualsChart): number {
  return RANGE_LIMIT_MEANS * meanMovingRange
}

interface Stretch {
  readonly sign: number
  readonly firstIndex: number
  readonly lastIndex: number
}

/** The longest stretches of one sign other than zero that have at least this length. */
function stretches(signs: readonly number[], length: number): Stretch[] {
  const found: Stretch[] = []
  let firstIndex = 0
  signs.forEach((sign, index) => {
    if (sign === signs[index + 1]) return
    if (sign !== 0 && index - firstIndex + 1 >= length) {
      found.push({ sign, firstIndex, lastIndex: index })
    }
    firstIndex = index + 1
  })
  return found
}

/** Six values, each above the one before it, are five steps up. */
function directions(values: readonly number[]): ChartSignal[] {
  const steps = values
    .slice(1)
    .map((value, index) => Math.sign(value - present(values[index], 'a step starts somewhere')))
  return stretches(steps, IN_ONE_DIRECTION - 1)
    .map((stretch) => ({ ...stretch, lastIndex: stretch.lastIndex + 1 }))
    .map(signalOf('six_in_one_direction'))
}

function signalOf(kind: SignalKind): (stretch: Stretch) => ChartSignal {
  return ({ sign, firstIndex, lastIndex }) => ({
    kind,
    direction: sign > 0 ? 'up' : 'down',
    firstIndex,
    lastIndex,
  })
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
