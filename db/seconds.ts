import { eq } from 'drizzle-orm'
import { present } from '../shared/assert.ts'
import {
  ALL_CLAY,
  ALL_LAYERS,
  costIn,
  costOfLayer,
  type AnyLayer,
  type LayeredCost,
} from '../shared/cost-layer.ts'
import { decimal, type Decimal } from '../shared/decimal.ts'
import { doubtOfPart } from '../shared/doubt.ts'
import { count, type Held } from '../shared/quantity.ts'
import { costOfGrades, type SecondsCost, type SecondsCostRule } from '../shared/seconds-cost.ts'
import type { Book, Slot } from './book.ts'
import { studio } from './schema.ts'

interface GradedPots {
  readonly said: { readonly firsts: number; readonly seconds: number }
  readonly firsts: Slot
  readonly seconds: Slot
  /** What lay on the shelf of firsts, and of seconds, before. */
  readonly before: readonly Held[]
}

/**
 * Where a studio lets seconds bear less, as their price is less: what firsts and seconds of one grading
 * brought to the shelf, what the wasters left to them among it, is shared anew, layer by layer. Where a
 * second costs like a first nothing is left to do.
 *
 * Units: money, ledger scale.
 */
export async function shareBySecondsRule(book: Book, graded: GradedPots): Promise<void> {
  const { said, firsts, seconds } = graded
  if (said.firsts === 0 || said.seconds === 0) return
  const rule = await secondsCostOf(book)
  if (rule.rule === 'like_firsts') return
  const [firstsBefore, secondsBefore] = graded.before
  const pieces = { firsts: count(said.firsts), seconds: count(said.seconds) }
  for (const layer of ALL_LAYERS) {
    const came = (slot: Slot, held: LayeredCost | undefined) =>
      costIn(book.now(slot), layer).minus(costIn(present(held, 'both shelves were seen'), layer))
    const ofSeconds = came(seconds, secondsBefore)
    const cost = came(firsts, firstsBefore).plus(ofSeconds)
    if (cost.isZero()) continue
    const fair = costOfGrades({ cost, ...pieces }, rule)
    moveLayer(book, { from: seconds, to: firsts, layer, cost: ofSeconds.minus(fair.seconds) })
  }
}

/** Moves some of one layer; where it is below zero, the other way. The doubt goes along with the cost. */
function moveLayer(
  book: Book,
  move: { from: Slot; to: Slot; layer: AnyLayer; cost: Decimal },
): void {
  const { layer, cost } = move
  if (cost.isZero()) return
  const isBack = cost.isNegative()
  const [from, to] = isBack ? [move.to, move.from] : [move.from, move.to]
  const amount = cost.abs()
  const held = book.now(from)
  const paid =
    layer === 'clay' ? { cost: amount, costLayers: ALL_CLAY } : costOfLayer(layer, amount)
  const costDoubt = doubtOfPart(held.costDoubt, { part: amount, whole: held.cost })
  book.shiftExactly(from, to, { ...paid, costDoubt })
}

async function secondsCostOf(book: Book): Promise<SecondsCost> {
  const [row] = await book.ledger
    .select({ rule: studio.secondsCostRule, fraction: studio.secondsPriceFraction })
    .from(studio)
    .where(eq(studio.studioId, book.studioId))
  const { rule, fraction } = present(row, 'an act is of a studio')
  return { rule: rule as SecondsCostRule, secondsPriceFraction: decimal(fraction) }
}
