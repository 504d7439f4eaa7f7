import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { joinClay } from '../../db/acts/join.ts'
import { openBag } from '../../db/acts/open-bag.ts'
import { pour } from '../../db/acts/pour.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { correctEntry } from '../../db/correct.ts'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { openReportApp, type ReportApp } from '../support/report-app.ts'
import { g, kg } from '../support/studio.ts'

let app: ReportApp

const on = (day: string) => `2026-${day}T10:00:00+01:00`
const water = { content: '0.2', basis: 'wet' as const, standing: 'measured' as const }

/** June: two clays in one delivery, a pour onto two bats, and handles from two lots. */
beforeAll(async () => {
  app = await openReportApp()
  const { does } = app.studio
  const bag = { bags: 1, bagMass: kg('10'), water }
  await does(receiveDelivery, {
    happenedAt: on('06-01'),
    clays: [
      { ...bag, bodyId: 'buff', lotId: 'june-buff', price: '20' },
      { ...bag, bodyId: 'white', lotId: 'june-white', bagMass: kg('5'), price: '12' },
    ],
  })
  await does(openBag, {
    happenedAt: on('06-02'),
    lotId: 'june-buff',
    bags: 1,
    newLotId: 'june-opened',
  })
  await does(pour, {
    happenedAt: on('06-03'),
    basinVesselId: 'basin-1',
    loads: [
      { batId: 'bat-a', lotId: 'load-a', reading: { net: g('500') } },
      { batId: 'bat-b', lotId: 'load-b', reading: { net: g('300') } },
    ],
  })
  await does(throwRun, {
    happenedAt: on('06-04'),
    formId: 'mug',
    runId: 'jugs',
    from: [{ lotId: 'june-opened', balls: 5, ballMass: g('400') }],
  })
  await does(joinClay, {
    happenedAt: on('06-05'),
    runId: 'jugs',
    from: [
      { lotId: 'opened', reading: { net: g('300') } },
      { lotId: 'june-opened', reading: { net: g('100') } },
    ],
    offCuts: { reading: { net: g('50') }, water, vesselId: 'bucket-2' },
  })
})
afterAll(() => app.close())

interface Passage {
  readonly kind: string
  readonly place: string
  readonly holdingId: string
  readonly lotId: string | null
  readonly vesselId: string | null
  readonly dryGrams: string
  readonly cost: string
  readonly isShare: boolean
  readonly trail: string
}

const told = (passages: readonly Passage[]) =>
  passages
    .map(({ kind, place, lotId, vesselId, dryGrams, isShare }) => [
      ...[kind, lotId ?? vesselId ?? place, dryGrams],
      ...(isShare ? ['a share'] : []),
    ])
    .sort()

const sum = (passages: readonly Passage[], column: 'dryGrams' | 'cost') =>
  passages.reduce((total, one) => total.plus(one[column]), ZERO).toFixed()

describe('where a lot came from', () => {
  test('is its own clay alone, where a delivery brought two', async () => {
    const { cameFrom: buff } = await app.json('/v1/lots/june-buff')
    const { cameFrom: white } = await app.json('/v1/lots/june-white')
    expect(told(buff)).toEqual([['receive_delivery', 'supplier', '8000']])
    expect(told(white)).toEqual([['receive_delivery', 'supplier', '4000']])
    expect([sum(buff, 'cost'), sum(white, 'cost')]).toEqual(['20', '12'])
  })

  test('is what it got itself, where slurry went onto two bats', async () => {
    for (const lotId of ['load-a', 'load-b']) {
      const lot = await app.json(`/v1/lots/${lotId}`)
      expect(told(lot.cameFrom)).toEqual([['pour', 'basin-1', lot.isNow[0].dryGrams]])
      expect(sum(lot.cameFrom, 'cost')).toBe(decimal(lot.isNow[0].cost).toFixed())
    }
  })

  test('is the clays that a blend was made of, each with what it gave', async () => {
    const { cameFrom } = await app.json('/v1/lots/blend')
    expect(told(cameFrom)).toEqual([
      ['wedge', 'bucket-2', '60'],
      ['wedge', 'old-white', '800'],
      ['wedge', 'opened', '800'],
    ])
    expect(sum(cameFrom, 'cost')).toBe('2.535')
  })
})

describe('where a lot went', () => {
  test('is what it gave itself, to a blend with others too', async () => {
    const { wentTo } = await app.json('/v1/lots/old-white')
    expect(told(wentTo)).toEqual([
      ['count', 'unexplained', '80'],
      ['wedge', 'blend', '800'],
    ])
  })

  test('is a share, and says so, where several lots went to several places', async () => {
    const { wentTo } = await app.json('/v1/lots/june-opened')
    // 320 g of two lots became 280 g on the pots and 40 g of off-cuts; a quarter of it was this lot.
    expect(told(wentTo)).toEqual([
      ['join', 'bucket-2', '10', 'a share'],
      ['join', 'greenware', '70', 'a share'],
      ['throw', 'greenware', '1600'],
    ])
  })
})

describe('where a run came from', () => {
  test('is the lots that its clay was of, one step from the sold pot', async () => {
    const { cameFrom } = await app.json('/v1/runs/mugs')
    expect(told(cameFrom)).toEqual([
      ['join', 'opened', '180'],
      ['throw', 'opened', '3200'],
    ])
    expect(cameFrom[0].links).toMatchObject({ lot: '/v1/lots/opened', run: null, vessel: null })
    for (const one of cameFrom) expect((await app.ask(one.links.lot)).status).toBe(200)
  })

  test('is shared between two lots of handles by what each gave', async () => {
    const { cameFrom } = await app.json('/v1/runs/jugs')
    expect(told(cameFrom)).toEqual([
      ['join', 'june-opened', '70', 'a share'],
      ['join', 'opened', '210', 'a share'],
      ['throw', 'june-opened', '1600'],
    ])
  })

  test('is nothing once its throwing was taken back', async () => {
    const { does, services, studioId } = app.studio
    const thrown = await does(throwRun, {
      happenedAt: on('06-06'),
      formId: 'mug',
      runId: 'mistake',
      from: [{ lotId: 'june-opened', balls: 1, ballMass: g('400') }],
    })
    await correctEntry(
      services,
      { studioId },
      { said: { entryId: thrown.entry.entryId, note: 'never thrown' } },
    )
    expect((await app.json('/v1/runs/mistake')).cameFrom).toEqual([])
  })
})

describe('where what is in a vessel came from', () => {
  test('is told with its holding', async () => {
    const { items } = await app.json('/v1/holdings?vesselId=bucket-1&nonEmpty=false')
    const { cameFrom } = await app.json(items[0].links.self)
    expect(cameFrom.map((one: Passage & { runId: string }) => [one.kind, one.runId])).toEqual([
      ['collect_slops', 'mugs'],
      ['lose', 'mugs'],
      ['turn', 'mugs'],
    ])
    expect(sum(cameFrom, 'dryGrams')).toBe('860')
  })

  test('is not told of the world outside', async () => {
    const { items } = await app.json('/v1/holdings?place=tap&nonEmpty=false')
    expect((await app.json(items[0].links.self)).cameFrom).toEqual([])
  })
})
