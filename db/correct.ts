import { and, asc, desc, eq, ne, sql } from 'drizzle-orm'
import { clayOf } from '../shared/cost-layer.ts'
import { isInside } from '../shared/place.ts'
import { CONSERVED, negated, plus } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Transaction } from './connection.ts'
import type { EntryView } from './entry-shown.ts'
import { viewEntry } from './entry-view.ts'
import { lockHoldings, type FoundHolding } from './holdings.ts'
import {
  momentOf,
  onceOnly,
  writeAct,
  type Act,
  type ActAnswer,
  type Circumstances,
  type Occasion,
  type Services,
} from './perform.ts'
import { openEntry, writeLines, type Movement } from './posting.ts'
import { quantitiesOf } from './quantity-columns.ts'
import { entry, line } from './schema.ts'
import { findStudio } from './studio.ts'

export interface CorrectSaid extends Circumstances {
  /** The entry that was wrong. */
  readonly entryId: string
}

/** What is posted instead of what was wrong. */
export interface PostedAgain<Said extends Circumstances> {
  readonly act: Act<Said>
  readonly said: Said
}

/**
 * Takes an entry back by its mirror image and, where it is told again, posts it as it was; both or
 * neither. The wrong entry stays readable, and so does what was read for it.
 *
 * Refuses: `entry_not_found`, `entry_must_not_be_a_reversal`, `entry_must_not_be_reversed_already`,
 * `closed_month_must_stay_closed`, `reversal_must_find_what_it_takes_back`,
 * `month_must_be_open`, and whatever the act that is posted again refuses.
 */
export async function correctEntry<Said extends Circumstances>(
  services: Services,
  occasion: Occasion,
  correction: { said: CorrectSaid; again?: PostedAgain<Said> | undefined },
): Promise<{ answer: ActAnswer; isRetry: boolean }> {
  const { said, again } = correction
  const content = {
    act: 'correct',
    said,
    again: again && { act: again.act.kind, said: again.said },
  }
  return onceOnly(services, occasion, {
    content,
    work: async (ledger) => {
      const at = { ledger, services, studioId: occasion.studioId }
      const { reversalEntryId, happenedAt } = await reverseEntry(at, said)
      const made = { reversalEntryId }
      if (again === undefined) {
        const view = await viewEntry(ledger, occasion.studioId, reversalEntryId)
        return { entry: view, made, cautions: [], differences: [] }
      }
      const answer = await writeAct(at, { act: again.act, said: whenItWas(again.said, happenedAt) })
      return { ...answer, made: { ...answer.made, ...made } }
    },
  })
}

/** What is told again happened when it was first said to have, unless it is told otherwise. */
function whenItWas<Said extends Circumstances>(said: Said, happenedAt: string): Said {
  return said.happenedAt === undefined ? { ...said, happenedAt } : said
}

async function reverseEntry(
  at: { ledger: Transaction; services: Services; studioId: string },
  said: CorrectSaid,
): Promise<{ reversalEntryId: string; happenedAt: string }> {
  const { ledger, services, studioId } = at
  await findStudio(ledger, studioId)
  const wrong = await viewEntry(ledger, studioId, said.entryId)
  refuseUnlessReversible(wrong)
  const recordedAt = services.now()
  const entryId = services.newId()
  const happenedAt = momentOf(said.happenedAt ?? wrong.happenedAt, recordedAt)
  await openEntry(ledger, {
    studioId,
    entryId,
    kind: 'reverse',
    happenedAt,
    recordedAt,
    recordedBy: said.by,
    note: said.note,
    said,
    reversesEntryId: said.entryId,
  })
  const movements = await mirrorOf(ledger, studioId, said.entryId)
  const held = await lockHoldings(
    ledger,
    studioId,
    movements.map((movement) => movement.holdingId),
  )
  await refuseWhatMovedOn({ ledger, studioId, wrong }, held, movements)
  await writeLines(ledger, { studioId, entryId, kind: 'reverse' }, movements)
  return { reversalEntryId: entryId, happenedAt: happenedAt.toISOString() }
}

function refuseUnlessReversible(wrong: Awaited<ReturnType<typeof viewEntry>>): void {
  if (wrong.kind === 'reverse') {
    throw new Refusal(
      'entry_must_not_be_a_reversal',
      'This entry is a reversal itself. Post what happened once more instead.',
      { pointer: '/entryId' },
    )
  }
  if (wrong.reversedByEntryId !== null) {
    throw new Refusal('entry_must_not_be_reversed_already', 'This entry was taken back already.', {
      pointer: '/entryId',
      facts: { reversedByEntryId: wrong.reversedByEntryId },
    })
  }
  if (wrong.kind === 'close_month') {
    throw new Refusal(
      'closed_month_must_stay_closed',
      'A closed month stays closed. Correct in an open one.',
      { pointer: '/entryId' },
    )
  }
}

async function mirrorOf(
  ledger: Transaction,
  studioId: string,
  entryId: string,
): Promise<Movement[]> {
  const rows = await ledger
    .select()
    .from(line)
    .where(and(eq(line.studioId, studioId), eq(line.entryId, entryId)))
    .orderBy(asc(line.lineNo))
  return rows.map((row) => ({ holdingId: row.holdingId, ...negated(quantitiesOf(row)) }))
}

/** A reversal takes back to the last digit; where something has moved on since, it cannot. */
async function refuseWhatMovedOn(
  at: { ledger: Transaction; studioId: string; wrong: EntryView },
  held: readonly FoundHolding[],
  movements: readonly Movement[],
): Promise<void> {
  for (const movement of movements) {
    const there = held.find((found) => found.holdingId === movement.holdingId)
    if (there === undefined || !isInside(there.ref.place)) continue
    if (!isShortAfter(there, movement) && !isStrandedAfter(there, movement)) continue
    throw await movedOn(at, there)
  }
}

/** Whether less than nothing of something would be left, of each layer of the cost too. */
function isShortAfter({ held }: FoundHolding, movement: Movement): boolean {
  const after = plus(held, movement)
  const amounts = [
    ...CONSERVED.map((column) => after[column]),
    ...after.costLayers.values(),
    clayOf(after),
  ]
  return amounts.some((amount) => amount.lessThan(0))
}

/** Whether cost would be left without what it was paid for, or pots' clay without its pots. */
function isStrandedAfter({ ref, held }: FoundHolding, movement: Movement): boolean {
  const { dryGrams, materialGrams, pieces, cost } = plus(held, movement)
  if (ref.materialId !== undefined) {
    return materialGrams.isZero() && pieces.isZero() && !cost.isZero()
  }
  if (dryGrams.isZero()) return !cost.isZero()
  return pieces.isZero() && !movement.pieces.isZero()
}

async function movedOn(
  at: { ledger: Transaction; studioId: string; wrong: EntryView },
  there: FoundHolding,
): Promise<Refusal> {
  const later = await latestSince(at, there.holdingId)
  const first =
    later === undefined
      ? 'Take back the later entries first, newest first'
      : `Take back the ${later.kind.replaceAll('_', ' ')} of ${later.happenedAt.toISOString().slice(0, 10)} (${later.entryId}) first`
  return new Refusal(
    'reversal_must_find_what_it_takes_back',
    `What this entry brought to '${there.ref.place}' has moved on, been corrected or been mixed since: ${leftThere(there)} are left there. ${first}, and tell it again afterwards, or set the holding right with a count.`,
    {
      pointer: '/entryId',
      facts: {
        holdingId: there.holdingId,
        ...(later === undefined ? {} : { laterEntryId: later.entryId }),
      },
    },
  )
}

function leftThere({ ref, held }: FoundHolding): string {
  const dryGrams = ref.materialId === undefined ? held.dryGrams : held.materialGrams
  return `${dryGrams.toFixed()} g dry, ${held.pieces.toFixed()} pieces and ${held.cost.toFixed()} of cost`
}

/** The latest entry that stands and has touched a holding since the one that is to be taken back. */
async function latestSince(
  { ledger, studioId, wrong }: { ledger: Transaction; studioId: string; wrong: EntryView },
  holdingId: string,
) {
  const [later] = await ledger
    .select({ entryId: entry.entryId, kind: entry.kind, happenedAt: entry.happenedAt })
    .from(line)
    .innerJoin(entry, and(eq(entry.studioId, line.studioId), eq(entry.entryId, line.entryId)))
    .where(
      and(
        eq(line.studioId, studioId),
        eq(line.holdingId, holdingId),
        ne(entry.entryId, wrong.entryId),
        ne(entry.kind, 'reverse'),
        sql`${entry.recordedAt} >= ${wrong.recordedAt}::timestamptz`,
        sql`not exists (select from entry r where r.studio_id = ${entry.studioId} and r.reverses_entry_id = ${entry.entryId})`,
      ),
    )
    .orderBy(desc(entry.recordedAt), desc(entry.entryId))
    .limit(1)
  return later
}
