import { assert } from './assert.ts'

const MINUTE_MILLISECONDS = 60_000
const DAY_MILLISECONDS = 24 * 60 * MINUTE_MILLISECONDS
const DAY_LENGTH = 'yyyy-mm-dd'.length
const TIME_LENGTH = 'hh:mm'.length
const WALL_TEXT = /^(\d{4}-\d{2}-\d{2}T\d{2}:\d{2})(?::\d{2}(?:\.\d{1,3})?)?$/

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

/**
 * The moment at which the clock on the wall shows what somebody typed; undefined where that is no time.
 *
 * Where clocks were put back and a time comes twice, the first is meant. Where they were put forward
 * and a time never comes, it is taken by the clock as it went before, which is as long after the jump.
 *
 * Units: ISO 8601 without an offset, as 2026-03-14T18:00; seconds are left out.
 * Source: the time zone's rules as the runtime knows them; RFC 5545, section 3.3.5, for both cases.
 */
export function instantOfWallTime(typed: string, timeZone: string): Date | undefined {
  const text = WALL_TEXT.exec(typed)?.[1]
  if (text === undefined) return undefined
  const asIfGreenwich = new Date(`${text}:00Z`)
  if (!isTimeOf(asIfGreenwich, text)) return undefined
  // A day to either side lie the offsets before and after any change of the clocks.
  const [before, after] = [-DAY_MILLISECONDS, DAY_MILLISECONDS].map((away) => {
    const near = new Date(asIfGreenwich.getTime() + away)
    return new Date(asIfGreenwich.getTime() - offsetMilliseconds(near, timeZone))
  })
  assert(before !== undefined && after !== undefined, 'there are two sides')
  const shown = [before, after].filter((one) => wallTime(one, timeZone).startsWith(text))
  const [first = before, second = first] = shown
  return first <= second ? first : second
}

/** False for 31 April and 25 o'clock, which either are no date or come out as another one. */
function isTimeOf(moment: Date, text: string): boolean {
  return !Number.isNaN(moment.getTime()) && moment.toISOString().startsWith(text)
}

function offsetMilliseconds(moment: Date, timeZone: string): number {
  const wall = wallTime(moment, timeZone)
  const shown = new Date(`${wall.slice(0, 'yyyy-mm-ddThh:mm'.length)}:00Z`)
  return shown.getTime() - toMinute(moment)
}

function partsOf(moment: Date, timeZone: string, options: Intl.DateTimeFormatOptions) {
  const parts = new Intl.DateTimeFormat('en-GB', { ...options, timeZone }).formatToParts(
    toMinute(moment),
  )
  return (type: Intl.DateTimeFormatPartTypes) => parts.find((one) => one.type === type)?.value ?? ''
}

function toMinute(moment: Date): number {
  return Math.round(moment.getTime() / MINUTE_MILLISECONDS) * MINUTE_MILLISECONDS
}
