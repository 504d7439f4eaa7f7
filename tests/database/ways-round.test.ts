import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { balanceOf, entryOf, lineOf, openGround, verdict } from './by-hand.ts'
import type { Ground } from './by-hand.ts'

let ground: Ground

beforeAll(async () => {
  ground = await openGround()
})
afterAll(() => ground.close())

/** A table of the session's own, which PostgreSQL finds before the ledger's of that name. */
function shadow(table: string): string {
  return `create temporary table ${table} (like public.${table} including defaults) on commit drop;`
}

function outLoud(statements: string): string {
  return statements.replaceAll(/insert into (\w+) /g, 'insert into public.$1 ')
}

const lines = [
  { to: 'supplier', dry: '-1' },
  { to: 'bench', dry: '1' },
]

describe.each(['owner', 'app'] as const)('the rules look at the ledger when the %s', (writer) => {
  const tried = (statements: string) => verdict(ground[writer], outLoud(statements))

  test('hides its lines behind a table of the same name', async () => {
    const unbalanced =
      entryOf({ id: 'tried', kind: 'count' }) + lineOf('tried', 1, { to: 'bench', dry: '7' })
    expect(await tried(shadow('line') + unbalanced)).toBe('entry_must_balance')
  })

  test('hides its entries behind a table of the same name', async () => {
    const openAgain = `${shadow('entry')}
      insert into pg_temp.entry select * from public.entry;
      update pg_temp.entry set recorded_in = pg_current_xact_id()::text;`
    const late =
      lineOf('opening', 7, { to: 'empty', dry: '1' }) +
      lineOf('opening', 8, { to: 'tap', dry: '-1' })
    expect(await tried(openAgain + late)).toBe('entry_must_be_open')
  })

  test('hides its closings, or its clock, behind a table of the same name', async () => {
    const late = entryOf({ id: 'tried', at: '2019-05-05T12:00Z', lines })
    expect(await tried(shadow('month_closing') + late)).toBe('month_must_be_open')
    expect(await tried(shadow('studio') + late)).toBe('month_must_be_open')
  })

  test('hides its holdings behind a table of the same name', async () => {
    const before = Number((await balanceOf(ground.owner, 'bench'))[0])
    const id = `shadow-${writer}`
    expect(await tried(shadow('holding') + entryOf({ id, lines }))).toBe('went through')
    expect(Number((await balanceOf(ground.owner, 'bench'))[0])).toBe(before + 1)
  })

  test('hides its history behind a table of the same name', async () => {
    const counted = async () => {
      const [row] = await ground.owner`select count(*)::int as rows from public.catalogue_history`
      return Number(row?.rows)
    }
    const before = await counted()
    const change = `update public.bat set name = '${writer}' where studio_id = 'lane'`
    expect(await tried(shadow('catalogue_history') + change)).toBe('went through')
    expect(await counted()).toBe(before + 1)
  })

  test('puts functions of its own before those of PostgreSQL', async () => {
    const own = `
      create function pg_temp.pg_current_xact_id() returns text language sql as $$
        select recorded_in from public.entry where entry_id = 'opening' limit 1 $$;
      set local search_path = pg_temp, public, pg_catalog;`
    const late =
      lineOf('opening', 7, { to: 'empty', dry: '1' }) +
      lineOf('opening', 8, { to: 'tap', dry: '-1' })
    expect(await tried(own + late)).toBe('entry_must_be_open')
  })
})

test('the app does not move a balance from inside a trigger of its own', async () => {
  const fromInside = `
    create temporary table pretext (clay int) on commit drop;
    create function pg_temp.forge() returns trigger language plpgsql as $$
      begin update public.holding set dry_grams = 9999; return null; end $$;
    create trigger forge after insert on pretext for each row execute function pg_temp.forge();
    insert into pretext values (1);`
  expect(await verdict(ground.app, fromInside)).toBe('missing privilege')
})

test('every function of the ledger says where its tables are', async () => {
  const functions = await ground.owner`
    select p.proname as name, coalesce(array_to_string(p.proconfig, ';'), '') as settings
      from pg_proc p where p.pronamespace = 'public'::regnamespace`
  expect(functions.length).toBeGreaterThanOrEqual(9)
  const lax = functions.filter((row) => row.settings !== 'search_path=public, pg_temp')
  expect(lax).toEqual([])
})
