import type { Context } from 'hono'
import type { Child } from 'hono/jsx'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import type { Environment } from '../services.ts'
import { assetsVersion } from './assets.ts'
import { Frame, type Room } from './frame.tsx'
import { Recorded } from './recorded.tsx'

export interface PageShown {
  readonly title: string
  readonly here?: Room | undefined
  readonly status?: ContentfulStatusCode | undefined
}

/** Answers with a page in its frame; what was just recorded stands above it. */
export async function show(
  c: Context<Environment>,
  { title, here, status }: PageShown,
  children: Child,
): Promise<Response> {
  const voice = c.get('voice')
  const did = c.req.query('did')
  const above =
    voice === undefined || did === undefined || !isEntryId(did) || c.req.method !== 'GET'
      ? undefined
      : await Recorded({ services: c.get('services'), voice, entryId: did, back: c.req.path })
  const light = c.get('light')
  return c.html(
    <Frame
      title={title}
      here={here}
      voice={voice}
      light={light}
      version={assetsVersion()}
      above={above}
    >
      {children}
    </Frame>,
    status ?? 200,
  )
}

/** Whatever else stands there was not put there by us. */
function isEntryId(text: string): boolean {
  return /^[\w-]{1,100}$/.test(text)
}
