import type { Decimal } from './decimal.ts'
import { giveOrTake, howSure, NOT_DISTINGUISHABLE, type HowSure, type Unsure } from './how-sure.ts'

/** What a holding was found to have beyond the books, or short of them. */
export interface FoundDifference {
  readonly holdingId: string
  readonly dryGrams: Decimal
  readonly sure: HowSure
  readonly words: string
}

/** What is found of clay, in words. */
export const CLAY_FOUND = 'of dry clay'
/** What is found of a powder or a glaze, in words: its dry mass. */
export const MATERIAL_FOUND = 'of it, dry,'

/**
 * What was found to differ from the books, in words: one that is within its uncertainty is no finding.
 *
 * Units: grams, dry, of what `ofWhat` says; printed in whole grams. Source: as `howSure`.
 */
export function foundDifference(
  holdingId: string,
  found: Unsure,
  ofWhat: string = CLAY_FOUND,
): FoundDifference {
  const sure = howSure(found)
  const size = `${found.amount.abs().toFixed(0)} g ${ofWhat} ${found.amount.isNegative() ? 'less' : 'more'} than the books said, give or take ${giveOrTake(sure.standardUncertainty).toFixed(0)} g`
  return {
    holdingId,
    dryGrams: found.amount,
    sure,
    words: sure.isDistinguishableFromZero ? `${size}.` : `${size}: ${NOT_DISTINGUISHABLE}.`,
  }
}

/**
 * What was counted beyond the books, or short of them, in words; none where they agree.
 *
 * Units: whole pieces; what the books held is before the count. Source: arithmetic.
 */
export function piecesFound(surplus: Decimal, heldBefore: Decimal): readonly string[] {
  if (surplus.isZero()) return []
  const differs = `${surplus.abs().toFixed()} ${surplus.isNegative() ? 'fewer' : 'more'} than the books said.`
  const hasNoCost = surplus.greaterThan(0) && heldBefore.isZero()
  if (!hasNoCost) return [differs]
  return [
    `${differs} The books had none here to go by, so what was found has no cost. If it was bought, enter its delivery instead.`,
  ]
}
