import type { Context } from 'hono'
import type { newRouter } from '../router.ts'
import type { Environment } from '../services.ts'
import type { Room } from './frame.tsx'
import { show } from './show.tsx'

/** What a page cannot do without, and the ways to it. */
export interface Missing {
  readonly title: string
  readonly words: string
  readonly ways: readonly Way[]
  /** The room that the page is in; the books where it is not said. */
  readonly here?: Room
}

interface Way {
  readonly href: string
  readonly name: string
  readonly words?: string
}

/** The way to enter a thing of the studio and come back with it. */
export function enterFirst(kind: string, name: string, back: string): Way {
  return { href: `/books/things/${kind}/new?then=${encodeURIComponent(back)}`, name }
}

/** Puts before a form that nobody could fill yet what is needed first. To be called before the form's own routes. */
export function firstNeeded(
  router: ReturnType<typeof newRouter>,
  path: string,
  missing: (c: Context<Environment>) => Promise<Missing | undefined>,
): void {
  router.get(path, async (c, next) => {
    const needed = await missing(c)
    if (needed === undefined) return next()
    return show(
      c,
      { title: needed.title, here: needed.here ?? 'books' },
      <>
        <h1>{needed.title}</h1>
        <p>{needed.words}</p>
        <Ways ways={needed.ways} />
      </>,
    )
  })
}

/** Pages to go on to, each a target for a thumb. */
export function Ways({ ways }: { ways: readonly Way[] }) {
  return (
    <ul class="targets">
      {ways.map(({ href, name, words }) => (
        <li>
          <a class="target" href={href}>
            <strong>{name}</strong>
            {words === undefined ? null : <span>{words}</span>}
          </a>
        </li>
      ))}
    </ul>
  )
}
