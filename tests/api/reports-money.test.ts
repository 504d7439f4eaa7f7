import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { moneyOfStudios } from '../../db/reports/money.ts'
import { reconcile } from '../../db/reports/reconcile.ts'
import { moneyText } from '../../api/money-text.ts'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { written } from '../../shared/written.ts'
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

const sum = (amounts: readonly string[]) =>
  amounts.reduce((total, amount) => total.plus(amount), ZERO).toFixed()

async function refusedAt(path: string): Promise<[number, (string | undefined)[]]> {
  const answer = await app.ask(`/v1/reports/${path}`)
  const { errors = [] } = (await answer.json()) as {
    errors?: { pointer?: string; parameter?: string }[]
  }
  return [answer.status, errors.map(({ pointer, parameter }) => parameter ?? pointer?.slice(2))]
}

test.each(['firings?', 'reclaim?', 'what-changes-if?formId=mug&'])(
  '%s refuses months that run backwards, at the last',
  async (path) => {
    expect(await refusedAt(`${path}from=2026-05&to=2026-04`)).toEqual([422, ['to']])
    expect((await app.ask(`/v1/reports/${path}from=2026-05&to=2026-05`)).status).toBe(200)
  },
)

describe('the money of a studio', () => {
  test('that came in is in stock, out of the door or lost by name, layer by layer', async () => {
    expect((await reconcile(app.studio.services.db)).faults).toEqual([])
    const all = await moneyOfStudios(app.studio.services.db)
    const account = written(all.find(({ studioId }) => studioId === 'mill-lane')?.account)
    const totals = Object.fromEntries(account?.rows.map((row) => [row.row, row.money.total]) ?? [])
    // Clay 36, feldspar 20, boxes 5, shelves 40; energy 5 and 8 and 3 idle; wear 1 and 1.6.
    expect(totals).toEqual({
      ...{ supplier: '101', utility: '16', wear: '2.6', before: '0' },
      ...{ sold: '13.8', given_away: '2.95', put_into_kilns: '10', waste: '0' },
      ...{ abnormal: '2.95', idle: '3', unexplained: '0' },
      // 28.80 of clay, 16 feldspar, 3.20 glaze, 3 of boxes, 30 of shelves and two mugs.
      stock: '86.9',
    })
    expect(account?.cameIn.total).toBe('119.6')
    expect(account?.isNow).toEqual(account?.cameIn)
    expect(Object.values(account?.missing ?? {}).every((one) => one === '0')).toBe(true)
    const text = all.map(moneyText).join('\n')
    expect(text).toMatch(/Missing +0\.000000 +0\.000000/)
    expect(text).toMatch(/bought from suppliers +36\.000000 +20\.000000 +0\.000000 +40\.000000/)
  })
})

describe('the cost of a sold piece that was glazed, fired and packed', () => {
  test('is told in steps and layers that a hand can follow', async () => {
    const { forms } = await app.json('/v1/reports/piece-cost')
    const [mug] = forms
    const steps = Object.fromEntries(
      mug.steps.map((one: { step: string; costPerPiece: string }) => [one.step, one.costPerPiece]),
    )
    expect(steps).toMatchObject({
      ...{ clay_at_bag_price: '0.64', freight: '0.08' },
      // 0.80 on eight; 5 on ten and 8 on eight; 1 on ten and 1.60 on eight.
      ...{ glaze: '0.1', firing_energy: '1.5', kiln_wear: '0.3' },
      // Two lost at 0.72 of clay and 0.60 of fire and wear each, borne by eight.
      ...{
        lost_after_bisque: '0.18',
        lost_after_bisque_glaze: '0',
        lost_after_bisque_fire: '0.15',
      },
      ...{ seconds_rule: '0', packaging: '0.5', between_pieces: '0' },
    })
    expect(sum(Object.values(steps))).toBe('3.45')
    expect(mug).toMatchObject({
      ...{ costPerSoldPiece: '3.45', soldCost: '13.8', revenue: '96' },
      words: 'Labour is not in the books.',
      costByLayer: {
        ...{ clay: '0.9', glaze: '0.1', fire: '1.625', wear: '0.325', packaging: '0.5' },
      },
      givenAway: { pieces: '1', cost: '2.95' },
    })
    expect(sum(Object.values(mug.costByLayerShown))).toBe(mug.costPerSoldPieceShown)
    expect(decimal(mug.costPerSoldPieceShown).toFixed(2)).toBe('3.45')
  })
})

describe('the month of a studio that glazes and fires', () => {
  test('carries the money of materials on the sheet of all together, to the last unit', async () => {
    for (const month of ['2026-04', '2026-05']) {
      const report = await app.json(`/v1/reports/month?month=${month}`)
      for (const sheet of [report, ...report.bodies]) {
        const flows = sheet.flows.filter((row: { isBalance: boolean }) => !row.isBalance)
        const [opening, closing] = [sheet.flows[0], sheet.flows.at(-1)]
        for (const column of ['dryGrams', 'waterGrams', 'bags', 'pots', 'cost'] as const) {
          const of = (rows: readonly { total: Record<string, string> }[]) =>
            rows.map(({ total }) => total[column] ?? '')
          expect(sum(of([opening, ...flows]))).toBe(closing.total[column])
          const world = sheet.world.map((row: Record<string, string>) => row[column])
          expect(sum([opening.total[column], ...world])).toBe(closing.total[column])
        }
      }
    }
  })

  test('names what came to pots from a bucket on the sheet of their clay alone', async () => {
    const report = await app.json('/v1/reports/month?month=2026-04')
    const costs = (sheet: { world: readonly { row: string; cost: string }[] }) =>
      Object.fromEntries(sheet.world.map(({ row, cost }) => [row, cost]))
    expect(costs(report)).toMatchObject({
      ...{ bought: '36', materials_bought: '65', firing_energy: '16', kiln_wear: '2.6' },
      ...{ put_into_kilns: '-10', kiln_idle: '-3' },
    })
    expect(costs(report)['glaze_from_bucket']).toBeUndefined()
    expect(costs(report.bodies[0])).toMatchObject({ bought: '36', glaze_from_bucket: '0.8' })
    expect(costs(report.bodies[0])['materials_bought']).toBeUndefined()
    for (const { trail } of report.world) expect((await app.ask(trail)).status).toBe(200)
    const { trail } = report.bodies[0].world.find(
      (row: { row: string }) => row.row === 'glaze_from_bucket',
    )
    const { items } = await app.json(trail)
    expect(items.map((one: { kind: string }) => one.kind)).toEqual(['glaze'])
  })

  test('says what it cost by layer, and why purchases are not cost', async () => {
    const { costs } = await app.json('/v1/reports/month?month=2026-05')
    const rows = Object.fromEntries(
      costs.rows.map((one: { row: string; money: object }) => [one.row, one.money]),
    )
    expect(rows).toMatchObject({
      sold: {
        ...{ clay: '3.6', glaze: '0.4', fire: '6.5', wear: '1.3', packaging: '2', total: '13.8' },
      },
      given_away: { clay: '0.9', total: '2.95' },
      abnormal: { clay: '0.9', fire: '1.625', total: '2.95' },
      waste: { total: '0' },
    })
    expect(costs.total.money.total).toBe('19.7')
    expect(costs.words).toContain('106.60 + 0.00 − 86.90 = 19.70')
    for (const column of ['clay', 'glaze', 'fire', 'wear', 'packaging', 'total']) {
      const shown = costs.rows.map((one: { shown: Record<string, string> }) => one.shown[column])
      expect(decimal(sum(shown)).toFixed(2)).toBe(costs.total.shown[column])
    }
    const [mug] = costs.forms
    // Four of 294.4 g fired clay and 50 g of glaze.
    expect(mug).toMatchObject({
      ...{ formId: 'mug', soldPieces: '4', firedKilograms: '1.3776' },
      perPiece: { fire: '1.625', total: '3.45' },
      perKilogram: { total: '10.017422' },
    })
    const april = (await app.json('/v1/reports/month?month=2026-04')).costs
    expect(april.paid.map((one: { shown: string }) => one.shown)).toEqual([
      ...['36.00', '65.00', '16.00'],
    ])
    expect(april.paidTotalShown).toBe('117.00')
    // Nothing there; 119.60 came in, less a shelf of 10 into the kiln; 106.60 left: an idle kiln's 3.
    expect(april.total.money.total).toBe('3')
    expect(april.intoKilns.total).toBe('10')
    expect(april.words).toContain('0.00 + 109.60 − 106.60 = 3.00')
    expect(april.words).toContain('less the elements and shelves put into kilns')
    expect((await app.json('/v1/reports/month?month=2026-05&bodyId=buff')).costs).toBeNull()
  })

  test('is had as text and as CSV', async () => {
    const text = await (await app.ask('/v1/reports/month?month=2026-05&format=text')).text()
    expect(text).toMatch(/sold +3\.60 +0\.40 +6\.50 +1\.30 +2\.00 +13\.80/)
    const of = async (table: string) =>
      (await app.ask(`/v1/reports/month?month=2026-05&format=csv&table=${table}`)).text()
    expect(await of('costs')).toContain('given_away,given away,0.9,0.1,1.625,0.325,0,2.95')
    expect(await of('forms')).toContain('mug,Mug,4,1.3776,3.6,0.4,6.5,1.3,2,13.8')
    expect(await of('flows')).toContain('all,opening,materials')
  })
})

describe('what the stock had cost at the end of a day', () => {
  test('is told by group, place and layer, and sums to the ledger', async () => {
    const report = await app.json('/v1/reports/stock-value')
    const groups = Object.fromEntries(
      report.groups.map((one: { group: string; money: object }) => [one.group, one.money]),
    )
    expect(groups).toMatchObject({
      // Clay 28.80, feldspar 16 and glaze 3.20, shelves 30, boxes 3; two mugs.
      raw: { clay: '28.8', glaze: '19.2', fire: '0', wear: '30', packaging: '3', total: '81' },
      in_making: { total: '0' },
      finished: { clay: '1.8', glaze: '0.2', fire: '3.25', wear: '0.65', total: '5.9' },
    })
    expect(report.total.money.total).toBe('86.9')
    const places = report.places.map((one: { money: { total: string } }) => one.money.total)
    expect(sum(places)).toBe('86.9')
    expect(report.finished).toMatchObject([
      { formId: 'mug', grade: 'first', pieces: '2', price: null, isCostAbovePrice: false },
    ])
  })

  test('is told of any day, by the studio’s wall', async () => {
    const at = async (on: string) =>
      (await app.json(`/v1/reports/stock-value?on=${on}`)).total.money.total
    expect(await at('2026-03-31')).toBe('0')
    expect(await at('2026-04-01')).toBe('36')
    // 119.60 came in; the idle kiln's 3 and the shelf of 10 are gone.
    expect(await at('2026-04-30')).toBe('106.6')
    const greenware = await app.json('/v1/reports/stock-value?on=2026-04-05')
    expect(greenware.groups[1].money).toMatchObject({ clay: '7.2', total: '7.2' })
    expect((await app.ask('/v1/reports/stock-value?on=2026-02-30')).status).toBe(422)
  })

  test.each([
    'stock-value?on=2026-06-17',
    'stock-value?on=2999-01-01',
    'stock-value?on=1899-12-31',
  ])('%s is refused at the day', async (path) =>
    expect(await refusedAt(path)).toEqual([422, ['on']]),
  )

  test('names packaging and kiln furniture', async () => {
    const { words, groups } = await app.json('/v1/reports/stock-value?on=2026-06-15')
    for (const said of [words, groups[0].words]) {
      expect(said).toContain('packaging')
      expect(said).toContain('kiln furniture')
    }
  })

  test('is had as CSV', async () => {
    const text = await (await app.ask('/v1/reports/stock-value?format=csv')).text()
    expect(text).toContain('raw,bench,12800,0,0,28.8,0,0,0,0,28.8')
    expect(text).toContain('all,all,')
    const finished = await app.ask('/v1/reports/stock-value?format=csv&table=finished')
    expect(await finished.text()).toContain('mug,Mug,first,2,5.9,0.9,0.1,1.625,0.325,0,2.95')
  })
})

describe('the firings', () => {
  test('say what each took and cost, and what its empty room cost', async () => {
    const report = await app.json('/v1/reports/firings')
    expect(report.firings).toMatchObject([
      {
        ...{ kind: 'bisque', kilowattHours: '20', energyCost: '5', candlingCost: '1' },
        ...{ wearCost: '1', cost: '6', pieces: '10', costPerPiece: '0.6' },
        emptyRoom: { costPerPieceIfFull: '0.3', emptyRoomCost: '3' },
        // 3200 g dry less 8 % are 2.944 kg; a kiln of 200 litres.
        ...{ firedGrams: '2944', kilowattHoursPerKilogram: '6.793478' },
        kilowattHoursPerLitre: '0.1',
      },
      { kind: 'glaze', costPerPiece: '1.2', emptyRoom: { costPerPieceIfFull: '0.96' } },
    ])
    expect(report).toMatchObject({ energyCost: '13', idleCost: '3' })
    expect(report.idle).toMatchObject([{ kind: 'empty', costPerPiece: null, emptyRoom: null }])
    expect(report.wear).toMatchObject({
      ...{ chargedSoFar: '2.6', putIn: '10', stillToCharge: '7.4', putInPerFiring: '5' },
    })
    for (const { trail } of report.firings) expect((await app.ask(trail)).status).toBe(200)
    const may = await app.json('/v1/reports/firings?from=2026-05')
    expect(may.firings).toEqual([])
    const text = await (await app.ask('/v1/reports/firings?format=csv')).text()
    expect(text).toContain('Big kiln,bisque,meter,measured,20,4,5,1,1,0.5,10,2944,0.6,0.3')
  })
})
