import { describe, expect, test } from 'vitest'
import { writtenNear, writtenNearSpan } from '../../shared/near-moment.ts'

const by = { now: '2026-05-14T18:00:00+01:00', order: 'day_month_year' } as const

describe('a moment as somebody says it who stands by', () => {
  test.each([
    ['2026-05-14T00:05:00+01:00', 'today 00:05'],
    ['2026-05-15T07:30:00+01:00', 'tomorrow 07:30'],
    ['2026-05-13T23:59:00+01:00', 'yesterday 23:59'],
    ['2026-05-17T12:00:00+01:00', 'Sun 12:00'],
    ['2026-05-20T12:00:00+01:00', 'Wed 12:00'],
    ['2026-05-21T12:00:00+01:00', '21 May 2026 12:00'],
    ['2026-05-10T12:00:00+01:00', 'last Sun 12:00'],
    ['2026-05-07T12:00:00+01:00', '7 May 2026 12:00'],
  ])('%s is %s', (wall, words) => {
    expect(writtenNear(wall, by)).toBe(words)
  })

  test('over the night in which the clocks change a day is still a day', () => {
    const now = '2026-03-28T23:30:00+00:00'
    expect(writtenNear('2026-03-29T23:30:00+01:00', { ...by, now })).toBe('tomorrow 23:30')
  })

  test('a date is in the order of the studio', () => {
    const american = { ...by, order: 'month_day_year' } as const
    expect(writtenNear('2026-06-21T12:00:00+01:00', american)).toBe('Jun 21, 2026 12:00')
  })
})

describe('where a moment may lie', () => {
  const span = (from: string | null, median: string | null, to: string | null) =>
    writtenNearSpan({ from, median, to }, by)
  const at = (day: number, time: string) => `2026-05-${String(day)}T${time}:00+01:00`

  test('a day that was just named is not named again', () => {
    expect(span(at(14, '19:30'), at(14, '20:10'), at(14, '21:20'))).toEqual({
      middle: 'today 20:10',
      range: '19:30 to 21:20',
    })
    expect(span(at(14, '22:30'), at(15, '01:00'), at(15, '04:00'))).toEqual({
      middle: 'tomorrow 01:00',
      range: 'today 22:30 to tomorrow 04:00',
    })
  })

  test('what nobody waits for is more than a year away', () => {
    expect(span(at(14, '19:30'), null, null)).toEqual({
      middle: 'more than a year away',
      range: 'today 19:30 to more than a year away',
    })
  })
})
