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
