import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { fillReclaimStudio } from '../support/reclaim-studio.ts'
import { reportAppOf, type ReportApp } from '../support/report-app.ts'
import { openTestStudio } from '../support/studio.ts'

let app: Omit<ReportApp, 'soldEntryId'>

beforeAll(async () => {
  const studio = await openTestStudio()
  await fillReclaimStudio(studio)
  app = await reportAppOf(studio)
})
afterAll(() => app.close())

interface CostRow {
  readonly row: string
  readonly byMass: string
  readonly atNil: string
}
const shown = (rows: readonly CostRow[]) =>
  Object.fromEntries(rows.map(({ row, byMass, atNil }) => [row, [byMass, atNil]]))

const APRIL = '/v1/reports/reclaim?from=2026-04&to=2026-04'

describe('what reclaiming is worth', () => {
  test('is told clay by clay and way by way, with the price of the bag beside the hour', async () => {
    const { bodies, hourlyFigure, acts } = await app.json('/v1/reports/reclaim')
    expect(hourlyFigure).toBe('1.5')
    const [buff] = bodies
    expect(buff).toMatchObject({
      ...{ bodyId: 'buff', reclaimedDryGrams: '800', minutes: '75', minutesShared: '30' },
      ...{ acts: 5, actsUntold: 1 },
      bought: { when: 'in_that_time', cost: '36', dryGrams: '16000', pricePerDryKilogram: '2.25' },
      words:
        'Minutes were told 4 times out of 5. The rest took time too, so that an hour is worth less than is said here.',
    })
    // 400 g at 2.25 are 0.90, by hand in 30 + 15 minutes, by mill in 15 + 15.
    expect(buff.ways).toMatchObject([
      {
        ...{ way: 'by_hand', reclaimedDryGrams: '400', minutes: '45' },
        worth: {
          ...{ clayWorth: '0.9', worthPerHour: '1.2' },
          ...{ verdict: 'does_not_pay', hoursThatPay: '0.6' },
        },
        words:
          'Buff stoneware by hand: 0.4 kg dry in 0.8 hours saved 0.90 of clay, 1.20 an hour. With your hour at 1.50 it does not pay for itself: it would in 0.6 hours.',
      },
      {
        ...{ way: 'by_mill', reclaimedDryGrams: '400', minutes: '30' },
        worth: { clayWorth: '0.9', worthPerHour: '1.8', verdict: 'pays' },
      },
    ])
    expect(acts.map((one: { kind: string }) => one.kind)).toEqual([
      ...['slake', 'pour', 'lift', 'lift', 'wedge', 'wedge'],
    ])
  })

  test('says why it cannot tell: no minutes, no price', async () => {
    const { bodies } = await app.json('/v1/reports/reclaim')
    const white = bodies[1]
    expect(white).toMatchObject({
      ...{ bodyId: 'white', reclaimedDryGrams: '400', acts: 1, actsUntold: 1, bought: null },
      boughtWords:
        'No delivery of White stoneware is in the books, so that its reclaim has no price of a bag to go by.',
      words: 'No minutes were told, so that nobody can say what an hour of it is worth.',
      ways: [{ way: null, worth: null }],
    })
  })

  test('goes by earlier deliveries where none came in the months', async () => {
    const { bodies } = await app.json(APRIL)
    expect(bodies[0].bought).toMatchObject({ when: 'ever', pricePerDryKilogram: '2.25' })
    expect(bodies[0].boughtWords).toMatch(/^None came in that time/)
    const may = await app.json('/v1/reports/reclaim?from=2026-05')
    expect(may).toMatchObject({ bodies: [], words: 'Nothing was reclaimed in that time.' })
  })

  test('leads to what is behind it', async () => {
    const { bodies, acts, bothRules } = await app.json(APRIL)
    const [buff] = bodies
    const { items } = await app.json(buff.trail)
    expect(items.map((one: { kind: string }) => one.kind).sort()).toEqual([
      ...['lift', 'lift', 'lift', 'pour', 'slake', 'wedge'],
    ])
    const { items: bought } = await app.json(buff.bought.trail)
    expect(bought).toHaveLength(1)
    for (const { trail } of [...acts, ...bothRules.period.rows, ...buff.ways]) {
      expect((await app.ask(trail)).status).toBe(200)
    }
  })
})

describe('the cost of clay under both rules', () => {
  test('differs where turned pots were sold, and all that came in is somewhere', async () => {
    const { bothRules } = await app.json('/v1/reports/reclaim')
    // 7.20 of clay in ten mugs; 1.80 of it was turned off. Five of ten were sold.
    expect(shown(bothRules.allTime.rows)).toEqual({
      came_in: ['37', '37'],
      in_stock: ['34.3', '33.4'],
      sold: ['2.7', '3.6'],
    })
    expect(bothRules.period.rows).toEqual(bothRules.allTime.rows)
    expect(bothRules.words).toContain('Over time both come to the same')
    for (const rule of ['byMass', 'atNil'] as const) {
      const [came, ...became] = bothRules.allTime.rows as CostRow[]
      const sum = became.reduce((total, row) => total.plus(decimal(row[rule])), ZERO)
      expect(sum.toFixed()).toBe(came?.[rule])
    }
  })

  test('of a month is what happened in it', async () => {
    const { bothRules } = await app.json('/v1/reports/reclaim?from=2026-05&to=2026-05')
    expect(shown(bothRules.period.rows)).toEqual({
      came_in: ['0', '0'],
      in_stock: ['-2.7', '-3.6'],
      sold: ['2.7', '3.6'],
    })
  })
})

describe('as tables', () => {
  test('ways, acts and rules are had as CSV', async () => {
    const table = async (name: string) =>
      (await (await app.ask(`/v1/reports/reclaim?format=csv&table=${name}`)).text())
        .trim()
        .split('\r\n')
    const [heads, hand] = await table('ways')
    expect(heads).toMatch(/^body,body_name,way,reclaimed_dry_grams,minutes,/)
    expect(hand).toMatch(
      /^buff,Buff stoneware,by_hand,400,45,5,1,2\.25,0\.9,1\.2,1\.5,does_not_pay,0\.6,/,
    )
    expect(await table('acts')).toHaveLength(7)
    expect((await table('rules'))[1]).toMatch(/^period,came_in,clay that came in,37,37,0,/)
  })

  test('what no studio and no month is, is refused', async () => {
    expect((await app.ask('/v1/reports/reclaim?from=2026-13')).status).toBe(422)
    expect((await app.ask('/v1/reports/reclaim', 'no-such-place')).status).toBe(404)
  })
})
