import { randomBytes } from 'node:crypto'
import postgres from 'postgres'
import type { TestProject } from 'vitest/node'
import { migrate } from '../../db/migrate.ts'
import { findServer } from './find-server.ts'
import type { FoundServer } from './find-server.ts'

declare module 'vitest' {
  interface ProvidedContext {
    /** The owner's address of the server's maintenance database. */
    serverUrl: string
    /** The migrated database that every test file gets a copy of. */
    templateName: string
  }
}

type Shared = { server: FoundServer; templateName: string; users: number }

/** Vitest loads this file once for each project, so what they share cannot be a variable of it. */
const shelf = globalThis as typeof globalThis & { slakebookServer?: Promise<Shared> }

/** Finds a server and makes the template before the first test; takes both away after the last. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  shelf.slakebookServer ??= prepare()
  const shared = await shelf.slakebookServer
  shared.users += 1
  project.provide('serverUrl', shared.server.url)
  project.provide('templateName', shared.templateName)
  return async () => {
    shared.users -= 1
    if (shared.users === 0) await clear(shared)
  }
}

async function prepare(): Promise<Shared> {
  const server = await findServer()
  try {
    return { server, templateName: await makeTemplate(server.url), users: 0 }
  } catch (error) {
    await server.stop()
    throw error
  }
}

async function makeTemplate(serverUrl: string): Promise<string> {
  const templateName = `slakebook_template_${randomBytes(6).toString('hex')}`
  await withServer(serverUrl, (sql) => sql.unsafe(`create database ${templateName}`))
  const templateUrl = new URL(serverUrl)
  templateUrl.pathname = templateName
  await migrate(templateUrl.href)
  // A template that somebody is connected to cannot be copied, so nobody may connect from here on.
  await withServer(serverUrl, (sql) =>
    sql.unsafe(`alter database ${templateName} with is_template true allow_connections false`),
  )
  return templateName
}

async function clear({ server, templateName }: Shared): Promise<void> {
  delete shelf.slakebookServer
  try {
    await withServer(server.url, async (sql) => {
      await sql.unsafe(`alter database ${templateName} with is_template false`)
      await sql.unsafe(`drop database if exists ${templateName} with (force)`)
    })
  } finally {
    await server.stop()
  }
}

async function withServer(
  url: string,
  work: (sql: postgres.Sql) => Promise<unknown>,
): Promise<void> {
  const sql = postgres(url, { max: 1, onnotice: () => undefined })
  try {
    await work(sql)
  } finally {
    await sql.end({ timeout: 5 })
  }
}
