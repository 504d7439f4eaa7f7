import { randomBytes } from 'node:crypto'
import { setTimeout as pause } from 'node:timers/promises'
import postgres from 'postgres'
import { inject } from 'vitest'

export type FreshDatabase = {
  /** The owner's address; `connect(url)` works under the app's role as the program does. */
  url: string
  close: () => Promise<void>
}

const BUSY_TEMPLATE = '55006'
const COPY_ATTEMPTS = 50
const PAUSE_MILLISECONDS = 100

/**
 * A migrated database of a test's own, copied from the template in milliseconds.
 *
 * Close what was connected to it first; `close` drops the database and whoever is left in it.
 */
export async function freshDatabase(): Promise<FreshDatabase> {
  const name = `slakebook_test_${randomBytes(8).toString('hex')}`
  const server = postgres(inject('serverUrl'), { max: 1, onnotice: () => undefined })
  await copyTemplate(server, name)
  const url = new URL(inject('serverUrl'))
  url.pathname = name
  const close = async () => {
    await server.unsafe(`drop database if exists ${name} with (force)`)
    await server.end({ timeout: 5 })
  }
  return { url: url.href, close }
}

/** Another file's copy may be under way, and a template that is in use is refused for that moment. */
async function copyTemplate(server: postgres.Sql, name: string): Promise<void> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      await server.unsafe(`create database ${name} template ${inject('templateName')}`)
      return
    } catch (error) {
      const isBusy = error instanceof postgres.PostgresError && error.code === BUSY_TEMPLATE
      if (!isBusy || attempt === COPY_ATTEMPTS) throw error
      await pause(PAUSE_MILLISECONDS)
    }
  }
}
