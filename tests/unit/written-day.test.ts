import { describe, expect, test } from 'vitest'
import { writtenDay, writtenMoment, writtenMonth } from '../../shared/written-day.ts'

describe('a day in the order of the studio', () => {
  test.each([
    ['day_month_year', ['5 Mar 2026', '5 Mar 2026, 08:05', 'March 2026']],
    ['month_day_year', ['Mar 5, 2026', 'Mar 5, 2026, 08:05', 'March 2026']],
    ['year_month_day', ['2026-03-05', '2026-03-05 08:05', '2026-03']],
  ] as const)('%s', (order, [day, moment, month]) => {
    expect(writtenDay('2026-03-05', order)).toBe(day)
    expect(writtenMoment('2026-03-05T08:05:00+00:00', order)).toBe(moment)
    expect(writtenMonth('2026-03', order)).toBe(month)
  })

  test('every month has its name, and its first three letters', () => {
    const numbers = Array.from({ length: 12 }, (_, index) => String(index + 1).padStart(2, '0'))
    const names = numbers.map((number) => writtenMonth(`2026-${number}`, 'day_month_year'))
    expect(new Set(names).size).toBe(12)
    expect([names[0], names[11]]).toEqual(['January 2026', 'December 2026'])
    for (const number of numbers) {
      const long = writtenMonth(`2026-${number}`, 'day_month_year')
      expect(writtenDay(`2026-${number}-01`, 'day_month_year')).toBe(`1 ${long.slice(0, 3)} 2026`)
    }
  })
})
