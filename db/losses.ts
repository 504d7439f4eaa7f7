import { present } from '../shared/assert.ts'
import { costLeftToSurvivors } from '../shared/cost.ts'
import { ZERO, type Decimal } from '../shared/decimal.ts'
import {
  ALL_CLAY,
  ALL_LAYERS,
  COST_LAYERS,
  costIn,
  type LayeredCost,
} from '../shared/cost-layer.ts'
import { doubtOfDifference, doubtOfPart, NO_DOUBT, type Doubt } from '../shared/doubt.ts'
import { POT_PLACES, type LossStage, type PotPlace } from '../shared/place.ts'
import { proportionalPart } from '../shared/quantity.ts'
import { partByShare } from '../shared/parting.ts'
import { costOfSplitLoss } from '../shared/spoilage.ts'
import type { Book, Slot } from './book.ts'
import { firedPotsOf } from './pots.ts'
import { loss } from './schema.ts'
import { judgeLoss } from './usual-losses.ts'

export interface FiredLoss {
  readonly runId: string
  readonly pots: Slot
  readonly pieces: Decimal
}

/** What lost pieces cost: what they left to the survivors, and what is lost for good. */
export interface LossFound {
  readonly costLeft: Decimal
  readonly abnormalPieces: Decimal
  readonly costAbnormal: Decimal
  /** What is usual, in words; nothing where that was not asked. */
  readonly usualWords: string | null
}

type Left = LayeredCost & { readonly costDoubt: Doubt }

/**
 * Fired pieces are lost: their clay goes to waste. What those cost that are usual for the form stays with
 * the survivors of their run that are where they were, or further on, by dry mass; where none of those is
 * left, it is lost with them: it must not run back into green clay and so into the bucket, nor what a glaze
 * fire cost onto bisque that was not in it. What those cost that are beyond the usual is no cost of any pot
 * and stands by itself.
 *
 * Units: money, ledger scale.
 */
export async function loseFired(book: Book, lost: FiredLoss): Promise<LossFound> {
  const { runId, pots, pieces } = lost
  const judged = await judgeLoss(book, { runId, pieces })
  const everywhere = await firedPotsOf(book, runId)
  const held = book.now(pots)
  const waste = await book.outside('waste', pots.ref.bodyId)
  const dryGrams = proportionalPart({ amount: held.dryGrams, part: pieces, whole: held.pieces })
  const leaving = partByShare(held, { dryGrams, pieces })
  const costless = { cost: ZERO, costLayers: ALL_CLAY, costDoubt: NO_DOUBT }
  book.shift({ from: pots, to: waste, what: { ...leaving, ...costless } })
  const { abnormalPieces } = judged
  const { normal, abnormal } = splitCost(leaving, { pieces, abnormalPieces })
  if (abnormalPieces.greaterThan(0)) {
    book.shiftExactly(pots, await book.outside('abnormal', pots.ref.bodyId), abnormal)
  }
  const survivors = everywhere.filter(
    (slot) => hasComeAsFarAs(slot, pots) && book.now(slot).pieces.greaterThan(0),
  )
  if (survivors.length === 0) book.shiftExactly(pots, waste, normal)
  else shareCost(book, { pots, survivors, left: normal })
  return {
    costLeft: survivors.length === 0 ? ZERO : normal.cost,
    abnormalPieces,
    costAbnormal: abnormal.cost,
    usualWords: judged.words,
  }
}

/** True where pots are at the same place as others, or have passed it. */
function hasComeAsFarAs(slot: Slot, others: Slot): boolean {
  const stepOf = ({ ref }: Slot) => POT_PLACES.indexOf(ref.place as PotPlace)
  return stepOf(slot) >= stepOf(others)
}

/** What lost pieces carried, parted by pieces, each layer by itself and with its doubt. */
function splitCost(
  leaving: Left,
  { pieces, abnormalPieces }: { pieces: Decimal; abnormalPieces: Decimal },
): { normal: Left; abnormal: Left } {
  const { cost, costLayers, costDoubt } = leaving
  const nothing = { cost: ZERO, costLayers: ALL_CLAY, costDoubt: NO_DOUBT }
  if (abnormalPieces.isZero()) return { normal: { cost, costLayers, costDoubt }, abnormal: nothing }
  const ofLayers = ALL_LAYERS.map((layer) => costIn(leaving, layer))
  const normalPieces = pieces.minus(abnormalPieces)
  const split = costOfSplitLoss(ofLayers, { normalPieces, abnormalPieces })
  const doubt = doubtOfPart(costDoubt, { part: abnormalPieces, whole: pieces })
  return {
    normal: { ...costOfLayers(split.normal), costDoubt: doubtOfDifference(costDoubt, doubt) },
    abnormal: { ...costOfLayers(split.abnormal), costDoubt: doubt },
  }
}

/** A cost of which each layer is known, in the order of all layers. */
function costOfLayers(amounts: readonly Decimal[]): LayeredCost {
  const others = COST_LAYERS.map(
    (layer) => [layer, amounts[ALL_LAYERS.indexOf(layer)] ?? ZERO] as const,
  )
  return {
    cost: amounts.reduce((sum, amount) => sum.plus(amount), ZERO),
    costLayers: new Map(others.filter(([, amount]) => !amount.isZero())),
  }
}

function shareCost(
  book: Book,
  shared: { pots: Slot; survivors: readonly Slot[]; left: Left },
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

/** Writes down who was lost, when and why, and what that cost. */
export async function recordLoss(
  book: Book,
  facts: { runId: string; pieces: number; stage: LossStage; cause: string; found: LossFound },
): Promise<void> {
  const { found, ...said } = facts
  await book.ledger.insert(loss).values({
    studioId: book.studioId,
    entryId: book.facts.entryId,
    ...said,
    costLeft: found.costLeft.toFixed(),
    abnormalPieces: found.abnormalPieces.toNumber(),
    costAbnormal: found.costAbnormal.toFixed(),
    usualWords: found.usualWords,
  })
}

/** Of pieces whose clay and cost went back into the bucket. */
export const NOTHING_LOST: LossFound = {
  ...{ costLeft: ZERO, abnormalPieces: ZERO, costAbnormal: ZERO },
  usualWords: null,
}
