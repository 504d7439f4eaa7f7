import { afterAll, beforeAll, expect, test } from 'vitest'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'
import { opened, pressed } from './pressed.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery({ studios: [STUDIO] })
})
afterAll(() => pottery.close())

const PAGES = [
  '/books',
  '/books/stock',
  '/books/things',
  '/books/things/bodies',
  '/books/things/bodies/new',
  '/books/things/bodies/buff',
  '/books/things/vessels/new',
  '/books/delivery',
  '/books/open-bag',
  '/books/opening',
  '/books/opening/pots',
  '/books/count',
  '/books/dry-test',
  '/books/discard',
  '/books/close-month',
]

test.each(PAGES)(
  '%s has one heading, a label for each field, and nothing of its own style',
  async (path) => {
    const { status, text } = await opened(pottery, path)
    expect(status).toBe(200)
    expect(text.match(/<h1[ >]/g)).toHaveLength(1)
    expect(text).not.toMatch(/ style=| onclick=|undefined|\[object|NaN/)
    const ids = [...text.matchAll(/<input id="([^"]+)"/g)].map(([, id]) => id)
    for (const id of ids) {
      const isLabelled = text.includes(`<label for="${String(id)}"`)
      expect(isLabelled || new RegExp(`id="${String(id)}"[^>]*aria-label=`).test(text), id).toBe(
        true,
      )
    }
  },
)

test('the contents name every page of the table once', async () => {
  const { text } = await opened(pottery, '/books')
  const main = text.slice(text.indexOf('<main'))
  const hrefs = [...main.matchAll(/href="([^"]+)"/g)].map(([, href]) => href)
  expect(new Set(hrefs).size).toBe(hrefs.length)
  for (const page of [
    'month',
    'yield',
    'turning',
    'balance',
    'dust',
    'trail',
    'stock',
    'delivery',
  ]) {
    expect(hrefs).toContain(`/books/${page}`)
  }
  for (const page of [
    'open-bag',
    'opening',
    'count',
    'dry-test',
    'discard',
    'sell',
    'sales/import',
  ]) {
    expect(hrefs).toContain(`/books/${page}`)
  }
  for (const page of ['things', 'labels', 'wall', 'studio', 'close-month']) {
    expect(hrefs).toContain(`/books/${page}`)
  }
  expect(hrefs).toEqual(expect.arrayContaining(['/v1', '/problems']))
})

test('each page that the contents name is there', async () => {
  const { text } = await opened(pottery, '/books')
  const main = text.slice(text.indexOf('<main'))
  for (const [, href = ''] of main.matchAll(/href="([^"]+)"/g)) {
    const { status } = await opened(pottery, href)
    expect([href, status < 400]).toEqual([href, true])
  }
})

test('the stock leads from its figures to what they are made of', async () => {
  expect((await opened(pottery, '/books/stock')).text).toContain('nothing is here yet')
  await pottery.does('receive-delivery', {
    clays: [
      {
        bodyId: 'buff',
        lotId: 'june',
        label: 'June',
        bags: 10,
        bagMass: { value: '12.5', unit: 'kg' },
        price: '100',
      },
    ],
  })
  const { text } = await opened(pottery, '/books/stock')
  expect(text).toContain('98.8 kg ± 5.0')
  expect(text).toContain('£100.00')
  expect(text).toContain('21.0 % water')
  expect(text).toMatch(/href="\/books\/trail\/holdings\?place=store&amp;bodyId=buff/)
  expect(text).toMatch(/href="\/books\/trail\/holding\/id-/)
})

test('from an empty ledger the pages lead to clay on the bench', async () => {
  const empty = await openPottery({ studios: [] })
  try {
    await empty.ask('POST', '/v1/studios', {
      studio: null,
      body: {
        ...{ studioId: 'shed', name: 'The Shed', currency: 'GBP' },
        ...{ timeZone: 'Europe/London', jurisdiction: 'GB' },
      },
    })
    const first = await opened(empty, '/books/delivery')
    const enterClay = '/books/things/bodies/new?then=%2Fbooks%2Fdelivery'
    expect(first.text).toContain(`href="${enterClay}"`)
    expect((await opened(empty, enterClay)).text).toContain('name="then" value="/books/delivery"')
    const clay = await pressed(empty, '/books/things/bodies/new', {
      ...{ name: 'Buff', then: '/books/delivery' },
    })
    expect(clay.headers.get('location')).toBe('/books/delivery?bodyId=buff')
    expect((await opened(empty, '/books/delivery?bodyId=buff')).text).toMatch(
      /value="buff" checked/,
    )
    const came = await pressed(empty, '/books/delivery', {
      ...{ bodyId: 'buff', bags: '10', bagMass: '12.5', bagMassUnit: 'kg', price: '100' },
    })
    const stock = await opened(empty, came.headers.get('location') ?? '')
    expect(stock.text).toContain('Recorded')
    expect(stock.text).toContain('href="/books/open-bag"')
    const bags = await opened(empty, '/books/open-bag')
    const lotId = /name="lotId" value="([^"]+)" checked/.exec(bags.text)?.[1] ?? ''
    const bench = await pressed(empty, '/books/open-bag', { lotId, bags: '1' })
    const after = await opened(empty, bench.headers.get('location') ?? '')
    expect(after.text).toContain('clay ready to throw')
  } finally {
    await empty.close()
  }
})

test('where nothing is there yet, each page leads on', async () => {
  const empty = await openPottery({ studios: [] })
  try {
    await empty.ask('POST', '/v1/studios', {
      studio: null,
      body: {
        ...{ studioId: 'shed', name: 'The Shed', currency: 'GBP' },
        ...{ timeZone: 'Europe/London', jurisdiction: 'GB' },
      },
    })
    for (const path of [...PAGES, '/books/opening/scrap', '/books/opening/load']) {
      if (path.endsWith('/buff')) continue
      const { status, text } = await opened(empty, path)
      expect([path, status]).toEqual([path, 200])
      const main = text.slice(text.indexOf('<main'))
      expect(main, path).toMatch(/href="\/(books|weigh|plaster)/)
    }
  } finally {
    await empty.close()
  }
})
