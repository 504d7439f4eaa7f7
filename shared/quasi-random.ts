import { assert, present } from './assert.ts'
import { normalQuantile } from './statistics.ts'

/** A value and how much it counts beside the others. */
export interface Weighted {
  readonly value: number
  readonly weight: number
}

const BASES = [2, 3, 5, 7, 11, 13]
/** The first points of the longer bases run along a line, so they are passed over. */
const PASSED_OVER = 20

/**
 * Points that stand for independent standard normal quantities, the same on every call.
 *
 * They fill the space more evenly than chance does: some hundred of them give the outer twentieths to
 * a twentieth of a standard deviation.
 *
 * Shape: `count` points of up to six dimensions, the earlier ones filled more evenly.
 * Units: standard deviations.
 * Source: J. H. Halton, Numerische Mathematik 2 (1960), 84-90 (from memory).
 */
export function normalPoints(count: number, dimensions: number): number[][] {
  assert(dimensions <= BASES.length, 'there is a base for each dimension')
  return Array.from({ length: count }, (_, index) =>
    BASES.slice(0, dimensions).map((base) => normalQuantile(mirrored(index + PASSED_OVER, base))),
  )
}

/** A number's digits in a base, mirrored behind the point. */
function mirrored(index: number, base: number): number {
  let left = index
  let place = 1 / base
  let sum = 0
  while (left > 0) {
    sum += (left % base) * place
    left = Math.floor(left / base)
    place /= base
  }
  return sum
}

/**
 * The values below which given shares of the weight lie.
 *
 * Between two values the share grows in a straight line from the middle of one's weight to the middle
 * of the other's.
 *
 * Shape: one value or more, some weight; values may be infinite. Units: of the values; shares from 0
 * to 1. Source: our choice, the weighted form of the usual definition with midpoints.
 */
export function weightedQuantiles(
  points: readonly Weighted[],
  shares: readonly number[],
): number[] {
  const sorted = points.filter(({ weight }) => weight > 0).sort((a, b) => a.value - b.value)
  const total = sorted.reduce((sum, { weight }) => sum + weight, 0)
  assert(total > 0 && Number.isFinite(total), 'there is some weight')
  let passed = 0
  const middles = sorted.map(({ weight }) => {
    passed += weight
    return (passed - weight / 2) / total
  })
  return shares.map((share) => {
    const above = middles.findIndex((middle) => middle >= share)
    if (above === 0) return present(sorted[0], 'there is a first').value
    if (above === -1) return present(sorted.at(-1), 'there is a last').value
    return between(sorted, { above, at: share, middles })
  })
}

function between(
  sorted: readonly Weighted[],
  where: { above: number; at: number; middles: readonly number[] },
): number {
  const { above, at, middles } = where
  const low = present(sorted[above - 1], 'a lower neighbour').value
  const high = present(sorted[above], 'an upper neighbour').value
  // Between a time and never there is nothing to interpolate.
  if (!Number.isFinite(high)) return high
  const from = middles[above - 1] ?? 0
  const to = middles[above] ?? 1
  return low + ((high - low) * (at - from)) / (to - from)
}
