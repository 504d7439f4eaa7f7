import { assert, present } from './assert.ts'
import { choleskyRoot, type Rows } from './linear-algebra.ts'
import { normalQuantile, tQuantile, welchSatterthwaite } from './statistics.ts'

/**
 * A value and what makes it unsure: for each independent source, by how much the value would move if
 * the source were off by one of its standard uncertainties, with its sign.
 *
 * Two values that share a source move together. So one wrong water content that was used for forty
 * balls is one source, and forty balls weighed are forty more.
 */
export interface Uncertain {
  readonly value: number
  readonly contributions: ReadonlyMap<string, number>
}

/** A value that goes into another, and how much the other moves with it. */
export interface Influence {
  readonly of: Uncertain
  readonly partial: number
}

/** How often an interval shall hold the true value, and how well its width is known. */
export interface Coverage {
  /** From 0 to 1, both excluded; 0.95 where nothing is said. */
  readonly coverage?: number
  /** Behind the standard uncertainty; infinite where nothing is said. */
  readonly degreesOfFreedom?: number
}

const USUAL_COVERAGE = 0.95
const NUMERIC_STEP = 1e-2

/** A value without doubt, such as a count or a definition. Units: as given. Source: the definition. */
export function exactly(value: number): Uncertain {
  return { value: finite(value), contributions: new Map() }
}

/**
 * A value that one source of its own makes unsure.
 *
 * Units: as given. Source: GUM, JCGM 100:2008, 4.1 (from memory).
 */
export function measured(reading: {
  readonly value: number
  readonly standardUncertainty: number
  readonly source: string
}): Uncertain {
  const { value, standardUncertainty, source } = reading
  assert(finite(standardUncertainty) >= 0, 'an uncertainty is not below zero')
  return made(value, new Map([[source, standardUncertainty]]))
}

/**
 * Values that were measured together and so may be off together.
 *
 * Their covariance is split into as many independent sources as there are values.
 *
 * Shape: n values, a covariance of n by n with variance in every direction.
 * Units: of each value; their products in the covariance.
 * Source: GUM, JCGM 100:2008, 5.2 (from memory); the split is the triangular root of the covariance.
 */
export function measuredTogether(readings: {
  readonly values: readonly number[]
  readonly covariance: Rows
  readonly source: string
}): Uncertain[] {
  const { values, covariance, source } = readings
  assert(values.length === covariance.length, 'each value has a variance')
  return choleskyRoot(covariance).map((row, index) => {
    const shares = row.map((share, column) => [`${source}, part ${String(column + 1)}`, share])
    const value = present(values[index], 'each variance has a value')
    return made(value, new Map(shares as [string, number][]))
  })
}

/**
 * A value worked out from others, given how much it moves with each of them.
 *
 * Contributions of one source add up with their signs before anything is squared.
 *
 * Units: partials in the value's unit for one unit of what they belong to.
 * Source: GUM, JCGM 100:2008, 5.2.2 (from memory), the law of propagation of uncertainty.
 */
export function workedOut(value: number, influences: readonly Influence[]): Uncertain {
  const contributions = new Map<string, number>()
  for (const { of, partial } of influences) {
    for (const [source, share] of of.contributions) {
      contributions.set(source, (contributions.get(source) ?? 0) + finite(partial) * share)
    }
  }
  return made(value, contributions)
}

/** The sum of some values. Units: as given. Source: as `workedOut`. */
export function sum(terms: readonly Uncertain[]): Uncertain {
  const value = terms.reduce((total, term) => total + term.value, 0)
  return workedOut(
    value,
    terms.map((of) => ({ of, partial: 1 })),
  )
}

/** One value less another. Units: as given. Source: as `workedOut`. */
export function difference(one: Uncertain, other: Uncertain): Uncertain {
  return workedOut(one.value - other.value, [
    { of: one, partial: 1 },
    { of: other, partial: -1 },
  ])
}

/** A value times an exact number. Units: of the product. Source: as `workedOut`. */
export function scaled(one: Uncertain, factor: number): Uncertain {
  return workedOut(one.value * factor, [{ of: one, partial: factor }])
}

/** A value times another. Units: of the product. Source: as `workedOut`. */
export function product(one: Uncertain, other: Uncertain): Uncertain {
  return workedOut(one.value * other.value, [
    { of: one, partial: other.value },
    { of: other, partial: one.value },
  ])
}

/** A value over another that is not zero. Units: of the quotient. Source: as `workedOut`. */
export function quotient(one: Uncertain, other: Uncertain): Uncertain {
  assert(other.value !== 0, 'nothing is divided by zero')
  const value = one.value / other.value
  return workedOut(value, [
    { of: one, partial: 1 / other.value },
    { of: other, partial: -value / other.value },
  ])
}

/**
 * Any function of several values.
 *
 * Partial derivatives that are not given are read off it, a hundredth of a standard uncertainty apart.
 *
 * Shape: one partial for each input. Units: of the function.
 * Source: GUM, JCGM 100:2008, 5.1.3 and the second note there (from memory).
 */
export function functionOf(
  inputs: readonly Uncertain[],
  compute: (values: readonly number[]) => number,
  partials?: (values: readonly number[]) => readonly number[],
): Uncertain {
  const values = inputs.map((input) => input.value)
  const slopes = partials?.(values) ?? numericPartials(inputs, compute)
  assert(slopes.length === inputs.length, 'there is a partial derivative for each input')
  return workedOut(
    compute(values),
    inputs.map((of, index) => ({ of, partial: slopes[index] ?? 0 })),
  )
}

/** How unsure a value is: one standard deviation. Units: of the value. Source: as `workedOut`. */
export function standardUncertaintyOf(one: Uncertain): number {
  return Math.hypot(...one.contributions.values())
}

/**
 * How far two values are off together.
 *
 * Units: from -1 to 1; 0 if either is exact. Source: GUM, JCGM 100:2008, C.3.6 (from memory).
 */
export function correlationBetween(one: Uncertain, other: Uncertain): number {
  const both = standardUncertaintyOf(one) * standardUncertaintyOf(other)
  if (both === 0) return 0
  let shared = 0
  for (const [source, share] of one.contributions) {
    shared += share * (other.contributions.get(source) ?? 0)
  }
  return Math.min(1, Math.max(-1, shared / both))
}

/**
 * The degrees of freedom behind a value, from those behind each of its sources.
 *
 * A source that is not named is taken as known exactly, with infinite degrees.
 *
 * Units: degrees of freedom, not cut to a whole number.
 * Source: GUM, JCGM 100:2008, G.4.1 (from memory).
 */
export function effectiveDegreesOfFreedom(
  one: Uncertain,
  degreesBySource: ReadonlyMap<string, number>,
): number {
  const shares = [...one.contributions].map(([source, share]) => ({
    standardUncertainty: Math.abs(share),
    degreesOfFreedom: degreesBySource.get(source) ?? Number.POSITIVE_INFINITY,
  }))
  return welchSatterthwaite(shares)
}

/**
 * The interval, even on both sides, that holds the true value as often as it says.
 *
 * Units: of the value. Source: GUM, JCGM 100:2008, G.3 (from memory): Student's t with few degrees of
 * freedom, the normal distribution with infinitely many.
 */
export function coverageInterval(
  one: Uncertain,
  wanted: Coverage = {},
): { readonly from: number; readonly to: number } {
  const { coverage = USUAL_COVERAGE, degreesOfFreedom = Number.POSITIVE_INFINITY } = wanted
  assert(coverage > 0 && coverage < 1, 'an interval holds more than nothing and less than all')
  assert(degreesOfFreedom > 0, 'degrees of freedom are above zero')
  const upTo = (1 + coverage) / 2
  const factor = Number.isFinite(degreesOfFreedom)
    ? tQuantile(upTo, degreesOfFreedom)
    : normalQuantile(upTo)
  const half = factor * standardUncertaintyOf(one)
  return { from: one.value - half, to: one.value + half }
}

/**
 * True where a value is too far from zero to be none: its interval leaves zero out.
 *
 * Units: none. Source: our choice, the usual reading of a coverage interval.
 */
export function distinguishableFromZero(one: Uncertain, wanted: Coverage = {}): boolean {
  const { from, to } = coverageInterval(one, wanted)
  return from > 0 || to < 0
}

function numericPartials(
  inputs: readonly Uncertain[],
  compute: (values: readonly number[]) => number,
): number[] {
  const values = inputs.map((input) => input.value)
  return inputs.map((input, index) => {
    const step = NUMERIC_STEP * standardUncertaintyOf(input)
    // What is exact moves nothing, whatever its slope.
    if (step === 0) return 0
    const at = (moved: number) => compute(values.with(index, moved))
    return (at(input.value + step) - at(input.value - step)) / (2 * step)
  })
}

function made(value: number, contributions: ReadonlyMap<string, number>): Uncertain {
  finite(value)
  for (const share of contributions.values()) finite(share)
  return { value, contributions }
}

function finite(value: number): number {
  assert(Number.isFinite(value), 'a value and its doubt are finite numbers')
  return value
}
