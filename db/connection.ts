import { drizzle } from 'drizzle-orm/postgres-js'
import type { PostgresJsDatabase } from 'drizzle-orm/postgres-js'
import postgres from 'postgres'

export type Database = PostgresJsDatabase
export type Transaction = Parameters<Parameters<Database['transaction']>[0]>[0]

export type Connection = { db: Database; sql: postgres.Sql; close: () => Promise<void> }

/** The role that may read and add but never change or remove a row of the ledger. */
export const APP_ROLE = 'slakebook_app'

const CLOSE_SECONDS_MAX = 5

/**
 * A pool of connections to the ledger.
 *
 * As the app, each connection starts under `slakebook_app` before the first statement runs, so that
 * no path of the program can change what was recorded. The owner is for migrations and for tests
 * that go round the program.
 */
export function connect(
  url: string,
  choices: { asApp?: boolean; poolSize?: number; applicationName?: string } = {},
): Connection {
  const { asApp = true, poolSize = 10, applicationName = 'slakebook' } = choices
  const sql = postgres(url, {
    max: poolSize,
    onnotice: () => undefined,
    connection: { application_name: applicationName, ...(asApp ? { role: APP_ROLE } : {}) },
  })
  return { db: drizzle(sql), sql, close: () => sql.end({ timeout: CLOSE_SECONDS_MAX }) }
}
