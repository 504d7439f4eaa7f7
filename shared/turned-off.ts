import { toLedgerScale, type Decimal } from './decimal.ts'

/** What a run was turned from, and what came off it. */
export interface Turning {
  /** Of all its turnings together. */
  readonly turnedOffDryGrams: Decimal
  readonly turnedOffUncertaintyGrams: Decimal
  /** What the books held of the run just before it was first turned. */
  readonly beforeDryGrams: Decimal
}

export interface TurnedOffShare {
  readonly turnedOffFraction: Decimal
  /** Of the turnings' own weighing and water; what the pots themselves are unsure by is not in it. */
  readonly standardUncertainty: Decimal
}

/**
 * The share of a run's dry clay that was turned off it: dry turnings over dry pots before turning.
 *
 * Null where the books held less before than came off, which says that they were told in another order
 * than it happened in.
 *
 * Units: grams, to fractions at six digits. Source: the definition of a share.
 */
export function turnedOffShare(turning: Turning): TurnedOffShare | null {
  const { turnedOffDryGrams, turnedOffUncertaintyGrams, beforeDryGrams } = turning
  const isTold = beforeDryGrams.greaterThan(0) && turnedOffDryGrams.lessThan(beforeDryGrams)
  if (!isTold || turnedOffDryGrams.lessThan(0)) return null
  return {
    turnedOffFraction: toLedgerScale(turnedOffDryGrams.dividedBy(beforeDryGrams)),
    standardUncertainty: toLedgerScale(turnedOffUncertaintyGrams.dividedBy(beforeDryGrams)),
  }
}
