import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { newApp } from '../../api/app.ts'
import { monthStreamReport } from '../../db/reports/month-stream.ts'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { CLAY_PLACES } from '../../shared/place.ts'
import { openReportApp, type ReportApp } from '../support/report-app.ts'

let app: ReportApp
let pages: ReturnType<typeof newApp>

beforeAll(async () => {
  app = await openReportApp()
  const log = { info: () => undefined, error: () => undefined }
  pages = newApp({ ...app.studio.services, log })
})
afterAll(() => app.close())

const MONTHS = ['2026-03', '2026-04', '2026-05']
const SHEETS = MONTHS.flatMap((month) =>
  [null, 'buff', 'white', 'pepper'].map((bodyId) => [month, bodyId] as const),
)

const visit = async (path: string) =>
  pages.request(path, { headers: { Cookie: `studio=${app.studio.studioId}; by=Ines` } })
const read = async (path: string) => {
  const answer = await visit(path)
  expect(answer.status).toBe(200)
  return answer.text()
}
const withBody = (path: string, bodyId: string | null) =>
  bodyId === null ? path : `${path}${path.includes('?') ? '&' : '?'}bodyId=${bodyId}`

const plain = (figure: string) => figure.replace('−', '-').replace('+', '')
const sum = (figures: readonly string[]) =>
  figures.reduce<Decimal>((total, figure) => total.plus(plain(figure)), ZERO)

interface PrintedRow {
  readonly row: string
  readonly mass: string
  readonly cost: string
}

/** The figures of the sheet's own lines, as they stand on the page. */
function linesIn(html: string): PrintedRow[] {
  return [...html.matchAll(/<tr[^>]*data-row="(\w+)".*?<\/tr>/gs)].map(([row = '', name = '']) => {
    const [mass = '', cost = ''] = [...row.matchAll(/<a href="[^"]+">([^<]+)<\/a>/g)].map(
      ([, figure = '']) => figure,
    )
    return { row: name, mass, cost }
  })
}

const tableIn = (html: string, heading: string) =>
  html.split(`<h2>${heading}`)[1]?.split('</table>')[0] ?? ''

describe.each(SHEETS)('the sheet of %s, clay %s', (month, bodyId) => {
  test('adds up by hand, from what is printed, in mass and in money', async () => {
    const html = await read(withBody(`/books/month/${month}`, bodyId))
    const lines = linesIn(tableIn(html, 'From opening to closing'))
    expect(lines[0]?.row).toBe('opening')
    const closing = lines.at(-1)
    expect(closing?.row).toBe('closing')
    for (const column of ['mass', 'cost'] as const) {
      const came = sum(lines.slice(0, -1).map((line) => line[column]))
      expect(came.toFixed()).toBe(decimal(plain(closing?.[column] ?? '')).toFixed())
    }
  })

  test('has the figures of the report, and each leads somewhere', async () => {
    const html = await read(withBody(`/books/month/${month}`, bodyId))
    const report = await app.json(withBody(`/v1/reports/month?month=${month}`, bodyId))
    const all = [
      ...linesIn(tableIn(html, 'From opening to closing')),
      ...linesIn(tableIn(html, 'Moved within')),
    ]
    expect(all.length).toBeGreaterThan(5)
    for (const { row, mass, cost } of all) {
      const { shown } = report.summary.find((one: { row: string }) => one.row === row)
      expect([plain(mass), plain(cost)]).toEqual([shown.dryKilograms, shown.cost])
    }
    expect(html).not.toMatch(/undefined|NaN|\[object| style=/)
    expect(html.match(/<h1/g)).toHaveLength(1)
    expect(html).toContain(report.purchases.shown.total)
  })

  test('tells place by place what lay there, each column adding up to the sheet’s ends', async () => {
    const html = await read(withBody(`/books/month/${month}`, bodyId))
    const rows = [...tableIn(html, 'What lay where').matchAll(/<tr.*?<\/tr>/gs)]
      .map(([row = '']) => [...row.matchAll(/>(-?[\d.]+)</g)].map(([, figure = '']) => figure))
      .filter((figures) => figures.length === 4)
    const ends = linesIn(tableIn(html, 'From opening to closing'))
    if (rows.length === 0) return
    const total = rows.at(-1) ?? []
    const [opening, closing] = [ends[0], ends.at(-1)]
    expect(total).toEqual([opening?.mass, opening?.cost, closing?.mass, closing?.cost])
    total.forEach((figure, column) => {
      const parts = sum(rows.slice(0, -1).map((figures) => figures[column] ?? '0'))
      expect(parts.toFixed()).toBe(decimal(figure).toFixed())
    })
  })

  test('is drawn from bands that agree with the report, to the last digit', async () => {
    const { db } = app.studio.services
    const asked = { studioId: app.studio.studioId, month, bodyId: bodyId ?? undefined }
    const stream = await monthStreamReport(db, asked)
    const report = await app.json(withBody(`/v1/reports/month?month=${month}`, bodyId))
    const flow = (row: string) => report.flows.find((one: { row: string }) => one.row === row)
    for (const { place, openingDryGrams, closingDryGrams } of stream.stocks) {
      expect(openingDryGrams).toBe(flow('opening').places[place].dryGrams)
      expect(closingDryGrams).toBe(flow('closing').places[place].dryGrams)
      const between = (end: 'from' | 'to', other: 'from' | 'to') =>
        sum(
          stream.bands
            .filter((band) => band[end] === 'unexplained' && band[other] === place)
            .map((band) => band.dryGrams),
        )
      expect(between('from', 'to').minus(between('to', 'from')).toFixed()).toBe(
        decimal(flow('unexplained').places[place].dryGrams).toFixed(),
      )
    }
    for (const { row, dryGrams } of report.world) {
      const ways = (end: 'from' | 'to') =>
        sum(stream.bands.filter((band) => band[end] === row).map((band) => band.dryGrams))
      expect(ways('from').minus(ways('to')).toFixed()).toBe(decimal(dryGrams).toFixed())
    }
  })
})

test('every band of the stream leads to the entries that made it', async () => {
  for (const month of MONTHS) {
    const { studioId } = app.studio
    const { bands } = await monthStreamReport(app.studio.services.db, { studioId, month })
    for (const { trail, kinds } of bands) {
      const { items } = await app.json(trail)
      const found = new Set(items.map((item: { kind: string }) => item.kind))
      for (const kind of kinds) expect(found).toContain(kind)
    }
  }
})

describe('around the sheet', () => {
  test('the latest month is the one on the wall, and none is later', async () => {
    const latest = await visit('/books/month')
    expect([latest.status, latest.headers.get('location')]).toEqual([303, '/books/month/2026-06'])
    const html = await read('/books/month/2026-06')
    expect(html).toContain('href="/books/month/2026-05"')
    expect(html).not.toContain('href="/books/month/2026-07"')
    const before = await read('/books/month/2026-05')
    expect(before).toContain('href="/books/month/2026-06"')
  })

  test('what is no month, or no clay of this studio, is not found', async () => {
    expect((await visit('/books/month/2026-13')).status).toBe(404)
    expect((await visit('/books/month/2026-05?bodyId=porcelain')).status).toBe(404)
  })

  test('says of whom it is, who printed it and when, and that a purchase is not a cost', async () => {
    const html = await read('/books/month/2026-05')
    expect(html).toContain('printed')
    expect(html).toContain('by Ines')
    expect(html).toContain('A purchase is not a cost')
    expect(html).toMatch(/Unexplained:/)
    expect(html).toContain('href="/books/close-month"')
  })

  test('as CSV it is the table of the API', async () => {
    const csv = await (await visit('/books/month/2026-05/csv')).text()
    const ofApi = await app.ask('/v1/reports/month?month=2026-05&format=csv&table=summary')
    expect(csv).toBe(await ofApi.text())
    expect(csv).toContain('opening')
  })

  test('a month before the books began says that there is nothing to draw', async () => {
    const html = await read('/books/month/2025-01')
    expect(html).toContain('nothing to draw')
    expect(html).not.toMatch(/NaN|undefined/)
  })
})

describe('the true cost of a piece', () => {
  test('has the steps of the report, which add up as printed', async () => {
    const html = await read('/books/piece/mug?month=2026-05')
    const { forms } = await app.json('/v1/reports/piece-cost?formId=mug&from=2026-05&to=2026-05')
    const form = forms[0]
    const figures = [
      ...tableIn(`<h2>x${html.split('Step by step')[1]}`, 'x').matchAll(
        /<a href="[^"]+">([^<]+)<\/a>/g,
      ),
    ].map(([, figure = '']) => figure)
    const shown = form.steps
      .filter((step: { costPerPiece: string; costPerPieceShown: string }) =>
        [step.costPerPiece, step.costPerPieceShown].some((one) => !decimal(one).isZero()),
      )
      .map((step: { costPerPieceShown: string }) => step.costPerPieceShown)
    expect(figures.slice(0, -1).map(plain)).toEqual(shown)
    expect(figures.at(-1)).toBe(form.costPerSoldPieceShown)
    expect(sum(figures.slice(0, -1)).toFixed()).toBe(decimal(figures.at(-1) ?? '').toFixed())
    expect(html).toContain('role="img"')
  })

  test('stands form by form on one page', async () => {
    const html = await read('/books/piece')
    const { forms } = await app.json('/v1/reports/piece-cost')
    for (const { formId, costPerSoldPieceShown } of forms) {
      if (costPerSoldPieceShown === null) continue
      expect(html).toContain(`href="/books/piece/${formId}"`)
      expect(html).toContain(`>${costPerSoldPieceShown}</a>`)
    }
  })

  test('says so where nothing was sold, and is not found where there is no such form', async () => {
    expect(await read('/books/piece/mug?month=2025-01')).toContain('Nothing of it was sold')
    expect((await visit('/books/piece/amphora')).status).toBe(404)
  })
})

test('the places of the stream are those where the studio has clay', async () => {
  const { studioId } = app.studio
  const stream = await monthStreamReport(app.studio.services.db, { studioId, month: '2026-05' })
  expect(stream.stocks.map(({ place }) => place)).toEqual([...CLAY_PLACES])
})
