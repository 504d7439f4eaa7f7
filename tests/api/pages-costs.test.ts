import { eq } from 'drizzle-orm'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { form } from '../../db/schema.ts'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { fillFiredStudio } from '../support/fired-studio.ts'
import { reportAppOf, type ReportApp } from '../support/report-app.ts'
import { openTestStudio } from '../support/studio.ts'

let app: Omit<ReportApp, 'soldEntryId'>

beforeAll(async () => {
  const studio = await openTestStudio()
  await fillFiredStudio(studio)
  app = await reportAppOf(studio)
})
afterAll(() => app.close())

const PAGES = [
  '/books/piece',
  '/books/piece/mug',
  '/books/piece/mug?month=2026-05',
  '/books/month/2026-04/costs',
  '/books/month/2026-05/costs',
  '/books/month/2025-01/costs',
  '/books/stock-value',
  '/books/stock-value?on=2026-04-30',
  '/books/firings',
  '/books/firings?from=2026-05',
  '/books/what-if',
  '/books/what-if?formId=mug&clay=15',
] as const

/** What a mug is sold at from now on. */
const priced = (price: string | null) =>
  app.studio.services.db.update(form).set({ price }).where(eq(form.formId, 'mug'))

/** The figures of the table below a heading, row by row; what is nothing is told by a dash. */
function rowsBelow(html: string, heading: string): { name: string; figures: string[] }[] {
  const below = html.slice(html.indexOf(heading)).split('</table>')[0] ?? ''
  return [...below.matchAll(/<tr.*?<\/tr>/gs)].flatMap(([row]) => {
    const name = /<th scope="row">(.*?)<\/th>/s.exec(row)?.[1]
    if (name === undefined) return []
    const figures = [...row.matchAll(/<td.*?<\/td>/gs)].map(([cell]) =>
      cell
        .replaceAll(/<small>.*?<\/small>/gs, '')
        .replaceAll(/<[^>]*>/g, '')
        .trim()
        .replace(/^–$/, '0')
        .replace('−', '-')
        .replaceAll(/[£+,]/g, ''),
    )
    return [{ name: name.replaceAll(/<[^>]*>/g, '').trim(), figures }]
  })
}

/** That the last row of a table is the sum of those above, column by column, as printed. */
function expectToAddUp(rows: readonly { readonly figures: readonly string[] }[]) {
  const total = rows.at(-1)?.figures ?? []
  expect(rows.length).toBeGreaterThan(1)
  expect(total.length).toBeGreaterThan(0)
  total.forEach((figure, column) => {
    const sum = rows.slice(0, -1).reduce((so, { figures }) => so.plus(figures[column] ?? '0'), ZERO)
    expect(sum.toFixed()).toBe(decimal(figure).toFixed())
  })
}

describe.each(PAGES)('%s', (address) => {
  test('is a whole page, and its links lead somewhere', async () => {
    const page = await app.page(address)
    expect(page.status).toBe(200)
    expect(page.html.match(/<h1/g)).toHaveLength(1)
    expect(page.html).not.toMatch(/undefined|NaN|\[object| style=/)
    const inside = page.links.filter((link) => /^\/(books|v1)\b/.test(link))
    for (const link of new Set(inside)) {
      const { status } = link.startsWith('/v1') ? await app.ask(link) : await app.page(link)
      expect([link, [200, 303].includes(status)]).toEqual([link, true])
    }
  })
})

describe('the cost of a piece', () => {
  test('is told by what it was paid for, and the layers add up', async () => {
    const { html, text } = await app.page('/books/piece/mug')
    const rows = rowsBelow(html, 'By what it was paid for')
    expect(rows.map(({ name }) => name)).toEqual([
      ...['clay', 'glaze', 'firing energy', 'elements and kiln furniture', 'packaging'],
      'true cost of a sold piece',
    ])
    expectToAddUp(rows)
    const { forms } = await app.json('/v1/reports/piece-cost?formId=mug')
    expect(rows.map(({ figures }) => figures[0])).toEqual([
      ...Object.values(forms[0].costByLayerShown),
      '3.45',
    ])
    expectToAddUp(rowsBelow(html, 'Step by step'))
    expect(text).toContain('share of what was lost after bisque, in firing')
    expect(text).toContain('Labour is not in the books.')
  })

  test('can be worked out by hand from what is printed', async () => {
    const { html, links } = await app.page('/books/piece/mug')
    const [cost, pieces, each] = rowsBelow(html, 'Work it out by hand').map(
      ({ figures }) => figures[0] ?? '',
    )
    expect([cost, pieces, each]).toEqual(['13.8', '4', '3.45'])
    expect(links).toContain('/books/trail/entries?formId=mug&flow=sold')
    expect(links).toContain('/books/what-if?formId=mug')
  })

  test('is drawn without the steps that come to nothing', async () => {
    const { html } = await app.page('/books/piece/mug')
    const drawing = html.slice(html.indexOf('<desc'), html.indexOf('</desc>'))
    expect(drawing).toContain('firing energy: +1.50')
    expect(drawing).not.toMatch(/: [+−]?0\.00/)
  })
})

describe('what a month cost', () => {
  test('leads from what was there to the cost, in numbers', async () => {
    const { html } = await app.page('/books/month/2026-05/costs')
    const [there, came, left, cost] = rowsBelow(html, 'From what was there').map(({ figures }) =>
      decimal(figures[0] ?? ''),
    )
    const sum = there?.plus(came ?? ZERO).minus(left ?? ZERO)
    expect(sum?.toFixed()).toBe(cost?.toFixed())
    expect(cost?.toFixed(2)).toBe('19.70')
  })

  test('adds up column by column, with losses and idle kilns by name', async () => {
    const may = await app.page('/books/month/2026-05/costs')
    const rows = rowsBelow(may.html, 'Where it went')
    expectToAddUp(rows)
    expect(rows.map(({ name }) => name)).toEqual([
      ...['sold', 'given away', 'lost as waste', 'lost beyond what is usual'],
      ...['lost or found, unexplained', 'what the month cost'],
    ])
    const april = await app.page('/books/month/2026-04/costs')
    expectToAddUp(rowsBelow(april.html, 'Where it went'))
    expect(april.text).toContain('spent on a kiln that fired nothing')
    expect(april.text).toContain('Nothing was sold in this month')
  })

  test('has what a piece and a kilogram of each form cost', async () => {
    const { html, links } = await app.page('/books/month/2026-05/costs')
    const [piece] = rowsBelow(html, 'A sold piece')
    expect(piece?.name).toMatch(/^Mug 4 sold$/)
    expect(piece?.figures.at(-1)).toBe('3.45')
    const [kilogram] = rowsBelow(html, 'A kilogram of fired pots')
    expect(decimal(kilogram?.figures.at(-1) ?? '0').greaterThan(0)).toBe(true)
    expect(links).toContain('/books/piece/mug?month=2026-05')
  })

  test('is on the month’s own sheet in two lines that lead to the rest', async () => {
    const { text, links } = await app.page('/books/month/2026-05')
    expect(text).toMatch(/The month cost 19\.70 GBP in all : clay/)
    expect(text).toContain('lost beyond what is usual 2.95')
    expect(links).toContain('/books/month/2026-05/costs')
  })
})

describe('what the stock is worth', () => {
  test('adds up by what it is, layer by layer', async () => {
    const { html, text } = await app.page('/books/stock-value')
    const rows = rowsBelow(html, 'Raw, in the making, finished')
    expect(rows.map(({ name }) => name)).toEqual([
      ...['raw', 'in the making', 'finished'],
      'all the stock',
    ])
    expectToAddUp(rows)
    expect(rows.at(-1)?.figures.at(-1)).toBe('86.90')
    expect(text).toContain('(IAS 2, ¶9)')
    expect(text).toContain('the accountant’s to say')
  })

  test('says of pots that cost more than they sell at that they do', async () => {
    expect((await app.page('/books/stock-value')).text).toContain('No price is said of this form')
    await priced('2')
    const { text } = await app.page('/books/stock-value')
    await priced(null)
    expect(text).toContain('It cost more than it sells at.')
    expect(text).not.toContain('None of them cost more')
  })

  test('is that of the day asked for, with the usual ends of a year at hand', async () => {
    const { html, text, links } = await app.page('/books/stock-value?on=2026-04-05')
    const report = await app.json('/v1/reports/stock-value?on=2026-04-05')
    expect(rowsBelow(html, 'Raw, in the making').at(-1)?.figures.at(-1)).toBe(
      decimal(report.total.shown.total).isZero() ? '0' : report.total.shown.total,
    )
    expect(text).toContain('at the end of 5 Apr 2026')
    for (const day of ['2025-12-31', '2026-03-31', '2026-04-05']) {
      expect(links).toContain(`/books/stock-value?on=${day}`)
    }
    expect(links).toContain('/v1/reports/stock-value?on=2026-04-05&format=csv')
    expect((await app.page('/books/stock-value?on=2026-02-30')).status).toBe(422)
  })
})

describe('firings', () => {
  test('tell what a piece took, what it would in a full kiln, and idle kilns apart', async () => {
    const { html, text } = await app.page('/books/firings')
    const report = await app.json('/v1/reports/firings')
    const loaded = rowsBelow(html, 'Pots in the kiln')
    expect(loaded).toHaveLength(report.firings.length)
    expect(loaded[1]?.figures.slice(1)).toEqual(['0.60', '0.30'])
    expect(loaded[1]?.name).toContain('Half empty.')
    expect(rowsBelow(html, 'With nothing in the kiln').at(-1)?.figures).toEqual(['3.00'])
    expect(text).toContain('Charged so far 2.60, put in 10.00.')
  })

  test('are those of the months asked for', async () => {
    const { text } = await app.page('/books/firings?from=2026-05')
    expect(text).toContain('No firing was told of these months.')
  })
})

test('a studio that fired nothing yet has nothing to pay', async () => {
  const { wear, firings } = await app.json('/v1/reports/firings', 'quay-side')
  expect([wear.chargedSoFar, wear.putIn, firings]).toEqual(['0', '0', []])
})

describe('what if', () => {
  afterAll(() => priced(null))

  const asked = 'clay=15&energy=-10%25&yieldAfterBisque=2%2C5&kilnFullFrom=50&kilnFullTo=100'

  test('each effect alone and all together, and the price that keeps the margin', async () => {
    await priced('24')
    const { html, text } = await app.page(`/books/what-if?formId=mug&${asked}`)
    const report = await app.json(
      '/v1/reports/what-changes-if?formId=mug&clay=15&energy=-10&yieldAfterBisque=2.5&kilnFullFrom=50&kilnFullTo=100',
    )
    expect(text).toContain(report.words)
    const changed = rowsBelow(html, 'Mug: a sold piece')
    expectToAddUp(changed)
    expect(changed.at(-1)?.figures).toEqual([
      decimal(report.before.total).toFixed(3),
      decimal(report.effects.together.total).toFixed(3),
    ])
    const effects = rowsBelow(html, 'Each by itself')
    expectToAddUp(effects)
    expect(effects.map(({ name }) => name)).toEqual([
      ...['price of clay', 'price of energy', 'what comes through the kiln'],
      ...['how full the kiln is', 'what they do to each other', 'all together'],
    ])
    expect(text).toContain('Price that leaves you the same money')
  })

  test('what is no number is said at its field, and what was typed stays', async () => {
    const { status, html } = await app.page('/books/what-if?formId=mug&clay=much&kilnFullTo=140')
    expect(status).toBe(422)
    expect(html).toContain('id="clay-fault"')
    expect(html).toContain('id="kilnFullTo-fault"')
    expect(html).toContain('value="much"')
  })

  test('a form of which nothing was sold, or that there is not', async () => {
    const { text } = await app.page('/books/what-if?formId=plate&clay=3')
    expect(text).toContain('Nothing of this form was sold')
    expect((await app.page('/books/what-if?formId=amphora&clay=3')).status).toBe(404)
  })
})

test('the contents of the books lead to all of them', async () => {
  const { links, text } = await app.page('/books')
  expect(text).toContain('What it costs')
  for (const page of ['piece', 'month-costs', 'firings', 'stock-value', 'what-if']) {
    expect(links).toContain(`/books/${page}`)
    expect([200, 303]).toContain((await app.page(`/books/${page}`)).status)
  }
})
