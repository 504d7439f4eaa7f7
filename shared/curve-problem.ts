import { assert, present } from './assert.ts'
import { transposed, type Rows } from './linear-algebra.ts'

/** What is known of a parameter before the data, as a normal distribution. */
export interface GaussianPrior {
  readonly mean: number
  readonly standardUncertainty: number
}

/** A curve with parameters, and what it is to be laid through. */
export interface CurveProblem {
  /** What the curve says for each observation, in their order. */
  readonly curve: (parameters: readonly number[]) => readonly number[]
  /** Its slopes, a row an observation and a column a parameter; worked out numerically if absent. */
  readonly slopes?: (parameters: readonly number[]) => Rows
  readonly observed: readonly number[]
  /** How unsure each observation is; where absent, all alike and read off the residuals. */
  readonly standardUncertainties?: readonly number[]
  readonly start: readonly number[]
  readonly priors?: readonly (GaussianPrior | undefined)[]
}

/** Where a search stands: residuals over their uncertainties, those of the priors last. */
export interface Standing {
  readonly parameters: readonly number[]
  readonly residuals: readonly number[]
  /** Of the squares of the residuals. */
  readonly sum: number
}

/**
 * Whether a problem hangs together: as many uncertainties as observations, and finite numbers.
 *
 * Units: of the problem. Source: our choice, because a fault here is one of the program.
 */
export function checkProblem(problem: CurveProblem): void {
  const { observed, standardUncertainties: given, start, priors } = problem
  assert(observed.every(Number.isFinite), 'observations are finite numbers')
  assert(start.length > 0 && start.every(Number.isFinite), 'a search starts somewhere')
  assert(given === undefined || given.length === observed.length, 'each observation is unsure')
  assert((given ?? []).every(isPositive), 'each observation is somewhat unsure')
  assert(priors === undefined || given !== undefined, 'priors need a scale of uncertainty')
  for (const prior of knownPriors(problem)) {
    assert(isPositive(prior.standardUncertainty), 'a prior leaves something open')
    assert(Number.isFinite(prior.mean), 'a prior lies somewhere')
  }
}

/** The priors that were given. Units: of the parameters. Source: as given. */
export function knownPriors(problem: CurveProblem): GaussianPrior[] {
  return (problem.priors ?? []).filter((prior) => prior !== undefined)
}

/**
 * How far the curve with some parameters lies from what was observed.
 *
 * Units: residuals over their standard uncertainties, or in the unit of the observations where none
 * were given. Source: the definition of weighted least squares; a prior is one more observation.
 */
export function standingAt(problem: CurveProblem, parameters: readonly number[]): Standing {
  const said = problem.curve(parameters)
  assert(said.length === problem.observed.length, 'the curve says something of each observation')
  const ofData = problem.observed.map(
    (value, index) => (value - (said[index] ?? 0)) / uncertaintyAt(problem, index),
  )
  const ofPriors = parameters.flatMap((value, index) => {
    const prior = problem.priors?.[index]
    return prior === undefined ? [] : [(prior.mean - value) / prior.standardUncertainty]
  })
  const residuals = [...ofData, ...ofPriors]
  return { parameters, residuals, sum: sumOfSquares(residuals) }
}

/**
 * How the curve moves with each parameter, over the uncertainty of each observation.
 *
 * Shape: a row for each observation and each prior, a column for each parameter.
 * Units: as `standingAt`, for one unit of the parameter. Source: the definition of a derivative.
 */
export function weightedSlopes(problem: CurveProblem, parameters: readonly number[]): number[][] {
  const slopes = problem.slopes?.(parameters) ?? numericSlopes(problem, parameters)
  const ofData = slopes.map((row, index) =>
    row.map((slope) => slope / uncertaintyAt(problem, index)),
  )
  const ofPriors = parameters.flatMap((_, index) => {
    const prior = problem.priors?.[index]
    if (prior === undefined) return []
    return [parameters.map((__, column) => (column === index ? 1 / prior.standardUncertainty : 0))]
  })
  return [...ofData, ...ofPriors]
}

/**
 * How large each parameter is, to say what a small change of it is: its prior's spread, or itself.
 *
 * Units: of the parameters. Source: our choice, because a relative change means the same in any unit.
 */
export function sizesOf(problem: CurveProblem, parameters: readonly number[]): number[] {
  return parameters.map((value, index) => {
    const prior = problem.priors?.[index]
    return prior?.standardUncertainty ?? (Math.abs(value) || 1)
  })
}

/** The sum of squares. Units: the squares of those given. Source: the definition. */
export function sumOfSquares(values: readonly number[]): number {
  return values.reduce((sum, one) => sum + one * one, 0)
}

/** Slopes from four points about each parameter, which leaves an error of the fourth order. */
function numericSlopes(problem: CurveProblem, parameters: readonly number[]): number[][] {
  const sizes = sizesOf(problem, parameters)
  const columns = parameters.map((value, column) => {
    const width = NUMERIC_WIDTH * present(sizes[column], 'each parameter has a size')
    const at = (steps: number) => problem.curve(parameters.with(column, value + steps * width))
    const [far, near, nearBelow, farBelow] = [at(2), at(1), at(-1), at(-2)]
    return near.map((one, row) => {
      const inner = one - (nearBelow[row] ?? 0)
      const outer = (far[row] ?? 0) - (farBelow[row] ?? 0)
      return (8 * inner - outer) / (12 * width)
    })
  })
  return transposed(columns)
}

/** Where the error of the formula and that of rounding are about alike, for smooth curves. */
const NUMERIC_WIDTH = 3e-4

function uncertaintyAt(problem: CurveProblem, index: number): number {
  if (problem.standardUncertainties === undefined) return 1
  return present(problem.standardUncertainties[index], 'each observation is unsure')
}

function isPositive(value: number): boolean {
  return Number.isFinite(value) && value > 0
}
