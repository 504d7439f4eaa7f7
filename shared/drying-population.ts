import {
  inverseOfPositive,
  logDeterminant,
  timesMatrix,
  timesVector,
  type Rows,
} from './linear-algebra.ts'
import { normalQuantile, tQuantile } from './statistics.ts'

/**
 * What the weigh-ins of one past load say of its shape, in standard deviations of the broad prior: how
 * sharply, and towards where. A load that was hardly weighed says little, and may say nothing of one
 * direction.
 */
export interface ShapeInformation {
  readonly deviations: readonly number[]
  readonly covariance: Rows
  readonly logEvidence: number
}

/** Where the loads of a studio lie and how they differ, in standard deviations of the broad prior. */
export interface Population {
  readonly mean: readonly number[]
  readonly spread: Rows
  /** The spread of the next load, wider because mean and spread are themselves unsure. */
  readonly nextSpread: Rows
}

/** What one load adds to an average: precision, and precision times place. */
interface Pull {
  readonly precision: Rows
  readonly pull: readonly number[]
}

/** How many loads' worth the belief counts of how much loads of one studio differ. Our choice. */
const LOADS_BEHIND_SHARE = 3
/** How much of the variance between a studio's loads lies between its bats. Our choice. */
const SHARE_BETWEEN_GROUPS = 1 / 2
const ROUNDS = 60
const UPPER_TAIL = 0.95

/**
 * The population of shapes from which a studio's loads come, learnt from its past loads.
 *
 * Each load is drawn towards the others as far as its own weigh-ins leave it open; then mean and spread
 * are read off the loads, with the broad prior counting as a few loads more; and again, until it rests.
 *
 * Shape: any number of loads, none giving the broad prior itself; for each direction, which part of the
 * variance between all studios is found within one. Units: standard deviations of the broad prior.
 * Source: D. V. Lindley & A. F. M. Smith, J. Roy. Stat. Soc. B 34 (1972), 1-41, found by the steps of
 * A. P. Dempster, N. M. Laird & D. B. Rubin, ibid. 39 (1977), 1-38; the spread of the next load is
 * Student's, matched to a normal at 95 per cent (all from memory). The broad prior is ours.
 */
export function populationOf(
  loads: readonly ShapeInformation[],
  ownShares: readonly number[],
): Population {
  const size = ownShares.length
  const pulls = loads.map(pullOf)
  let mean: readonly number[] = ownShares.map(() => 0)
  let spread: Rows = diagonal(ownShares)
  const behindMean = ownShares.map((share) => loadsBehindMean(size, share))
  for (let round = 0; round < ROUNDS && pulls.length > 0; round += 1) {
    const places = pulls.map((pull) => drawnTowards(pull, { mean, spread }))
    const centre = mean.map((_, axis) => {
      const total = places.reduce((sum, { place }) => sum + (place[axis] ?? 0), 0)
      return total / ((behindMean[axis] ?? 0) + places.length)
    })
    spread = diagonal(ownShares).map((row, i) =>
      row.map((share, j) => {
        const believed = LOADS_BEHIND_SHARE * share
        const behind = Math.sqrt((behindMean[i] ?? 0) * (behindMean[j] ?? 0))
        const fromMean = behind * (centre[i] ?? 0) * (centre[j] ?? 0)
        const seen = places.reduce((sum, { place, open }) => {
          const away = (axis: number) => (place[axis] ?? 0) - (centre[axis] ?? 0)
          return sum + away(i) * away(j) + (open[i]?.[j] ?? 0)
        }, 0)
        return (believed + fromMean + seen) / (LOADS_BEHIND_SHARE + places.length)
      }),
    )
    mean = centre
  }
  // The next load is off by its own spread and by what the mean is off.
  const unsure = behindMean.map((behind) =>
    Math.sqrt(widening(size, loads.length) * (1 + 1 / (behind + loads.length))),
  )
  const nextSpread = spread.map((row, i) =>
    row.map((one, j) => one * (unsure[i] ?? 1) * (unsure[j] ?? 1)),
  )
  return { mean, spread, nextSpread }
}

/**
 * The same population as one group of its loads shows it: those on one bat.
 *
 * A group has a middle of its own, and its loads lie about that as far as groups lie about the
 * population's. So two loads of the group draw its middle two thirds of the way to themselves. The spread
 * of the next load stays the population's, so that groups which do not differ after all cost little.
 *
 * Shape: the loads of the group, which are among those of the population; none leaves it as it is.
 * Units: standard deviations of the broad prior.
 * Source: as `populationOf`, with normal groups between loads and population; that half of the variance
 * lies between groups is our choice.
 */
export function populationAsSeenBy(
  group: readonly ShapeInformation[],
  population: Population,
): Population {
  if (group.length === 0) return population
  const within = population.spread.map((row) => row.map((one) => one * (1 - SHARE_BETWEEN_GROUPS)))
  const between = population.spread.map((row) => row.map((one) => one * SHARE_BETWEEN_GROUPS))
  const behindLoad = inverseOfPositive(within)
  const behindGroup = inverseOfPositive(between)
  let precision: Rows = behindGroup
  let pull: readonly number[] = timesVector(behindGroup, population.mean)
  for (const own of group.map(pullOf)) {
    // What the load says of the group's middle: its own precision, less what its own place takes up.
    const open = inverseOfPositive(sumOfRows(behindLoad, own.precision))
    const taken = timesMatrix(own.precision, open)
    const takenPull = timesVector(taken, own.pull)
    const takenPrecision = timesMatrix(taken, own.precision)
    precision = sumOfRows(precision, own.precision, takenPrecision)
    const before = pull
    pull = own.pull.map((one, axis) => (before[axis] ?? 0) + one - (takenPull[axis] ?? 0))
  }
  return { ...population, mean: timesVector(inverseOfPositive(precision), pull) }
}

/** The sum of the first two, less the third where there is one. */
function sumOfRows(one: Rows, other: Rows, less?: Rows): number[][] {
  return one.map((row, i) =>
    row.map((value, j) => value + (other[i]?.[j] ?? 0) - (less?.[i]?.[j] ?? 0)),
  )
}

/**
 * How likely a past load's weigh-ins were in a population, to be compared between models.
 *
 * Units: natural logarithm, but for a constant that models share.
 * Source: the integral of a product of two normal forms.
 */
export function logEvidenceIn(load: ShapeInformation, population: Population): number {
  const own = inverseOfPositive(load.covariance)
  const broad = weightOf(own, load.deviations) + logDeterminant(load.covariance) / 2
  const drawn = drawnTowards(pullOf(load), population)
  const behind = inverseOfPositive(population.spread)
  const here =
    weightOf(inverseOfPositive(drawn.open), drawn.place) -
    weightOf(behind, population.mean) +
    logDeterminant(drawn.open) / 2 -
    logDeterminant(population.spread) / 2
  return load.logEvidence - broad + here
}

/**
 * How much farther out the last twentieth of Student's t begins than that of the normal distribution.
 *
 * Units: degrees of freedom to a ratio of one or more. Source: the definitions of the two.
 */
export function tailsOfStudent(degreesOfFreedom: number): number {
  return tQuantile(UPPER_TAIL, degreesOfFreedom) / normalQuantile(UPPER_TAIL)
}

/** The broad prior has a variance of one in each direction, which is taken off again. */
function pullOf({ deviations, covariance }: ShapeInformation): Pull {
  const whole = inverseOfPositive(covariance)
  const precision = whole.map((row, i) => row.map((one, j) => one - (i === j ? 1 : 0)))
  return { precision, pull: timesVector(whole, deviations) }
}

function drawnTowards(
  load: Pull,
  population: Pick<Population, 'mean' | 'spread'>,
): { place: number[]; open: Rows } {
  const behind = inverseOfPositive(population.spread)
  const precision = behind.map((row, i) => row.map((one, j) => one + (load.precision[i]?.[j] ?? 0)))
  const open = inverseOfPositive(precision)
  const towards = timesVector(behind, population.mean)
  const place = timesVector(
    open,
    towards.map((one, axis) => one + (load.pull[axis] ?? 0)),
  )
  return { place, open }
}

/** Half of the squared length of a vector, measured by a precision. */
function weightOf(precision: Rows, vector: readonly number[]): number {
  const along = timesVector(precision, vector)
  return along.reduce((sum, one, axis) => sum + one * (vector[axis] ?? 0), 0) / 2
}

/** Chosen so that a studio without loads has the broad prior's own spread. */
function loadsBehindMean(size: number, ownShare: number): number {
  return 1 / (1 / (ownShare * widening(size, 0)) - 1)
}

/** How much wider than normal the next load's spread is while the spread rests on a few loads. */
function widening(size: number, loads: number): number {
  const behind = LOADS_BEHIND_SHARE + loads
  const degrees = behind - size + 1
  return (behind / degrees) * tailsOfStudent(degrees) ** 2
}

function diagonal(values: readonly number[]): number[][] {
  return values.map((value, i) => values.map((_, j) => (i === j ? value : 0)))
}
