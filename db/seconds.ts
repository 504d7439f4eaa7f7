import { eq } from 'drizzle-orm'
import { present } from '../shared/assert.ts'
import { ALL_CLAY, ALL_LAYERS, costIn, costOfLayer, type AnyLayer } from '../shared/cost-layer.ts'
import { decimal, type Decimal } from '../shared/decimal.ts'
import { doubtOfPart } from '../shared/doubt.ts'
import { costOfGrades, type SecondsCost, type SecondsCostRule } from '../shared/seconds-cost.ts'
import type { Book, Slot } from './book.ts'
import { studio } from './schema.ts'

interface GradedPots {
  readonly firsts: Slot
  readonly seconds: Slot
}

/**
 * Where a studio lets seconds bear less, as their price is less: what all firsts and seconds of a run on
 * the shelf cost after a grading, what the wasters left to them among it, is shared anew, layer by layer,
 * so that it is of no matter how many gradings tell it. What was sold before stays as it was sold. Where
 * a second costs like a first nothing is left to do.
 *
 * Units: money, ledger scale.
 */
export async function shareBySecondsRule(book: Book, graded: GradedPots): Promise<void> {
  const { firsts, seconds } = graded
  const pieces = { firsts: book.now(firsts).pieces, seconds: book.now(seconds).pieces }
  if (pieces.firsts.isZero() || pieces.seconds.isZero()) return
  const rule = await secondsCostOf(book)
  if (rule.rule === 'like_firsts') return
  for (const layer of ALL_LAYERS) {
    const ofSeconds = costIn(book.now(seconds), layer)
    const cost = costIn(book.now(firsts), layer).plus(ofSeconds)
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
