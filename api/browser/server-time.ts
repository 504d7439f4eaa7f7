import { phoneNow } from './phone-clock.ts'

/**
 * What the time is, said on a phone whose clock may be off.
 *
 * The server says its time in the `Date` of each answer, in whole seconds. So it was at least that when
 * the answer came, and less than a second more when the question went. What is kept is how far the
 * server is ahead at least: a time that is said so never lies in the server's future.
 */

const AHEAD = 'slakebook-server-ahead'
const SAID_LAST = 'slakebook-said-last'
const SECOND = 1000
/** Times said one after the other differ; a clock that was set back by more than this is believed. */
const SET_BACK = 2 * SECOND
const ASK_AGAIN_AFTER = 10 * 60 * SECOND

let heardAt = -Infinity

/** Learns from an answer how far the server's clock is ahead of the phone's. */
export function learnServerTime(answer: Response, askedAt: number): void {
  const said = Date.parse(answer.headers.get('date') ?? '')
  if (Number.isNaN(said)) return
  heardAt = phoneNow()
  const atLeast = said - heardAt
  const atMost = said + SECOND - askedAt
  const known = remembered(AHEAD)
  const isStill = known !== undefined && known <= atMost
  remember(AHEAD, isStill ? Math.max(known, atLeast) : atLeast)
}

/** Asks the server for its time, where that was not heard for a while. */
export async function askServerTime(): Promise<void> {
  const askedAt = phoneNow()
  if (askedAt - heardAt < ASK_AGAIN_AFTER) return
  try {
    const answer = await fetch('/service-worker.js', { method: 'HEAD', cache: 'no-store' })
    learnServerTime(answer, askedAt)
  } catch {
    // Without a network the last that was heard has to do.
  }
}

/** The moment of now by the server's clock, as ISO 8601, later than any that was said before. */
export function momentToSay(): string {
  const now = phoneNow() + (remembered(AHEAD) ?? 0)
  const last = remembered(SAID_LAST) ?? -Infinity
  const isRunningOn = last >= now && last - now < SET_BACK
  const said = isRunningOn ? last + 1 : now
  remember(SAID_LAST, said)
  return new Date(said).toISOString()
}

/** Private windows may forbid to remember; then each page knows only what it heard itself. */
const onThisPage = new Map<string, number>()

function remembered(name: string): number | undefined {
  try {
    const kept = localStorage.getItem(name)
    if (kept !== null && Number.isFinite(Number(kept))) return Number(kept)
  } catch {
    // Forbidden.
  }
  return onThisPage.get(name)
}

function remember(name: string, value: number): void {
  onThisPage.set(name, value)
  try {
    localStorage.setItem(name, String(value))
  } catch {
    // Forbidden, or full.
  }
}
