import type { Context } from 'hono'
import type { Environment } from '../../services.ts'
import type { newRouter } from '../../router.ts'
import { show } from '../show.tsx'

/** What has to be there before something can be done, and where to see to it. */
export interface Lack {
  readonly words: string
  readonly href: string
  readonly link: string
}

interface Needs {
  readonly path: string
  readonly title: string
  /** What is missing; nothing where the work can be done. */
  readonly lacksOf: (c: Context<Environment>) => Promise<readonly Lack[]>
}

/** Where something is missing, the page says what to do about it instead of showing a form. */
export function needs(router: ReturnType<typeof newRouter>, { path, title, lacksOf }: Needs): void {
  router.get(path, async (c, next) => {
    const lacks = await lacksOf(c)
    if (lacks.length === 0) return next()
    return show(
      c,
      { title, here: 'plaster' },
      <>
        <h1>{title}</h1>
        {lacks.map(({ words, href, link }) => (
          <section>
            <p>{words}</p>
            <p>
              <a class="button" href={href}>
                {link}
              </a>
            </p>
          </section>
        ))}
      </>,
    )
  })
}
