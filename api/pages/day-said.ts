import type { Typed } from './typed.ts'
import type { Voice } from './voice.ts'

/** The day that a form speaks of, in the studio's words: as said, as the phone has it, or today. */
export function daySaid(typed: Typed, voice: Voice): string {
  const said = typed.text('when')?.slice(0, 'yyyy-mm-dd'.length) ?? typed.text('happenedAt')
  const isDay = said !== undefined && /^\d{4}-\d\d-\d\d/.test(said)
  return voice.day(isDay && !Number.isNaN(Date.parse(said)) ? said : voice.now)
}
