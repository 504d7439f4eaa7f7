import { afterEach, beforeEach, expect, test } from 'vitest'
import { newAssets, assetsVersion } from '../../api/pages/assets.ts'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { serve, type Server } from './support/server.ts'

const NEXT = 'a-later-one'

/** What a page needs to have the script, in a version that may change. */
function programOf(version: () => string) {
  const assets = newAssets()
  const page = () =>
    `<!doctype html><html lang="en"><head><title>Clay</title><link rel="icon" href="/assets/icon.svg"/><script type="module" src="/assets/slakebook.js?v=${version()}"></script></head><body><main><h1>Clay ${version()}</h1></main></body></html>`
  return {
    async fetch(request: Request): Promise<Response> {
      const { pathname } = new URL(request.url)
      if (pathname === '/')
        return new Response(page(), { headers: { 'content-type': 'text/html' } })
      if (pathname !== '/service-worker.js') return assets.fetch(request)
      const answer = await assets.request(pathname)
      const text = (await answer.text()).replaceAll(assetsVersion(), version())
      const headers = new Headers(answer.headers)
      headers.set('etag', `"${version()}"`)
      return new Response(text, { headers })
    },
  }
}

describeInBrowser('a new version of the program', () => {
  let version = assetsVersion()
  let server: Server
  let phone: Phone
  beforeEach(async () => {
    version = assetsVersion()
    server = await serve(programOf(() => version))
    phone = await openPhone(server.origin)
  })
  afterEach(async () => {
    const faults = await phone.close()
    await server.goAway()
    expect(faults).toEqual([])
  })

  const shelves = () =>
    phone.page.evaluate(async () => (await caches.keys()).filter((name) => name.includes('assets')))

  test('takes over at the next visit, and the old one leaves nothing behind', async () => {
    await phone.page.goto('/')
    await expect.poll(shelves).toEqual([`slakebook-assets-${assetsVersion()}`])
    await expect
      .poll(() => phone.page.evaluate(() => navigator.serviceWorker.controller !== null))
      .toBe(true)
    version = NEXT
    await phone.page.goto('/')
    expect(await phone.page.locator('h1').textContent()).toBe(`Clay ${NEXT}`)
    await expect.poll(shelves, { timeout: 15_000 }).toEqual([`slakebook-assets-${NEXT}`])
    // A page of the old version that is still stored finds the new one's script where it asks for its own.
    await phone.setOffline(true)
    await server.goAway()
    await phone.page.goto('/')
    await phone.page.locator('.stored').waitFor()
    const asked = await phone.page.evaluate(
      async (address) => (await fetch(address)).status,
      `/assets/slakebook.js?v=${assetsVersion()}`,
    )
    expect(asked).toBe(200)
    await server.comeBack()
  })
})
