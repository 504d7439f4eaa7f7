/**
 * A time of day as a sentence says it: `14:05`.
 *
 * Units: as `dayInWords`. Source: common usage.
 */
export function timeInWords(moment: Date, timeZone: string): string {
  return new Intl.DateTimeFormat('en-GB', {
    timeZone,
    hour: '2-digit',
    minute: '2-digit',
  }).format(moment)
}

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
