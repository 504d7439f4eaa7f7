import { existsSync, readFileSync, rmSync } from 'node:fs'
import { chmod, mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import postgres from 'postgres'
import { openEmbedded } from '../../db/embedded.ts'
import { processLives } from '../../db/server/folder-lock.ts'

export type FoundServer = {
  /** The owner's address of a database that is there only to connect to. */
  url: string
  stop: () => Promise<void>
}

const FOLDER_PREFIX = 'slakebook-tests-'
const IMAGE = 'postgres:18-alpine'
const ANSWER_ATTEMPTS = 150
const PAUSE_MILLISECONDS = 200

/**
 * A PostgreSQL for the tests: the one that TEST_DATABASE_URL names, or else a container where a
 * Docker engine answers, or else the embedded server in a temporary folder.
 *
 * One that was named but cannot be reached is a failure: tests that went elsewhere in silence would
 * be taken for tests of that server.
 */
export async function findServer(tell: (line: string) => void = sayIt): Promise<FoundServer> {
  const named = process.env.TEST_DATABASE_URL
  const { server, where } = named
    ? { server: namedServer(named), where: 'the one of TEST_DATABASE_URL' }
    : ((await containerServer(tell)) ?? (await embeddedServer()))
  try {
    tell(`Tests run on PostgreSQL ${await versionOf(server.url)}: ${where}`)
    return server
  } catch (cause) {
    await server.stop()
    if (!named) throw cause
    throw new Error(
      'TEST_DATABASE_URL names a server that does not let us in. Start it, correct the address, ' +
        `or unset the variable to use another. It said: ${reasonOf(cause)}`,
      { cause },
    )
  }
}

function sayIt(line: string): void {
  console.log(line)
}

function namedServer(url: string): FoundServer {
  return { url, stop: () => Promise.resolve() }
}

async function containerServer(
  tell: (line: string) => void,
): Promise<{ server: FoundServer; where: string } | undefined> {
  const { getContainerRuntimeClient } = await import('testcontainers')
  const engineAnswers = await getContainerRuntimeClient().then(
    () => true,
    () => false,
  )
  if (!engineAnswers) return undefined
  try {
    const { PostgreSqlContainer } = await import('@testcontainers/postgresql')
    const { Wait } = await import('testcontainers')
    const container = await new PostgreSqlContainer(IMAGE)
      .withDatabase('slakebook')
      .withWaitStrategy(Wait.forListeningPorts())
      .start()
    await untilItAnswers(container.getConnectionUri())
    const stop = async () => void (await container.stop())
    return { server: { url: container.getConnectionUri(), stop }, where: `container of ${IMAGE}` }
  } catch (error) {
    tell(`Docker answers, but ${IMAGE} does not start there: ${reasonOf(error)}`)
    return undefined
  }
}

/** A port may listen before the server behind it takes questions. */
async function untilItAnswers(url: string): Promise<void> {
  for (let attempt = 1; ; attempt += 1) {
    const server = postgres(url, { max: 1, onnotice: () => undefined })
    try {
      await server`select 1`
      return
    } catch (error) {
      if (attempt === ANSWER_ATTEMPTS) throw error
      await pause(PAUSE_MILLISECONDS)
    } finally {
      await server.end({ timeout: 1 })
    }
  }
}

async function embeddedServer(): Promise<{ server: FoundServer; where: string }> {
  await clearLeftovers()
  const dataFolder = await mkdtemp(path.join(tmpdir(), `${FOLDER_PREFIX}${process.pid}-`))
  await chmod(dataFolder, 0o755)
  const remove = () => rm(dataFolder, { recursive: true, force: true })
  const abandon = () => abandonServer(dataFolder)
  process.once('exit', abandon)
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => process.exit(1))
  try {
    const embedded = await openEmbedded({ dataFolder, log: () => undefined })
    const stop = async () => {
      await embedded.stop().finally(remove)
      process.off('exit', abandon)
    }
    return { server: { url: embedded.url, stop }, where: `embedded, in ${dataFolder}` }
  } catch (error) {
    await remove()
    throw error
  }
}

/** Ctrl-C ends the tests without their farewell; nobody needs what they wrote by then. */
function abandonServer(dataFolder: string): void {
  const file = path.join(dataFolder, 'postgres', 'postmaster.pid')
  if (existsSync(file)) process.kill(Number(readFileSync(file, 'utf8').split('\n')[0]), 'SIGQUIT')
  rmSync(dataFolder, { recursive: true, force: true, maxRetries: 10, retryDelay: 50 })
}

/** Tests that were killed leave a server behind; the next ones stop it and remove its folder. */
async function clearLeftovers(): Promise<void> {
  for (const name of await readdir(tmpdir())) {
    const owner = new RegExp(`^${FOLDER_PREFIX}(\\d+)-`).exec(name)?.[1]
    if (owner === undefined || processLives(Number(owner))) continue
    const dataFolder = path.join(tmpdir(), name)
    const isStopped = await openEmbedded({ dataFolder, log: () => undefined }).then(
      (left) => left.stop().then(() => true),
      () => false,
    )
    if (isStopped) await rm(dataFolder, { recursive: true, force: true })
  }
}

async function versionOf(url: string): Promise<string> {
  const sql = postgres(url, { max: 1, connect_timeout: 10 })
  try {
    const [row] = await sql`select current_setting('server_version') as version`
    return String(row?.version)
  } finally {
    await sql.end({ timeout: 1 })
  }
}

function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message || error.name : String(error)
}
