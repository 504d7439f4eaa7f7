import { readFile, rm } from 'node:fs/promises'
import path from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { promisify } from 'node:util'
import { execFile } from 'node:child_process'
import { processLives } from './folder-lock.ts'

const RECOVERY_MILLISECONDS_MAX = 60_000
const PAUSE_MILLISECONDS = 250

/** What a server writes about itself into `postmaster.pid`, line by line. */
type Postmaster = { processId: number; port: number }

/**
 * The port of the server that runs on a cluster, or undefined where none runs.
 *
 * A server that was killed leaves its file behind. Where its number belongs to nobody, PostgreSQL
 * itself clears the file at the next start; after a restart of the machine it may belong to a
 * stranger, and then PostgreSQL would refuse to start, so the file is taken away. A server that is
 * there but does not answer yet is recovering; it is waited for.
 */
export async function runningPort(
  clusterFolder: string,
  answers: (port: number) => Promise<boolean>,
): Promise<number | undefined> {
  const file = path.join(clusterFolder, 'postmaster.pid')
  for (let waited = 0; ; waited += PAUSE_MILLISECONDS) {
    const postmaster = await readPostmaster(file)
    if (postmaster === undefined) return undefined
    if (postmaster.port > 0 && (await answers(postmaster.port))) return postmaster.port
    if (postmaster.processId === 0 || !processLives(postmaster.processId)) return undefined
    if (await isStranger(clusterFolder, postmaster.processId)) {
      await rm(file, { force: true })
      return undefined
    }
    if (waited > RECOVERY_MILLISECONDS_MAX) throw silentServer(clusterFolder, postmaster)
    await pause(PAUSE_MILLISECONDS)
  }
}

function silentServer(clusterFolder: string, postmaster: Postmaster): Error {
  return new Error(
    `A PostgreSQL (process ${postmaster.processId}) runs on ${clusterFolder} but has not answered ` +
      `on port ${postmaster.port} for ${RECOVERY_MILLISECONDS_MAX / 1000} seconds. ` +
      'Look into server.log beside that folder, or end that process and start again.',
  )
}

async function readPostmaster(file: string): Promise<Postmaster | undefined> {
  const text = await readFile(file, 'utf8').catch(() => undefined)
  if (text === undefined) return undefined
  const lines = text.split('\n')
  const processId = Number(lines[0] ?? '')
  return { processId: processId > 0 ? processId : 0, port: Number(lines[3] ?? '') }
}

async function isStranger(clusterFolder: string, processId: number): Promise<boolean> {
  const command = await commandOf(processId)
  return command !== undefined && !command.includes(clusterFolder)
}

/** The command line of a process; undefined where this machine has no way to tell. */
async function commandOf(processId: number): Promise<string | undefined> {
  const listed = await readFile(`/proc/${processId}/cmdline`, 'utf8').catch(() => undefined)
  if (listed !== undefined) return listed
  return promisify(execFile)('ps', ['-ww', '-o', 'args=', '-p', String(processId)]).then(
    ({ stdout }) => stdout,
    () => undefined,
  )
}
