import type { Context } from 'hono'
import type { EntryTraced } from '../../../../db/reports/entries.ts'
import type { Environment } from '../../../services.ts'

interface EntryActionsProps {
  readonly c: Context<Environment>
  readonly entry: EntryTraced
  /** The page on which it is told again, with what was said filled in. */
  readonly mend: string | undefined
}

/** What can be done about an entry that was wrong. */
export function EntryActions({ c, entry, mend }: EntryActionsProps) {
  const { entryId, kind, reversedByEntryId } = entry
  if (kind === 'reverse' || kind === 'close_month' || reversedByEntryId !== null) return null
  return (
    <section class="was-wrong">
      <h2>Was it wrong?</h2>
      {mend === undefined ? null : (
        <>
          <p>
            <a class="button press" href={mend}>
              Mend it
            </a>
          </p>
          <p class="hint">
            Opens the same page with what was said filled in. Put right what was wrong and press:
            the one takes the place of the other, or nothing happens.
          </p>
        </>
      )}
      <form
        method="post"
        action={`/books/trail/entry/${entryId}/take-back?studio=${c.get('studioId')}`}
      >
        <input type="hidden" name="key" value={c.get('services').newId()} />
        <input type="hidden" name="back" value={c.req.path} />
        <button class="plain">Take it back</button>
      </form>
      <p class="hint">It stays readable and counts no more.</p>
    </section>
  )
}
