import { createHash } from 'node:crypto'
import { and, eq } from 'drizzle-orm'
import stringify from 'safe-stable-stringify'
import { assert } from '../shared/assert.ts'
import type { EntryKind } from '../shared/entry-kind.ts'
import type { FoundDifference } from '../shared/found-difference.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Caution } from '../shared/silica.ts'
import { wallDay } from '../shared/studio-clock.ts'
import { written, type Written } from '../shared/written.ts'
import { Book } from './book.ts'
import type { Database, Transaction } from './connection.ts'
import type { EntryView } from './entry-shown.ts'
import { viewEntry } from './entry-view.ts'
import { inLedger, openEntry, writeLines } from './posting.ts'
import { isDeadlock } from './refusals.ts'
import { estimate, request, weighing } from './schema.ts'
import { settleDoubts } from './settle-doubts.ts'
import { findStudio } from './studio.ts'

/** What comes with every act. */
export interface Circumstances {
  readonly happenedAt?: string | undefined
  readonly by?: string | undefined
  readonly note?: string | undefined
}

/** What an act made, beside its entry: ids by what they are ids of. */
export type Made = Readonly<Record<string, string | readonly string[]>>

/** One thing that a potter does: how it is written into the ledger. */
export interface Act<Said extends Circumstances> {
  readonly kind: EntryKind
  readonly write: (book: Book, said: Said) => Promise<Made>
}

export interface ActAnswer {
  readonly entry: EntryView
  readonly made: Made
  readonly cautions: readonly Caution[]
  /** What was measured otherwise than the books had it, and whether that is more than chance. */
  readonly differences: Written<readonly FoundDifference[]>
  /** True where nothing was recorded: the answer says what would have been. */
  readonly preview: boolean
}

export interface Services {
  readonly db: Database
  readonly now: () => Date
  readonly newId: () => string
}

export interface Occasion {
  readonly studioId: string
  readonly idempotencyKey?: string | undefined
  readonly preview?: boolean | undefined
}

/** A clock on a phone may run ahead of ours by so much. */
const CLOCK_DIFFERENCE_MS_MAX = 2 * 60 * 1000

/**
 * Does one act: in one transaction claims the key, writes the entry with its readings, and keeps the
 * answer for a retry. Either all of it stands afterwards or none.
 *
 * Refuses: `studio_not_found`, `key_must_keep_its_content`, `date_must_not_be_in_the_future`,
 * `month_must_be_open`, and whatever the act refuses.
 */
export async function performAct<Said extends Circumstances>(
  services: Services,
  occasion: Occasion,
  deed: { act: Act<Said>; said: Said },
): Promise<{ answer: ActAnswer; isRetry: boolean }> {
  const content = { act: deed.act.kind, said: deed.said }
  return onceOnly(services, occasion, {
    content,
    work: async (ledger) => writeAct({ ledger, services, studioId: occasion.studioId }, deed),
  })
}

/** A preview is thrown out of its transaction so that nothing of it stays. */
class PreviewReady extends Error {
  readonly answer: ActAnswer
  constructor(answer: ActAnswer) {
    super('preview')
    this.answer = answer
  }
}

/** Work that is done once for a key, its answer kept for retries. */
export async function onceOnly(
  services: Services,
  occasion: Occasion,
  job: { content: unknown; work: (ledger: Transaction) => Promise<Omit<ActAnswer, 'preview'>> },
): Promise<{ answer: ActAnswer; isRetry: boolean }> {
  return againAfterDeadlock(() => tryOnce(services, occasion, job))
}

/**
 * Holdings are locked in one order, but not all of them are known at the start of every act. Where two
 * acts do meet in a ring the database lets one go and gives the other up; nothing of it stands, and it
 * is done again.
 */
async function againAfterDeadlock<T>(work: () => Promise<T>): Promise<T> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      return await work()
    } catch (error) {
      if (attempt === ATTEMPTS_MAX || !isDeadlock(error)) throw error
    }
  }
}

const ATTEMPTS_MAX = 5

async function tryOnce(
  services: Services,
  occasion: Occasion,
  job: { content: unknown; work: (ledger: Transaction) => Promise<Omit<ActAnswer, 'preview'>> },
): Promise<{ answer: ActAnswer; isRetry: boolean }> {
  try {
    return await inLedger(services.db, async (ledger) => {
      const earlier = await claimKey(ledger, { services, occasion, content: job.content })
      if (earlier !== undefined) return { answer: earlier, isRetry: true }
      const answer = { ...(await job.work(ledger)), preview: occasion.preview === true }
      if (answer.preview) {
        await ledger.execute('set constraints all immediate')
        throw new PreviewReady(answer)
      }
      await keepAnswer(ledger, occasion, answer)
      return { answer, isRetry: false }
    })
  } catch (error) {
    if (error instanceof PreviewReady) return { answer: error.answer, isRetry: false }
    throw error
  }
}

/** Writes one act into an open transaction. */
export async function writeAct<Said extends Circumstances>(
  at: { ledger: Transaction; services: Services; studioId: string },
  deed: { act: Act<Said>; said: Said },
): Promise<Omit<ActAnswer, 'preview'>> {
  const { ledger, services, studioId } = at
  const { act, said } = deed
  const studio = await findStudio(ledger, studioId)
  const recordedAt = services.now()
  const happenedAt = momentOf(said.happenedAt, recordedAt)
  const entryId = services.newId()
  const book = new Book({
    ledger,
    studio,
    entryId,
    kind: act.kind,
    happenedAt,
    day: wallDay(happenedAt, studio.timeZone),
    by: said.by,
    newId: services.newId,
  })
  await openEntry(ledger, {
    studioId,
    entryId,
    kind: act.kind,
    happenedAt,
    recordedAt,
    recordedBy: said.by,
    note: said.note,
    said,
  })
  const made = await act.write(book, said)
  await settleDoubts(book)
  await writeLines(ledger, { studioId, entryId, kind: act.kind }, book.movements())
  await writeReadings(book)
  const differences = written(book.differences)
  const entry = await viewEntry(ledger, studioId, entryId)
  return { entry, made, cautions: book.cautions, differences }
}

async function writeReadings(book: Book) {
  const key = { studioId: book.studioId, entryId: book.facts.entryId }
  if (book.weighings.length > 0) {
    await book.ledger.insert(weighing).values(book.weighings.map((row) => ({ ...key, ...row })))
  }
  if (book.estimates.length > 0) {
    await book.ledger.insert(estimate).values(book.estimates.map((row) => ({ ...key, ...row })))
  }
}

/** When it happened: as said, or now. Refuses: `date_must_not_be_in_the_future`. */
export function momentOf(said: string | undefined, now: Date): Date {
  if (said === undefined) return now
  const moment = new Date(said)
  assert(!Number.isNaN(moment.getTime()), 'a moment that passed the door is a moment')
  if (moment.getTime() <= now.getTime() + CLOCK_DIFFERENCE_MS_MAX) return moment
  throw new Refusal(
    'date_must_not_be_in_the_future',
    `It is ${now.toISOString()} now; an entry says what has happened already.`,
    { pointer: '/happenedAt' },
  )
}

async function claimKey(
  ledger: Transaction,
  claim: { services: Services; occasion: Occasion; content: unknown },
): Promise<ActAnswer | undefined> {
  const { studioId, idempotencyKey, preview } = claim.occasion
  if (idempotencyKey === undefined || preview === true) return undefined
  await findStudio(ledger, studioId)
  const fingerprint = fingerprintOf(claim.content)
  // A second request with the key waits here until the first is through, then finds its answer.
  const claimed = await ledger
    .insert(request)
    .values({ studioId, idempotencyKey, fingerprint, recordedAt: claim.services.now() })
    .onConflictDoNothing()
    .returning({ idempotencyKey: request.idempotencyKey })
  if (claimed.length === 1) return undefined
  const [first] = await ledger.select().from(request).where(isRequest(studioId, idempotencyKey))
  assert(first !== undefined, 'a key that is taken has its request')
  if (first.fingerprint !== fingerprint) {
    throw new Refusal(
      'key_must_keep_its_content',
      'This Idempotency-Key was used for something else already. Send other content under a new key.',
    )
  }
  return first.answer as ActAnswer
}

async function keepAnswer(ledger: Transaction, occasion: Occasion, answer: ActAnswer) {
  const { studioId, idempotencyKey } = occasion
  if (idempotencyKey === undefined) return
  await ledger.update(request).set({ answer }).where(isRequest(studioId, idempotencyKey))
}

const isRequest = (studioId: string, key: string) =>
  and(eq(request.studioId, studioId), eq(request.idempotencyKey, key))

/** Two requests say the same when their contents do, whatever the order of their fields. */
function fingerprintOf(content: unknown): string {
  return createHash('sha256')
    .update(stringify(content) ?? '')
    .digest('hex')
}
