import { afterAll, beforeAll, expect, test } from 'vitest'
import { describeInBrowser, openPhone, type Phone } from './support/browser.ts'
import { openDemo, type Pottery } from './support/server.ts'

const PAPERS = ['A4', 'Letter'] as const

/** The demo takes its time on a busy machine. */
const DEMO_MILLISECONDS_MAX = 300_000

/** What is printed lies on as many sheets as it says. */
describeInBrowser('on paper', () => {
  let books: Pottery
  let desk: Phone
  let months: readonly string[] = []

  beforeAll(async () => {
    books = await openDemo()
    desk = await openPhone(books.origin, { isDesk: true, viewport: { width: 1100, height: 800 } })
    months = await monthsOf(books)
  }, DEMO_MILLISECONDS_MAX)

  afterAll(async () => {
    const faults = await desk.close()
    await books.close()
    expect(faults).toEqual([])
  })

  /** How many sheets of paper the page at an address takes. */
  const sheets = async (path: string, format: (typeof PAPERS)[number]) => {
    const { page } = desk
    await page.goto(path)
    return sheetsOf(await page.pdf({ format, preferCSSPageSize: false }))
  }

  for (const paper of PAPERS) {
    test(`the sheet of the fullest month lies on one ${paper}`, async () => {
      const [fullest] = months
      expect(months.length).toBeGreaterThan(2)
      expect(await sheets(`/books/month/${String(fullest)}`, paper)).toBe(1)
    })

    test(`the sheet for the wall lies on one ${paper}`, async () => {
      expect(await sheets('/books/wall', paper)).toBe(1)
    })

    test(`labels lie on as many ${paper} as they say`, async () => {
      for (const [size, aSheet] of [
        ['small', 18],
        ['middle', 8],
        ['large', 3],
      ] as const) {
        const found = await sheets(`/books/labels?size=${size}`, paper)
        expect(await desk.page.locator('main').innerText()).toContain(`${String(aSheet)} a sheet`)
        const labels = await desk.page.locator('.label').count()
        expect(labels).toBeGreaterThan(0)
        expect([size, found]).toEqual([size, Math.ceil(labels / aSheet)])
      }
    })
  }
})

/** The months of the books, the one in which most happened first. */
async function monthsOf({ origin }: Pottery): Promise<string[]> {
  const counted = new Map<string, number>()
  let address: string | undefined = '/v1/entries?limit=200'
  while (address !== undefined) {
    const answer = await fetch(`${origin}${address}`)
    const { items, nextCursor } = (await answer.json()) as Entries
    for (const { happenedAt } of items) {
      const month = happenedAt.slice(0, 'yyyy-mm'.length)
      counted.set(month, (counted.get(month) ?? 0) + 1)
    }
    address =
      nextCursor === null || nextCursor === undefined
        ? undefined
        : `/v1/entries?limit=200&cursor=${encodeURIComponent(nextCursor)}`
  }
  return [...counted].sort(([, one], [, other]) => other - one).map(([month]) => month)
}

interface Entries {
  readonly items: readonly { readonly happenedAt: string }[]
  readonly nextCursor?: string | null
}

/** The sheets of a PDF. Each has an object of the type Page; the tree that holds them is of the type Pages. */
function sheetsOf(pdf: Buffer): number {
  return pdf.toString('latin1').match(/\/Type\s*\/Page(?![a-zA-Z])/g)?.length ?? 0
}
