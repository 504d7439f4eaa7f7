import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openGround, verdict } from './by-hand.ts'
import type { Ground } from './by-hand.ts'
import { NEVER_REMOVED, WRITTEN_ONCE } from './broken-permanence.ts'

let ground: Ground

beforeAll(async () => {
  ground = await openGround()
})
afterAll(() => ground.close())

/**
 * A claim on a key is the program's own affair; who asks again after a year may ask again. What is in a
 * kiln is a note until it is unloaded.
 */
const NOT_OF_THE_LEDGER = ['request', 'kiln_load', 'kiln_load_run']

test('every table is on one of the lists, and the lists name nothing else', async () => {
  const tables = await ground.owner`
    select relname from pg_class where relnamespace = 'public'::regnamespace and relkind in ('r', 'p')`
  expect(tables.map((table) => String(table.relname)).sort()).toEqual(
    [...WRITTEN_ONCE, ...NEVER_REMOVED, ...NOT_OF_THE_LEDGER].sort(),
  )
})

describe('to the owner, whom no privilege stops:', () => {
  test.each(WRITTEN_ONCE)('%s is not updated, not even to what it is', async (table) => {
    const update = `update ${table} set studio_id = studio_id`
    expect(await verdict(ground.owner, update)).toBe('ledger_is_append_only')
  })

  test.each([...WRITTEN_ONCE, ...NEVER_REMOVED])('%s is not deleted from', async (table) => {
    expect(await verdict(ground.owner, `delete from ${table}`)).toBe('ledger_is_append_only')
  })

  test.each([...WRITTEN_ONCE, ...NEVER_REMOVED])('%s is not truncated', async (table) => {
    expect(await verdict(ground.owner, `truncate ${table} cascade`)).toBe('ledger_is_append_only')
  })

  test('an insert that turns into an update is refused', async () => {
    const upsert = `
      insert into line select * from line where studio_id = 'lane'
        on conflict (studio_id, entry_id, line_no) do update set dry_grams = 0`
    // A committed entry takes no lines at all, so the row does not get as far as the conflict.
    expect(await verdict(ground.owner, upsert)).toBe('entry_must_be_open')
    const ofEntries = `
      insert into entry select * from entry where studio_id = 'lane'
        on conflict (studio_id, entry_id) do update set note = 'better so'`
    expect(await verdict(ground.owner, ofEntries)).toBe('ledger_is_append_only')
  })

  test('a merge that updates or deletes is refused', async () => {
    const merge = (what: string) => `
      merge into line using (values ('lane')) as given (studio) on line.studio_id = given.studio
        when matched then ${what}`
    expect(await verdict(ground.owner, merge('delete'))).toBe('ledger_is_append_only')
    expect(await verdict(ground.owner, merge('update set cost = 0'))).toBe('ledger_is_append_only')
  })
})

describe('to the role of the program:', () => {
  test.each(WRITTEN_ONCE)('%s is not updated for want of the right', async (table) => {
    const update = `update ${table} set studio_id = studio_id`
    expect(await verdict(ground.app, update)).toBe('missing privilege')
  })

  test.each([...WRITTEN_ONCE, ...NEVER_REMOVED, ...NOT_OF_THE_LEDGER])(
    '%s is neither deleted from nor truncated for want of the right',
    async (table) => {
      expect(await verdict(ground.app, `delete from ${table}`)).toBe('missing privilege')
      expect(await verdict(ground.app, `truncate ${table} cascade`)).toBe('missing privilege')
    },
  )

  test('history is not written by hand', async () => {
    const forged = `insert into catalogue_history values ('lane', 'body', 'x', 9, now(), '{}')`
    expect(await verdict(ground.app, forged)).toBe('missing privilege')
  })

  test('a request gets its answer and nothing else is changed in it', async () => {
    const claim = `insert into request values ('lane', 'key', 'print', null, now())`
    expect(await verdict(ground.app, claim)).toBe('went through')
    expect(await verdict(ground.app, `update request set answer = '{}'`)).toBe('went through')
    expect(await verdict(ground.app, `update request set fingerprint = 'x'`)).toBe(
      'missing privilege',
    )
  })

  test('of a kiln load it changes how many are in it and what became of them, and nothing else', async () => {
    const loading = `insert into kiln_load values ('lane', 'load', 'bisque', now());
      insert into kiln_load_run values ('lane', 'load', 'run', 3)`
    expect(await verdict(ground.app, loading)).toBe('went through')
    const allowed = `update kiln_load_run set pieces = 2, lost_by_entry_id = 'reading';
      update kiln_load set unloaded_at = now(), fired_by_entry_id = 'reading', kiln_id = 'kiln'`
    expect(await verdict(ground.app, allowed)).toBe('went through')
    for (const change of [`kiln_load set kind = 'glaze'`, `kiln_load_run set run_id = 'other'`]) {
      expect(await verdict(ground.app, `update ${change}`)).toBe('missing privilege')
    }
  })

  test.each([
    'alter table line disable trigger all',
    'drop trigger entry_must_balance on line',
    'alter table line drop constraint line_must_fit_scale',
    'create or replace function public.entry_must_balance() returns trigger language plpgsql as $$ begin return null; end $$',
    'set session_replication_role = replica',
    'create table public.mine (clay numeric)',
    'create table pg_temp.mine () inherits (public.line)',
    'create trigger mine after insert on public.line execute function entry_must_balance()',
    'create rule mine as on insert to public.line do instead nothing',
  ])('the rules are not its to change: %s', async (statement) => {
    // 42501 is also the answer to a stranger who is not the owner.
    expect(await verdict(ground.app, statement)).toBe('missing privilege')
  })
})
