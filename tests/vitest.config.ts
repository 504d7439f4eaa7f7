import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const SECONDS = 1_000

const top = fileURLToPath(new URL('..', import.meta.url))

/** One project a folder, so that `--project unit` or a path runs that kind of promise alone. */
function project(name: string, more: object = {}) {
  return {
    root: top,
    test: {
      name,
      include: [`tests/${name}/**/*.test.{ts,tsx}`],
      pool: 'forks' as const,
      testTimeout: 10 * SECONDS,
      ...more,
    },
  }
}

/**
 * Only these meet a database. They share one server: whichever project comes first finds it, and
 * `support/server.ts` keeps it for the others.
 */
const onServer = {
  globalSetup: ['tests/support/server.ts'],
  testTimeout: 60 * SECONDS,
  hookTimeout: 60 * SECONDS,
}

/** Each browser is several processes, so these come after the others and one at a time. */
const inBrowser = {
  ...onServer,
  globalSetup: [...onServer.globalSetup, 'tests/browser/support/chromium.ts'],
  setupFiles: ['tests/browser/support/close-browser.ts'],
  testTimeout: 120 * SECONDS,
  expect: { poll: { timeout: 20 * SECONDS } },
  fileParallelism: false,
  sequence: { groupOrder: 1 },
}

export default defineConfig({
  root: top,
  test: {
    projects: [
      project('unit'),
      project('reference'),
      project('house', { testTimeout: 180 * SECONDS, hookTimeout: 180 * SECONDS }),
      project('properties', { ...onServer, setupFiles: ['tests/support/seed.ts'] }),
      project('database', onServer),
      project('api', onServer),
      project('browser', inBrowser),
    ],
  },
})
