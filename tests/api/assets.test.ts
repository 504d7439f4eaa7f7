import { readdirSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { assetsVersion, newAssets, prepareAssets } from '../../api/pages/assets.ts'
import { bundleScript, fingerprintOfContent } from '../../api/script.ts'

const app = newAssets()
const version = assetsVersion()

const LOADED = [
  ['/assets/slakebook.css', 'text/css; charset=utf-8'],
  ['/assets/slakebook.js', 'text/javascript; charset=utf-8'],
  ['/assets/icon.svg', 'image/svg+xml'],
  ['/assets/manifest.webmanifest', 'application/manifest+json'],
  ['/assets/fonts/atkinson-latin-400.woff2', 'font/woff2'],
  ['/assets/fonts/atkinson-latin-700.woff2', 'font/woff2'],
  ['/assets/fonts/atkinson-latin-ext-400.woff2', 'font/woff2'],
  ['/assets/fonts/atkinson-latin-ext-700.woff2', 'font/woff2'],
] as const

describe.each(LOADED)('what pages load: %s', (path, type) => {
  test('is kept for good under its version, and for minutes without', async () => {
    const plain = await app.request(path)
    const versioned = await app.request(`${path}?v=${version}`)
    const old = await app.request(`${path}?v=earlier`)
    expect(plain.status).toBe(200)
    expect(plain.headers.get('content-type')).toBe(type)
    expect(plain.headers.get('cache-control')).toBe('public, max-age=300')
    expect(old.headers.get('cache-control')).toBe('public, max-age=300')
    expect(versioned.headers.get('cache-control')).toContain('immutable')
    expect(await versioned.arrayBuffer()).toEqual(await plain.arrayBuffer())
  })

  test('is not sent again to who has it', async () => {
    const etag = (await app.request(path)).headers.get('etag') ?? ''
    const again = await app.request(path, { headers: { 'if-none-match': etag } })
    expect(again.status).toBe(304)
    expect(await again.text()).toBe('')
    const other = await app.request(path, { headers: { 'if-none-match': '"other"' } })
    expect(other.status).toBe(200)
  })
})

test('the sheet is all of ours in one, the tokens first, and loads its letters from here', async () => {
  const css = await (await app.request('/assets/slakebook.css')).text()
  const folder = new URL('../../api/assets/', import.meta.url)
  expect(readdirSync(folder).filter((name) => name.endsWith('.css')).length).toBeGreaterThan(1)
  expect(css).not.toContain('@import')
  const loaded = [...css.matchAll(/url\(['"]?([^'")]+)/g)].map((found) => found[1] ?? '')
  expect(loaded).toHaveLength(4)
  for (const address of loaded) {
    const answer = await app.request(address)
    expect([address, answer.status]).toEqual([address, 200])
    expect(answer.headers.get('cache-control')).toContain('immutable')
  }
})

test('the script of the dead spots is asked for each time and knows what to keep', async () => {
  const answer = await app.request('/service-worker.js')
  const text = await answer.text()
  expect(answer.headers.get('service-worker-allowed')).toBe('/')
  expect(answer.headers.get('cache-control')).toBe('no-cache')
  const [, said = ''] = /^self\.slakebook=(\{.*?\});/.exec(text) ?? []
  const knows = JSON.parse(said) as { version: string; addresses: string[] }
  expect(knows.version).toBe(version)
  expect(knows.addresses.map((one) => one.split('?')[0]).sort()).toEqual(
    LOADED.map(([path]) => path).sort(),
  )
  for (const address of knows.addresses) expect((await app.request(address)).status).toBe(200)
})

test('the script is one small piece that asks nobody for more', () => {
  const script = bundleScript()
  if (script.whyNot !== undefined) throw new Error(script.whyNot)
  for (const piece of [script.page, script.worker]) {
    expect(piece.length).toBeGreaterThan(100)
    expect(piece).not.toMatch(/\bimport\s*[({*"']|sourceMappingURL|https?:\/\//)
  }
  expect(script.page.length).toBeLessThan(80 * 1024)
  expect(script.worker.length).toBeLessThan(16 * 1024)
})

test('where there is a script, nothing is said of it', () => {
  const said: string[] = []
  const keep = (message: string) => void said.push(message)
  prepareAssets({ info: keep, error: keep })
  expect(said).toEqual([])
})

test('an address of no asset leads nowhere', async () => {
  for (const path of ['/assets/none.css', '/assets/../script.ts', '/assets/pages.css/']) {
    expect((await app.request(path)).status).toBe(404)
  }
})

test('the name of a content is its own', () => {
  expect(fingerprintOfContent('clay')).toBe(fingerprintOfContent(new TextEncoder().encode('clay')))
  expect(fingerprintOfContent('clay')).not.toBe(fingerprintOfContent('slip'))
})
