import { assert } from './assert.ts'
import type { Rows } from './linear-algebra.ts'

/** Flows between nodes, some of them measured, and what must hold between them. */
export interface FlowNetwork {
  /** A row a balance, a column a flow: +1 where the flow comes in, -1 where it leaves, else 0. */
  readonly balances: Rows
  /** In the order of the columns; null where nobody measured. */
  readonly measured: readonly (number | null)[]
  /**
   * A variance a flow, or the covariance of all, in the unit of the flows squared; what stands there
   * for a flow that was not measured is not looked at.
   */
  readonly covariance: readonly number[] | Rows
}

/** A network with what was measured apart from what was not. */
export interface KnownNetwork {
  readonly measured: readonly (number | null)[]
  readonly balances: Rows
  /** Where the measured flows stand among all, and where the others do. */
  readonly places: readonly number[]
  readonly missing: readonly number[]
  /** Of the measured flows, in their order. */
  readonly values: readonly number[]
  readonly covariance: Rows
}

/** How far the two halves of a covariance may differ, as a share of it. */
const ROUNDING = 1e-9

/**
 * A network with its measured flows apart, or a broken promise.
 *
 * Shape: as `FlowNetwork`; at least one flow is measured. Units: as given.
 * Source: a covariance is finite, symmetric, and not below zero on its diagonal.
 */
export function knownNetwork({ balances, measured, covariance }: FlowNetwork): KnownNetwork {
  assert(
    balances.length > 0 && balances.every((row) => row.length === measured.length),
    'every balance speaks of every flow',
  )
  const places = measured.flatMap((value, flow) => (value === null ? [] : [flow]))
  const missing = measured.flatMap((value, flow) => (value === null ? [flow] : []))
  assert(places.length > 0, 'something was measured')
  const values = places.map((place) => finite(measured[place]))
  const kept = places.map((one) =>
    places.map((other) => finite(entryOf(covariance, { one, other }))),
  )
  kept.forEach((row, one) =>
    row.forEach((value, other) => {
      assert(one !== other || value >= 0, 'a variance is not below zero')
      const gap = Math.abs(value - (kept[other]?.[one] ?? NaN))
      assert(gap <= ROUNDING * Math.abs(value), 'a covariance is the same both ways')
    }),
  )
  return { measured, balances, places, missing, values, covariance: kept }
}

function entryOf(
  covariance: FlowNetwork['covariance'],
  { one, other }: { one: number; other: number },
): number | undefined {
  const row = covariance[one]
  if (typeof row === 'object') return row[other]
  return one === other ? row : 0
}

function finite(value: number | null | undefined): number {
  assert(typeof value === 'number' && Number.isFinite(value), 'a network is of finite numbers')
  return value
}
