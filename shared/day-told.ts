import { wallDay } from './studio-clock.ts'
import type { DateOrder } from './written-day.ts'

export const DAY_ORDERS = ['day_month_year', 'month_day_year', 'year_month_day'] as const

const MONTH_LANGUAGES = ['en', 'de', 'fr', 'es', 'it', 'nl', 'pt', 'sv', 'da', 'pl'] as const
const MONTHS_IN_YEAR = 12
const SEPTEMBER = 9
const CHARACTERS_MAX = 60
const CENTURY = 2000
const FIRST_YEAR = 1990
const LAST_YEAR = 2999

const INSTANT = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(:\d{2}([.,]\d+)?)?\s*(Z|UTC|[+-]\d{2}:?\d{2})$/i
const TIME_AFTER_DAY = /(T|[\s,]+(at\s+)?)\d{1,2}:\d{2}.*$/i
const THREE_NUMBERS = /^(\d{1,4})\s*[./\- ]\s*(\d{1,2})\s*[./\- ]\s*(\d{1,4})\.?$/
const ONE_NUMBER = /^(\d{4})(\d{2})(\d{2})$/

/** A day as numbers; whether there is such a day is asked when it is written. */
interface Numbers {
  readonly year: number
  readonly month: number
  readonly day: number
}

/**
 * The day that a cell of a shop's file names, on the studio's wall; undefined where it names none.
 *
 * A moment with its offset is turned into the day on the studio's wall; a moment without one is taken for
 * the day as it is written. Months may be named. Two digits of a year are of this century.
 *
 * Units: ISO 8601, as 2026-03-14. Source: common usage; names of months from the Unicode CLDR.
 */
export function dayTold(
  cell: string,
  how: { readonly order: DateOrder; readonly timeZone: string },
): string | undefined {
  const text = textOf(cell)
  if (INSTANT.test(text)) return dayOfInstant(text, how.timeZone)
  const written = text.replace(TIME_AFTER_DAY, '').trim()
  return dayWithoutOrder(written) ?? dayInOrder(written, how.order)
}

/**
 * The orders in which most of a column's cells can be read; none where no cell leaves it open.
 *
 * One order: the cells tell it. Several: 03/04 could be either, and somebody has to be asked.
 *
 * Source: our choice.
 */
export function dayOrdersTold(cells: readonly string[]): readonly DateOrder[] {
  const open = cells
    .map(textOf)
    .filter((text) => !INSTANT.test(text))
    .map((text) => text.replace(TIME_AFTER_DAY, '').trim())
    .filter((text) => THREE_NUMBERS.test(text) && dayWithoutOrder(text) === undefined)
  const counted = DAY_ORDERS.map((order) => ({
    order,
    read: open.filter((text) => dayInOrder(text, order) !== undefined).length,
  }))
  const most = Math.max(...counted.map(({ read }) => read))
  return most === 0 ? [] : counted.filter(({ read }) => read === most).map(({ order }) => order)
}

/** A cell without blanks around it; what is longer than any day is cut off, and so is none. */
function textOf(cell: string): string {
  return cell.length > CHARACTERS_MAX ? '' : cell.trim()
}

/** The day where only one reading is possible: the year comes first in full, or the month is named. */
function dayWithoutOrder(text: string): string | undefined {
  const run = ONE_NUMBER.exec(text)
  if (run !== null) return isoDay(numbersOf(run[1], run[2], run[3]))
  const [, first = '', second, third] = THREE_NUMBERS.exec(text) ?? []
  if (first.length === 'yyyy'.length) return isoDay(numbersOf(first, second, third))
  return dayWithNamedMonth(text)
}

function dayInOrder(text: string, order: DateOrder): string | undefined {
  const [, one, two, three] = THREE_NUMBERS.exec(text) ?? []
  if (one === undefined || two === undefined || three === undefined) return undefined
  if (order === 'year_month_day') return isoDay(numbersOf(one, two, three))
  return order === 'day_month_year'
    ? isoDay(numbersOf(three, two, one))
    : isoDay(numbersOf(three, one, two))
}

function dayWithNamedMonth(text: string): string | undefined {
  const words = text
    .toLowerCase()
    .split(/[\s.,/-]+/)
    .filter((word) => word !== '')
  const named = words.map(monthNamed).find((month) => month !== undefined)
  const numbers = words
    .map((word) => /^(\d{1,4})(st|nd|rd|th|er|º|e)?$/.exec(word)?.[1])
    .filter((digits) => digits !== undefined)
  if (named === undefined || numbers.length !== 2) return undefined
  const isYearFirst = numbers[0]?.length === 'yyyy'.length
  const [day, year] = isYearFirst ? [numbers[1], numbers[0]] : numbers
  return isoDay(numbersOf(year, String(named), day))
}

/** Names of months in some languages, whole and as they are cut short. */
const MONTH_OF_NAME: ReadonlyMap<string, number> = new Map(
  MONTH_LANGUAGES.flatMap((language) =>
    (['long', 'short'] as const).flatMap((month) => {
      const name = new Intl.DateTimeFormat(language, { month, timeZone: 'UTC' })
      return Array.from({ length: MONTHS_IN_YEAR }, (_, index): [string, number] => {
        const moment = new Date(Date.UTC(CENTURY, index, 1))
        return [name.format(moment).toLowerCase().replaceAll('.', ''), index + 1]
      })
    }),
  ).reverse(),
)

function monthNamed(word: string): number | undefined {
  return MONTH_OF_NAME.get(word) ?? (word === 'sept' ? SEPTEMBER : undefined)
}

function dayOfInstant(text: string, timeZone: string): string | undefined {
  const iso = text.replace(' ', 'T').replace(',', '.').replace(/\s+/g, '').replace(/UTC$/i, 'Z')
  const moment = new Date(iso.replace(/([+-]\d{2})(\d{2})$/, '$1:$2'))
  return Number.isNaN(moment.getTime()) ? undefined : wallDay(moment, timeZone)
}

function numbersOf(year = '', month = '', day = ''): Numbers {
  const isShort = year.length <= 2
  return {
    year: isShort ? CENTURY + Number(year) : Number(year),
    month: Number(month),
    day: day.length > 2 ? Number.NaN : Number(day),
  }
}

function isoDay({ year, month, day }: Numbers): string | undefined {
  if (!(year >= FIRST_YEAR && year <= LAST_YEAR)) return undefined
  const moment = new Date(Date.UTC(year, month - 1, day))
  const isThere =
    moment.getUTCFullYear() === year &&
    moment.getUTCMonth() === month - 1 &&
    moment.getUTCDate() === day
  return isThere ? moment.toISOString().slice(0, 'yyyy-mm-dd'.length) : undefined
}
