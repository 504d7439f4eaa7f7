import { assert } from './assert.ts'
import { ZERO } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { shareOutLayers, type LayeredCost } from './cost-layer.ts'
import { proportionalPart } from './quantity.ts'
import { Refusal } from './refusal.ts'

export interface CostedClay {
  readonly dryGrams: Decimal
  readonly cost: Decimal
}

/**
 * The cost that goes with the dry clay that leaves a holding.
 *
 * Everything in a holding costs the same a gram, so what leaves takes its proportional share. No
 * price a gram is worked out on the way, because it would have to be rounded. When all the clay
 * leaves, all the cost leaves.
 *
 * Units: grams, and money at ledger scale.
 * Refuses: `clay_must_be_enough`.
 * Source: the moving weighted average of IAS 2, paragraphs 25 and 27 (from memory).
 */
export function costLeaving({ dryGrams, cost }: CostedClay, dryGramsLeaving: Decimal): Decimal {
  assert(dryGramsLeaving.greaterThanOrEqualTo(0), 'what leaves does not come')
  if (dryGramsLeaving.greaterThan(dryGrams)) {
    throw new Refusal(
      'clay_must_be_enough',
      `There are ${dryGrams.toFixed()} g of dry clay here; ${dryGramsLeaving.toFixed()} g were to leave.`,
    )
  }
  // Nothing out of nothing would otherwise count as all of it.
  if (dryGramsLeaving.isZero()) return ZERO
  return proportionalPart({ amount: cost, part: dryGramsLeaving, whole: dryGrams })
}

/**
 * The cost of lost pieces, shared out over those that survived, each layer by itself.
 *
 * Each survivor takes its share by dry mass; the shares make up the cost to the last unit.
 *
 * Shape: one share for each survivor, in their order; at least one survivor.
 * Units: money at ledger scale.
 * Source: normal spoilage is a cost of the good units: Horngren, Cost Accounting 14e, ch. 18.
 */
export function costLeftToSurvivors(
  cost: LayeredCost,
  survivors: readonly { readonly dryGrams: Decimal }[],
): LayeredCost[] {
  return shareOutLayers(
    cost,
    survivors.map(({ dryGrams }) => dryGrams),
  )
}
