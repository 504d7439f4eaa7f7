import { traceEntry } from '../../db/reports/entries.ts'
import { lossesOfFire } from '../../db/reports/fire-losses.ts'
import { namesOf } from '../../db/reports/names.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { ApiServices } from '../services.ts'
import { entryWords, holdingsTold } from './entry-words.ts'
import { FireTold, LossesTold } from './fire-told.tsx'
import type { Voice } from './voice.ts'

interface RecordedProps {
  readonly services: ApiServices
  readonly voice: Voice
  readonly entryId: string
  /** The page to come back to. */
  readonly back: string
}

/** What was just recorded, in a sentence, with the way to take it back. */
export async function Recorded({ services, voice, entryId, back }: RecordedProps) {
  const { studioId } = voice.studio
  const entry = await orNothing(traceEntry(services.db, { studioId, entryId }))
  if (entry === undefined) return undefined
  const holding = holdingsTold(entry)
  const nameOf = await namesOf(services.db, studioId, { holding })
  const names = new Map(holding.map((id) => [id, nameOf('holding', id)]))
  const broken = await lossesOfFire(services.db, { studioId, entryId })
  const words = entryWords(entry, voice, names)
  const isTakenBack = entry.reversedByEntryId !== null
  return (
    <section class="recorded" role="status" data-recorded={entryId}>
      <p>
        <strong>{isTakenBack ? 'Taken back' : 'Recorded'}:</strong> {words}{' '}
        <a href={`/books/trail/entry/${entryId}`}>See it in the books</a>
      </p>
      {isTakenBack || entry.firing === null ? null : (
        <FireTold firing={entry.firing} voice={voice} />
      )}
      {isTakenBack ? null : <LossesTold losses={[...entry.losses, ...broken]} voice={voice} />}
      {isTakenBack || entry.reversesEntryId !== null ? null : (
        <form method="post" action={`/books/trail/entry/${entryId}/take-back?studio=${studioId}`}>
          <input type="hidden" name="key" value={services.newId()} />
          <input type="hidden" name="back" value={back} />
          <button class="plain">Take it back</button>
        </form>
      )}
    </section>
  )
}

async function orNothing<T>(asked: Promise<T>): Promise<T | undefined> {
  try {
    return await asked
  } catch (error) {
    if (error instanceof Refusal) return undefined
    throw error
  }
}
