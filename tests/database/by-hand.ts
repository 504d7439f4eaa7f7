import postgres from 'postgres'
import { connect } from '../../db/connection.ts'
import type { Database } from '../../db/connection.ts'
import { freshDatabase } from '../support/postgres.ts'
import { materialsOf } from './material-ground.ts'
import { recordsOf } from './records.ts'

export type Sql = postgres.Sql | postgres.TransactionSql

export type Ground = {
  url: string
  /** The owner of everything, whom no privilege stops: only the rules do. */
  owner: postgres.Sql
  /** The role that the program writes as. */
  app: postgres.Sql
  /** The program's own way in, for what goes through posting. */
  db: Database
  close: () => Promise<void>
}

export type Amounts = {
  dry?: string
  water?: string
  pieces?: string
  cost?: string
  /** The dry mass of what is no clay. */
  material?: string
  /** How much of the cost is for glaze, for the fire and for packaging. */
  glaze?: string
  fire?: string
  packaging?: string
  /** What the source `w` makes unsure of the dry clay, of the cost, and of the materials. */
  doubt?: string
  costDoubt?: string
  materialDoubt?: string
}
export type LineByHand = Amounts & { to: string; studio?: string }
export type EntryByHand = {
  id: string
  kind?: string
  at?: string
  studio?: string
  reverses?: string
  lines?: LineByHand[]
}

const MISSING_PRIVILEGE = '42501'
const DEADLOCK = '40P01'

/** A database with two studios in it, reached by plain SQL only: no code of the program's runs. */
export async function openGround(): Promise<Ground> {
  const database = await freshDatabase()
  const owner = postgres(database.url, { max: 30, onnotice: () => undefined })
  const program = connect(database.url, { poolSize: 30 })
  await owner.begin(async (sql) => {
    for (const studio of ['lane', 'hill']) await layStudio(sql, studio)
  })
  return {
    ...{ url: database.url, owner, app: program.sql, db: program.db },
    close: async () => {
      await Promise.all([program.close(), owner.end({ timeout: 5 })])
      await database.close()
    },
  }
}

/**
 * A studio in Berlin with 1000 g dry clay, 250 g water, 100 pieces and 400 of money in its bucket, and
 * half of that on its bench; both came from the supplier by the entry `opening`. The entry `reading`
 * moved nothing and carries a row of each kind of record; `closing` closed a month long ago. Its shelf
 * holds 200 g of quartz for 10 and 40 boxes for 20, its glaze bucket 300 g of glaze for 6: `furnishing`.
 */
async function layStudio(sql: Sql, studio: string): Promise<void> {
  await sql.unsafe(`
    insert into studio values ('${studio}', '${studio}', 'EUR', 'Europe/Berlin', 'EU', now());
    insert into body (studio_id, body_id, name, loss_on_ignition_fraction,
                      grain_grams_per_millilitre, changed_at)
      values ('${studio}', 'stoneware', 'Stoneware', 0.07, 2.6, now()),
             ('${studio}', 'unused', 'Unused', 0.07, 2.6, now());
    insert into form (studio_id, form_id, name, changed_at) values
      ('${studio}', 'mug', 'Mug', now()), ('${studio}', 'unused', 'Unused', now());
    insert into vessel values ('${studio}', 'pail', 'Pail', 'bucket', 800, now());
    insert into scale values ('${studio}', 'bench-scale', 'Bench scale', 1, 15000, now());
    insert into bat (studio_id, bat_id, name, changed_at) values ('${studio}', 'bat', 'Bat', now());
    insert into holding (studio_id, holding_id, place, body_id, is_inside) values
      ('${studio}', 'bench', 'bench', 'stoneware', true),
      ('${studio}', 'bucket', 'scrap', 'stoneware', true),
      ('${studio}', 'empty', 'basin', 'stoneware', true),
      ('${studio}', 'supplier', 'supplier', null, false),
      ('${studio}', 'tap', 'tap', null, false)`)
  await writeEntry(sql, {
    ...{ id: 'opening', studio, kind: 'receive_delivery', at: '2026-02-10T12:00Z' },
    lines: [
      { to: 'supplier', dry: '-1500', water: '-375', pieces: '-150', cost: '-600', doubt: '-3' },
      { to: 'bucket', dry: '1000', water: '250', pieces: '100', cost: '400', doubt: '2' },
      { to: 'bench', dry: '500', water: '125', pieces: '50', cost: '200', doubt: '1' },
    ],
  })
  await writeEntry(sql, { id: 'reading', studio, kind: 'count', at: '2026-02-11T12:00Z' })
  await writeEntry(sql, { id: 'closing', studio, kind: 'close_month', at: '2026-02-12T12:00Z' })
  await sql.unsafe(`
    insert into lot (studio_id, lot_id, kind, body_id, label, made_by_entry_id)
      values ('${studio}', 'lot', 'delivery', 'stoneware', 'A', 'opening');
    insert into run (studio_id, run_id, form_id, body_id, label, thrown_at, made_by_entry_id)
      values ('${studio}', 'run', 'mug', 'stoneware', 'R', now(), 'opening');
    ${materialsOf(studio)}`)
  await writeEntry(sql, {
    ...{ id: 'furnishing', studio, kind: 'receive_materials', at: '2026-02-10T13:00Z' },
    lines: [
      {
        ...{ to: 'supplier', material: '-500', water: '-300', pieces: '-40', cost: '-36' },
        ...{ glaze: '-16', packaging: '-20', materialDoubt: '-5' },
      },
      { to: 'shelf', material: '200', cost: '10', glaze: '10', materialDoubt: '2' },
      { to: 'glaze', material: '300', water: '300', cost: '6', glaze: '6', materialDoubt: '3' },
      { to: 'boxes', pieces: '40', cost: '20', packaging: '20' },
    ],
  })
  await sql.unsafe(recordsOf(studio))
}

/** An entry with its lines as SQL; whether it balances is not our affair. */
export function entryOf(entry: EntryByHand): string {
  const { id, kind = 'throw', at = '2026-03-15T12:00Z', studio = 'lane', reverses } = entry
  const reversed = reverses === undefined ? 'null' : `'${reverses}'`
  const lines = (entry.lines ?? []).map((line, index) => lineOf(id, index + 1, { studio, ...line }))
  return `
    insert into entry (studio_id, entry_id, kind, happened_at, recorded_at, said, reverses_entry_id)
      values ('${studio}', '${id}', '${kind}', '${at}', now(), '{}', ${reversed});
    ${lines.join('\n')}`
}

export function lineOf(entry: string, lineNo: number, line: LineByHand): string {
  const { to, studio = 'lane', dry = '0', water = '0', pieces = '0', cost = '0' } = line
  const doubts = [line.doubt, line.costDoubt].map((amount) => keptBy({ w: amount }))
  const ofMaterials = [line.material ?? '0', layersOf(line), keptBy({ w: line.materialDoubt })]
  const amounts = [dry, water, pieces, cost, ...doubts, ...ofMaterials].join(', ')
  return `insert into line values ('${studio}', '${entry}', ${lineNo}, '${to}', ${amounts});`
}

const layersOf = ({ glaze, fire, packaging }: Amounts) => keptBy({ glaze, fire, packaging })
const KEPT_AS_TEXT = ['doubt', 'costDoubt', 'materialDoubt', 'glaze', 'fire', 'packaging']

/** An entry as SQL that moves the amounts into one holding out of another, to the last digit. */
export function flow(way: string, amounts: Amounts, id = 'tried'): string {
  const [from = '', to = ''] = way.split(' to ')
  const lines = [
    { to, ...amounts },
    { to: from, ...goingBack(amounts) },
  ]
  return entryOf({ id, lines })
}

/** The same amounts going the other way: numbers as SQL, doubts and layers as the text they are kept as. */
export function goingBack(amounts: Amounts): Amounts {
  const back = Object.entries(amounts).map(([column, text]) =>
    KEPT_AS_TEXT.includes(column) ? [column, `-${text}`] : [column, `-(${text})`],
  )
  return Object.fromEntries(back) as Amounts
}

/** Amounts by name as the ledger keeps them: what is nothing is left out. */
function keptBy(named: Readonly<Record<string, string | undefined>>): string {
  const some = Object.entries(named).filter(([, amount = '0']) => amount !== '0')
  return `'${JSON.stringify(Object.fromEntries(some))}'`
}

/** Posts in one transaction. A list of statements is one to the server already; `begin` says so. */
export async function writeEntry(sql: Sql, entry: EntryByHand): Promise<void> {
  await sql.unsafe(entryOf(entry))
}

/**
 * The rule by which the database refused the statements, or `went through`.
 *
 * They run as one transaction that ends in COMMIT, so that deferred rules speak as well.
 */
export async function verdict(sql: postgres.Sql, statements: string): Promise<string> {
  try {
    await sql.begin((transaction) => transaction.unsafe(statements))
    return 'went through'
  } catch (error) {
    return nameOf(error)
  }
}

/** What a database error is called here: the rule's name, or in words where there is no rule. */
export function nameOf(error: unknown): string {
  if (!(error instanceof postgres.PostgresError)) throw error
  if (error.code === MISSING_PRIVILEGE) return 'missing privilege'
  if (error.code === DEADLOCK) return 'deadlock'
  return error.constraint_name ?? `${error.code}: ${error.message}`
}

/** The kept balance of a holding, as the database wrote it. */
export async function balanceOf(sql: Sql, holding: string, studio = 'lane'): Promise<string[]> {
  const [row] = await sql`
    select dry_grams, water_grams, pieces, cost, coalesce(dry_doubt ->> 'w', '0') as doubt from holding
     where studio_id = ${studio} and holding_id = ${holding}`
  return Object.values(row ?? {}).map(String)
}
