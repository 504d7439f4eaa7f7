import { readFile, rm, writeFile } from 'node:fs/promises'
import path from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'

const WAIT_MILLISECONDS_MAX = 90_000
const EMPTY_MILLISECONDS_MAX = 2_000
const PAUSE_MILLISECONDS = 100

/** A container's first process has the same number after each start: ours is told apart by this. */
const heldHere = new Set<string>()

/**
 * Does the work while no other program of ours starts or stops a server in the same folder.
 *
 * The lock is a file with the number of the process that holds it. A killed holder leaves the file
 * behind, so a file whose process is gone counts for nothing.
 */
export async function underFolderLock<Result>(
  folder: string,
  work: () => Promise<Result>,
): Promise<Result> {
  const file = path.join(folder, 'starting.lock')
  await takeLock(file)
  heldHere.add(file)
  try {
    return await work()
  } finally {
    heldHere.delete(file)
    await rm(file, { force: true })
  }
}

async function takeLock(file: string): Promise<void> {
  for (let waited = 0; ; waited += PAUSE_MILLISECONDS) {
    if (await madeFile(file)) return
    const holder = Number(await readFile(file, 'utf8').catch(() => ''))
    if (waited > WAIT_MILLISECONDS_MAX) {
      throw new Error(
        `Another program (process ${holder}) has been starting or stopping the database for ` +
          `${WAIT_MILLISECONDS_MAX / 1000} seconds. If it is not running any more, remove ${file}.`,
      )
    }
    if (!heldHere.has(file) && isLeftBehind(holder, waited)) await rm(file, { force: true })
    await pause(PAUSE_MILLISECONDS)
  }
}

/** A file that is still empty was, as a rule, made just now by somebody about to write into it. */
function isLeftBehind(holder: number, waited: number): boolean {
  if (holder === 0) return waited > EMPTY_MILLISECONDS_MAX
  return holder === process.pid || !processLives(holder)
}

async function madeFile(file: string): Promise<boolean> {
  try {
    await writeFile(file, String(process.pid), { flag: 'wx' })
    return true
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') return false
    throw error
  }
}

/** Whether a process of this number runs, whoever owns it. */
export function processLives(processId: number): boolean {
  try {
    process.kill(processId, 0)
    return true
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM'
  }
}
