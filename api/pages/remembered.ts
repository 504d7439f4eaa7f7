import type { Context } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { LABEL_CHARACTERS_MAX } from '../schemas.ts'
import type { Environment } from '../services.ts'

type PageContext = Context<Environment>

/** What a phone or a laptop remembers of who holds it and where; nothing of it is in the books. */
export interface Remembered {
  readonly studio: string | undefined
  /** Who works at it. */
  readonly by: string | undefined
  /** How light the room is; the device itself tells where nobody said. */
  readonly light: Light | undefined
}

export const LIGHTS = ['dim', 'bright'] as const
export type Light = (typeof LIGHTS)[number]

/** As long as browsers keep a cookie at most. */
const SECONDS_KEPT = 400 * 24 * 60 * 60

/** What this device remembers. */
export function rememberedOf(c: PageContext): Remembered {
  const by = getCookie(c, 'by')?.trim().slice(0, LABEL_CHARACTERS_MAX)
  return {
    studio: getCookie(c, 'studio'),
    by: by === '' ? undefined : by,
    light: LIGHTS.find((light) => light === getCookie(c, 'light')),
  }
}

/** Has this device be at that studio from now on. */
export function rememberStudio(c: PageContext, studioId: string): void {
  remember(c, 'studio', studioId)
}

/** Has this device know who works at it and how light it is there; nothing said is nothing kept. */
export function rememberPerson(c: PageContext, said: Omit<Remembered, 'studio'>): void {
  remember(c, 'by', said.by)
  remember(c, 'light', said.light)
}

function remember(c: PageContext, name: keyof Remembered, value: string | undefined): void {
  const secure = new URL(c.req.url).protocol === 'https:'
  if (value === undefined) deleteCookie(c, name, { path: '/' })
  else {
    const forgottenAfter = { maxAge: SECONDS_KEPT }
    setCookie(c, name, value, {
      ...forgottenAfter,
      path: '/',
      httpOnly: true,
      sameSite: 'Lax',
      secure,
    })
  }
}
