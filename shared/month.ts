/** A calendar month as 'YYYY-MM'. */
export type Month = string

/** True for a month that the calendar has. */
export function isMonth(text: string): text is Month {
  return /^\d{4}-(0[1-9]|1[0-2])$/.test(text)
}

/** The month after. */
export function monthAfter(month: Month): Month {
  const year = Number(month.slice(0, 4))
  const number = Number(month.slice(5))
  return number === 12 ? `${String(year + 1).padStart(4, '0')}-01` : withNumber(year, number + 1)
}

/** The month before. */
export function monthBefore(month: Month): Month {
  const year = Number(month.slice(0, 4))
  const number = Number(month.slice(5))
  return number === 1 ? `${String(year - 1).padStart(4, '0')}-12` : withNumber(year, number - 1)
}

function withNumber(year: number, number: number): Month {
  return `${String(year).padStart(4, '0')}-${String(number).padStart(2, '0')}`
}

/** The month in which a moment falls, by the clock on the studio's wall. */
export function monthOf(moment: Date, timeZone: string): Month {
  const parts = new Intl.DateTimeFormat('en-CA', { timeZone, year: 'numeric', month: '2-digit' })
    .formatToParts(moment)
    .reduce<Record<string, string>>((all, part) => ({ ...all, [part.type]: part.value }), {})
  return `${parts['year'] ?? ''}-${parts['month'] ?? ''}`
}
