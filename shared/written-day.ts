import { assert } from './assert.ts'

export const DATE_ORDERS = ['day_month_year', 'month_day_year', 'year_month_day'] as const

/** In which order a studio writes day, month and year. */
export type DateOrder = (typeof DATE_ORDERS)[number]

const MONTHS = [
  ...['January', 'February', 'March', 'April', 'May', 'June', 'July'],
  ...['August', 'September', 'October', 'November', 'December'],
]
const SHORT_NAME = 3

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

function monthName(month: string): string {
  const name = MONTHS[Number(month) - 1]
  assert(name !== undefined, `${month} is a month`)
  return name
}
