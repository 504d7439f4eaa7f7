import { describe, expect, test } from 'vitest'
import { wallTime } from '../../shared/studio-clock.ts'
import { momentOfWallTime } from '../../shared/written-day.ts'
import type { Cited } from './cited.ts'

interface Clock extends Cited {
  readonly timeZone: string
  readonly typed: string
  readonly instant: string
}

/** As `zdump -v` prints the transitions of the year. */
const iana = {
  source: 'IANA time zone database 2025b, by zdump of GNU libc',
  standing: 'seen',
} as const
/** Which of two is meant, and what is meant where there is none. */
const chosen = {
  source: 'RFC 5545, section 3.3.5, with the transitions of the IANA time zone database 2025b',
  standing: 'computed',
} as const

const AT_THE_JUMP: readonly Clock[] = [
  { timeZone: 'Europe/London', typed: '2026-03-29T00:59', instant: '2026-03-29T00:59Z', ...iana },
  { timeZone: 'Europe/London', typed: '2026-03-29T02:00', instant: '2026-03-29T01:00Z', ...iana },
  { timeZone: 'Europe/London', typed: '2026-10-25T02:00', instant: '2026-10-25T02:00Z', ...iana },
  { timeZone: 'Europe/London', typed: '2026-10-25T00:59', instant: '2026-10-24T23:59Z', ...iana },
  {
    ...iana,
    timeZone: 'America/New_York',
    typed: '2026-03-08T03:00',
    instant: '2026-03-08T07:00Z',
  },
  {
    ...iana,
    timeZone: 'America/New_York',
    typed: '2026-03-08T01:59',
    instant: '2026-03-08T06:59Z',
  },
  {
    ...iana,
    timeZone: 'Australia/Lord_Howe',
    typed: '2026-10-04T02:30',
    instant: '2026-10-03T15:30Z',
  },
  { timeZone: 'Pacific/Apia', typed: '2011-12-29T23:59', instant: '2011-12-30T09:59Z', ...iana },
  { timeZone: 'Pacific/Apia', typed: '2011-12-31T00:00', instant: '2011-12-30T10:00Z', ...iana },
]

const TWICE: readonly Clock[] = [
  { timeZone: 'Europe/London', typed: '2026-10-25T01:30', instant: '2026-10-25T00:30Z', ...chosen },
  {
    ...chosen,
    timeZone: 'America/New_York',
    typed: '2026-11-01T01:00',
    instant: '2026-11-01T05:00Z',
  },
  {
    ...chosen,
    timeZone: 'Australia/Lord_Howe',
    typed: '2026-04-05T01:45',
    instant: '2026-04-04T14:45Z',
  },
]

const NEVER: readonly Clock[] = [
  { timeZone: 'Europe/London', typed: '2026-03-29T01:30', instant: '2026-03-29T01:30Z', ...chosen },
  {
    ...chosen,
    timeZone: 'America/New_York',
    typed: '2026-03-08T02:15',
    instant: '2026-03-08T07:15Z',
  },
  {
    ...chosen,
    timeZone: 'Australia/Lord_Howe',
    typed: '2026-10-04T02:10',
    instant: '2026-10-03T15:40Z',
  },
  { timeZone: 'Pacific/Apia', typed: '2011-12-30T12:00', instant: '2011-12-30T22:00Z', ...chosen },
]

const at = (instant: string) => new Date(instant.replace('Z', ':00.000Z'))

describe('the moment at which the clock shows what was typed', () => {
  test.each([...AT_THE_JUMP, ...TWICE, ...NEVER])(
    '$typed in $timeZone is $instant ($standing: $source)',
    ({ timeZone, typed, instant }) => {
      expect(momentOfWallTime(typed, timeZone)).toEqual(at(instant))
    },
  )

  test.each([...AT_THE_JUMP, ...TWICE])('$typed in $timeZone is shown', ({ timeZone, typed }) => {
    const found = momentOfWallTime(typed, timeZone)
    expect(found && wallTime(found, timeZone)).toMatch(new RegExp(`^${typed}`))
  })

  test.each(NEVER)('$typed in $timeZone is never shown', ({ timeZone, typed, instant }) => {
    expect(wallTime(at(instant), timeZone).slice(0, typed.length) > typed).toBe(true)
  })

  test.each([
    ['', '2026-03-14', '18:00', '2026-04-31T10:00', '2026-03-14T24:30', '2026-03-14T18:00Z'],
    ['14/03/2026 18:00', 'yesterday'],
  ])('what is no time of a day is none', (...all) => {
    for (const typed of all) expect(momentOfWallTime(typed, 'Europe/London')).toBeUndefined()
  })
})
