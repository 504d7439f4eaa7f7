import type { Context, MiddlewareHandler } from 'hono'
import { listStudios, viewStudio, type StudioView } from '../../db/catalogue-studios.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Environment } from '../services.ts'
import { rememberedOf, rememberStudio } from './remembered.ts'
import { voiceOf } from './voice.ts'

type PageContext = Context<Environment>

/**
 * Finds the studio of a page: the one that the address names, the one that this phone was last at, or
 * the only one there is. Where none of these is, a person chooses or begins one.
 */
export const studioOfPage: MiddlewareHandler<Environment> = async (c, next) => {
  const { by, light } = rememberedOf(c)
  c.set('by', by)
  c.set('light', light)
  const named = c.req.query('studio')
  if (named !== undefined && isRead(c)) return toSameWithStudio(c, named)
  const studio = await studioOf(c, named)
  if (studio === undefined) return withoutStudio(c)
  c.set('studioId', studio.studioId)
  c.set('voice', voiceOf(studio, c.get('services').now()))
  return next()
}

/** The studio of that id, where there is one. */
async function studioIfThere(c: PageContext, studioId: string): Promise<StudioView | undefined> {
  try {
    return await viewStudio(c.get('services').db, studioId)
  } catch (error) {
    if (error instanceof Refusal) return undefined
    throw error
  }
}

async function studioOf(c: PageContext, named: string | undefined) {
  const meant = named ?? rememberedOf(c).studio
  if (meant !== undefined) {
    const studio = await studioIfThere(c, meant)
    // What was sent for one studio must not come to stand in another one's books.
    if (studio !== undefined || named !== undefined) return studio
  }
  const [only, other] = await listStudios(c.get('services').db, { limit: 2 })
  return other === undefined ? only : undefined
}

/** The same page again, at the studio that was named, which this phone remembers from now on. */
async function toSameWithStudio(c: PageContext, named: string): Promise<Response> {
  const studio = await studioIfThere(c, named)
  if (studio === undefined) return c.redirect('/begin', 303)
  rememberStudio(c, studio.studioId)
  const rest = new URL(c.req.url).searchParams
  rest.delete('studio')
  return c.redirect(rest.size === 0 ? c.req.path : `${c.req.path}?${rest.toString()}`, 303)
}

/** To where studios begin. What a phone kept and sends must not take that page for an answer. */
function withoutStudio(c: PageContext): Response {
  if (c.req.header('accept') !== 'application/json') return c.redirect('/begin', 303)
  throw new Refusal('studio_must_be_named', 'This phone is at no studio. Choose one, then send it.')
}

function isRead(c: PageContext): boolean {
  return c.req.method === 'GET' || c.req.method === 'HEAD'
}
