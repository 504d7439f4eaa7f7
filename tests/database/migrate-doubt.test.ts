import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import postgres from 'postgres'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { connect, type Connection } from '../../db/connection.ts'
import { correctEntry } from '../../db/correct.ts'
import { migrate } from '../../db/migrate.ts'
import { reconcile } from '../../db/reports/reconcile.ts'
import { freshDatabase, type FreshDatabase } from '../support/postgres.ts'
import { countedIds, TEST_NOW } from '../support/studio.ts'

const OWN = fileURLToPath(new URL('../../db/migrations', import.meta.url))

let database: FreshDatabase
let sql: postgres.Sql
let program: Connection
let folder: string

/** The first three migrations, as they were before sources were told apart. */
function writeOlderMigrations(): void {
  folder = mkdtempSync(path.join(tmpdir(), 'slakebook-older-'))
  cpSync(OWN, folder, { recursive: true })
  const file = path.join(folder, 'meta', '_journal.json')
  const journal = JSON.parse(readFileSync(file, 'utf8')) as { entries: { idx: number }[] }
  journal.entries = journal.entries.filter(({ idx }) => idx < 3)
  writeFileSync(file, JSON.stringify(journal))
}

/**
 * A delivery of 1000 g, unsure by 6 g (variance 36), of which 400 g went to the bench by a weighing of
 * 0.5 g (0.25); a weigh-in that found what was there and told only how sure it is; and that taken back.
 */
const OLDER_LEDGER = `
  insert into studio values ('lane', 'lane', 'EUR', 'Europe/Berlin', 'EU', now());
  insert into body (studio_id, body_id, name, loss_on_ignition_fraction,
                    grain_grams_per_millilitre, changed_at)
    values ('lane', 'stoneware', 'Stoneware', 0.07, 2.6, now());
  insert into holding (studio_id, holding_id, place, body_id, is_inside) values
    ('lane', 'bench', 'bench', 'stoneware', true), ('lane', 'pail', 'scrap', 'stoneware', true),
    ('lane', 'empty', 'basin', 'stoneware', true), ('lane', 'supplier', 'supplier', null, false);
  begin;
  insert into entry (studio_id, entry_id, kind, happened_at, recorded_at, said) values
    ('lane', 'delivered', 'receive_delivery', '2026-02-10T12:00Z', '2026-02-10T12:00Z', '{}');
  insert into line values ('lane', 'delivered', 1, 'supplier', -1000, 0, 0, -5, 0),
                          ('lane', 'delivered', 2, 'pail', 1000, 0, 0, 5, 36);
  commit;
  begin;
  insert into entry (studio_id, entry_id, kind, happened_at, recorded_at, said) values
    ('lane', 'moved', 'throw', '2026-02-11T12:00Z', '2026-02-11T12:00Z', '{}');
  insert into line values ('lane', 'moved', 1, 'pail', -400, 0, 0, -2, 0.25),
                          ('lane', 'moved', 2, 'bench', 400, 0, 0, 2, 0.25);
  commit;
  begin;
  insert into entry (studio_id, entry_id, kind, happened_at, recorded_at, said) values
    ('lane', 'counted', 'count', '2026-02-12T12:00Z', '2026-02-12T12:00Z', '{}');
  insert into line values ('lane', 'counted', 1, 'bench', 0, 0, 0, 0, 2);
  commit;
  begin;
  insert into entry (studio_id, entry_id, kind, happened_at, recorded_at, said) values
    ('lane', 'again', 'count', '2026-02-13T12:00Z', '2026-02-13T12:00Z', '{}');
  insert into line values ('lane', 'again', 1, 'bench', 0, 0, 0, 0, -1.25);
  commit;`

beforeAll(async () => {
  writeOlderMigrations()
  database = await freshDatabase()
  sql = postgres(database.url, { max: 1, onnotice: () => undefined })
  await sql.unsafe('drop schema public cascade; drop schema drizzle cascade; create schema public')
  await migrate(database.url, folder)
  await sql.unsafe(OLDER_LEDGER)
  await migrate(database.url)
  program = connect(database.url)
})
afterAll(async () => {
  await program.close()
  await sql.end()
  await database.close()
  rmSync(folder, { recursive: true, force: true })
})

const doubts = async () => {
  const rows = await sql`select holding_id, dry_doubt from holding where is_inside order by 1`
  return Object.fromEntries(rows.map((row) => [row.holding_id, row.dry_doubt]))
}

/** Variances of 36.25 g² in the pail; of 0.25 + 2 - 1.25 = 1 g² on the bench. */
const UPGRADED = {
  bench: { 'earlier|bench': '1' },
  empty: {},
  pail: { 'earlier|pail': '6.020797' },
}

describe('a ledger from before sources were told apart', () => {
  test('keeps the standard uncertainty of each holding, as a source of its own', async () => {
    expect(await doubts()).toEqual(UPGRADED)
  })

  test('reconciles', async () => {
    const { faults, totals } = await reconcile(program.db)
    expect(faults).toEqual([])
    expect(totals).toEqual({
      dryGrams: '0',
      materialGrams: '0',
      waterGrams: '0',
      pieces: '0',
      cost: '0',
    })
  })

  test('no longer has lines that moved nothing but doubt', async () => {
    const rows = await sql`select from line where entry_id = 'counted'`
    expect(rows).toHaveLength(0)
  })

  test('lets the entry be taken back on whose line the doubt stands, and reconciles', async () => {
    const services = { db: program.db, now: () => TEST_NOW, newId: countedIds() }
    const back = (entryId: string) =>
      correctEntry(services, { studioId: 'lane' }, { said: { entryId } })
    await back('again')
    expect((await doubts()).bench).toEqual({})
    await back('counted')
    await back('moved')
    expect(await doubts()).toEqual({ bench: {}, empty: {}, pail: {} })
    await back('delivered')
    const [left] = await sql`select sum(dry_grams)::int as dry from holding`
    expect(left?.dry).toBe(0)
    expect((await reconcile(program.db)).faults).toEqual([])
  })

  test('still refuses an entry in which that doubt does not balance', async () => {
    const lopsided = sql.unsafe(`begin;
      insert into entry (studio_id, entry_id, kind, happened_at, recorded_at, said) values
        ('lane', 'odd', 'count', '2026-03-01T12:00Z', now(), '{}');
      insert into line values ('lane', 'odd', 1, 'bench', 0, 0, 0, 0, '{"earlier|bench": "3"}', '{}');
      commit`)
    await expect(lopsided).rejects.toMatchObject({ constraint_name: 'doubt_must_balance' })
    await sql.unsafe('rollback')
  })
})
