import type { Context } from 'hono'
import { correctEntry } from '../../../../db/correct.ts'
import { present } from '../../../../shared/assert.ts'
import { isMoment } from '../../../schemas.ts'
import type { Environment } from '../../../services.ts'
import type { FormFaults } from '../../field-words.tsx'
import { FaultSummary } from '../../fields.tsx'
import { faultsForPage } from '../../page-faults.ts'
import { show } from '../../show.tsx'
import type { Typed } from '../../typed.ts'
import { typedInto } from '../../typed-into.ts'

/** Takes an entry back, once for each key, and goes back to where that was asked. */
export async function takeBack(c: Context<Environment>): Promise<Response> {
  const entryId = present(c.req.param('entryId'), 'the address names an entry')
  const typed = await typedInto(c)
  const back = localPath(typed.text('back')) ?? `/books/trail/entry/${encodeURIComponent(entryId)}`
  if (c.req.header('accept') === 'application/json')
    return answerScript(c, { entryId, typed, back })
  try {
    const { answer } = await reverse(c, entryId, typed)
    return c.redirect(withDid(back, answer.entry.entryId), 303)
  } catch (error) {
    const { faults, status } = faultsForPage(error, {}, c.get('voice'))
    return showRefusal(c, { entryId, typed, back, faults, status })
  }
}

interface Asked {
  readonly entryId: string
  readonly typed: Typed
  readonly back: string
}

async function answerScript(c: Context<Environment>, asked: Asked): Promise<Response> {
  const { answer, isRetry } = await reverse(c, asked.entryId, asked.typed)
  c.header('Slakebook-Next', withDid(asked.back, answer.entry.entryId))
  if (isRetry) c.header('Idempotency-Replayed', 'true')
  return c.json(answer, 201)
}

/** At the moment of the entry, or at the one that was said because that month is closed. */
function reverse(c: Context<Environment>, entryId: string, typed: Typed) {
  const asOf = typed.text('asOf')
  const by = c.get('by')
  const said = {
    entryId,
    ...(asOf !== undefined && isMoment(asOf) ? { happenedAt: asOf } : {}),
    ...(by === undefined ? {} : { by }),
  }
  const occasion = { studioId: c.get('studioId'), idempotencyKey: typed.text('key') }
  return correctEntry(c.get('services'), occasion, { said })
}

/** What stands in the way, and what to do about it. */
function showRefusal(
  c: Context<Environment>,
  refused: Asked & { faults: FormFaults; status: 404 | 409 | 422 },
): Promise<Response> {
  const { entryId, back, faults, status } = refused
  const { newId, now } = c.get('services')
  const title = 'It stands as it is'
  return show(
    c,
    { title, here: 'books', status },
    <>
      <h1>{title}</h1>
      <FaultSummary faults={faults} />
      {faults.code === 'month_must_be_open' ? (
        <form method="post" action={`${c.req.path}?studio=${c.get('studioId')}`}>
          <input type="hidden" name="key" value={newId()} />
          <input type="hidden" name="back" value={back} />
          <input type="hidden" name="asOf" value={now().toISOString()} />
          <p>The month in which it happened is closed and stays as it was reported.</p>
          <button class="press">Take it back as of today</button>
        </form>
      ) : null}
      <p>
        {status === 404 ? (
          <a class="button" href="/books/trail">
            What happened
          </a>
        ) : (
          <a class="button" href={`/books/trail/entry/${entryId}`}>
            Look at it
          </a>
        )}
      </p>
    </>,
  )
}

function withDid(path: string, entryId: string): string {
  return `${path}${path.includes('?') ? '&' : '?'}did=${entryId}`
}

/**
 * An address of our own, without what was done last; nothing where it leads elsewhere.
 *
 * A browser reads more as another host than begins with two slashes, so it is asked as a browser would
 * read it, and what comes of that is asked again.
 */
export function localPath(text: string | undefined): string | undefined {
  if (text?.startsWith('/') !== true) return undefined
  const home = 'http://studio.invalid'
  if (!URL.canParse(text, home)) return undefined
  const { origin, pathname, searchParams } = new URL(text, home)
  if (origin !== home || pathname.startsWith('//')) return undefined
  searchParams.delete('did')
  const query = searchParams.toString()
  return query === '' ? pathname : `${pathname}?${query}`
}
