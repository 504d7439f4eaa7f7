import { afterEach, expect, test, vi } from 'vitest'
import type { TestProject } from 'vitest/node'
import lookForBrowser from '../browser/support/chromium.ts'

vi.mock('node:fs', async (original) => ({
  ...(await original<object>()),
  accessSync: () => {
    throw new Error('There is no such program')
  },
}))

afterEach(() => {
  vi.unstubAllEnvs()
  vi.restoreAllMocks()
})

function look(): { provided: Record<string, unknown>; said: string[] } {
  const provided: Record<string, unknown> = {}
  const said: string[] = []
  vi.spyOn(console, 'log').mockImplementation((line: string) => void said.push(line))
  const provide = (name: string, value: unknown) => void (provided[name] = value)
  lookForBrowser({ provide } as unknown as TestProject)
  return { provided, said }
}

test('without a browser its tests are left out, and it is said', () => {
  vi.stubEnv('CI', '')
  vi.stubEnv('CHROMIUM_PATH', '')
  const { provided, said } = look()
  expect(provided['chromium']).toBe('')
  expect(said.join()).toContain('BROWSER TESTS ARE SKIPPED. No Chromium was found')
})

test('where a change is checked, a missing browser is a failure', () => {
  vi.stubEnv('CI', 'true')
  vi.stubEnv('CHROMIUM_PATH', '')
  expect(look).toThrow('With CI set this is a failure.')
})

test('a browser that is named and is not there is a failure everywhere', () => {
  vi.stubEnv('CI', '')
  vi.stubEnv('CHROMIUM_PATH', '/nowhere/chromium')
  expect(look).toThrow('CHROMIUM_PATH names no program: /nowhere/chromium')
})
