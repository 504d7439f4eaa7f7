import { assert, present } from './assert.ts'
import { conditionNumber, innerProduct, inverseOfPositive, type Rows } from './linear-algebra.ts'
import { mean } from './statistics.ts'

/** So many events in so many trials, all made under the same circumstances. */
export interface BinomialRow {
  readonly regressors: readonly number[]
  readonly events: number
  readonly trials: number
}

export interface LogisticFit {
  readonly outcome: 'fitted'
  /** The constant first, then one a regressor. */
  readonly coefficients: readonly {
    readonly estimate: number
    readonly standardUncertainty: number
  }[]
  readonly covariance: Rows
  readonly deviance: number
  readonly degreesOfFreedom: number
  /** Pearson's chi-square a degree of freedom: well above one where events come in clumps. */
  readonly dispersion: number
}

/** Why there is no fit: nothing finite fits best, or the regressors do not tell the rows apart. */
export interface NoLogisticFit {
  readonly outcome: 'separated' | 'regressors_do_not_vary'
}

export interface Standardised {
  readonly columns: Rows
  readonly centres: readonly number[]
  readonly scales: readonly number[]
}

/** The best coefficients for some columns, and what the deviance and the means are with them. */
export interface BestCoefficients {
  readonly coefficients: readonly number[]
  readonly covariance: Rows
  readonly deviance: number
  readonly means: readonly number[]
}

const STEPS_MAX = 30
const STEP_SMALL = 1e-9
const HALVINGS_MAX = 20
/** A regressor that varies by less than this share of its mean does not vary. */
const SPREAD_MIN = 1e-10
/** Beyond this, an information matrix says nothing of some direction. */
const CONDITION_MAX = 1e12

/**
 * How the odds of an event go with the circumstances, by maximum likelihood.
 *
 * The logarithm of the odds is taken as a sum of a constant and of each regressor times its
 * coefficient, and found by weighted least squares, repeated. Where a regressor parts the events from
 * the rest, the steepest slope is the likeliest, however steep: there is no fit, and the outcome says so.
 *
 * Shape: rows with the same number of regressors, more rows with trials than coefficients; events and
 * trials are whole numbers.
 * Units: coefficients are changes of the log odds a unit of the regressor.
 * Source: P. McCullagh and J. A. Nelder, Generalized Linear Models, 2nd ed. (1989), ch. 4 (from memory).
 */
export function logisticRegression(rows: readonly BinomialRow[]): LogisticFit | NoLogisticFit {
  const counted = checkedRows(rows)
  const standardised = standardise(counted)
  if (standardised === undefined) return { outcome: 'regressors_do_not_vary' }
  const { columns } = standardised
  const fit = bestCoefficients({ rows: counted, columns, offsets: counted.map(() => 0) })
  if (fit === 'no information') return { outcome: 'regressors_do_not_vary' }
  if (fit === 'separated') return { outcome: 'separated' }
  const { coefficients, covariance } = inOwnUnits(fit, standardised)
  const degreesOfFreedom = counted.length - coefficients.length
  return {
    outcome: 'fitted',
    coefficients: coefficients.map((estimate, index) => ({
      estimate,
      standardUncertainty: Math.sqrt(at(covariance, index, index)),
    })),
    covariance,
    deviance: fit.deviance,
    degreesOfFreedom,
    dispersion: pearson(counted, fit.means) / degreesOfFreedom,
  }
}

export interface ColumnsAndOffsets {
  readonly rows: readonly BinomialRow[]
  readonly columns: Rows
  readonly offsets: readonly number[]
}

/**
 * The coefficients of some columns that make the events likeliest, beside what is already settled.
 *
 * Newton's steps from no effect at all, halved where they would go uphill. Where events are parted from
 * the rest, each step adds about one to the log odds, for ever.
 *
 * Shape: a column a regressor, a number a row in each; an offset a row.
 * Units: offsets are log odds. Source: as `logisticRegression`.
 */
export function bestCoefficients(
  asked: ColumnsAndOffsets,
): BestCoefficients | 'no information' | 'separated' {
  let coefficients: readonly number[] = [0, ...asked.columns.map(() => 0)]
  let here = stateAt(asked, coefficients)
  for (let step = 0; step < STEPS_MAX; step += 1) {
    if (conditionNumber(here.information) > CONDITION_MAX) {
      return step === 0 ? 'no information' : 'separated'
    }
    const covariance = inverseOfPositive(here.information)
    const move = covariance.map((row) => innerProduct(row, here.score))
    if (move.every((part) => Math.abs(part) < STEP_SMALL)) {
      return { coefficients, covariance, deviance: here.deviance, means: here.means }
    }
    const next = downhill({ asked, coefficients, move, deviance: here.deviance })
    coefficients = next.coefficients
    here = next.state
  }
  return 'separated'
}

function downhill(from: {
  asked: ColumnsAndOffsets
  coefficients: readonly number[]
  move: readonly number[]
  deviance: number
}): { coefficients: readonly number[]; state: ReturnType<typeof stateAt> } {
  const { asked, coefficients, move, deviance } = from
  for (let halving = 0; ; halving += 1) {
    const moved = coefficients.map((one, index) => one + (move[index] ?? 0) * 0.5 ** halving)
    const state = stateAt(asked, moved)
    if (state.deviance <= deviance * (1 + 1e-12) || halving === HALVINGS_MAX) {
      return { coefficients: moved, state }
    }
  }
}

/** Deviance, its slope and its curvature at some coefficients. */
function stateAt({ rows, columns, offsets }: ColumnsAndOffsets, coefficients: readonly number[]) {
  const [constant = 0, ...slopes] = coefficients
  const means = rows.map(({ trials }, row) => {
    const logOdds = columns.reduce(
      (sum, column, index) => sum + (slopes[index] ?? 0) * (column[row] ?? 0),
      constant + (offsets[row] ?? 0),
    )
    return trials / (1 + Math.exp(-logOdds))
  })
  const surplus = rows.map(({ events }, row) => events - (means[row] ?? 0))
  const weights = rows.map(
    ({ trials }, row) => (means[row] ?? 0) * (1 - (means[row] ?? 0) / trials),
  )
  const all = [rows.map(() => 1), ...columns]
  return {
    means,
    deviance: devianceOf(rows, means),
    score: all.map((column) => innerProduct(column, surplus)),
    information: all.map((one) =>
      all.map((other) =>
        weights.reduce((sum, weight, row) => sum + weight * (one[row] ?? 0) * (other[row] ?? 0), 0),
      ),
    ),
  }
}

/** Twice what the likelihood falls short of that of the rows' own shares. */
function devianceOf(rows: readonly BinomialRow[], means: readonly number[]): number {
  const part = (seen: number, expected: number) =>
    seen === 0 ? 0 : seen * Math.log(seen / expected)
  return rows.reduce((sum, { events, trials }, row) => {
    const expected = means[row] ?? 0
    return sum + 2 * (part(events, expected) + part(trials - events, trials - expected))
  }, 0)
}

function pearson(rows: readonly BinomialRow[], means: readonly number[]): number {
  return rows.reduce((sum, { events, trials }, row) => {
    const expected = means[row] ?? 0
    return sum + (events - expected) ** 2 / (expected * (1 - expected / trials))
  }, 0)
}

/**
 * Regressors about their means in their own spreads, so that no unit drowns another.
 *
 * Shape: a column a regressor; undefined where one does not vary. Units: none in the columns.
 * Source: common practice, no source.
 */
export function standardise(rows: readonly BinomialRow[]): Standardised | undefined {
  const width = rows[0]?.regressors.length ?? 0
  const raw = Array.from({ length: width }, (_, index) =>
    rows.map(({ regressors }) => regressors[index] ?? 0),
  )
  const centres = raw.map(mean)
  const scales = raw.map((column, index) =>
    Math.sqrt(mean(column.map((one) => (one - (centres[index] ?? 0)) ** 2))),
  )
  const varies = scales.every(
    (scale, index) => scale > SPREAD_MIN * Math.max(1e-300, Math.abs(centres[index] ?? 0)),
  )
  if (!varies) return undefined
  const columns = raw.map((column, index) =>
    column.map((one) => (one - (centres[index] ?? 0)) / (scales[index] ?? 1)),
  )
  return { columns, centres, scales }
}

/** Coefficients and their covariance, for regressors as they were given. */
function inOwnUnits(
  { coefficients, covariance }: BestCoefficients,
  { centres, scales }: Standardised,
) {
  const back = coefficients.map((_, row) =>
    coefficients.map((__, column) => {
      if (row === 0 && column === 0) return 1
      const scale = scales[column - 1] ?? 1
      if (row === 0) return -(centres[column - 1] ?? 0) / scale
      return row === column ? 1 / scale : 0
    }),
  )
  const half = back.map((row) => covariance.map((column) => innerProduct(row, column)))
  return {
    coefficients: back.map((row) => innerProduct(row, coefficients)),
    covariance: half.map((row) => back.map((other) => innerProduct(row, other))),
  }
}

function at(matrix: Rows, row: number, column: number): number {
  return present(matrix[row]?.[column], 'the matrix is as large as its regressors')
}

/**
 * The rows that have trials, or a broken promise.
 *
 * Units: counts. Source: the definition of a share.
 */
export function checkedRows(rows: readonly BinomialRow[]): readonly BinomialRow[] {
  const width = rows[0]?.regressors.length ?? 0
  for (const { regressors, events, trials } of rows) {
    assert(regressors.length === width, 'all rows have the same regressors')
    assert(regressors.every(Number.isFinite), 'regressors are finite')
    assert(Number.isSafeInteger(events) && Number.isSafeInteger(trials), 'pieces are whole')
    assert(events >= 0 && events <= trials, 'no more events than trials')
  }
  const counted = rows.filter(({ trials }) => trials > 0)
  assert(counted.length > width + 1, 'there are more rows than coefficients')
  return counted
}
