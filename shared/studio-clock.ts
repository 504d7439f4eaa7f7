const MINUTE_MILLISECONDS = 60_000
const DAY_LENGTH = 'yyyy-mm-dd'.length
const MINUTE_LENGTH = 'yyyy-mm-ddThh:mm'.length
const TIME_LENGTH = 'hh:mm'.length

/**
 * A moment as the clock on the studio's wall shows it, with how far that is from Greenwich on the day.
 *
 * Units: ISO 8601 to the minute, as 2026-05-14T18:00:00+01:00.
 * Source: the time zone's rules as the runtime knows them.
 */
export function wallTime(moment: Date, timeZone: string): string {
  const part = partsOf(moment, timeZone, {
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    timeZoneName: 'longOffset',
  })
  const offset = part('timeZoneName').replace('GMT', '')
  const day = `${part('year')}-${part('month')}-${part('day')}`
  return `${day}T${part('hour')}:${part('minute')}:00${offset === '' ? '+00:00' : offset}`
}

/**
 * The minute that has begun on the studio's wall: never one that is still to come.
 *
 * Units: ISO 8601 without seconds and offset, as 2026-05-14T18:00. Source: as `wallTime`.
 */
export function wallMinute(moment: Date, timeZone: string): string {
  const begun = Math.floor(moment.getTime() / MINUTE_MILLISECONDS) * MINUTE_MILLISECONDS
  return wallTime(new Date(begun), timeZone).slice(0, MINUTE_LENGTH)
}

/** The day on the studio's wall. Units: ISO 8601, as 2026-05-14. Source: as `wallTime`. */
export function wallDay(moment: Date, timeZone: string): string {
  return wallTime(moment, timeZone).slice(0, DAY_LENGTH)
}

/**
 * A moment as a potter says it beside another one: the time alone where both are of one day.
 *
 * Units: as `wallWords`, or the time to the minute. Source: as `wallTime`.
 */
export function wallWordsBeside(moment: Date, other: Date, timeZone: string): string {
  const words = wallWords(moment, timeZone)
  const day = (text: string) => text.slice(0, -TIME_LENGTH)
  return day(words) === day(wallWords(other, timeZone)) ? words.slice(-TIME_LENGTH) : words
}

/**
 * The same moment as a potter says it. Units: weekday, day, month and the time to the minute.
 *
 * Source: as `wallTime`.
 */
export function wallWords(moment: Date, timeZone: string): string {
  const part = partsOf(moment, timeZone, {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  })
  return `${part('weekday')} ${part('day')} ${part('month')} ${part('hour')}:${part('minute')}`
}

function partsOf(moment: Date, timeZone: string, options: Intl.DateTimeFormatOptions) {
  const toMinute = Math.round(moment.getTime() / MINUTE_MILLISECONDS) * MINUTE_MILLISECONDS
  const parts = new Intl.DateTimeFormat('en-GB', { ...options, timeZone }).formatToParts(toMinute)
  return (type: Intl.DateTimeFormatPartTypes) => parts.find((one) => one.type === type)?.value ?? ''
}
