import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { drizzle } from 'drizzle-orm/postgres-js'
import { migrate as applyMigrations } from 'drizzle-orm/postgres-js/migrator'
import postgres from 'postgres'

const OWN_MIGRATIONS = fileURLToPath(new URL('./migrations', import.meta.url))
/** Any number will do as long as every version of the program uses the same. */
const MIGRATION_LOCK = 7_214_502

/**
 * Brings a database to the schema that this program knows.
 *
 * One connection does it all, under an advisory lock: of two programs that start together the second
 * waits and then finds nothing left to do. All steps are one transaction.
 */
export async function migrate(url: string, folder: string = OWN_MIGRATIONS): Promise<void> {
  const sql = postgres(url, { max: 1, max_lifetime: null, onnotice: () => undefined })
  try {
    await sql`select pg_advisory_lock(${MIGRATION_LOCK})`
    await refuseNewerDatabase(sql, folder)
    await applyMigrations(drizzle(sql), { migrationsFolder: folder })
  } finally {
    await sql.end()
  }
}

/**
 * An older program must not write into a newer schema: it does not know the rules that came since,
 * and the migrator would stay silent, because it looks only for steps that are still missing.
 */
async function refuseNewerDatabase(sql: postgres.Sql, folder: string): Promise<void> {
  const known = await knownSteps(folder)
  const [table] = await sql`select to_regclass('drizzle.__drizzle_migrations') is not null as found`
  if (table?.found !== true) return
  const applied = await sql`select created_at::text as step from drizzle.__drizzle_migrations`
  const unknown = applied.filter((row) => !known.has(String(row.step)))
  if (unknown.length === 0) return
  throw new Error(
    `The database is newer than this program: it has been through ${applied.length} migrations, ` +
      `${unknown.length} of which this program does not know. Nothing was changed. ` +
      'Start the newer version of the program, or restore a copy of the database from before.',
  )
}

async function knownSteps(folder: string): Promise<ReadonlySet<string>> {
  const file = path.join(folder, 'meta', '_journal.json')
  const journal = JSON.parse(await readFile(file, 'utf8')) as { entries: { when: number }[] }
  return new Set(journal.entries.map((entry) => String(entry.when)))
}
