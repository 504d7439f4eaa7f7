import { assert } from './assert.ts'
import { ZERO, type Decimal } from './decimal.ts'
import { shareOut } from './money.ts'

/** How far units have come in one kind of cost: whole units times how complete they are. */
export interface EquivalentUnits {
  readonly good: Decimal
  readonly normallySpoiled: Decimal
  readonly abnormallySpoiled: Decimal
  readonly inProcess: Decimal
}

/** One kind of cost, such as materials or the fire, and the units that it was spent on. */
export interface CostPool {
  readonly cost: Decimal
  readonly equivalentUnits: EquivalentUnits
}

export interface SpoilageCosts {
  readonly goodBeforeSpoilage: Decimal
  readonly normalSpoilage: Decimal
  /** The good units with what was normally spoiled on the way to them. */
  readonly goodWithNormal: Decimal
  readonly abnormalSpoilage: Decimal
  readonly inProcess: Decimal
}

/**
 * What good, spoiled and unfinished units cost, by the weighted average.
 *
 * Each kind of cost is shared by equivalent units, without a price a unit on the way, which would have
 * to be rounded. Normal spoilage is a cost of the good units; abnormal spoilage stands by itself.
 *
 * Shape: one kind of cost or more, each with some units. Units: money at ledger scale; the parts make
 * up the whole to the last unit.
 * Errors: units below zero, or a cost finer than the ledger, are a defect.
 * Source: C. T. Horngren, Cost Accounting 14e, ch. 18 (from memory); IAS 2 paragraph 16 (a) leaves
 * abnormal waste out of the cost of stock.
 */
export function spoilageByWeightedAverage(pools: readonly CostPool[]): SpoilageCosts {
  assert(pools.length > 0, 'there is a cost to share')
  const shares = pools.map(({ cost, equivalentUnits: units }) =>
    shareOut(cost, [units.good, units.normallySpoiled, units.abnormallySpoiled, units.inProcess]),
  )
  const at = (place: number) => shares.reduce((sum, share) => sum.plus(share[place] ?? ZERO), ZERO)
  return {
    goodBeforeSpoilage: at(0),
    normalSpoilage: at(1),
    goodWithNormal: at(0).plus(at(1)),
    abnormalSpoilage: at(2),
    inProcess: at(3),
  }
}

export interface SplitLoss {
  readonly normalPieces: Decimal
  readonly abnormalPieces: Decimal
}

/**
 * How much of what was spoiled is normal, where the norm is said as a share of the good units.
 *
 * Units: pieces; the norm is a fraction of the good units, not of all.
 * Errors: anything below zero is a defect.
 * Source: Horngren, as `spoilageByWeightedAverage`.
 */
export function normalSpoilageOfGood(counted: {
  readonly goodUnits: Decimal
  readonly spoiledUnits: Decimal
  readonly normalFractionOfGood: Decimal
}): SplitLoss {
  const { goodUnits, spoiledUnits, normalFractionOfGood } = counted
  assert(!normalFractionOfGood.isNegative() && !goodUnits.isNegative(), 'a norm is not below zero')
  const allowance = goodUnits.times(normalFractionOfGood)
  return splitLoss({ allowance, lostBefore: ZERO, lostNow: spoiledUnits })
}

/**
 * How many of the pieces lost now are within what is normal for their run, and how many beyond.
 *
 * What the run lost before has used up its part of the allowance.
 *
 * Units: pieces. Errors: fewer than none lost, or allowed, is a defect.
 * Source: our choice; arithmetic.
 */
export function splitLoss(loss: {
  readonly allowance: Decimal
  readonly lostBefore: Decimal
  readonly lostNow: Decimal
}): SplitLoss {
  const { allowance, lostBefore, lostNow } = loss
  assert(
    [allowance, lostBefore, lostNow].every((pieces) => pieces.greaterThanOrEqualTo(0)),
    'pieces are not below zero',
  )
  const left = allowance.greaterThan(lostBefore) ? allowance.minus(lostBefore) : ZERO
  const normalPieces = left.lessThan(lostNow) ? left : lostNow
  return { normalPieces, abnormalPieces: lostNow.minus(normalPieces) }
}

/**
 * The cost of lost pieces, shared between what is normal and what is beyond it.
 *
 * Each amount is shared by pieces, so that a cost told by layers (clay, glaze, fire and so on, not their
 * sum) stays in its layers, and adds up.
 *
 * Shape: for each amount one of each, in their order; at least one piece lost.
 * Units: money at ledger scale; the two make up each amount to the last unit.
 * Errors: no piece at all is a defect.
 * Source: as `shareOut`; by pieces is our choice, because pots of one run cost alike.
 */
export function costOfSplitLoss(
  amounts: readonly Decimal[],
  { normalPieces, abnormalPieces }: SplitLoss,
): { readonly normal: readonly Decimal[]; readonly abnormal: readonly Decimal[] } {
  assert(normalPieces.plus(abnormalPieces).greaterThan(0), 'some piece was lost')
  const shares = amounts.map((amount) => shareOut(amount, [normalPieces, abnormalPieces]))
  return {
    normal: shares.map(([normal]) => normal ?? ZERO),
    abnormal: shares.map(([, abnormal]) => abnormal ?? ZERO),
  }
}
