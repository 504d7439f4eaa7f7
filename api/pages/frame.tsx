import { html } from 'hono/html'
import type { Child } from 'hono/jsx'
import type { Voice } from './voice.ts'

/** The rooms of the program, as its main list names them. */
export const ROOMS = {
  today: { href: '/', name: 'Today' },
  weigh: { href: '/weigh', name: 'Weigh in' },
  wheel: { href: '/wheel', name: 'Wheel' },
  plaster: { href: '/plaster', name: 'Plaster' },
  glaze: { href: '/glaze', name: 'Glaze' },
  kiln: { href: '/kiln', name: 'Kiln' },
  books: { href: '/books', name: 'Books' },
} as const
export type Room = keyof typeof ROOMS

export interface FrameProps {
  readonly title: string
  /** The room that the page is in; none of it is marked where it is in none. */
  readonly here?: Room | undefined
  /** None where no studio is chosen yet. */
  readonly voice?: Voice | undefined
  /** How light the room is, where somebody said so; otherwise the phone tells. */
  readonly light?: 'dim' | 'bright' | undefined
  /** The version of what the page loads. */
  readonly version: string
  /** Above the page: what was just recorded. */
  readonly above?: Child
  readonly children?: Child
}

/** The frame of every page: one sheet, one script that only adds, nothing from elsewhere. */
export function Frame({ title, here, voice, light, version, above, children }: FrameProps) {
  return html`<!doctype html>${(
      <html
        lang={voice?.studio.tradeWords === 'US' ? 'en-US' : 'en-GB'}
        data-light={light}
        data-studio={voice?.studio.studioId}
      >
        <head>
          <meta charset="utf-8" />
          <meta name="viewport" content="width=device-width, initial-scale=1" />
          <meta name="color-scheme" content="light dark" />
          <title>{here === 'today' ? title : `${title} · Slakebook`}</title>
          <link rel="icon" href={`/assets/icon.svg?v=${version}`} type="image/svg+xml" />
          <link rel="manifest" href="/assets/manifest.webmanifest" />
          <link rel="stylesheet" href={`/assets/slakebook.css?v=${version}`} />
          <script type="module" src={`/assets/slakebook.js?v=${version}`}></script>
        </head>
        <body>
          <a class="skip" href="#page">
            To the page
          </a>
          <header class="mast">
            <a class="studio" href="/">
              {voice?.studio.name ?? 'Slakebook'}
            </a>
            {voice === undefined ? null : (
              <span class="clock">
                <time datetime={voice.now.toISOString()}>{voice.day(voice.now)}</time>
              </span>
            )}
          </header>
          {voice === undefined ? null : <Rooms here={here} />}
          <main id="page" tabindex={-1}>
            <section id="kept" class="kept" aria-label="Kept on this phone" hidden></section>
            {above}
            {children}
          </main>
        </body>
      </html>
    )}`
}

function Rooms({ here }: { here: Room | undefined }) {
  return (
    <nav class="rooms" aria-label="Rooms">
      {Object.entries(ROOMS).map(([room, { href, name }]) => (
        <a href={href} aria-current={room === here ? 'page' : undefined}>
          {name}
        </a>
      ))}
    </nav>
  )
}
