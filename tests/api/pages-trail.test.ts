import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { localPath } from '../../api/pages/books/trail/take-back.tsx'
import { trailHref } from '../../api/pages/trail-href.ts'
import { closeMonth } from '../../db/acts/close-month.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { openReportApp, type ReportApp } from '../support/report-app.ts'
import { kg } from '../support/studio.ts'

let app: ReportApp
beforeAll(async () => {
  app = await openReportApp()
})
afterAll(() => app.close())

const REPORTS = [
  '/v1/reports/stock',
  '/v1/reports/month?month=2026-04',
  '/v1/reports/month?month=2026-05',
  '/v1/reports/yield',
  '/v1/reports/yield?formId=mug',
  '/v1/reports/turning',
  '/v1/reports/turning/mug',
  '/v1/reports/piece-cost?formId=mug',
  '/v1/reports/mass-balance?month=2026-04&bodyId=buff',
  '/v1/reports/mass-balance?month=2026-05&bodyId=white',
  '/v1/reports/plaster',
  '/v1/sales',
  '/v1/entries?limit=200',
  '/v1/holdings?nonEmpty=false',
  '/v1/lots',
  '/v1/runs',
  '/v1/lots/bags',
  '/v1/lots/reclaimed',
  '/v1/runs/mugs',
]

/** Whatever in an answer of the API leads on. */
function linksIn(json: unknown): string[] {
  if (typeof json === 'string') return /^\/v1\/(?!acts)/.test(json) ? [json] : []
  if (typeof json !== 'object' || json === null) return []
  return Object.values(json).flatMap(linksIn)
}

describe('every trail link of the API', () => {
  test.each(REPORTS)('of %s leads to a page that answers', async (report) => {
    const links = [...new Set(linksIn(await app.json(report)))]
    const failed: string[] = []
    for (const link of links) {
      const href = trailHref(link)
      const { status, html } = await app.page(href)
      if (status !== 200 || !html.includes('<h1>'))
        failed.push(`${link} -> ${href}: ${String(status)}`)
    }
    expect(failed).toEqual([])
  })

  test('and there are many of them', async () => {
    const all = await Promise.all(REPORTS.map(async (report) => linksIn(await app.json(report))))
    expect(new Set(all.flat()).size).toBeGreaterThan(150)
  })
})

describe('the trail', () => {
  test('shows every entry, newest first, under its day', async () => {
    const { text, html } = await app.page('/books/trail?limit=200')
    const { items } = await app.json('/v1/entries?limit=200')
    const shown = [...html.matchAll(/\/books\/trail\/entry\/([a-z0-9-]+)/g)].map(([, id]) => id)
    expect(shown).toEqual(items.map(({ entryId }: { entryId: string }) => entryId))
    expect(text).toContain('31 May 2026')
    expect(text.indexOf('31 May 2026')).toBeLessThan(text.indexOf('3 Apr 2026'))
  })

  test('goes on where a page ends', async () => {
    const seen = new Set<string>()
    let address: string | undefined = '/books/trail?limit=7'
    for (let pages = 0; address !== undefined && pages < 20; pages += 1) {
      const { html, links }: Awaited<ReturnType<ReportApp['page']>> = await app.page(address)
      for (const [, id] of html.matchAll(/\/books\/trail\/entry\/([a-z0-9-]+)/g)) seen.add(id ?? '')
      address = links.find((link) => link.includes('cursor='))
    }
    const { items } = await app.json('/v1/entries?limit=200')
    expect(seen.size).toBe(items.length)
  })

  test('is narrowed as the API is, and says to what', async () => {
    const query = 'month=2026-04&kind=turn&bodyId=buff&formId=mug&by='
    const { text, html } = await app.page(`/books/trail/entries?${query}`)
    const { items } = await app.json('/v1/entries?month=2026-04&kind=turn&bodyId=buff&formId=mug')
    expect(items).toHaveLength(1)
    expect(html.match(/\/books\/trail\/entry\//g)).toHaveLength(1)
    for (const words of ['April 2026', 'turned', 'Buff stoneware', 'Mug']) {
      expect(text).toContain(words)
    }
  })

  test('shows only what one person wrote down', async () => {
    const { json } = app
    expect((await json('/v1/entries?by=Nobody')).items).toEqual([])
    const { text } = await app.page('/books/trail?by=Nobody')
    expect(text).toContain('written down by Nobody')
    expect(text).toContain('Nothing of that kind is in the books.')
  })

  test('says what is wrong with an address, on a page', async () => {
    const { status, text, html } = await app.page('/books/trail?month=yesterday')
    expect(status).toBe(422)
    expect(html).toContain('<h1>')
    expect(text).toContain('A month is written as 2026-03.')
  })

  test.each(['entry', 'holding', 'lot', 'run'])(
    'answers with a page where there is no such %s',
    async (what) => {
      const { status, html } = await app.page(`/books/trail/${what}/nothing`)
      expect(status).toBe(404)
      expect(html).toContain('<h1>')
    },
  )
})

describe('the page of an entry', () => {
  test('tells what was read, what it was taken to mean, and what moved', async () => {
    const { items } = await app.json('/v1/entries?kind=turn')
    const { text } = await app.page(`/books/trail/entry/${items[0].entryId}`)
    expect(text).toContain('450 g')
    expect(text).toContain('by the water that was said')
    expect(text).toContain('bucket-1')
    expect(text).toContain('each column adds up to nothing')
    expect(text).toContain('-360 g')
    expect(text).toContain('+360 g')
  })

  test('of a sale that was taken back says so and leads to what took it back', async () => {
    const { items } = await app.json('/v1/entries?kind=reverse')
    const { reversesEntryId, entryId } = items[0]
    const wrong = await app.page(`/books/trail/entry/${reversesEntryId}`)
    expect(wrong.text).toContain('Taken back since.')
    expect(wrong.links).toContain(`/books/trail/entry/${entryId}`)
    expect(wrong.text).not.toContain('Take it back')
    const reversal = await app.page(`/books/trail/entry/${entryId}`)
    expect(reversal.text).toContain('it was three')
    expect(reversal.links).toContain(`/books/trail/entry/${reversesEntryId}`)
    expect(reversal.text).not.toContain('Take it back')
  })
})

describe('taking back', () => {
  const entries = async () => (await app.json('/v1/entries?limit=200')).items.length as number
  const bought = async (happenedAt = '2026-06-01T10:00:00+01:00') => {
    const clay = { bodyId: 'white', bags: 1, bagMass: kg('10'), price: '9' }
    const { entry } = await app.studio.does(receiveDelivery, { happenedAt, clays: [clay] })
    return entry.entryId
  }

  test('is done once for each key, and goes back to where it was asked', async () => {
    const entryId = await bought()
    const before = await entries()
    const form = { key: 'once', back: '/weigh?kept=1' }
    const address = `/books/trail/entry/${entryId}/take-back`
    const first = await app.page(address, form)
    const again = await app.page(address, form)
    expect(first.status).toBe(303)
    expect(first.location).toMatch(/^\/weigh\?kept=1&did=[a-z0-9-]+$/)
    expect(again.location).toBe(first.location)
    expect(await entries()).toBe(before + 1)
    const { recordedBy, reversedByEntryId } = await app.json(`/v1/entries/${entryId}`)
    expect(reversedByEntryId).toBe(first.location?.split('did=')[1])
    expect(recordedBy).toBeNull()
    expect((await app.json(`/v1/entries/${String(reversedByEntryId)}`)).recordedBy).toBe('Ines')
    const { text } = await app.page(first.location ?? '')
    expect(text).toContain('Taken back')
  })

  test('of what was taken back already is refused, on a page that says what to do', async () => {
    const entryId = await bought()
    const address = `/books/trail/entry/${entryId}/take-back`
    await app.page(address, { key: 'first-of-two', back: '/' })
    const { status, text, links } = await app.page(address, { key: 'second-of-two', back: '/' })
    expect(status).toBe(409)
    expect(text).toContain('This entry was taken back already.')
    expect(links).toContain(`/books/trail/entry/${entryId}`)
  })

  test('of what never was answers 404', async () => {
    const { status, html } = await app.page('/books/trail/entry/nothing/take-back', {
      key: 'k',
      back: '/',
    })
    expect(status).toBe(404)
    expect(html).toContain('<h1>')
  })

  test.each([
    'https://elsewhere.example/',
    '//elsewhere.example/',
    '/\\elsewhere.example/',
    '/\t/elsewhere.example/',
    '/.//elsewhere.example/',
    '/x/..//elsewhere.example/',
    'javascript:alert(1)',
    'weigh',
    '',
  ])('does not lead to “%s”', async (back) => {
    const entryId = await bought()
    const { location } = await app.page(`/books/trail/entry/${entryId}/take-back`, {
      key: `back-${entryId}`,
      back,
    })
    expect(location).toMatch(new RegExp(`^/books/trail/entry/${entryId}\\?did=`))
  })

  test('keeps an address of ours, without what was done last', () => {
    expect(localPath('/weigh?did=e1&state=slops')).toBe('/weigh?state=slops')
    expect(localPath('/books/trail/entry/e1?did=e2')).toBe('/books/trail/entry/e1')
    expect(localPath(undefined)).toBeUndefined()
  })

  test('in a closed month is offered as of today', async () => {
    const entryId = await bought('2026-05-20T10:00:00+01:00')
    await app.studio.does(closeMonth, { month: '2026-05' })
    const address = `/books/trail/entry/${entryId}/take-back`
    const refused = await app.page(address, { key: 'in-may', back: '/books/trail' })
    expect(refused.status).toBe(409)
    expect(refused.text).toContain('Take it back as of today')
    const asOf = /name="asOf" value="([^"]*)"/.exec(refused.html)?.[1] ?? ''
    const { location } = await app.page(address, { key: 'in-june', back: '/books/trail', asOf })
    const reversal = await app.json(`/v1/entries/${location?.split('did=')[1] ?? ''}`)
    expect(reversal).toMatchObject({ reversesEntryId: entryId, happenedAt: asOf })
  })
})
