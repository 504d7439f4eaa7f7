import { readFile } from 'node:fs/promises'
import postgres from 'postgres'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { SNAPSHOT_FILE, schemaSnapshot } from '../../db/snapshot.ts'
import { freshDatabase } from '../support/postgres.ts'
import type { FreshDatabase } from '../support/postgres.ts'

let database: FreshDatabase
let sql: postgres.Sql

beforeAll(async () => {
  database = await freshDatabase()
  sql = postgres(database.url, { max: 2, onnotice: () => undefined })
})
afterAll(async () => {
  await sql.end({ timeout: 5 })
  await database.close()
})

/** The snapshot of a copy of its own to which something was done. */
async function snapshotAfter(change: string): Promise<string> {
  const copy = await freshDatabase()
  const inCopy = postgres(copy.url, { max: 1, onnotice: () => undefined })
  try {
    await inCopy.unsafe(change)
    return await schemaSnapshot(inCopy)
  } finally {
    await inCopy.end({ timeout: 5 })
    await copy.close()
  }
}

const WHAT_TO_DO =
  'The migrations make another schema than db/schema.snapshot.sql shows. Run `npm run snapshot`, ' +
  'look at the difference, and commit it with the migration.'

test('the kept snapshot is the schema that the migrations make', async () => {
  const kept = await readFile(SNAPSHOT_FILE, 'utf8').catch(() => 'There is no snapshot yet.')
  expect(await schemaSnapshot(sql), WHAT_TO_DO).toBe(kept)
})

test('two readings of one schema are the same', async () => {
  expect(await schemaSnapshot(sql)).toBe(await schemaSnapshot(sql))
})

describe('the snapshot shows', () => {
  test.each([
    {
      what: 'a new table',
      change: 'create table tile_press (studio_id text)',
      shows: 'create table tile_press (',
    },
    {
      what: 'a new column',
      change: 'alter table line add straw_grams numeric',
      shows: 'straw_grams',
    },
    {
      what: 'another type',
      change: 'alter table bat alter dry_grams type double precision',
      shows: 'dry_grams double precision',
    },
    {
      what: 'another default',
      change: `alter table holding alter cost set default '7'`,
      shows: `cost numeric default '7'::numeric not null`,
    },
    {
      what: 'a column that may be null',
      change: 'alter table line alter cost drop not null',
      shows: '  cost numeric,\n  dry_doubt jsonb',
    },
    {
      what: 'a new rule',
      change: 'alter table sale add constraint sale_is_dear check (price_each > 100)',
      shows: 'sale_is_dear CHECK ((price_each > (100)::numeric))',
    },
    {
      what: 'a rule that old rows escaped',
      change: 'alter table sale add constraint sale_is_dear check (price_each > 100) not valid',
      shows: 'NOT VALID',
    },
    {
      what: 'a new index',
      change: 'create index sale_by_channel on sale (channel)',
      shows: 'CREATE INDEX sale_by_channel',
    },
    {
      what: 'a view',
      change: 'create view stock as select pieces from holding',
      shows: 'create view stock as  SELECT pieces',
    },
    {
      what: 'another body of a function',
      change: `create or replace function ledger_is_append_only() returns trigger language plpgsql
                 as $$ begin return old; end $$`,
      shows: 'begin return old; end',
    },
    {
      what: 'a trigger that is switched off',
      change: 'alter table line disable trigger entry_must_balance',
      shows: '-- not enabled as usual: D',
    },
    {
      what: 'a new right to a table',
      change: 'grant delete on line to slakebook_app',
      shows: 'grant delete, insert, select on table line to slakebook_app;',
    },
    {
      what: 'a new right to a column',
      change: 'grant update (note) on entry to slakebook_app',
      shows: 'grant update on table entry (note) to slakebook_app;',
    },
    {
      what: 'a right of everybody',
      change: 'grant select on entry to public',
      shows: 'grant select on table entry to public;',
    },
    {
      what: 'a policy',
      change: 'create policy of_studio on entry using (studio_id is not null)',
      shows: 'create policy of_studio on entry',
    },
  ])('$what', async ({ change, shows }) => {
    expect(await schemaSnapshot(sql)).not.toContain(shows)
    expect(await snapshotAfter(change)).toContain(shows)
  })

  test('a rule that is gone', async () => {
    const rule = 'CREATE CONSTRAINT TRIGGER entry_must_balance AFTER INSERT ON public.line'
    expect(await schemaSnapshot(sql)).toContain(rule)
    expect(await snapshotAfter('drop trigger entry_must_balance on line')).not.toContain(rule)
  })
})
