import { present } from '../shared/assert.ts'
import { shareOut } from '../shared/money.ts'
import type { Decimal } from '../shared/decimal.ts'
import type { DryMassEstimate } from '../shared/dry-mass.ts'
import type { PotPlace } from '../shared/place.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Book, Slot } from './book.ts'
import { holdingsOfRuns } from './making.ts'
import { findRun } from './studio.ts'

/** The name of the holding of a run's pieces at a place. Refuses: `run_not_found`. */
export async function potsOf(
  book: Book,
  asked: { runId: string; place: PotPlace; grade?: string },
) {
  const run = await findRun(book.ledger, book.studioId, asked.runId)
  return {
    place: asked.place,
    bodyId: run.bodyId,
    runId: run.runId,
    ...(asked.grade === undefined ? {} : { grade: asked.grade }),
  }
}

/** All of a run's pieces inside, wherever they are, locked. */
export async function allPotsOf(book: Book, runId: string): Promise<Slot[]> {
  await findRun(book.ledger, book.studioId, runId)
  return book.holdById(await holdingsOfRuns(book, [runId]))
}

/**
 * Refuses where fewer pieces are at a stage than were named.
 *
 * Refuses: `stage_must_hold_the_pieces`.
 */
export function refuseMoreThanThere(
  book: Book,
  slot: Slot,
  asked: { pieces: Decimal; doing: string; pointer: string },
): void {
  const { pieces } = book.now(slot)
  if (asked.pieces.lessThanOrEqualTo(pieces)) return
  throw new Refusal(
    'stage_must_hold_the_pieces',
    `${pieces.toFixed()} pieces of this run can be ${asked.doing}; ${asked.pieces.toFixed()} were named. Record first how the others came here, or count them.`,
    { pointer: asked.pointer, facts: { holdingId: slot.holdingId, held: pieces.toFixed() } },
  )
}

/**
 * Takes one measured amount of clay from several runs together, from each by its dry mass.
 *
 * Units: grams; the parts sum to the whole. Refuses: `clay_must_be_enough`.
 */
export async function takeFromRuns(
  book: Book,
  taken: { runs: readonly Slot[]; goal: Slot; estimate: DryMassEstimate },
): Promise<void> {
  const { runs, goal, estimate } = taken
  const weights = runs.map((run) => book.now(run).dryGrams)
  const dryParts = shareOut(estimate.dryGrams, weights)
  const waterParts = shareOut(estimate.waterGrams, weights)
  const doubtParts = shareOut(estimate.standardUncertaintyGrams, weights)
  for (const [index, run] of runs.entries()) {
    const part = (parts: readonly Decimal[]) => present(parts[index], 'each run has its part')
    await book.moveMeasured(run, goal, {
      estimate: {
        ...estimate,
        dryGrams: part(dryParts),
        waterGrams: part(waterParts),
        standardUncertaintyGrams: part(doubtParts),
      },
    })
  }
}
