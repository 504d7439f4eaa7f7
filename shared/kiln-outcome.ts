import type { Decimal } from './decimal.ts'
import { wentFrom, type PotFlows } from './run-flows.ts'
import type { PiecesByStage } from './yield.ts'

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

/**
 * What the pots of a run held of dry clay each, as they went into the bisque fire; null before that.
 *
 * It is what they were leather-hard, less their water; handles that were joined on are in it.
 *
 * Units: grams of dry clay a piece. Source: the definition of a mean.
 */
export function dryGramsAPiece(run: PotFlows): Decimal | null {
  const { dryGrams, pieces } = wentFrom(run, { kinds: ['bisque'], places: ['greenware'] })
  const isFired = pieces.greaterThan(0) && dryGrams.greaterThan(0)
  return isFired ? dryGrams.dividedBy(pieces) : null
}
