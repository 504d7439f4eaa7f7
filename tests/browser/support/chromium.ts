import { execFileSync } from 'node:child_process'
import { accessSync, constants } from 'node:fs'
import path from 'node:path'
import type { TestProject } from 'vitest/node'

declare module 'vitest' {
  interface ProvidedContext {
    /** The program of the browser; empty where there is none. */
    chromium: string
  }
}

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']
const ON_A_MAC = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'

/**
 * Looks for a browser before the first test. Where a change is checked, a missing one is a failure;
 * on somebody's own machine it is said, and these tests are left out.
 */
export default function setup(project: TestProject): void {
  const found = findChromium()
  project.provide('chromium', found ?? '')
  if (found !== undefined) {
    console.log(`Browser tests run on ${versionOf(found)}, ${found}`)
    return
  }
  const words =
    'No Chromium was found: not in CHROMIUM_PATH, not in /usr/bin and not on the PATH. Install one (on Debian: apt-get install chromium), or name one in CHROMIUM_PATH.'
  if (isTrue(process.env['CI'])) throw new Error(`${words} With CI set this is a failure.`)
  console.log(`BROWSER TESTS ARE SKIPPED. ${words}`)
}

function findChromium(): string | undefined {
  const named = process.env['CHROMIUM_PATH']
  if (named !== undefined && named !== '') {
    if (!isProgram(named)) throw new Error(`CHROMIUM_PATH names no program: ${named}`)
    return named
  }
  const folders = ['/usr/bin', ...(process.env['PATH'] ?? '').split(path.delimiter)]
  const places = NAMES.flatMap((name) => folders.map((folder) => path.join(folder, name)))
  return [...places, ON_A_MAC].find(isProgram)
}

function isProgram(file: string): boolean {
  try {
    accessSync(file, constants.X_OK)
    return true
  } catch {
    return false
  }
}

function versionOf(program: string): string {
  return execFileSync(program, ['--version', '--no-sandbox'], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  }).trim()
}

function isTrue(said: string | undefined): boolean {
  return said !== undefined && !['', '0', 'false'].includes(said)
}
