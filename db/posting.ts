import { assert } from '../shared/assert.ts'
import { layersWritten } from '../shared/cost-layer.ts'
import type { Decimal } from '../shared/decimal.ts'
import { doubtOnly, doubtWritten } from '../shared/doubt.ts'
import { kindOfSource } from '../shared/doubt-source.ts'
import type { EntryKind } from '../shared/entry-kind.ts'
import { KINDS_THAT_MAY_MOVE_NOTHING } from '../shared/entry-kind.ts'
import { CONSERVED, isNothing, sumOf, type Held } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Database, Transaction } from './connection.ts'
import { refusalOf } from './refusals.ts'
import { entry, line, type estimate, type weighing } from './schema.ts'

/** What one holding gains (plus) or gives (minus) in an entry. */
export interface Movement extends Held {
  readonly holdingId: string
}

export interface EntryFacts {
  readonly studioId: string
  readonly entryId: string
  readonly kind: EntryKind
  readonly happenedAt: Date
  readonly recordedAt: Date
  readonly recordedBy: string | undefined
  readonly note: string | undefined
  readonly said: unknown
  readonly reversesEntryId?: string | undefined
}

export type WeighingDraft = Omit<typeof weighing.$inferInsert, 'studioId' | 'entryId'>
export type EstimateDraft = Omit<typeof estimate.$inferInsert, 'studioId' | 'entryId'>

/**
 * Runs `work` in one transaction and gives what the ledger refuses its name.
 *
 * Deferred rules speak at COMMIT, when `work` has returned, so their errors are caught out here.
 */
export async function inLedger<T>(
  db: Database,
  work: (ledger: Transaction) => Promise<T>,
): Promise<T> {
  try {
    return await db.transaction(work)
  } catch (error) {
    throw refusalOf(error)
  }
}

/**
 * Opens an entry: what happened, when, who, and the words in which it was said.
 *
 * Refuses: `month_must_be_open`, `entry_must_not_be_reversed_already`.
 */
export async function openEntry(ledger: Transaction, facts: EntryFacts): Promise<void> {
  await ledger.insert(entry).values({
    ...facts,
    recordedBy: facts.recordedBy ?? null,
    note: facts.note ?? null,
    reversesEntryId: facts.reversesEntryId ?? null,
  })
}

/**
 * Writes the lines of an open entry. Balances follow by the database's own hand.
 *
 * Shape: one movement a holding; each conserved column sums to zero, which the database asks again.
 * Units: grams and money at ledger scale.
 * Refuses: `act_must_move_something`, `holding_must_not_go_negative`.
 */
export async function writeLines(
  ledger: Transaction,
  of: Pick<EntryFacts, 'studioId' | 'entryId' | 'kind'>,
  movements: readonly Movement[],
): Promise<void> {
  const total = sumOf(movements)
  for (const column of CONSERVED) assert(total[column].isZero(), `${column} is conserved`)
  assert(total.costLayers.size === 0, 'what a cost was paid for is conserved, layer by layer')
  assert(isConserved(total, of.kind), 'what makes clay unsure is conserved, source by source')
  const mayMoveNothing = (KINDS_THAT_MAY_MOVE_NOTHING as readonly EntryKind[]).includes(of.kind)
  if (movements.length < 2 && !mayMoveNothing) {
    throw new Refusal(
      'act_must_move_something',
      'By the books nothing was there that this could move, or less than a millionth of a gram. A count may be due.',
    )
  }
  if (movements.length === 0) return
  await ledger.insert(line).values(movements.map((movement, at) => lineOf(of, movement, at + 1)))
}

/** What was doubted before sources were told apart stands on one line alone, and is taken back from it. */
function isConserved(total: Held, kind: EntryKind): boolean {
  if (kind !== 'reverse') return isNothing(total)
  const dryDoubt = doubtOnly(total.dryDoubt, (source) => kindOfSource(source) !== 'earlier')
  return isNothing({ ...total, dryDoubt })
}

function lineOf(of: Pick<EntryFacts, 'studioId' | 'entryId'>, movement: Movement, lineNo: number) {
  const text = (amount: Decimal) => amount.toFixed()
  return {
    studioId: of.studioId,
    entryId: of.entryId,
    lineNo,
    holdingId: movement.holdingId,
    dryGrams: text(movement.dryGrams),
    materialGrams: text(movement.materialGrams),
    waterGrams: text(movement.waterGrams),
    pieces: text(movement.pieces),
    cost: text(movement.cost),
    costLayers: layersWritten(movement.costLayers),
    dryDoubt: doubtWritten(movement.dryDoubt),
    materialDoubt: doubtWritten(movement.materialDoubt),
    costDoubt: doubtWritten(movement.costDoubt),
  }
}
