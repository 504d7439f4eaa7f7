import { setTimeout as pause } from 'node:timers/promises'
import postgres from 'postgres'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { lockHoldings } from '../../db/holdings.ts'
import { inLedger, openEntry, writeLines } from '../../db/posting.ts'
import { decimal } from '../../shared/decimal.ts'
import { NOTHING_HELD } from '../../shared/quantity.ts'
import { balanceOf, entryOf, lineOf, nameOf, openGround, verdict } from './by-hand.ts'
import type { Ground } from './by-hand.ts'

let ground: Ground

beforeAll(async () => {
  ground = await openGround()
})
afterAll(() => ground.close())

const HAPPENED_AT = new Date('2026-03-15T12:00Z')
const times = (count: number) => Array.from({ length: count }, (_, at) => at)
const lines = [
  { to: 'supplier', dry: '-1' },
  { to: 'bench', dry: '1' },
]

async function waitingBackends(): Promise<number> {
  const [row] = await ground.owner`
    select count(*)::int as waiting from pg_stat_activity
     where datname = current_database() and wait_event_type = 'Lock'`
  return Number(row?.waiting)
}

async function untilWaiting(): Promise<void> {
  for (const _ of times(500)) {
    if ((await waitingBackends()) > 0) return
    await pause(10)
  }
  throw new Error('nobody came to wait, though somebody should have')
}

describe('two writers moving opposite ways between two holdings', () => {
  const TIMES = 200

  function move(from: string, to: string, entryId: string): Promise<void> {
    const facts = { studioId: 'lane', entryId, kind: 'throw' as const }
    const amount = decimal('0.25')
    return inLedger(ground.db, async (ledger) => {
      await lockHoldings(ledger, 'lane', [from, to])
      await openEntry(ledger, {
        ...{ ...facts, happenedAt: HAPPENED_AT, recordedAt: HAPPENED_AT },
        ...{ recordedBy: undefined, note: undefined, said: {} },
      })
      await writeLines(ledger, facts, [
        { ...NOTHING_HELD, holdingId: from, dryGrams: amount.negated() },
        { ...NOTHING_HELD, holdingId: to, dryGrams: amount },
      ])
    })
  }

  test('never wait for each other in a ring, and lose nothing', async () => {
    const before = [await balanceOf(ground.owner, 'bucket'), await balanceOf(ground.owner, 'bench')]
    // Each way has a lane of several connections, so that they do meet.
    const moves = times(TIMES).flatMap((at) => [
      move('bucket', 'bench', `forth-${at}`),
      move('bench', 'bucket', `back-${at}`),
    ])
    const ended = await Promise.allSettled(moves)
    expect(ended.filter((one) => one.status === 'rejected')).toEqual([])
    const after = [await balanceOf(ground.owner, 'bucket'), await balanceOf(ground.owner, 'bench')]
    expect(after.flat().map(Number)).toEqual(before.flat().map(Number))
    const sums = await ground.owner`
      select h.dry_grams = sum(l.dry_grams) as same, count(*)::int as lines
        from holding h join line l using (studio_id, holding_id)
       where studio_id = 'lane' and holding_id in ('bucket', 'bench')
       group by h.dry_grams, holding_id`
    expect(sums.map((row) => ({ ...row }))).toEqual(
      Array(2).fill({ same: true, lines: 2 * TIMES + 1 }),
    )
  })

  test('would wait in a ring without the lock that puts them in order', async () => {
    const first = { dry: '-1', from: 'bench', to: 'bucket' }
    const second = { dry: '-1', from: 'bucket', to: 'bench' }
    let arrived = 0
    const unordered = async ({ from, to, dry }: typeof first, id: string) =>
      ground.app
        .begin(async (sql) => {
          await sql.unsafe(entryOf({ id }) + lineOf(id, 1, { to: from, dry }))
          arrived += 1
          while (arrived < 2) await pause(5)
          await sql.unsafe(lineOf(id, 2, { to, dry: '1' }))
          return 'went through'
        })
        .catch(nameOf)
    const ended = await Promise.all([unordered(first, 'ring-1'), unordered(second, 'ring-2')])
    expect(ended.sort()).toEqual(['deadlock', 'went through'])
  })
})

describe('closing a month while others post into it', () => {
  const WRITERS = 20
  /** A writer that is not refused by then will not be. */
  const ENTRIES_MAX = 2_000

  /** By SQL alone: what the closing needs to be safe must be in the rules, not in the closer. */
  const closingOf = (month: string, id: string) => `
    ${entryOf({ id, kind: 'close_month', at: '2026-12-31T12:00Z' })}
    insert into month_closing values ('lane', '${month}', '${id}');`
  const entriesOf = (month: string) => `
    select entry_id from entry
     where studio_id = 'lane' and kind <> 'close_month'
       and to_char(happened_at at time zone 'Europe/Berlin', 'YYYY-MM') = '${month}'`

  test('every entry of the month was committed before the closing, and none after', async () => {
    const said: string[] = []
    const writer = async (of: number) => {
      for (const at of times(ENTRIES_MAX)) {
        const entry = entryOf({ id: `busy-${of}-${at}`, at: '2026-04-20T12:00Z', lines })
        const one = await verdict(ground.app, entry)
        said.push(one)
        if (one !== 'went through') return one
      }
      return 'was never refused'
    }
    const writers = times(WRITERS).map(writer)
    while (said.length < 5 * WRITERS) await pause(5)
    const seenByTheCloser = await ground.owner.begin(async (sql) => {
      await sql.unsafe(closingOf('2026-04', 'close-busy'))
      await pause(50)
      return sql.unsafe(entriesOf('2026-04'))
    })
    expect(new Set(await Promise.all(writers))).toEqual(new Set(['month_must_be_open']))
    const seenAtTheEnd = await ground.owner.unsafe(entriesOf('2026-04'))
    expect(seenByTheCloser.length).toBeGreaterThanOrEqual(WRITERS)
    expect(seenAtTheEnd.map((row) => row.entry_id).sort()).toEqual(
      seenByTheCloser.map((row) => row.entry_id).sort(),
    )
  })

  test('the closing waits for an entry that is under way, and it counts', async () => {
    let closing: Promise<string> | undefined
    await ground.app.begin(async (sql) => {
      await sql.unsafe(entryOf({ id: 'under-way', at: '2026-05-20T12:00Z', lines }))
      closing = verdict(ground.app, closingOf('2026-05', 'close-waiting'))
      await untilWaiting()
    })
    expect(await closing).toBe('went through')
    expect(await ground.owner.unsafe(entriesOf('2026-05'))).toHaveLength(1)
  })

  test('an entry waits for a closing that is under way, and is refused', async () => {
    let entry: Promise<string> | undefined
    await ground.app.begin(async (sql) => {
      await sql.unsafe(closingOf('2026-06', 'close-first'))
      entry = verdict(ground.app, entryOf({ id: 'too-late', at: '2026-06-20T12:00Z', lines }))
      await untilWaiting()
    })
    expect(await entry).toBe('month_must_be_open')
  })

  test('an entry goes through after a closing that was given up', async () => {
    let entry: Promise<string> | undefined
    const givenUp = ground.app.begin(async (sql) => {
      await sql.unsafe(closingOf('2026-07', 'close-not'))
      entry = verdict(ground.app, entryOf({ id: 'in-time', at: '2026-07-20T12:00Z', lines }))
      await untilWaiting()
      throw new Error('given up')
    })
    await expect(givenUp).rejects.toThrow('given up')
    expect(await entry).toBe('went through')
  })

  test('many closings of one month at once are one, and none waits in a ring', async () => {
    const closings = times(10).map((at) =>
      verdict(ground.app, closingOf('2026-08', `close-many-${at}`)),
    )
    const ended = await Promise.all(closings)
    expect(ended.filter((said) => said === 'went through')).toHaveLength(1)
    expect(new Set(ended)).toEqual(new Set(['went through', 'month_closing_studio_id_month_pk']))
  })

  test('one studio does not wait for the closing of another', async () => {
    await ground.app.begin(async (sql) => {
      await sql.unsafe(closingOf('2026-09', 'close-lane'))
      const other = entryOf({ id: 'of-hill', studio: 'hill', at: '2026-09-20T12:00Z', lines })
      expect(await verdict(ground.app, other)).toBe('went through')
    })
  })
})

describe('a rule that speaks at COMMIT', () => {
  const INSERTS = 150
  const insertion = (sql: postgres.Sql, id: string) =>
    sql`insert into entry (studio_id, entry_id, kind, happened_at, recorded_at, said)
          values ('lane', ${id}, 'throw', '2026-10-01Z', now(), '{}')`.then(
      () => 'went through',
      nameOf,
    )

  test.each([
    { how: 'one connection', options: { max: 1 } },
    { how: 'ten connections', options: { max: 10 } },
    { how: 'statements that are not prepared', options: { max: 10, prepare: false } },
  ])('is heard as an error with $how, and never as success', async ({ how, options }) => {
    const sql = postgres(ground.url, { ...options, onnotice: () => undefined })
    try {
      const ended = await Promise.all(times(INSERTS).map((at) => insertion(sql, `${how} ${at}`)))
      expect(ended).toEqual(Array(INSERTS).fill('entry_must_balance'))
      const kept = await sql`select from entry where entry_id like ${`${how} %`}`
      expect(kept).toHaveLength(0)
      const [row] = await sql`select 'still at work' as state`
      expect(row?.state).toBe('still at work')
    } finally {
      await sql.end({ timeout: 5 })
    }
  })

  test('is heard through the pool of the program, with the name of the rule', async () => {
    const ended = await Promise.all(
      times(INSERTS).map((at) =>
        verdict(ground.app, entryOf({ id: `pool ${at}`, at: '2026-10-01T12:00Z' })),
      ),
    )
    expect(new Set(ended)).toEqual(new Set(['entry_must_balance']))
  })
})

test('many who draw from one holding at once never draw more than there was', async () => {
  const [before] = await balanceOf(ground.owner, 'bench')
  const portion = Math.floor(Number(before) / 10)
  const draws = times(30).map((at) =>
    verdict(
      ground.app,
      entryOf({
        id: `draw-${at}`,
        at: '2026-11-01T12:00Z',
        lines: [
          { to: 'bench', dry: `-${portion}`, cost: '-1' },
          { to: 'supplier', dry: String(portion), cost: '1' },
        ],
      }),
    ),
  )
  const ended = await Promise.all(draws)
  const drawn = ended.filter((said) => said === 'went through').length
  expect(drawn).toBe(10)
  expect(new Set(ended)).toEqual(new Set(['went through', 'holding_must_not_go_negative']))
  const [after] = await balanceOf(ground.owner, 'bench')
  expect(Number(after)).toBe(Number(before) - 10 * portion)
})
