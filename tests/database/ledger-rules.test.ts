import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { KINDS_THAT_MAY_MOVE_NOTHING } from '../../shared/entry-kind.ts'
import { entryOf, goingBack, lineOf, openGround, verdict } from './by-hand.ts'
import type { Amounts, Ground, LineByHand } from './by-hand.ts'
import { RECORDS, recordOf } from './records.ts'
import type { RecordTable } from './records.ts'

let ground: Ground

beforeAll(async () => {
  ground = await openGround()
})
afterAll(() => ground.close())

const WRITERS = ['owner', 'app'] as const
const COLUMNS = ['dry', 'water', 'pieces', 'cost'] as const
const plus: Amounts = {
  ...{ dry: '5', water: '5', pieces: '5', cost: '5' },
  ...{ doubt: '0.5', costDoubt: '0.25' },
}
const minus: Amounts = {
  ...{ dry: '-5', water: '-5', pieces: '-5', cost: '-5' },
  ...{ doubt: '-0.5', costDoubt: '-0.25' },
}

/** What is poured from the shelf into a bucket. */
const POURED: Amounts = {
  ...{ material: '5', cost: '0.25', glaze: '0.25', materialDoubt: '0.5' },
}

/** From the bucket to the bench. */
function move(from: Amounts, to: Amounts): LineByHand[] {
  return [
    { to: 'bucket', ...from },
    { to: 'bench', ...to },
  ]
}

describe.each(WRITERS)('an entry balances, by the hand of the %s:', (writer) => {
  const posted = (lines: LineByHand[], more: { id?: string; kind?: string } = {}) =>
    verdict(ground[writer], entryOf({ id: 'tried', ...more, lines }))

  test('one whose columns all sum to zero is kept', async () => {
    expect(await posted(move(minus, plus), { id: `kept-${writer}` })).toBe('went through')
  })

  test.each(COLUMNS)('one that makes %s out of nothing is refused', async (column) => {
    const more = column === 'pieces' ? '6' : '5.000001'
    expect(await posted(move(minus, { ...plus, [column]: more }))).toBe('entry_must_balance')
  })

  test.each(COLUMNS)('one that makes %s vanish is refused', async (column) => {
    expect(await posted(move(minus, { ...plus, [column]: '4' }))).toBe('entry_must_balance')
  })

  test('what is too much in one column does not make up for another', async () => {
    const swapped = { ...plus, dry: '6', water: '4' }
    expect(await posted(move(minus, swapped))).toBe('entry_must_balance')
  })

  const poured = (into: Amounts, more: { id?: string } = {}) =>
    posted(
      [
        { to: 'shelf', ...goingBack(POURED) },
        { to: 'glaze', ...POURED, ...into },
      ],
      more,
    )

  test('one that moves materials from the shelf to a bucket is kept', async () => {
    expect(await poured({}, { id: `poured-${writer}` })).toBe('went through')
  })

  test('one that makes materials, or makes them vanish, is refused', async () => {
    expect(await poured({ material: '5.000001' })).toBe('entry_must_balance')
    expect(await poured({ material: '4' })).toBe('entry_must_balance')
    // Nor does clay turn into material, gram by gram.
    const lines = [
      { to: 'bench', dry: '-1' },
      { to: 'shelf', material: '1' },
    ]
    expect(await posted(lines)).toBe('entry_must_balance')
  })

  test('a layer that does not balance is refused, though the cost does', async () => {
    const asFire = [
      { to: 'shelf', cost: '-1', glaze: '-1' },
      { to: 'bench', cost: '1', fire: '1' },
    ]
    expect(await posted(asFire)).toBe('entry_must_balance')
    const asClay = [
      { to: 'shelf', cost: '-1', glaze: '-1' },
      { to: 'bench', cost: '1' },
    ]
    expect(await posted(asClay)).toBe('entry_must_balance')
    const byAMillionth = [
      { to: 'shelf', cost: '-1', glaze: '-1' },
      { to: 'bench', cost: '1', glaze: '0.999999', fire: '0.000001' },
    ]
    expect(await posted(byAMillionth)).toBe('entry_must_balance')
  })

  test('a count that moves nothing but a layer is refused too', async () => {
    const lines = [{ to: 'bench', glaze: '1' }]
    expect(await posted(lines, { kind: 'count' })).toBe('entry_must_balance')
  })

  test('what makes materials unsure balances as well', async () => {
    expect(await poured({ materialDoubt: '0.6' })).toBe('doubt_must_balance')
  })

  test.each(['doubt', 'costDoubt'])(
    'one that makes %s out of nothing is refused',
    async (column) => {
      expect(await posted(move(minus, { ...plus, [column]: '0.6' }))).toBe('doubt_must_balance')
    },
  )

  test('what one source makes unsure does not make up for another', async () => {
    const [from, to] = move(minus, plus).map((line, at) => lineOf('tried', at + 1, line))
    const crossed = `${entryOf({ id: 'tried' })} ${from ?? ''} ${(to ?? '').replace('"w"', '"v"')}`
    expect(await verdict(ground[writer], crossed)).toBe('doubt_must_balance')
  })

  test('one with a single line is refused, even where that line sums to zero', async () => {
    expect(await posted([{ to: 'bench', dry: '5' }])).toBe('entry_must_balance')
    expect(await posted([{ to: 'bench', doubt: '1' }])).toBe('doubt_must_balance')
    expect(await posted([{ to: 'bench', dry: '5' }], { kind: 'count' })).toBe('entry_must_balance')
  })

  test('lines sum over the whole entry, however many statements bring them', async () => {
    const inThree = [
      entryOf({ id: `three-${writer}` }),
      lineOf(`three-${writer}`, 1, { to: 'bucket', dry: '-3' }),
      lineOf(`three-${writer}`, 2, { to: 'bench', dry: '2' }),
    ].join('\n')
    const last = lineOf(`three-${writer}`, 3, { to: 'empty', dry: '1' })
    expect(await verdict(ground[writer], inThree)).toBe('entry_must_balance')
    expect(await verdict(ground[writer], inThree + last)).toBe('went through')
  })

  test.each(['throw', 'turn', 'lose', 'pour', 'sell', 'receive_delivery', 'open_books'])(
    'a %s that moves nothing is refused',
    async (kind) => {
      expect(await posted([], { kind })).toBe('entry_must_balance')
    },
  )

  test.each(KINDS_THAT_MAY_MOVE_NOTHING.filter((kind) => kind !== 'reverse'))(
    'a %s may move nothing, but not out of balance',
    async (kind) => {
      expect(await posted([], { id: `${kind}-${writer}`, kind })).toBe('went through')
      const lopsided = { ...minus, doubt: '0', costDoubt: '0' }
      expect(await posted(move(lopsided, lopsided), { kind })).toBe('entry_must_balance')
    },
  )
})

test('kinds that may move nothing are the same to the program and to the database', async () => {
  const [row] = await ground.owner`select prosrc from pg_proc where proname = 'entry_must_balance'`
  const list = /kind in \(([^)]+)\)/.exec(String(row?.prosrc))?.[1] ?? ''
  const kinds = list.split(',').map((kind) => kind.trim().replaceAll("'", ''))
  expect(kinds.sort()).toEqual([...KINDS_THAT_MAY_MOVE_NOTHING].sort())
})

describe.each(WRITERS)('a committed entry is closed, by the hand of the %s:', (writer) => {
  test('it takes no further lines, even balanced ones', async () => {
    const pair = lineOf('opening', 4, { to: 'empty', dry: '1' })
    const other = lineOf('opening', 5, { to: 'tap', dry: '-1' })
    expect(await verdict(ground[writer], pair + other)).toBe('entry_must_be_open')
  })

  test('it takes no lines where it had none', async () => {
    expect(await verdict(ground[writer], lineOf('reading', 1, { to: 'bench', dry: '1' }))).toBe(
      'entry_must_be_open',
    )
  })

  test.each(Object.keys(RECORDS) as RecordTable[])('it takes no further %s', async (table) => {
    expect(await verdict(ground[writer], recordOf(table, 'lane', 'opening'))).toBe(
      'entry_must_be_open',
    )
  })

  test.each([
    [
      'lot',
      `insert into lot (studio_id, lot_id, kind, body_id, label, made_by_entry_id)
         values ('lane', 'late', 'delivery', 'stoneware', 'late', 'opening')`,
    ],
    [
      'run',
      `insert into run (studio_id, run_id, form_id, body_id, label, thrown_at, made_by_entry_id)
         values ('lane', 'late', 'mug', 'stoneware', 'late', now(), 'opening')`,
    ],
  ])('it makes no %s any more', async (_, statement) => {
    expect(await verdict(ground[writer], statement)).toBe('entry_must_be_open')
  })

  test('an open entry takes them all, in a savepoint as well', async () => {
    const id = `open-${writer}`
    const records = (Object.keys(RECORDS) as RecordTable[])
      .filter((table) => table !== 'month_closing')
      .map((table) => recordOf(table, 'lane', id))
    const all = [entryOf({ id, kind: 'count' }), 'savepoint later;', ...records].join('\n')
    expect(await verdict(ground[writer], all)).toBe('went through')
  })

  test('signing it beforehand for a later transaction does not keep it open', async () => {
    const id = `forged-${writer}`
    const forged = entryOf({ id, kind: 'count' }).replace(
      /insert into entry \(([^)]+)\)\s+values \(([^;]+)\);/,
      'insert into entry ($1, recorded_in) values ($2, (pg_current_xact_id()::text::int + 1)::text);',
    )
    expect(forged).toContain('recorded_in')
    expect(await verdict(ground[writer], forged)).toBe('went through')
    const [row] = await ground.owner`
      select recorded_in = xmin::text as honest from entry
       where studio_id = 'lane' and entry_id = ${id}`
    expect(row?.honest).toBe(true)
    expect(await verdict(ground[writer], recordOf('loss', 'lane', id))).toBe('entry_must_be_open')
  })

  test('an entry that is still open elsewhere takes nothing from a stranger', async () => {
    const stranger = await ground.owner.begin(async (sql) => {
      await sql.unsafe(entryOf({ id: `elsewhere-${writer}`, kind: 'count' }))
      return verdict(ground[writer], recordOf('loss', 'lane', `elsewhere-${writer}`))
    })
    expect(stranger).toBe('entry_must_be_open')
  })
})
