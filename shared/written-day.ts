import { assert } from './assert.ts'
import { wallTime } from './studio-clock.ts'

export const DATE_ORDERS = ['day_month_year', 'month_day_year', 'year_month_day'] as const

/** In which order a studio writes day, month and year. */
export type DateOrder = (typeof DATE_ORDERS)[number]

const MONTHS = [
  ...['January', 'February', 'March', 'April', 'May', 'June', 'July'],
  ...['August', 'September', 'October', 'November', 'December'],
]
const SHORT_NAME = 3
/** A year outside of these is a slip: 0026 for 2026. Our choice. */
const FIRST_YEAR = 1900
const YEAR_AFTER_LAST = 3000
const DAY_MILLISECONDS = 86_400_000
const WALL_TEXT = /^(\d{4}-\d{2}-\d{2}T\d{2}:\d{2})(?::\d{2}(?:\.\d{1,3})?)?$/

/**
 * A day on the wall in a studio's order: `14 Mar 2026`, `Mar 14, 2026` or `2026-03-14`.
 *
 * Units: from ISO 8601, as 2026-03-14. Source: common usage; the last is ISO 8601.
 */
export function writtenDay(wallDay: string, order: DateOrder): string {
  const [year = '', month = '', day = ''] = wallDay.split('-')
  if (order === 'year_month_day') return `${year}-${month}-${day}`
  const name = monthName(month).slice(0, SHORT_NAME)
  const number = String(Number(day))
  return order === 'day_month_year' ? `${number} ${name} ${year}` : `${name} ${number}, ${year}`
}

/**
 * A moment on the wall in a studio's order: `14 Mar 2026, 18:00`.
 *
 * Units: from ISO 8601 with the wall's own time, as `wallTime` gives it; to the minute.
 * Source: as `writtenDay`.
 */
export function writtenMoment(wall: string, order: DateOrder): string {
  const [day = '', time = ''] = wall.split('T')
  const between = order === 'year_month_day' ? ' ' : ', '
  return `${writtenDay(day, order)}${between}${time.slice(0, 'hh:mm'.length)}`
}

/**
 * A month as a heading says it: `October 2026`, or `2026-10` where the year comes first.
 *
 * Units: from ISO 8601, as 2026-10. Source: as `writtenDay`.
 */
export function writtenMonth(month: string, order: DateOrder): string {
  if (order === 'year_month_day') return month
  const [year = '', number = ''] = month.split('-')
  return `${monthName(number)} ${year}`
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
export function momentOfWallTime(typed: string, timeZone: string): Date | undefined {
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
  const year = Number(text.slice(0, 4))
  const isOurTimes = year >= FIRST_YEAR && year < YEAR_AFTER_LAST
  return isOurTimes && !Number.isNaN(moment.getTime()) && moment.toISOString().startsWith(text)
}

/** How far the wall is ahead of Greenwich then; of a moment that is a whole minute. */
function offsetMilliseconds(moment: Date, timeZone: string): number {
  const wall = wallTime(moment, timeZone)
  const shown = new Date(`${wall.slice(0, 'yyyy-mm-ddThh:mm'.length)}:00Z`)
  return shown.getTime() - moment.getTime()
}

function monthName(month: string): string {
  const name = MONTHS[Number(month) - 1]
  assert(name !== undefined, `${month} is a month`)
  return name
}
