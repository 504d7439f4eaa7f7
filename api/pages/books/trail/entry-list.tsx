import type { EntryListed } from '../../../../db/reports/entries.ts'
import type { NameOf } from '../../../../db/reports/names.ts'
import { wallTime } from '../../../../shared/studio-clock.ts'
import { entryWords } from '../../entry-words.ts'
import type { Voice } from '../../voice.ts'

interface EntryListProps {
  readonly entries: readonly EntryListed[]
  readonly voice: Voice
  readonly nameOf: NameOf
}

/** Entries, the newest first, under the day on which they happened. */
export function EntryList({ entries, voice, nameOf }: EntryListProps) {
  const days = [...new Set(entries.map(({ happenedAt }) => voice.day(happenedAt)))]
  return (
    <>
      {days.map((day) => (
        <section class="day">
          <h2>{day}</h2>
          <ul class="happened">
            {entries
              .filter(({ happenedAt }) => voice.day(happenedAt) === day)
              .map((entry) => (
                <EntryLine entry={entry} voice={voice} nameOf={nameOf} />
              ))}
          </ul>
        </section>
      ))}
    </>
  )
}

function EntryLine(props: { entry: EntryListed; voice: Voice; nameOf: NameOf }) {
  const { entry, voice, nameOf } = props
  const { entryId, happenedAt, recordedBy, note, reversedByEntryId } = entry
  const isTakenBack = reversedByEntryId !== null
  return (
    <li class={isTakenBack ? 'taken-back' : undefined}>
      <a href={`/books/trail/entry/${entryId}`}>
        {isTakenBack ? <strong>Taken back since. </strong> : null}
        {entryWords(entry, voice, namesOfLines(entry, nameOf))}
      </a>
      <span class="quiet">
        <time datetime={happenedAt}>{timeOfDay(happenedAt, voice)}</time>
        {recordedBy === null ? '' : `, ${recordedBy}`}
        {note === null ? null : <q>{note}</q>}
      </span>
    </li>
  )
}

/** The time of a moment on the studio's wall, as 18:05. */
export function timeOfDay(moment: string, voice: Voice): string {
  return wallTime(new Date(moment), voice.studio.timeZone).slice(
    'yyyy-mm-ddT'.length,
    -':00+00:00'.length,
  )
}

/** The names of the holdings that an entry moves. */
export function namesOfLines(
  {
    lines,
    estimates = [],
  }: {
    readonly lines: readonly { readonly holdingId: string }[]
    readonly estimates?: readonly { readonly holdingId: string }[]
  },
  nameOf: NameOf,
): ReadonlyMap<string, string> {
  return new Map(
    [...lines, ...estimates].map(({ holdingId }) => [holdingId, nameOf('holding', holdingId)]),
  )
}
