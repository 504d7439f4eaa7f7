import { and, asc, eq, gt } from 'drizzle-orm'
import { Decimal } from '../shared/decimal.ts'
import type { Grade } from '../shared/place.ts'
import { count, proportionalPart } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Book } from './book.ts'
import { holding, run } from './schema.ts'
import { findRun } from './studio.ts'

export interface FinishedAsked {
  readonly formId: string
  readonly grade: Grade
  readonly pieces: number
  readonly runId?: string | undefined
  readonly to: 'customer' | 'waste'
}

/**
 * Takes finished pots of a form and grade off the shelf, the oldest run first unless one is named.
 *
 * Gives the runs that they were of. Units: pieces; each takes its part of its own run's clay and cost.
 * Refuses: `run_not_found`, `pieces_must_be_enough`.
 */
export async function takeFinished(book: Book, asked: FinishedAsked): Promise<string[]> {
  if (asked.runId !== undefined) await findRun(book.ledger, book.studioId, asked.runId)
  const shelf = await shelfOf(book, asked)
  await book.holdById([...shelf].map((found) => found.holdingId).sort())
  refuseTooFew(book, asked, shelf)
  const runIds: string[] = []
  let wanted = count(asked.pieces)
  for (const { holdingId, runId } of shelf) {
    const slot = book.slot(holdingId)
    const pieces = Decimal.min(wanted, slot.held.pieces)
    if (pieces.isZero()) continue
    const goal = await book.outside(asked.to, slot.ref.bodyId)
    const { dryGrams, pieces: whole } = slot.held
    const part = proportionalPart({ amount: dryGrams, part: pieces, whole })
    book.moveShare(slot, goal, { dryGrams: part, pieces })
    wanted = wanted.minus(pieces)
    runIds.push(runId)
  }
  return runIds
}

async function shelfOf(book: Book, asked: FinishedAsked) {
  const rows = await book.ledger
    .select({ holdingId: holding.holdingId, runId: run.runId })
    .from(holding)
    .innerJoin(run, and(eq(run.studioId, holding.studioId), eq(run.runId, holding.runId)))
    .where(
      and(
        eq(holding.studioId, book.studioId),
        eq(holding.place, 'finished'),
        eq(holding.grade, asked.grade),
        eq(run.formId, asked.formId),
        gt(holding.pieces, '0'),
        ...(asked.runId === undefined ? [] : [eq(run.runId, asked.runId)]),
      ),
    )
    .orderBy(asc(run.thrownAt), asc(run.runId))
  return rows
}

function refuseTooFew(
  book: Book,
  asked: FinishedAsked,
  shelf: readonly { holdingId: string }[],
): void {
  const there = shelf.reduce(
    (sum, { holdingId }) => sum.plus(book.slot(holdingId).held.pieces),
    count(0),
  )
  if (there.greaterThanOrEqualTo(asked.pieces)) return
  throw new Refusal(
    'pieces_must_be_enough',
    `There are ${there.toFixed()} ${asked.grade}s of this form on the shelf; ${String(asked.pieces)} were to leave it. Grade what is fired, or count the shelf.`,
    { pointer: '/pieces', facts: { formId: asked.formId, held: there.toFixed() } },
  )
}
