import { chmod, mkdir, realpath, stat } from 'node:fs/promises'
import path from 'node:path'
import {
  address,
  clusterFolderIn,
  findOrMakeCluster,
  portAnswers,
  single,
  startServer,
  stopServer,
} from './server/cluster.ts'
import type { Cluster } from './server/cluster.ts'
import { underFolderLock } from './server/folder-lock.ts'
import { reaches, serverAccount, serverPrograms } from './server/programs.ts'
import type { ServerPrograms } from './server/programs.ts'
import { runningPort } from './server/running.ts'

export type EmbeddedServer = {
  /** The owner's address of the database `slakebook`. */
  url: string
  /** Whether the server was already running when we came. */
  reused: boolean
  /** Leaves the server, and stops it if nobody else of ours is using it. */
  stop: () => Promise<void>
}

type Log = (line: string) => void

const DATABASE = 'slakebook'
/** Every program that uses the folder holds this lock, shared, for as long as it lives. */
const PRESENCE_LOCK = 7_214_501

/**
 * A real PostgreSQL of our own in a folder: found running and used, or started.
 *
 * It listens on this machine only, on a port that was free, and writes to disk before it answers.
 * `pg_ctl` starts it in a session of its own, so that neither Ctrl-C nor our death reaches it: after
 * a kill it goes on, and the next program finds it by its `postmaster.pid`.
 *
 * Who stops it: the last one out, whoever started it. Each program keeps one connection that holds a
 * shared advisory lock; one that leaves stops the server only if it gets that lock for itself alone.
 * A killed program's lock goes with its connection, so nobody has to remember who started what. A
 * bare client such as psql holds no lock and does not keep the server running.
 */
export async function openEmbedded(place: {
  dataFolder: string
  log: Log
}): Promise<EmbeddedServer> {
  await mkdir(place.dataFolder, { recursive: true })
  const dataFolder = await realpath(place.dataFolder)
  return underFolderLock(dataFolder, async () => {
    const programs = await reachablePrograms(dataFolder)
    const cluster = await findOrMakeCluster({ dataFolder, programs, log: place.log })
    const found = await runningPort(cluster.clusterFolder, portAnswers(cluster))
    const port = found ?? (await startServer(cluster, programs))
    const leave = await enter(cluster, port)
    place.log(`PostgreSQL ${found ? 'found running' : 'started'} on port ${port}, ${dataFolder}`)
    return {
      url: address(cluster, port, DATABASE),
      reused: found !== undefined,
      stop: once(() =>
        underFolderLock(dataFolder, async () => {
          if (await leave()) await stopServer(cluster, programs)
        }),
      ),
    }
  })
}

/** As root the server's user must be able to enter the folder; say what to do where it cannot. */
async function reachablePrograms(dataFolder: string): Promise<ServerPrograms> {
  const account = await serverAccount(clusterFolderIn(dataFolder))
  if (account !== undefined) {
    const { mode } = await stat(dataFolder)
    if ((mode & 0o011) !== 0o011) await chmod(dataFolder, mode | 0o011)
  }
  if (await reaches(account, '-x', path.join(dataFolder, '.'))) {
    return serverPrograms(dataFolder, account)
  }
  throw new Error(
    `PostgreSQL does not run as root, and its user postgres cannot enter ${dataFolder}. ` +
      'Put the data elsewhere by SLAKEBOOK_DATA, for example in /var/lib/slakebook, ' +
      'or start the program as an ordinary user.',
  )
}

/**
 * Takes our place among those who use the server, in a database that is made if it is not there.
 * Gives the way out, which says whether we were the last.
 */
async function enter(cluster: Cluster, port: number): Promise<() => Promise<boolean>> {
  await makeDatabase(address(cluster, port, 'postgres'))
  const sql = single(address(cluster, port, DATABASE))
  await sql`select pg_advisory_lock_shared(${PRESENCE_LOCK})`
  return async () => {
    try {
      await sql`select pg_advisory_unlock_shared(${PRESENCE_LOCK})`
      const [answer] = await sql`select pg_try_advisory_lock(${PRESENCE_LOCK}) as alone`
      return answer?.alone === true
    } catch (cause) {
      cluster.log(`PostgreSQL was gone before we left it: ${String(cause)}`)
      return false
    } finally {
      await sql.end({ timeout: 5 })
    }
  }
}

async function makeDatabase(url: string): Promise<void> {
  const sql = single(url)
  try {
    const found = await sql`select from pg_database where datname = ${DATABASE}`
    if (found.length === 0) await sql.unsafe(`create database ${DATABASE}`)
  } finally {
    await sql.end()
  }
}

function once(work: () => Promise<void>): () => Promise<void> {
  let done: Promise<void> | undefined
  return () => (done ??= work())
}
