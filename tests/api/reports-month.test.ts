import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { PLACES_INSIDE } from '../../shared/place.ts'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { openReportApp, type ReportApp } from '../support/report-app.ts'
import { kg } from '../support/studio.ts'

let app: ReportApp

beforeAll(async () => {
  app = await openReportApp()
  const bag = { bags: 1, bagMass: kg('10'), water: { content: '0.2', basis: 'wet' as const } }
  await app.studio.does(receiveDelivery, {
    happenedAt: '2026-06-01T10:00:00+01:00',
    clays: [
      { ...bag, bodyId: 'buff', price: '20' },
      { ...bag, bodyId: 'white', price: '30' },
    ],
    freight: '0.01',
  })
})
afterAll(() => app.close())

const COLUMNS = ['dryGrams', 'waterGrams', 'bags', 'pots', 'cost'] as const
const SHOWN = ['dryKilograms', 'waterKilograms', 'cost'] as const

interface Cell {
  readonly dryGrams: string
  readonly waterGrams: string
  readonly bags: string
  readonly pots: string
  readonly cost: string
  readonly shown: Readonly<Record<(typeof SHOWN)[number], string>>
}

const sum = (amounts: readonly string[]) =>
  amounts.reduce((total, amount) => total.plus(amount), ZERO).toFixed()

/** What a column of cells comes to from its opening, and what its closing says. */
function expectToLead(cells: readonly Cell[]): void {
  const closing = cells.at(-1) as Cell
  const before = cells.slice(0, -1)
  for (const column of COLUMNS) {
    expect(sum(before.map((cell) => cell[column]))).toBe(decimal(closing[column]).toFixed())
  }
  for (const column of SHOWN) {
    expect(sum(before.map((cell) => cell.shown[column]))).toBe(
      decimal(closing.shown[column]).toFixed(),
    )
  }
}

describe('the month report', () => {
  test.each(['2026-03', '2026-04', '2026-05', '2026-06'])(
    'adds up in every column of %s, exactly and as printed, for all clays and for each',
    async (month) => {
      const report = await app.json(`/v1/reports/month?month=${month}`)
      for (const sheet of [report, ...report.bodies]) {
        expectToLead(sheet.flows.map((row: { total: Cell }) => row.total))
        for (const place of PLACES_INSIDE) {
          expectToLead(
            sheet.flows.map((row: { places: Record<string, Cell> }) => row.places[place]),
          )
        }
        const summary = sheet.summary as (Cell & { isWorld: boolean; isBalance: boolean })[]
        expectToLead(summary.filter((row) => row.isWorld || row.isBalance))
        for (const row of sheet.flows) {
          for (const column of COLUMNS) {
            expect(sum(PLACES_INSIDE.map((place) => row.places[place][column]))).toBe(
              decimal(row.total[column]).toFixed(),
            )
          }
        }
      }
    },
  )

  test('says of April what a hand works out', async () => {
    const { summary, purchases } = await app.json('/v1/reports/month?month=2026-04')
    const of = (name: string) => {
      const row = summary.find((one: { row: string }) => one.row === name)
      return [row.dryGrams, row.pots, row.cost]
    }
    // 16 kg for 36 is 0.00225 a gram; ten balls of 400 g at a fifth of water are 3200 g dry.
    expect(of('opening')).toEqual(['4000', '0', '3'])
    expect(of('bought')).toEqual(['16000', '0', '36'])
    expect(of('thrown')).toEqual(['3200', '10', '7.2'])
    expect(of('pieces_begun')).toEqual(['0', '10', '0'])
    expect(of('turned_off')).toEqual(['360', '0', '0.81'])
    expect(of('lost_back')).toEqual(['320', '0', '0.72'])
    expect(of('slaked')).toEqual(['860', '0', '1.935'])
    // 3200 - 320 - 180 - 360 + 240 - 60 = 2520 g went into the fire, which takes 8 % of it.
    expect(of('fired')).toEqual(['-201.6', '0', '0'])
    expect(of('lost_after_bisque')).toEqual(['-257.6', '-1', '0'])
    expect(of('closing')).toEqual(['19540.8', '8', '39'])
    expect(purchases).toMatchObject({ goods: '32', freight: '4', total: '36', bags: '2' })
  })

  test('tells what went into each fire beside what the fires took', async () => {
    const { summary } = await app.json('/v1/reports/month?month=2026-04')
    const rows = summary.filter((row: { row: string }) => row.row.endsWith('fired'))
    expect(
      rows.map((row: Cell & { row: string; isWorld: boolean }) => [
        ...[row.row, row.dryGrams, row.pots, row.cost, row.isWorld],
      ]),
    ).toEqual([
      ['bisque_fired', '2520', '9', '5.67', false],
      ['glaze_fired', '2318.4', '9', '5.67', false],
      ['fired', '-201.6', '0', '0', true],
    ])
    expect(rows[2].words).toBe('taken by the fire (loss on ignition)')
    const kinds = []
    for (const { trail } of rows.slice(0, 2)) kinds.push((await app.json(trail)).items[0].kind)
    expect(kinds).toEqual(['bisque', 'glaze_fire'])
    const text = await (await app.ask('/v1/reports/month?month=2026-04&format=text')).text()
    expect(text).toMatch(/^ {4}\(clay into the bisque fire\) +\(2\.520\)/m)
    expect(text).toMatch(/^ {4}\(bisque into the glaze fire\) +\(2\.318\)/m)
  })

  test('shows what was paid so that the clays add up to all of them', async () => {
    const report = await app.json('/v1/reports/month?month=2026-06')
    // Half a penny of freight each: one of the two carries the penny.
    expect(report.purchases.shown).toEqual({ goods: '50.00', freight: '0.01', total: '50.01' })
    for (const column of ['goods', 'freight', 'total']) {
      const parts = report.bodies.map(
        (sheet: { purchases: { shown: Record<string, string> } }) => sheet.purchases.shown[column],
      )
      expect(decimal(sum(parts)).toFixed(2)).toBe(report.purchases.shown[column])
    }
    for (const { bodyId, purchases } of report.bodies) {
      const alone = await app.json(`/v1/reports/month?month=2026-06&bodyId=${String(bodyId)}`)
      expect(alone.purchases).toEqual(purchases)
    }
    const text = await (await app.ask('/v1/reports/month?month=2026-06&format=text')).text()
    expect(text).toMatch(
      /for clay 50\.00, for its freight 0\.01 GBP; powders wedged in are not in it/,
    )
  })

  test('gives what is unexplained a row of its own, at the place where it was found', async () => {
    const { flows, world } = await app.json('/v1/reports/month?month=2026-05')
    const row = flows.find((one: { row: string }) => one.row === 'unexplained')
    expect(row.places.bench).toMatchObject({ dryGrams: '-80', cost: '-0.06' })
    expect(flows.some((one: { row: string }) => one.row === 'counted')).toBe(false)
    const met = world.find((one: { row: string }) => one.row === 'unexplained')
    expect(met).toMatchObject({ dryGrams: '-80', waterGrams: '-20', cost: '-0.06' })
  })

  test('shows clay that became another clay, and that it is nothing to all clays together', async () => {
    const report = await app.json('/v1/reports/month?month=2026-05')
    const blended = report.bodies.map((sheet: { bodyId: string; world: { row: string }[] }) => [
      sheet.bodyId,
      sheet.world.find((row) => row.row === 'other_bodies'),
    ])
    expect(Object.fromEntries(blended)).toMatchObject({
      buff: { dryGrams: '-860', cost: '-1.935' },
      white: { dryGrams: '-800', cost: '-0.6' },
      pepper: { dryGrams: '1660', cost: '2.535' },
    })
    expect(report.world.some((row: { row: string }) => row.row === 'other_bodies')).toBe(false)
  })

  test('closes a month as the next one opens, printed alike', async () => {
    const april = await app.json('/v1/reports/month?month=2026-04')
    const may = await app.json('/v1/reports/month?month=2026-05')
    expect(may.summary[0].shown).toEqual(april.summary.at(-1).shown)
    expect(may.flows[0].places).toEqual(april.flows.at(-1).places)
  })

  test('counts a reversal with what it takes back: two sold and taken back, then three', async () => {
    const { summary } = await app.json('/v1/reports/month?month=2026-05')
    const sold = summary.find((row: { row: string }) => row.row === 'sold')
    expect(sold).toMatchObject({ pots: '-4', dryGrams: '-1030.4', cost: '-2.835' })
  })

  test('leads from every row to the entries behind it', async () => {
    const report = await app.json('/v1/reports/month?month=2026-05')
    for (const row of [...report.flows, ...report.world, ...report.summary]) {
      expect((await app.ask(row.trail)).status).toBe(200)
    }
    const sold = report.world.find((row: { row: string }) => row.row === 'sold')
    const { items } = await app.json(sold.trail)
    expect(items.map((entry: { kind: string }) => entry.kind).sort()).toEqual([
      'reverse',
      'sell',
      'sell',
      'sell',
    ])
    const unexplained = report.flows.find((row: { row: string }) => row.row === 'unexplained')
    expect((await app.json(unexplained.trail)).items).toMatchObject([{ kind: 'count' }])
  })

  test('is had as a sheet for a terminal that can be added by hand', async () => {
    const answer = await app.ask('/v1/reports/month?month=2026-05&bodyId=white&format=text')
    expect(answer.headers.get('content-type')).toMatch(/^text\/plain/)
    // How sure each line is stands beside its dry clay and is no part of the sum.
    const lines = (await answer.text())
      .split('\n')
      .map((line) => line.trim().split(/\s{2,}/))
      .map((cells) => cells.filter((cell) => !cell.startsWith('±')))
    expect(lines).toContainEqual(['opening', '4.000', '1.000', '0', '0', '3.00'])
    expect(lines).toContainEqual([
      'from and to other clays, by blending',
      ...['-0.800', '-0.200', '0', '0', '-0.60'],
    ])
    expect(lines).toContainEqual(['unexplained', '-0.080', '-0.020', '0', '0', '-0.06'])
    expect(lines).toContainEqual(['closing', '3.120', '0.780', '0', '0', '2.34'])
  })

  test('is had as CSV, one line a body, row and place', async () => {
    const answer = await app.ask('/v1/reports/month?month=2026-05&format=csv')
    expect(answer.headers.get('content-type')).toBe('text/csv; charset=utf-8')
    expect(answer.headers.get('content-disposition')).toBe(
      'attachment; filename="month-2026-05-flows.csv"',
    )
    const lines = (await answer.text()).split('\r\n')
    expect(lines[0]).toBe(
      'body,row,place,dry_grams,water_grams,bags,pots,cost_GBP,standard_uncertainty_dry_grams,standard_uncertainty_cost_GBP,shown_dry_kilograms,shown_water_kilograms,shown_cost_GBP',
    )
    const found = lines.find((line) => line.startsWith('white,unexplained,bench,'))
    expect(found).toMatch(
      /^white,unexplained,bench,-80,-20,0,0,-0\.06,[\d.]+,[\d.]+,-0\.080,-0\.020,-0\.06$/,
    )
  })

  test('refuses an unknown body, a month that is none, and a neighbour’s clay', async () => {
    expect((await app.ask('/v1/reports/month?month=2026-05&bodyId=porcelain')).status).toBe(404)
    expect((await app.ask('/v1/reports/month?month=2026-13')).status).toBe(422)
    const empty = await app.json('/v1/reports/month?month=2026-05', 'quay-side')
    expect(empty.bodies).toEqual([])
    expect(empty.summary.at(-1)).toMatchObject({ dryGrams: '0', cost: '0' })
  })
})
