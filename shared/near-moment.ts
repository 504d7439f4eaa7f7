import { writtenDay, type DateOrder } from './written-day.ts'

const WEEKDAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat']
const DAY_MILLISECONDS = 24 * 60 * 60 * 1000
/** So many days to either side a weekday alone can mean only one day. */
const WEEKDAY_DAYS = 6

/** By what a moment is said: the moment of asking, and the studio's order of day, month and year. */
export interface NearBy {
  /** As `wallTime` gives it. */
  readonly now: string
  readonly order: DateOrder
}

/**
 * A moment as somebody says it who stands by: `today 18:00`, `tomorrow 07:30`, `Thu 18:00`, and with its
 * date where it is further off than a week.
 *
 * Units: from ISO 8601 with the wall's own time, as `wallTime` gives it; to the minute. A weekday that is
 * past is `last Thu`.
 * Source: common usage.
 */
export function writtenNear(wall: string, { now, order }: NearBy): string {
  const away = Math.round((dayOf(wall).getTime() - dayOf(now).getTime()) / DAY_MILLISECONDS)
  return `${dayWords(wall, away, order)} ${timeOf(wall)}`
}

/** A moment and where it may lie, as words. */
export interface NearSpan {
  readonly middle: string
  readonly range: string
}

/**
 * A moment with where it may lie: `today 18:00`, and `17:20 to tomorrow 01:00`; a day that was just named
 * is not named again.
 *
 * Units: as `writtenNear`; null lies more than a year away. Source: common usage.
 */
export function writtenNearSpan(
  span: {
    readonly median: string | null
    readonly from: string | null
    readonly to: string | null
  },
  by: NearBy,
): NearSpan {
  const { median, from, to } = span
  return {
    middle: beside(median, null, by),
    range: `${beside(from, median, by)} to ${beside(to, from, by)}`,
  }
}

function beside(wall: string | null, other: string | null, by: NearBy): string {
  if (wall === null) return 'more than a year away'
  if (other !== null && wallDayOf(wall) === wallDayOf(other)) return timeOf(wall)
  return writtenNear(wall, by)
}

function dayWords(wall: string, away: number, order: DateOrder): string {
  if (away === 0) return 'today'
  if (away === 1) return 'tomorrow'
  if (away === -1) return 'yesterday'
  if (Math.abs(away) > WEEKDAY_DAYS) return writtenDay(wallDayOf(wall), order)
  const weekday = WEEKDAYS[dayOf(wall).getUTCDay()] ?? ''
  return away < 0 ? `last ${weekday}` : weekday
}

function dayOf(wall: string): Date {
  return new Date(`${wallDayOf(wall)}T00:00:00Z`)
}

function wallDayOf(wall: string): string {
  return wall.slice(0, 'yyyy-mm-dd'.length)
}

function timeOf(wall: string): string {
  return wall.slice('yyyy-mm-ddT'.length, 'yyyy-mm-ddThh:mm'.length)
}
