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
let before: Record<string, string>[]

/** The migrations that were out in the world before glaze and fire came into the books. */
function writeOlderMigrations(): void {
  folder = mkdtempSync(path.join(tmpdir(), 'slakebook-of-clay-'))
  cpSync(OWN, folder, { recursive: true })
  const file = path.join(folder, 'meta', '_journal.json')
  const journal = JSON.parse(readFileSync(file, 'utf8')) as { entries: { idx: number }[] }
  journal.entries = journal.entries.filter(({ idx }) => idx < 6)
  writeFileSync(file, JSON.stringify(journal))
}

const MOMENT = (day: number) => `'2026-02-${String(day)}T12:00Z', '2026-02-${String(day)}T12:00Z'`
const entry = (id: string, [kind, day]: readonly [string, number], lines: readonly string[]) => `
  begin;
  insert into entry (studio_id, entry_id, kind, happened_at, recorded_at, said)
    values ('lane', '${id}', '${kind}', ${MOMENT(day)}, '{}');
  ${lines
    .map((line, at) => `insert into line values ('lane', '${id}', ${String(at + 1)}, ${line});`)
    .join('\n')}
  ${id === 'broke' ? "insert into loss values ('lane', 'broke', 'r1', 1, 'bisque', 'crack', 0.5);" : ''}
  ${id === 'threw' ? RUN : ''}
  commit;`
const RUN = `
  insert into run (studio_id, run_id, form_id, body_id, label, thrown_at, made_by_entry_id)
    values ('lane', 'r1', 'mug', 'stoneware', 'R', now(), 'threw');
  insert into weighing (studio_id, entry_id, weighing_no, purpose, kind, as_read, gross_grams, tare_grams,
      net_grams, standard_uncertainty_grams, weighed_at)
    values ('lane', 'threw', 1, 'ball', 'alone', '{}', 1250, 0, 1250, 0.3, now());`

/** Clay is bought, four mugs are made of half of it, one breaks after bisque, one is sold. */
const OLDER_LEDGER = `
  insert into studio values ('lane', 'lane', 'EUR', 'Europe/Berlin', 'EU', now());
  insert into body (studio_id, body_id, name, loss_on_ignition_fraction,
                    grain_grams_per_millilitre, changed_at)
    values ('lane', 'stoneware', 'Stoneware', 0.07, 2.6, now());
  insert into form (studio_id, form_id, name, changed_at) values ('lane', 'mug', 'Mug', now());
  insert into holding (studio_id, holding_id, place, body_id, run_id, grade, is_inside) values
    ('lane', 'bench', 'bench', 'stoneware', null, null, true),
    ('lane', 'supplier', 'supplier', null, null, null, false),
    ('lane', 'hands', 'hands', 'stoneware', null, null, false),
    ('lane', 'fire', 'fire', 'stoneware', null, null, false),
    ('lane', 'waste', 'waste', 'stoneware', null, null, false),
    ('lane', 'customer', 'customer', 'stoneware', null, null, false);
  ${entry(
    'bought',
    ['receive_delivery', 10],
    [
      `'supplier', -2000, -500, 0, -10.000001, '{"w": "-8"}', '{}'`,
      `'bench', 2000, 500, 0, 10.000001, '{"w": "8"}', '{}'`,
    ],
  )}
  ${entry(
    'threw',
    ['throw', 11],
    [
      `'bench', -1000, -250, 0, -5, '{"w": "-4"}', '{}'`,
      `'hands', 1000, 250, 0, 5, '{"w": "4"}', '{}'`,
    ],
  )}
  insert into holding (studio_id, holding_id, place, body_id, run_id, grade, is_inside) values
    ('lane', 'bisque', 'bisque', 'stoneware', 'r1', null, true),
    ('lane', 'finished', 'finished', 'stoneware', 'r1', 'first', true);
  ${entry(
    'fired',
    ['bisque', 12],
    [
      `'hands', -1000, -250, -4, -5, '{"w": "-4"}', '{}'`,
      `'fire', 70, 250, 0, 0, '{}', '{}'`,
      `'bisque', 930, 0, 4, 5, '{"w": "4"}', '{"w": "0.02"}'`,
      `'supplier', 0, 0, 0, 0, '{}', '{"w": "-0.02"}'`,
    ],
  )}
  ${entry(
    'broke',
    ['lose', 13],
    [
      `'bisque', -232.5, 0, -1, 0, '{"w": "-1"}', '{}'`,
      `'waste', 232.5, 0, 1, 0, '{"w": "1"}', '{}'`,
    ],
  )}
  ${entry(
    'graded',
    ['grade', 14],
    [
      `'bisque', -697.5, 0, -3, -5, '{"w": "-3"}', '{"w": "-0.02"}'`,
      `'finished', 697.5, 0, 3, 5, '{"w": "3"}', '{"w": "0.02"}'`,
    ],
  )}
  ${entry(
    'sold',
    ['sell', 15],
    [
      `'finished', -232.5, 0, -1, -1.666667, '{"w": "-1"}', '{}'`,
      `'customer', 232.5, 0, 1, 1.666667, '{"w": "1"}', '{}'`,
    ],
  )}`

const balances = async (): Promise<Record<string, string>[]> => {
  const rows = await sql`
    select holding_id, place, dry_grams::text, water_grams::text, pieces::text, cost::text,
           dry_doubt::text, cost_doubt::text, latest_at::text from holding order by holding_id`
  return rows.map((row) => ({ ...row }) as Record<string, string>)
}

beforeAll(async () => {
  writeOlderMigrations()
  database = await freshDatabase()
  sql = postgres(database.url, { max: 1, onnotice: () => undefined })
  await sql.unsafe('drop schema public cascade; drop schema drizzle cascade; create schema public')
  await migrate(database.url, folder)
  await sql.unsafe(OLDER_LEDGER)
  before = await balances()
  await migrate(database.url)
  program = connect(database.url)
})
afterAll(async () => {
  await program.close()
  await sql.end()
  await database.close()
  rmSync(folder, { recursive: true, force: true })
})

describe('a ledger of clay alone, once there is glaze and fire in the books', () => {
  test('keeps every balance, to the last digit', async () => {
    expect(before.filter(({ cost }) => cost !== '0')).toHaveLength(2)
    expect(await balances()).toEqual(before)
  })

  test('has all of its cost in clay, and nothing of materials', async () => {
    const layered = await sql`
      select 'line' as what from line
       where (material_grams, cost_layers, material_doubt) <> (0, '{}', '{}')
      union all
      select 'holding' from holding
       where (material_grams, cost_layers, material_doubt) <> (0, '{}', '{}')
          or material_id is not null`
    expect(layered).toEqual([])
  })

  test('reconciles', async () => {
    const { faults, totals, entries } = await reconcile(program.db)
    expect(faults).toEqual([])
    expect(entries).toBe(6)
    expect(totals).toEqual({
      ...{ dryGrams: '0', materialGrams: '0', waterGrams: '0', pieces: '0', cost: '0' },
    })
  })

  test('says of what was lost that it was usual, and has its seconds cost as firsts do', async () => {
    const losses = await sql`
      select pieces, cost_left::text, abnormal_pieces, cost_abnormal::text, usual_words from loss`
    expect(losses).toEqual([
      { pieces: 1, cost_left: '0.5', abnormal_pieces: 0, cost_abnormal: '0', usual_words: null },
    ])
    const [studio] = await sql`
      select seconds_cost_rule, seconds_price_fraction::text as fraction, hourly_figure from studio`
    expect(studio).toEqual({
      ...{ seconds_cost_rule: 'like_firsts', fraction: '0.5', hourly_figure: null },
    })
    const [form] = await sql`select packing, glaze_grams_per_piece from form`
    expect(form).toEqual({ packing: [], glaze_grams_per_piece: null })
  })

  test('lets the latest of it be taken back, and reconciles', async () => {
    const services = { db: program.db, now: () => TEST_NOW, newId: countedIds() }
    for (const entryId of ['sold', 'graded']) {
      await correctEntry(services, { studioId: 'lane' }, { said: { entryId } })
    }
    const [bisque] = await sql`
      select dry_grams::text, pieces::text, cost::text from holding where holding_id = 'bisque'`
    expect(bisque).toEqual({ dry_grams: '697.5', pieces: '3', cost: '5' })
    expect((await reconcile(program.db)).faults).toEqual([])
  })
})
