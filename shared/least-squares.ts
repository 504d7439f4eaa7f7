import { assert } from './assert.ts'
import {
  checkProblem,
  knownPriors,
  sizesOf,
  standingAt,
  sumOfSquares,
  weightedSlopes,
  type CurveProblem,
  type Standing,
} from './curve-problem.ts'
import {
  conditionNumber,
  inverseOfPositive,
  leastSquaresSolution,
  timesMatrix,
  timesVector,
  transposed,
  type Rows,
} from './linear-algebra.ts'
import { Refusal } from './refusal.ts'

export interface FittedCurve {
  readonly parameters: readonly number[]
  readonly standardUncertainties: readonly number[]
  readonly covariance: Rows
  /** Of the observations alone, each over its uncertainty if that was given. */
  readonly residualSumOfSquares: number
  readonly residualStandardDeviation: number
  /** Observations and priors, less parameters. */
  readonly degreesOfFreedom: number
  /** Of the slopes, each for a change of its parameter by its own size. */
  readonly conditionNumber: number
  readonly iterations: number
}

/** How boldly the search goes on from where it stands. */
interface Search {
  readonly here: Standing
  /** The longest that each column of slopes has been, so that a lost one does not run away. */
  readonly lengths: readonly number[]
  readonly damping: number
  readonly growth: number
  /** No step is longer, each parameter measured by what it does to the curve. */
  readonly radius: number
  readonly isAtRest: boolean
}

const ITERATIONS_MAX = 1000
/** A step, or the cosine between residuals and curve, that is no more than rounding. */
const SMALLEST = 1e-13
/** Above this a parameter could be changed a lot and the curve would hardly move. Our choice. */
const CONDITION_MAX = 1e7
const DAMPING_AT_FIRST = 1e-3
const DAMPING_MAX = 1e30
/** The first step may be as many times longer than the start itself. */
const RADIUS_AT_FIRST = 10
const POLISHING_MAX = 6

/**
 * The parameters of a curve that come nearest to what was observed, and how sure they are.
 *
 * Each step solves the straightened problem, held back by as much damping as the last steps needed. A
 * prior counts as one more observation, of its parameter. Where the uncertainties of the observations
 * are given they are believed; where not, the scatter about the curve stands for them.
 *
 * Shape: n observations, p parameters, n and priors together at least p.
 * Units: of the problem; the parameters in any.
 * Refuses: `parameters_must_be_identifiable`, `fit_must_converge`.
 * Source: K. Levenberg, Quart. Appl. Math. 2 (1944), 164-168; D. W. Marquardt, J. SIAM 11 (1963),
 * 431-441; radius and column lengths after J. J. Moré, Lecture Notes in Mathematics 630 (1978), 105-116,
 * damping after K. Madsen, H. B. Nielsen & O. Tingleff, Methods for Non-Linear Least Squares Problems
 * (2004), 3.2 (both from memory).
 */
export function fittedCurve(problem: CurveProblem): FittedCurve {
  checkProblem(problem)
  if (problem.observed.length + knownPriors(problem).length < problem.start.length) {
    refuseUnidentified('There are more figures to find than readings.')
  }
  let search = begun(problem)
  let iterations = 0
  while (!search.isAtRest && iterations < ITERATIONS_MAX) {
    iterations += 1
    search = advanced(problem, search)
  }
  const here = search.isAtRest ? polished(problem, search.here) : search.here
  return report(problem, here, { isAtRest: search.isAtRest, iterations })
}

function begun(problem: CurveProblem): Search {
  const here = standingAt(problem, problem.start)
  assert(Number.isFinite(here.sum), 'the curve has a value where the search starts')
  const lengths = columnLengths(weightedSlopes(problem, here.parameters)).map((one) => one || 1)
  const own = lengthOf(sizesOf(problem, here.parameters), lengths)
  const radius = RADIUS_AT_FIRST * own
  return { here, lengths, damping: DAMPING_AT_FIRST, growth: 2, radius, isAtRest: false }
}

function advanced(problem: CurveProblem, search: Search): Search {
  const { here } = search
  const slopes = weightedSlopes(problem, here.parameters)
  const lengths = columnLengths(slopes).map((one, at) => Math.max(one, search.lengths[at] ?? 1))
  const { step, damping, length, promised } = heldStep(slopes, { ...search, lengths })
  const there = standingAt(problem, moved(here.parameters, step))
  const gained = (here.sum - there.sum) / promised
  const sizes = sizesOf(problem, here.parameters)
  const isAtRest = isNothing(step, sizes) || isSquare(slopes, here) || damping > DAMPING_MAX
  if (!(gained > 0)) {
    const { growth } = search
    const less = { damping: damping * growth, growth: growth * 2, radius: length / 2 }
    return { ...search, ...less, lengths, isAtRest }
  }
  return {
    here: there,
    lengths,
    damping: damping * Math.max(1 / 10, 1 - (2 * gained - 1) ** 3),
    growth: 2,
    radius: gained > 3 / 4 ? Math.max(search.radius, 2 * length) : search.radius,
    isAtRest,
  }
}

/** The step that solves the straightened problem, damped until it stays within the radius. */
function heldStep(
  slopes: Rows,
  search: Search,
): { step: number[]; damping: number; length: number; promised: number } {
  const { here, lengths, radius } = search
  let { damping } = search
  let step = dampedStep(slopes, { here, lengths, damping })
  while (lengthOf(step, lengths) > radius && damping < DAMPING_MAX) {
    damping *= 4
    step = dampedStep(slopes, { here, lengths, damping })
  }
  const length = lengthOf(step, lengths)
  const promised = sumOfSquares(timesVector(slopes, step)) + 2 * damping * length ** 2
  return { step, damping, length, promised }
}

function dampedStep(
  slopes: Rows,
  { here, lengths, damping }: { here: Standing; lengths: readonly number[]; damping: number },
): number[] {
  const held = lengths.map((length, row) =>
    lengths.map((_, column) => (column === row ? Math.sqrt(damping) * length : 0)),
  )
  return leastSquaresSolution([...slopes, ...held], [...here.residuals, ...lengths.map(() => 0)])
}

/**
 * The last digits: near the bottom the sum of squares no longer tells two places apart, but the slopes
 * still do. Full steps are taken for as long as they shrink.
 */
function polished(problem: CurveProblem, found: Standing): Standing {
  let here = found
  let shortest = Number.POSITIVE_INFINITY
  for (let round = 0; round < POLISHING_MAX; round += 1) {
    const slopes = weightedSlopes(problem, here.parameters)
    const sizes = sizesOf(problem, here.parameters)
    if (!(conditionNumber(relativeTo(sizes, slopes)) < CONDITION_MAX)) return here
    const step = leastSquaresSolution(slopes, here.residuals)
    const length = Math.max(...step.map((one, at) => Math.abs(one) / (sizes[at] ?? 1)))
    const there = standingAt(problem, moved(here.parameters, step))
    if (!(length < shortest / 2) || !(there.sum <= found.sum * (1 + 1e-9))) return here
    shortest = length
    here = there
  }
  return here
}

function report(
  problem: CurveProblem,
  here: Standing,
  search: { isAtRest: boolean; iterations: number },
): FittedCurve {
  const slopes = weightedSlopes(problem, here.parameters)
  const condition = conditionNumber(relativeTo(sizesOf(problem, here.parameters), slopes))
  if (!(condition < CONDITION_MAX)) {
    refuseUnidentified(
      'At least one figure could be changed a lot and the curve would hardly move.',
    )
  }
  if (!search.isAtRest) {
    throw new Refusal('fit_must_converge', 'No curve of this kind settles on these readings.')
  }
  const residualSumOfSquares = sumOfSquares(here.residuals.slice(0, problem.observed.length))
  const degreesOfFreedom = here.residuals.length - here.parameters.length
  const variance = degreesOfFreedom > 0 ? residualSumOfSquares / degreesOfFreedom : 0
  const scale = problem.standardUncertainties === undefined ? variance : 1
  const information = timesMatrix(transposed(slopes), slopes)
  const covariance = inverseOfPositive(information).map((row) => row.map((one) => one * scale))
  return {
    parameters: here.parameters,
    covariance,
    standardUncertainties: covariance.map((row, index) => Math.sqrt(row[index] ?? 0)),
    residualSumOfSquares,
    residualStandardDeviation: Math.sqrt(variance),
    degreesOfFreedom,
    conditionNumber: condition,
    iterations: search.iterations,
  }
}

function refuseUnidentified(reason: string): never {
  throw new Refusal(
    'parameters_must_be_identifiable',
    `These readings do not fix the curve. ${reason} Take more readings, or ask for a simpler curve.`,
  )
}

function isNothing(step: readonly number[], sizes: readonly number[]): boolean {
  return step.every((one, index) => Math.abs(one) <= SMALLEST * (sizes[index] ?? 1))
}

/** True where no change of a parameter would lower the sum: the residuals stand square on the curve. */
function isSquare(slopes: Rows, here: Standing): boolean {
  const along = timesVector(transposed(slopes), here.residuals)
  const longest = columnLengths(slopes).map((one) => one * Math.sqrt(here.sum))
  return along.every((one, index) => Math.abs(one) <= SMALLEST * (longest[index] ?? 0))
}

/** Slopes for a change of each parameter by its own size, so that units fall out. */
function relativeTo(sizes: readonly number[], slopes: Rows): number[][] {
  return slopes.map((row) => row.map((slope, column) => slope * (sizes[column] ?? 1)))
}

function moved(parameters: readonly number[], step: readonly number[]): number[] {
  return parameters.map((one, index) => one + (step[index] ?? 0))
}

function lengthOf(step: readonly number[], lengths: readonly number[]): number {
  return Math.sqrt(sumOfSquares(step.map((one, index) => one * (lengths[index] ?? 1))))
}

function columnLengths(slopes: Rows): number[] {
  return transposed(slopes).map((column) => Math.sqrt(sumOfSquares(column)))
}
