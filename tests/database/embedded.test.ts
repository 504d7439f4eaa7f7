import { execFile } from 'node:child_process'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { chmod, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import postgres from 'postgres'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { openEmbedded } from '../../db/embedded.ts'

const top = fileURLToPath(new URL('../..', import.meta.url))

let dataFolder: string

beforeEach(async () => {
  dataFolder = await mkdtemp(path.join(tmpdir(), `slakebook-tests-${process.pid}-`))
  await chmod(dataFolder, 0o755)
})

afterEach(() => rm(dataFolder, { recursive: true, force: true }))

function open() {
  return openEmbedded({ dataFolder, log: () => undefined })
}

async function oneFrom(url: string): Promise<unknown> {
  const sql = postgres(url, { max: 1 })
  try {
    const [row] = await sql`select current_setting('fsync') as fsync`
    return row?.fsync
  } finally {
    await sql.end()
  }
}

/** Another program on the same folder, killed without a farewell as soon as its server runs. */
async function killedProgram(): Promise<void> {
  const program = `
    import { openEmbedded } from './db/embedded.ts'
    await openEmbedded({ dataFolder: ${JSON.stringify(dataFolder)}, log: () => undefined })
    process.kill(process.pid, 'SIGKILL')`
  await new Promise<void>((resolve) => {
    const args = ['--import', 'tsx', '--input-type=module', '--eval', program]
    execFile(process.execPath, args, { cwd: top }, () => resolve())
  })
}

function processFile(): string {
  return path.join(dataFolder, 'postgres', 'postmaster.pid')
}

describe('the embedded server', () => {
  test('writes to disk, and what it holds is there after a stop and a start', async () => {
    const first = await open()
    const sql = postgres(first.url, { max: 1 })
    await sql`create table kept as select 1 as one`
    await sql.end()
    expect(await oneFrom(first.url)).toBe('on')
    await first.stop()
    expect(existsSync(processFile())).toBe(false)

    const second = await open()
    expect(second.reused).toBe(false)
    const again = postgres(second.url, { max: 1 })
    expect(await again`select one from kept`).toEqual([{ one: 1 }])
    await again.end()
    await second.stop()
  })

  test('is shared by two programs, and the one that started it may leave first', async () => {
    const first = await open()
    const second = await open()
    expect([first.reused, second.reused]).toEqual([false, true])
    await first.stop()
    expect(await oneFrom(second.url)).toBe('on')
    await second.stop()
    expect(existsSync(processFile())).toBe(false)
  })

  test('is started once by programs that come together', async () => {
    const all = await Promise.all([open(), open(), open()])
    expect(all.filter((server) => !server.reused)).toHaveLength(1)
    expect(new Set(all.map((server) => server.url)).size).toBe(1)
    await Promise.all(all.map((server) => server.stop()))
    expect(existsSync(processFile())).toBe(false)
  })

  test('outlives a program that was killed, is found by the next, and is stopped by it', async () => {
    await killedProgram()
    expect(existsSync(processFile())).toBe(true)
    const next = await open()
    expect(next.reused).toBe(true)
    await next.stop()
    expect(existsSync(processFile())).toBe(false)
  })

  test('starts where a dead server left its file and a stranger has its number', async () => {
    await (await open()).stop()
    writeFileSync(processFile(), `${process.pid}\n${dataFolder}\n1\n1\n\n\n`)
    const server = await open()
    expect(server.reused).toBe(false)
    expect(await oneFrom(server.url)).toBe('on')
    await server.stop()
  })

  test('keeps its password in a file that only its own user reads', async () => {
    const server = await open()
    const password = readFileSync(path.join(dataFolder, 'password'), 'utf8').trim()
    expect(new URL(server.url).password).toBe(password)
    expect(password.length).toBeGreaterThanOrEqual(48)
    const wrong = new URL(server.url)
    wrong.password = 'guessed'
    await expect(oneFrom(wrong.href)).rejects.toThrow('password authentication failed')
    await server.stop()
  })
})
