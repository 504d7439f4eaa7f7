import { toLedgerScale, type Decimal } from './decimal.ts'
import type { PiecesByStage } from './yield.ts'

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

/** What the kilns decided on of a run's pots. */
export interface KilnOutcome {
  readonly firedPieces: number
  readonly lostPieces: number
}

/**
 * How many of a run's pots the kilns have decided on, and how many of them were lost there.
 *
 * Lost are those that broke in the bisque or the glaze firing, and the wasters. Pots lost while they
 * were glazed came through the kiln that they had seen. Null while pots of the run wait between two
 * fires or for grading: losses are told at once and survivors late, so half a run would look bad.
 *
 * Units: pieces. Source: our choice, because a cause is seldom known for sure when a kiln is opened.
 */
export function kilnOutcome(pieces: PiecesByStage): KilnOutcome | null {
  const waiting = pieces.waitingBisque.plus(pieces.waitingGlazed)
  if (!waiting.isZero()) return null
  const lost = pieces.lostInBisqueFiring.plus(pieces.lostInGlazeFiring).plus(pieces.wasters)
  const through = pieces.firsts.plus(pieces.seconds).plus(pieces.lostInGlazing)
  const fired = lost.plus(through)
  if (fired.isZero()) return null
  return { firedPieces: fired.toNumber(), lostPieces: lost.toNumber() }
}
