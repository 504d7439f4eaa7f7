import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import postgres from 'postgres'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { connect } from '../../db/connection.ts'
import { migrate } from '../../db/migrate.ts'
import { freshDatabase } from '../support/postgres.ts'
import type { FreshDatabase } from '../support/postgres.ts'

/** Later than any migration of ours, so that these come on top of the ones in the template. */
const FIRST_STEP = 4_000_000_000_000

let database: FreshDatabase
let sql: postgres.Sql
let folder: string

beforeEach(async () => {
  database = await freshDatabase()
  sql = postgres(database.url, { max: 1, onnotice: () => undefined })
  await sql`delete from drizzle.__drizzle_migrations`
  folder = mkdtempSync(path.join(tmpdir(), 'slakebook-migrations-'))
})

afterEach(async () => {
  await sql.end()
  await database.close()
  rmSync(folder, { recursive: true, force: true })
})

/** A folder of migrations as drizzle-kit writes it, with as many steps as there are texts. */
function writeMigrations(...steps: string[]): void {
  const entries = steps.map((_, index) => ({
    ...{ idx: index, version: '7', when: FIRST_STEP + index, tag: `step_${index}` },
    breakpoints: true,
  }))
  mkdirSync(path.join(folder, 'meta'), { recursive: true })
  const journal = JSON.stringify({ version: '7', dialect: 'postgresql', entries })
  writeFileSync(path.join(folder, 'meta', '_journal.json'), journal)
  steps.forEach((text, index) => writeFileSync(path.join(folder, `step_${index}.sql`), text))
}

describe('migrations', () => {
  test('run once when several programs start together', async () => {
    writeMigrations('create table clay (grams numeric)', 'select pg_sleep(0.2)')
    await Promise.all([1, 2, 3].map(() => migrate(database.url, folder)))
    expect(await sql`select from drizzle.__drizzle_migrations`).toHaveLength(2)
  })

  test('leave nothing behind when a step fails', async () => {
    writeMigrations('create table clay (grams numeric)', 'select 1 / 0')
    await expect(migrate(database.url, folder)).rejects.toThrow()
    expect(await sql`select to_regclass('clay') as found`).toEqual([{ found: null }])
  })

  test('refuse a database that is newer than the program, and say so', async () => {
    writeMigrations('select 1', 'select 2')
    await migrate(database.url, folder)
    writeMigrations('select 1')
    await expect(migrate(database.url, folder)).rejects.toThrow(
      'The database is newer than this program: it has been through 2 migrations, 1 of which',
    )
  })
})

describe('a connection', () => {
  test('works under the app role from its first statement, on every connection of the pool', async () => {
    const app = connect(database.url, { poolSize: 4 })
    const answers = await Promise.all(
      [1, 2, 3, 4].map(() => app.sql`select current_user as role, pg_sleep(0.05)`),
    )
    await app.close()
    expect(answers.map(([row]) => row?.role)).toEqual(Array(4).fill('slakebook_app'))
  })

  test('gives a numeric as the text that the database wrote', async () => {
    const app = connect(database.url)
    const [row] = await app.sql`select 123456789012345.123450::numeric as grams`
    await app.close()
    expect(row?.grams).toBe('123456789012345.123450')
  })
})
