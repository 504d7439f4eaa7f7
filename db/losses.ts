import { present } from '../shared/assert.ts'
import { costLeftToSurvivors } from '../shared/cost.ts'
import { ZERO, type Decimal } from '../shared/decimal.ts'
import { ALL_CLAY, type LayeredCost } from '../shared/cost-layer.ts'
import { doubtOfPart, NO_DOUBT, type Doubt } from '../shared/doubt.ts'
import type { LossStage } from '../shared/place.ts'
import { proportionalPart } from '../shared/quantity.ts'
import { partByShare } from '../shared/parting.ts'
import type { Book, Slot } from './book.ts'
import { firedPotsOf } from './pots.ts'
import { loss } from './schema.ts'

export interface FiredLoss {
  readonly runId: string
  readonly pots: Slot
  readonly pieces: Decimal
}

/**
 * Fired pieces are lost: their clay goes to waste, and what they cost stays with the survivors of
 * their run that were fired too, by dry mass. Where none of those is left, the cost is lost with them:
 * it must not run back into green clay and so into the bucket.
 *
 * Gives what the pieces had cost and left behind. Units: money, ledger scale.
 */
export async function loseFired(book: Book, lost: FiredLoss): Promise<Decimal> {
  const { runId, pots, pieces } = lost
  const everywhere = await firedPotsOf(book, runId)
  const held = book.now(pots)
  const waste = await book.outside('waste', pots.ref.bodyId)
  const dryGrams = proportionalPart({ amount: held.dryGrams, part: pieces, whole: held.pieces })
  const leaving = partByShare(held, { dryGrams, pieces })
  const { cost, costLayers, costDoubt } = leaving
  const costless = { cost: ZERO, costLayers: ALL_CLAY, costDoubt: NO_DOUBT }
  book.shift({ from: pots, to: waste, what: { ...leaving, ...costless } })
  const survivors = everywhere.filter((slot) => book.now(slot).pieces.greaterThan(0))
  if (survivors.length === 0) {
    book.shiftExactly(pots, waste, { cost, costLayers, costDoubt })
    return ZERO
  }
  shareCost(book, { pots, survivors, left: { cost, costLayers, costDoubt } })
  return cost
}

function shareCost(
  book: Book,
  shared: {
    pots: Slot
    survivors: readonly Slot[]
    left: LayeredCost & { readonly costDoubt: Doubt }
  },
): void {
  const { pots, survivors, left } = shared
  // What is left where they were shares with pots of the run elsewhere; nothing moves to itself.
  const parts = costLeftToSurvivors(
    left,
    survivors.map((slot) => book.now(slot)),
  )
  for (const [index, survivor] of survivors.entries()) {
    if (survivor.holdingId === pots.holdingId) continue
    const part = present(parts[index], 'each has its part')
    book.shiftExactly(pots, survivor, {
      ...part,
      costDoubt: doubtOfPart(left.costDoubt, { part: part.cost, whole: left.cost }),
    })
  }
}

/** Writes down who was lost, when and why. */
export async function recordLoss(
  book: Book,
  facts: { runId: string; pieces: number; stage: LossStage; cause: string; costLeft: Decimal },
): Promise<void> {
  await book.ledger.insert(loss).values({
    studioId: book.studioId,
    entryId: book.facts.entryId,
    ...facts,
    costLeft: facts.costLeft.toFixed(),
  })
}
