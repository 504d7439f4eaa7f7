import { present } from './assert.ts'
import { knownNetwork, type FlowNetwork, type KnownNetwork } from './flow-network.ts'
import {
  choleskyRoot,
  independentRows,
  innerProduct,
  inverse,
  pseudoInverse,
  timesMatrix,
  timesVector,
  transposed,
  vectorsAcross,
  type Rows,
} from './linear-algebra.ts'
import { chiSquareCdf } from './statistics.ts'

/**
 * How a flow is known: measured and checked by the balances; measured, and nothing else speaks of it;
 * worked out from the others; or open, because nothing determines it.
 */
export type FlowStanding = 'checked' | 'unchecked' | 'worked_out' | 'open'

export interface ReconciledFlow {
  readonly standing: FlowStanding
  /** Null where the flow is open. */
  readonly value: number | null
  readonly standardUncertainty: number | null
  /** What was added to the measurement; null where there was none. */
  readonly adjustment: number | null
}

/** How far the measurements are from all balances, against how far chance takes them. */
export interface GlobalTest {
  readonly chiSquare: number
  readonly degreesOfFreedom: number
  /** How often chance alone takes them at least so far; 1 where nothing was to be checked. */
  readonly pValue: number
}

/**
 * The balances turned so that chance alone gives each a deviation of one, independently: what the
 * measurements leave over of them, and what one unit of each flow would add (a column a flow).
 */
export interface ResidualSpace {
  readonly residual: readonly number[]
  readonly effects: Rows
}

export interface Reconciliation {
  readonly flows: readonly ReconciledFlow[]
  /** Of the reconciled flows; rows and columns of open flows are zero and say nothing. */
  readonly covariance: Rows
  readonly globalTest: GlobalTest
  readonly residuals: ResidualSpace
}

/** Below this, what is left of a number of the size of one is rounding. */
const ROUNDING = 1e-9

/**
 * The flows that obey all balances and are nearest to what was measured, the sure ones moved least.
 *
 * Each measurement is moved by its share of what the balances leave over: with measurements y of
 * covariance V and balances A, to y - V A'(A V A')^-1 A y. A flow that nobody measured is first taken
 * out of the balances, and worked out afterwards where they determine it.
 *
 * Shape: one column a flow; balances may repeat each other; uncertainties within a factor of ten thousand
 * of each other, beyond which digits are lost. Flows may come out below zero.
 * Units: one unit for all flows, its square for variances.
 * Source: D. R. Kuehn and H. Davidson, Chem. Eng. Progress 57 (1961) 6, 44-47; unmeasured flows by
 * projection, C. M. Crowe et al., AIChE J. 29 (1983), 881-888 (both from memory).
 */
export function reconciled(network: FlowNetwork): Reconciliation {
  const known = knownNetwork(network)
  const reduced = reducedBalances(known)
  const effects = whitened(reduced, known.covariance)
  const residual = timesVector(effects, known.values)
  const pulls = known.covariance.map((row) => timesVector(effects, row))
  const adjusted = movedUntilStill(known.values, pulls, effects)
  const adjustedCovariance = known.covariance.map((row, one) =>
    row.map((value, other) => value - innerProduct(pulls[one] ?? [], pulls[other] ?? [])),
  )
  const fromMeasured = spreadOut(known)
  const covariance = covarianceOfAll(fromMeasured, adjustedCovariance)
  const flows = fromMeasured.map((row, flow): ReconciledFlow => {
    const standing = standingOf({ row, flow, known, reduced })
    if (row === null) return { standing, value: null, standardUncertainty: null, adjustment: null }
    const value = innerProduct(row, adjusted)
    const before = known.measured[flow] ?? null
    return {
      standing,
      value,
      standardUncertainty: Math.sqrt(Math.max(0, covariance[flow]?.[flow] ?? 0)),
      adjustment: before === null ? null : value - before,
    }
  })
  const residuals = { residual, effects: atAllFlows(effects, known) }
  return {
    flows,
    covariance,
    globalTest: globalTest(innerProduct(residual, residual), residual.length),
    residuals,
  }
}

/**
 * The test whether the balances leave over more than chance does.
 *
 * Shape: the sum of squares of so many residuals, each with a deviation of one by chance alone.
 * Units: none.
 * Source: P. M. Reilly and R. E. Carpani, 13th Canadian Chem. Eng. Conf. (1963) (from memory).
 */
export function globalTest(chiSquare: number, degreesOfFreedom: number): GlobalTest {
  const pValue = degreesOfFreedom === 0 ? 1 : 1 - chiSquareCdf(chiSquare, degreesOfFreedom)
  return { chiSquare, degreesOfFreedom, pValue }
}

/** The balances without the flows that nobody measured, none of them said twice. */
function reducedBalances({ balances, places, missing }: KnownNetwork): Rows {
  const ofMeasured = columnsAt(balances, places)
  const free = missing.length === 0 ? null : vectorsAcross(columnsAt(balances, missing))
  if (free?.length === 0) return []
  const without = free === null ? ofMeasured : timesMatrix(free, ofMeasured)
  const kept = independentRows(without)
  const reduced = without.filter((_, row) => kept.includes(row))
  // A flow of which no balance speaks is left with rounding, which must not pass for a voice.
  const isSeen = places.map((_, place) =>
    reduced.some((balance) => Math.abs(balance[place] ?? 0) > ROUNDING),
  )
  return reduced.map((balance) =>
    balance.map((value, place) => (isSeen[place] === true ? value : 0)),
  )
}

/** The balances turned and scaled so that the covariance of what they leave over is one. */
function whitened(reduced: Rows, covariance: Rows): Rows {
  if (reduced.length === 0) return []
  const left = timesMatrix(timesMatrix(reduced, covariance), transposed(reduced))
  // Rounding may make the two halves differ in their last digit.
  const even = left.map((row, i) => row.map((one, j) => (one + (left[j]?.[i] ?? one)) / 2))
  return timesMatrix(inverse(choleskyRoot(even)), reduced)
}

/** Each measurement less what the residuals pull it by. */
function moved(values: readonly number[], pulls: Rows, residual: readonly number[]): number[] {
  return values.map((value, index) => value - innerProduct(pulls[index] ?? [], residual))
}

/** More turns than ever helped. */
const TURNS_MAX = 6

/** Each turn takes out what rounding left of the one before, until a turn leaves no less than it found. */
function movedUntilStill(values: readonly number[], pulls: Rows, effects: Rows): readonly number[] {
  let best = { values, left: Infinity }
  let next = values
  for (let turn = 0; turn < TURNS_MAX; turn += 1) {
    next = moved(next, pulls, timesVector(effects, next))
    const left = Math.max(0, ...timesVector(effects, next).map(Math.abs))
    if (left >= best.left) break
    best = { values: next, left }
  }
  return best.values
}

/** Each flow as a sum of the measured ones; null where they do not determine it. */
function spreadOut({
  balances,
  measured,
  places,
  missing,
}: KnownNetwork): (readonly number[] | null)[] {
  const units = measured.map((_, flow) => places.map((place) => (place === flow ? 1 : 0)))
  if (missing.length === 0) return units
  const ofMissing = columnsAt(balances, missing)
  const back = pseudoInverse(ofMissing)
  const fromMeasured = timesMatrix(back, columnsAt(balances, places))
  const resolved = timesMatrix(back, ofMissing)
  return units.map((unit, flow) => {
    const index = missing.indexOf(flow)
    if (index === -1) return unit
    const isOpen = Math.abs((resolved[index]?.[index] ?? 0) - 1) > ROUNDING
    return isOpen ? null : (fromMeasured[index] ?? []).map((value) => -value)
  })
}

/** The covariance of all flows, from that of the measured ones. */
function covarianceOfAll(fromMeasured: readonly (Rows[number] | null)[], measured: Rows): Rows {
  // Without unmeasured flows all are what they are, and there is nothing to multiply.
  if (fromMeasured.length === measured.length) return measured
  const rows = fromMeasured.map((row) => row ?? measured.map(() => 0))
  return timesMatrix(timesMatrix(rows, measured), transposed(rows))
}

function standingOf(asked: {
  row: readonly number[] | null
  flow: number
  known: KnownNetwork
  reduced: Rows
}): FlowStanding {
  if (asked.row === null) return 'open'
  const place = asked.known.places.indexOf(asked.flow)
  if (place === -1) return 'worked_out'
  const isSeen = asked.reduced.some((balance) => balance[place] !== 0)
  return isSeen ? 'checked' : 'unchecked'
}

/** The effect of every flow; none where nobody measured. */
function atAllFlows(effects: Rows, { measured, places }: KnownNetwork): Rows {
  return effects.map((row) => measured.map((_, flow) => row[places.indexOf(flow)] ?? 0))
}

function columnsAt(matrix: Rows, places: readonly number[]): number[][] {
  return matrix.map((row) => places.map((place) => present(row[place], 'a column a flow')))
}
