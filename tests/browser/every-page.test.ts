import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { barriersOn, contrastOn } from './support/axe.ts'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { openDemo, type Pottery } from './support/server.ts'

/** Of pages that only differ in what they are about, so many are looked at. */
const ALIKE_MAX = 2
const PAGES_MIN = 40
const HTML_BYTES_MAX = 100 * 1024
const PHONE = { width: 390, height: 844 }
/** 640 px at twice their size. */
const MAGNIFIED = { width: 320, height: 640 }
const TOUCH_PIXELS = 64
/** The room of the API is a reference for programmers, read at a desk; it is long. */
const LONG = ['/v1']

describeInBrowser('every page that links lead to', () => {
  let pottery: Pottery
  let phone: Phone
  beforeAll(async () => {
    pottery = await openDemo()
    phone = await openPhone(pottery.origin)
  }, 600_000)
  afterAll(async () => {
    await phone.close()
    await pottery.close()
  })

  test('is open to everybody, by day and by night, at arm’s length and magnified', async () => {
    const { page } = phone
    const line = ['/']
    const met = new Set(line)
    const seen = new Map<string, number>()
    const faults: string[] = []
    let looked = 0
    for (let address = line.shift(); address !== undefined; address = line.shift()) {
      const kind = kindOf(address, pottery.routes)
      const times = (seen.get(kind) ?? 0) + 1
      seen.set(kind, times)
      if (times > ALIKE_MAX) continue
      const answer = await page.request.get(address, { headers: { accept: 'text/html' } })
      if (answer.status() !== 200) faults.push(`${address}: answers ${String(answer.status())}`)
      if (answer.headers()['content-type']?.startsWith('text/html') !== true) continue
      looked += 1
      const bytes = (await answer.body()).byteLength
      if (bytes > HTML_BYTES_MAX && !LONG.includes(address)) {
        faults.push(`${address}: ${String(bytes)} bytes`)
      }
      await page.goto(address)
      const found = await faultsOf(page, times === 1)
      faults.push(...found.map((fault) => `${address}: ${fault}`))
      for (const next of await linksOf(page)) {
        if (met.has(next)) continue
        met.add(next)
        line.push(next)
      }
    }
    console.log(`Looked at ${String(looked)} pages of ${String(seen.size)} kinds`)
    expect([...faults, ...phone.faults()]).toEqual([])
    expect(looked).toBeGreaterThan(PAGES_MIN)
  }, 1_800_000)
})

/** What is wrong with a page; of the first of its kind everything, of the others what may differ. */
async function faultsOf(page: Page, isFirst: boolean): Promise<string[]> {
  const faults = [...(await layoutFaults(page)), ...(await barriersOn(page))]
  if (!isFirst) return faults
  await page.emulateMedia({ colorScheme: 'dark' })
  faults.push(...(await contrastOn(page)).map((barrier) => `dim: ${barrier}`))
  await page.emulateMedia({ colorScheme: 'light' })
  await page.setViewportSize(MAGNIFIED)
  faults.push(...(await sideways(page, MAGNIFIED.width)))
  await page.setViewportSize(PHONE)
  return faults
}

async function layoutFaults(page: Page): Promise<string[]> {
  const headings = await page.locator('h1').count()
  const styled = await page.locator('[style]').count()
  return [
    ...(headings === 1 ? [] : [`${String(headings)} main headings`]),
    ...(styled === 0 ? [] : [`${String(styled)} elements with a style of their own`]),
    ...(await sideways(page, PHONE.width)),
    ...(await smallTargets(page)),
  ]
}

/** A page is read downwards only. */
async function sideways(page: Page, width: number): Promise<string[]> {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth)
  if (wide <= width) return []
  const out = await page.evaluate((limit) => {
    const all = [...document.querySelectorAll('main *')]
    const tooWide = all.filter((one) => one.getBoundingClientRect().right > limit + 1)
    return tooWide.slice(0, 3).map((one) => one.outerHTML.slice(0, 80))
  }, width)
  return [`${String(wide)} px wide at ${String(width)} px: ${out.join(' … ')}`]
}

/** What wet hands touch on a page on which something is done. */
async function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate((least) => {
    const touched = '[data-keep] :is(.press, .choice, .units label, .keypad button, .steps button)'
    return [...document.querySelectorAll(touched)].flatMap((one) => {
      const { width, height } = one.getBoundingClientRect()
      // What is folded away has no size.
      if (height === 0 || (height >= least && width >= least)) return []
      return [`${String(width)} × ${String(height)} px to touch: ${one.outerHTML.slice(0, 80)}`]
    })
  }, TOUCH_PIXELS)
}

/** Where the links of a page lead within the program; what machines read is left out. */
async function linksOf(page: Page): Promise<string[]> {
  const hrefs = await page.evaluate(() =>
    [...document.querySelectorAll<HTMLAnchorElement>('a[href]')]
      .filter((link) => link.origin === location.origin)
      .map((link) => link.pathname + link.search),
  )
  return hrefs.filter((href) => !/^\/(v1\/|assets\/)/.test(href))
}

/** Pages are of a kind that answer under one pattern, with questions behind their address or without. */
function kindOf(address: string, routes: readonly string[]): string {
  const { pathname, searchParams } = new URL(address, 'http://here')
  const pattern = routes.find((route) => matches(route, pathname)) ?? pathname
  return searchParams.size === 0 ? pattern : `${pattern}?`
}

function matches(route: string, pathname: string): boolean {
  if (route.includes('*')) return false
  return new RegExp(`^${route.replaceAll(/:\w+(\{[^}]*\})?/g, '[^/]+')}$`).test(pathname)
}
