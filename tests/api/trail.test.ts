import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { openReportApp, type ReportApp } from '../support/report-app.ts'

let app: ReportApp

beforeAll(async () => {
  app = await openReportApp()
})
afterAll(() => app.close())

interface Listed {
  readonly entryId: string
  readonly kind: string
  readonly happenedAt: string
}

async function everyPage(address: string): Promise<Listed[]> {
  const items: Listed[] = []
  let cursor: string | null = ''
  while (cursor !== null) {
    const next = cursor === '' ? address : `${address}&cursor=${cursor}`
    const page: { items: Listed[]; nextCursor: string | null } = await app.json(next)
    items.push(...page.items)
    cursor = page.nextCursor
  }
  return items
}

describe('the list of entries', () => {
  test('is newest first, and its pages miss nothing and say nothing twice', async () => {
    const all = await everyPage('/v1/entries?limit=200')
    const paged = await everyPage('/v1/entries?limit=3')
    expect(paged).toEqual(all)
    const moments = all.map((entry) => entry.happenedAt)
    expect(moments).toEqual([...moments].sort().reverse())
    expect(new Set(all.map((entry) => entry.entryId)).size).toBe(all.length)
  })

  test.each([
    ['kind=turn', ['turn']],
    ['kind=turn,throw', ['turn', 'throw']],
    ['flow=sold&month=2026-05', ['sell', 'sell', 'reverse', 'sell']],
    ['place=unexplained', ['count']],
    ['bodyId=pepper', ['wedge']],
    ['world=other_bodies', ['wedge']],
    ['world=lost_after_bisque', ['lose']],
    ['lotId=load', ['lift', 'pour']],
    ['vesselId=basin-1', ['pour', 'slake']],
    ['formId=mug&month=2026-05&kind=keep', []],
    ['runId=mugs&fromMonth=2026-05&flow=given_away', ['give_away']],
    ['to=2026-04-01T00:00:00%2B01:00', ['open_books']],
  ])('is narrowed by %s', async (query, kinds) => {
    const entries = await everyPage(`/v1/entries?${query}&limit=50`)
    expect(entries.map((entry) => entry.kind).sort()).toEqual([...kinds].sort())
  })

  test.each([
    ['bodyId=porcelain', 'body_not_found'],
    ['lotId=none', 'lot_not_found'],
    ['runId=none', 'run_not_found'],
    ['vesselId=none', 'vessel_not_found'],
    ['formId=none', 'form_not_found'],
    ['holdingId=none', 'holding_not_found'],
  ])('refuses %s', async (query, code) => {
    const answer = await app.ask(`/v1/entries?${query}`)
    expect(answer.status).toBe(404)
    expect(await answer.json()).toMatchObject({ type: `/problems/${code}` })
  })

  test.each(['month=2026-99', 'kind=eat', 'limit=201', 'colour=red', 'from=yesterday'])(
    'finds %s faulty',
    async (query) => {
      expect((await app.ask(`/v1/entries?${query}`)).status).toBe(422)
    },
  )
})

describe('following one kilogram', () => {
  test('from the sale back to the delivery, by GET alone', async () => {
    const sales = await app.json('/v1/sales?month=2026-05')
    const sold = sales.items.find((one: { entryId: string }) => one.entryId === app.soldEntryId)
    expect(sold).toMatchObject({ pieces: 3, paid: '72', cost: '2.12625', runIds: ['mugs'] })

    const run = await app.json(sold.links.runs[0])
    expect(run).toMatchObject({ piecesHere: '2', pieces: { thrown: '10' } })
    expect(run.losses).toMatchObject([
      { stage: 'wheel', pieces: 1, costLeft: '0' },
      { stage: 'glaze_firing', pieces: 1, costLeft: '0.63' },
    ])

    const thrown = await app.json(run.links.madeBy)
    expect(thrown).toMatchObject({ kind: 'throw', links: { madeRuns: ['/v1/runs/mugs'] } })
    const opened = await app.json(thrown.links.lots[0])
    expect(opened.cameFrom).toMatchObject([{ place: 'store', lotId: 'bags', dryGrams: '16000' }])
    expect(opened.wentTo).toContainEqual(
      expect.objectContaining({ kind: 'throw', runId: 'mugs', dryGrams: '3200', cost: '7.2' }),
    )

    const bags = await app.json(`/v1/lots/${opened.cameFrom[0].lotId}`)
    expect(bags).toMatchObject({ goodsPrice: '32', freight: '4', isNow: [] })
    const delivered = await app.json(bags.links.madeBy)
    expect(delivered).toMatchObject({ kind: 'receive_delivery', links: { reversedBy: null } })
    expect(delivered.lines.map((line: { place: string }) => line.place).sort()).toEqual([
      'store',
      'supplier',
    ])
  })

  test('every link of what is listed leads somewhere', async () => {
    const lists = ['entries?limit=200', 'holdings?nonEmpty=false', 'lots', 'runs', 'sales']
    for (const list of lists) {
      const { items } = await app.json(`/v1/${list}`)
      expect(items.length).toBeGreaterThan(0)
      for (const { links } of items as { links: Record<string, string | string[] | null> }[]) {
        for (const link of Object.values(links).flat()) {
          if (link !== null) expect([link, (await app.ask(link)).status]).toEqual([link, 200])
        }
      }
    }
  })
})

describe('a holding', () => {
  test('tells what stood there before and after each entry, down to nothing', async () => {
    const { items } = await app.json('/v1/holdings?place=bench&lotId=opened')
    const found = await app.json(`${items[0].links.self}?limit=200`)
    const { lines } = found
    expect(lines.items[0].after.dryGrams).toBe(found.dryGrams)
    for (const [index, line] of lines.items.entries()) {
      for (const column of ['dryGrams', 'waterGrams', 'pieces', 'cost']) {
        const after = decimal(line.before[column]).plus(line.change[column])
        expect(after.equals(line.after[column])).toBe(true)
        const earlier = lines.items[index + 1]?.after[column] ?? ZERO
        expect(decimal(line.before[column]).equals(earlier)).toBe(true)
      }
    }
  })

  test('gives its lines by pages', async () => {
    const { items } = await app.json('/v1/holdings?place=bench&lotId=opened')
    const { self } = items[0].links
    const all = (await app.json(`${self}?limit=200`)).lines.items
    const first = (await app.json(`${self}?limit=1`)).lines
    const second = (await app.json(`${self}?limit=1&cursor=${first.nextCursor}`)).lines
    expect([...first.items, ...second.items]).toEqual(all.slice(0, 2))
  })

  test('lists what is not empty unless told otherwise', async () => {
    const held = await app.json('/v1/holdings?runId=mugs')
    const all = await app.json('/v1/holdings?runId=mugs&nonEmpty=false')
    expect(held.items.map((one: { place: string }) => one.place)).toEqual(['finished'])
    expect(all.items.length).toBeGreaterThan(3)
  })
})

describe('what belongs to another studio', () => {
  test('is not found, one by one or by a filter', async () => {
    const { items } = await app.json('/v1/holdings')
    const addresses = [
      ['entry_not_found', `/v1/entries/${app.soldEntryId}`],
      ['holding_not_found', items[0].links.self],
      ['lot_not_found', '/v1/lots/bags'],
      ['run_not_found', '/v1/runs/mugs'],
      ['run_not_found', '/v1/holdings?runId=mugs'],
      ['lot_not_found', '/v1/entries?lotId=bags'],
    ]
    for (const [code, address] of addresses) {
      const answer = await app.ask(address ?? '', 'quay-side')
      expect([address, answer.status]).toEqual([address, 404])
      expect(await answer.json()).toMatchObject({ type: `/problems/${code ?? ''}` })
    }
  })

  test('is in none of its lists', async () => {
    for (const list of ['entries', 'holdings?nonEmpty=false', 'lots', 'runs', 'sales']) {
      expect((await app.json(`/v1/${list}`, 'quay-side')).items).toEqual([])
    }
  })
})
