import { expect, test, vi } from 'vitest'
import { assetsVersion, newAssets, prepareAssets } from '../../api/pages/assets.ts'

vi.mock('esbuild', () => ({
  buildSync: () => {
    throw new Error('The package for this machine is not there')
  },
}))

test('where the script cannot be put together, pages go without it, and it is said once', async () => {
  const said: { message: string; cause: unknown }[] = []
  const error = (message: string, facts?: Readonly<Record<string, unknown>>) =>
    void said.push({ message, cause: facts?.['cause'] })
  prepareAssets({ info: () => undefined, error })
  const app = newAssets()
  for (const path of ['/assets/slakebook.js', '/service-worker.js']) {
    expect((await app.request(path)).status).toBe(404)
  }
  for (const path of ['/assets/slakebook.css', '/assets/icon.svg']) {
    expect((await app.request(`${path}?v=${assetsVersion()}`)).status).toBe(200)
  }
  expect(said).toHaveLength(1)
  expect(said[0]?.message).toContain('work all the same')
  expect(String(said[0]?.cause)).toContain('The package for this machine is not there')
})
