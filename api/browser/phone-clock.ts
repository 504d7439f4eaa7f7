/** The phone's own clock, in milliseconds; it may be off, which `server-time.ts` deals with. */
export function phoneNow(): number {
  return Date.now()
}
