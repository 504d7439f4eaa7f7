/**
 * A day as a sentence says it: `14 May`.
 *
 * Units: by the clock on the wall of that zone. Source: common usage.
 */
export function dayInWords(moment: Date, timeZone: string): string {
  return new Intl.DateTimeFormat('en-GB', { timeZone, day: 'numeric', month: 'long' }).format(
    moment,
  )
}
