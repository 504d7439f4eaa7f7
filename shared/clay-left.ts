import type { Decimal } from './decimal.ts'

/** Over so many weeks the pace of throwing is taken. Our choice: two firing cycles. */
export const WEEKS_LOOKED_BACK = 8

/**
 * Clay for fewer weeks than this is too little to wait with an order.
 *
 * Units: weeks. Source: handbook, section 9, number 31: a reserve for one firing cycle, 3 to 4 weeks.
 */
export const RESERVE_WEEKS = 4

export interface ClayAtHand {
  /** In bags and on the bench. */
  readonly usableDryGrams: Decimal
  /** Thrown and joined on in the weeks looked back on. */
  readonly thrownDryGrams: Decimal
}

/**
 * For how many weeks the clay lasts if throwing goes on as it did; undefined where nothing was thrown.
 *
 * Units: weeks, to 60 digits. Source: the definition, usable over used per week.
 */
export function weeksOfClay({ usableDryGrams, thrownDryGrams }: ClayAtHand): Decimal | undefined {
  if (thrownDryGrams.lessThanOrEqualTo(0)) return undefined
  return usableDryGrams.times(WEEKS_LOOKED_BACK).dividedBy(thrownDryGrams)
}
