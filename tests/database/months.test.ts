import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { entryOf, openGround, verdict } from './by-hand.ts'
import type { Ground } from './by-hand.ts'

let ground: Ground

const lines = [
  { to: 'supplier', dry: '-1' },
  { to: 'bench', dry: '1' },
]

/** Closes a month as SQL alone would: the entry first, then what it closes. */
function closingOf(month: string, studio = 'lane', kind = 'close_month'): string {
  const id = `close-${month}`
  return `${entryOf({ id, studio, kind, at: '2026-06-02T12:00Z' })}
    insert into month_closing values ('${studio}', '${month}', '${id}');`
}

beforeAll(async () => {
  ground = await openGround()
  await ground.owner`update studio set time_zone = 'America/Los_Angeles' where studio_id = 'hill'`
  for (const studio of ['lane', 'hill']) await ground.owner.unsafe(closingOf('2026-03', studio))
})
afterAll(() => ground.close())

describe.each(['owner', 'app'] as const)('a closed month, by the hand of the %s:', (writer) => {
  const dated = (at: string, studio = 'lane') =>
    verdict(ground[writer], entryOf({ id: `${writer} ${at}`, studio, at, lines }))

  test.each([
    { at: '2026-03-31 23:30 Europe/Berlin', when: 'half an hour before midnight on its last day' },
    { at: '2026-03-31T21:59:59.999999Z', when: 'the last instant of it on the wall in Berlin' },
    { at: '2026-03-01 00:00 Europe/Berlin', when: 'its first instant' },
    { at: '2026-02-28T23:30Z', when: 'in it on the wall though not in London' },
    { at: '2026-01-15T12:00Z', when: 'in a month before it' },
    { at: '1999-12-31T12:00Z', when: 'in another century' },
    { at: '0044-03-15T12:00Z', when: 'in a year that few remember' },
    { at: '3000-01-01 BC', when: 'before Christ' },
    { at: '-infinity', when: 'at the beginning of time' },
  ])('refuses an entry dated $when', async ({ at }) => {
    expect(await dated(at)).toBe('month_must_be_open')
  })

  test.each([
    { at: '2026-04-01 00:00 Europe/Berlin', when: 'the first instant after it on the wall' },
    { at: '2026-03-31T22:30Z', when: 'after it on the wall though in it in London' },
    { at: '2026-05-15T12:00Z', when: 'in a month after it' },
  ])('lets be what is dated $when', async ({ at }) => {
    expect(await dated(at)).toBe('went through')
  })

  test('is the month on the wall of each studio, not of the server', async () => {
    const sameInstant = '2026-04-01T05:30Z'
    expect(await dated(sameInstant, 'lane')).toBe('went through')
    expect(await dated(sameInstant, 'hill')).toBe('month_must_be_open')
  })

  test('refuses whatever time zone the session has', async () => {
    for (const zone of ['Pacific/Kiritimati', 'Pacific/Pago_Pago']) {
      const inZone = `set local time zone '${zone}';`
      const before = entryOf({ id: 'zone', at: '2026-03-31T21:30Z', lines })
      expect(await verdict(ground[writer], inZone + before)).toBe('month_must_be_open')
      const after = entryOf({ id: `${writer} ${zone}`, at: '2026-03-31T22:00Z', lines })
      expect(await verdict(ground[writer], inZone + after)).toBe('went through')
    }
  })

  test('refuses readings and reversals as well as what moves clay', async () => {
    const at = '2026-03-10T12:00Z'
    const reading = entryOf({ id: 'late', kind: 'count', at })
    expect(await verdict(ground[writer], reading)).toBe('month_must_be_open')
    const reversal = entryOf({ id: 'late', kind: 'reverse', reverses: 'reading', at })
    expect(await verdict(ground[writer], reversal)).toBe('month_must_be_open')
  })

  test('is not closed again', async () => {
    const again = closingOf('2026-03').replaceAll('close-2026-03', 'again')
    expect(await verdict(ground[writer], again)).toBe('month_closing_studio_id_month_pk')
  })

  test('was closed by an entry that came to do that', async () => {
    const byTheWay = closingOf('2026-04', 'lane', 'count')
    expect(await verdict(ground[writer], byTheWay)).toBe('month_must_be_closed_by_its_entry')
  })

  test.each(['2026-13', '2026-00', '2026-4', '202604', 'April', '0000-01', '9999-12'])(
    'is a month of our time: %s is none',
    async (month) => {
      expect(await verdict(ground[writer], closingOf(month))).toBe('month_closing_is_a_month')
    },
  )

  test.each(['repeatable read', 'serializable'])(
    'is not overlooked by a writer under %s, who would not see it closed',
    async (isolation) => {
      const entry = entryOf({ id: 'isolated', lines, at: '2026-05-01T12:00Z' })
      const blind = `set transaction isolation level ${isolation}; ${entry}`
      expect(await verdict(ground[writer], blind)).toBe('entry_must_see_closings')
    },
  )
})
