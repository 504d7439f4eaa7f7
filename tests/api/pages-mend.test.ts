import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { filledIn } from '../../api/pages/books/trail/filled-in.ts'
import { bisqueFire } from '../../db/acts/fire.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { turnRun } from '../../db/acts/turn.ts'
import { weighRun } from '../../db/acts/weigh-run.ts'
import { weighScrap } from '../../db/acts/weigh-scrap.ts'
import { openReportApp, type ReportApp } from '../support/report-app.ts'
import { g, kg } from '../support/studio.ts'

let app: ReportApp
beforeAll(async () => {
  app = await openReportApp()
})
afterAll(() => app.close())

const HAPPENED_AT = '2026-06-02T08:15:42.123Z'

/** Turnings in the third bucket, the tare of which was forgotten. */
async function weighedWrongly(): Promise<string> {
  const { entry } = await app.studio.does(weighScrap, {
    happenedAt: HAPPENED_AT,
    by: 'Tobin',
    note: 'before lunch',
    vesselId: 'bucket-3',
    bodyId: 'buff',
    state: 'turnings',
    reading: { net: kg('3.40'), scaleId: 'bench' },
  })
  return entry.entryId
}

async function mendLink(entryId: string): Promise<string> {
  const { links } = await app.page(`/books/trail/entry/${entryId}`)
  return links.find((link) => link.includes(`instead=${entryId}`)) ?? ''
}

/** What a form would send as it stands. */
function fieldsIn(html: string): Record<string, string> {
  const inputs = [...html.matchAll(/<input[^>]*>/g)].map(([tag]) => tag)
  const attribute = (tag: string, name: string) => new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1]
  return Object.fromEntries(
    inputs
      .filter((tag) => !/type="(radio|checkbox)"/.test(tag) || / checked/.test(tag))
      .map((tag) => [attribute(tag, 'name') ?? '', attribute(tag, 'value') ?? '']),
  )
}

describe('mending an entry', () => {
  test('opens the same page with what was said filled in, and records nothing by looking', async () => {
    const entryId = await weighedWrongly()
    const link = await mendLink(entryId)
    expect(link).toMatch(/^\/weigh\/vessel\/bucket-3\?/)
    const { status, html } = await app.page(link)
    expect(status).toBe(200)
    expect(fieldsIn(html)).toMatchObject({
      gross: '3.40',
      grossUnit: 'kg',
      grossTare: '0',
      state: 'turnings',
      scaleId: 'bench',
      when: '2026-06-02T09:15',
      wasAt: HAPPENED_AT,
      by: 'Tobin',
      note: 'before lunch',
      instead: entryId,
    })
    expect((await app.json(`/v1/entries/${entryId}`)).reversedByEntryId).toBeNull()
  })

  test('puts the right one in the place of the wrong one, at the same moment, once', async () => {
    const entryId = await weighedWrongly()
    const link = await mendLink(entryId)
    const form = { ...fieldsIn((await app.page(link)).html), grossTare: '', seen: 'yes' }
    const address = link.split('?')[0] ?? ''
    const { status, location } = await app.page(address, form)
    expect(status).toBe(303)
    expect((await app.page(address, form)).location).toBe(location)
    const wrong = await app.json(`/v1/entries/${entryId}`)
    const right = await app.json(`/v1/entries/${location?.split('did=')[1] ?? ''}`)
    const reversal = await app.json(`/v1/entries/${String(wrong.reversedByEntryId)}`)
    expect(right).toMatchObject({
      kind: 'weigh_scrap',
      happenedAt: HAPPENED_AT,
      recordedBy: 'Tobin',
    })
    expect(right.weighings[0]).toMatchObject({ netGrams: '3000', tareGrams: '400' })
    expect(reversal).toMatchObject({ happenedAt: HAPPENED_AT, reversesEntryId: entryId })
  })

  test('leaves both as they are where the right one is refused', async () => {
    const entryId = await weighedWrongly()
    const link = await mendLink(entryId)
    const form = {
      ...fieldsIn((await app.page(link)).html),
      grossTare: '',
      gross: '0.2',
      seen: 'yes',
    }
    const { status, html } = await app.page(link.split('?')[0] ?? '', form)
    expect(status).toBe(422)
    expect(fieldsIn(html)).toMatchObject({
      gross: '0.2',
      instead: entryId,
      when: '2026-06-02T09:15',
    })
    expect((await app.json(`/v1/entries/${entryId}`)).reversedByEntryId).toBeNull()
  })

  test('another moment that was put in counts', async () => {
    const entryId = await weighedWrongly()
    const link = await mendLink(entryId)
    const html = (await app.page(link)).html
    const form = { ...fieldsIn(html), when: '2026-06-03T10:00', seen: 'yes' }
    const { location } = await app.page(link.split('?')[0] ?? '', form)
    const right = await app.json(`/v1/entries/${location?.split('did=')[1] ?? ''}`)
    expect(right.happenedAt).toBe('2026-06-03T09:00:00.000Z')
  })

  test('of pots goes to the page of their run', async () => {
    const { does } = app.studio
    await does(throwRun, {
      happenedAt: '2026-06-04T10:00:00Z',
      formId: 'mug',
      runId: 'june-mugs',
      from: [{ lotId: 'opened', balls: 3, ballMass: g('400') }],
    })
    const { entry } = await does(weighRun, {
      happenedAt: '2026-06-04T12:00:00Z',
      runId: 'june-mugs',
      place: 'greenware',
      reading: { net: g('1150') },
    })
    expect(await mendLink(entry.entryId)).toMatch(
      /^\/weigh\/run\/june-mugs\?gross=1150&grossUnit=g&/,
    )
  })

  test('of pots that were weighed before and after turning opens with that way chosen', async () => {
    const { entry } = await app.studio.does(turnRun, {
      happenedAt: '2026-06-04T13:00:41Z',
      runId: 'june-mugs',
      vesselId: 'bucket-3',
      before: { net: g('1150') },
      after: { net: g('1050') },
    })
    const link = await mendLink(entry.entryId)
    const filled = fieldsIn((await app.page(link)).html)
    expect(filled).toMatchObject({
      way: 'pots',
      potsBefore: '1150',
      potsAfter: '1050',
      when: '2026-06-04T14:00',
    })
    const form = { ...filled, way: '', potsAfter: '1060', seen: 'yes', asked: 'yes' }
    const { location } = await app.page(link.split('?')[0] ?? '', form)
    const right = await app.json(`/v1/entries/${location?.split('did=')[1] ?? ''}`)
    expect(right).toMatchObject({ kind: 'turn', happenedAt: '2026-06-04T13:00:41.000Z' })
    expect(right.said).toMatchObject({ before: { net: g('1150') }, after: { net: g('1060') } })
  })

  test('is not offered where no page could say all of it', async () => {
    const { entry } = await app.studio.does(bisqueFire, {
      happenedAt: '2026-06-05T10:00:00Z',
      runs: [{ runId: 'june-mugs' }],
    })
    const { text } = await app.page(`/books/trail/entry/${entry.entryId}`)
    expect(text).toContain('Take it back')
    expect(text).not.toContain('Mend it')
  })
})

describe('what was said, as the fields of a page', () => {
  const page = {
    path: '/wheel/run/:runId/turn',
    fieldOf: {
      '/turnings': 'amount',
      '/turnings/tare': 'amountTare',
      '/vesselId': 'vesselId',
      '/runId': 'amount',
    },
  }

  test('is all of it or nothing', () => {
    const said = { runId: 'r1', vesselId: 'b1', turnings: { net: g('450') } }
    expect(filledIn(said, page, 'metric')).toEqual([
      ['vesselId', 'b1'],
      ['amount', '450'],
      ['amountUnit', 'g'],
    ])
    expect(filledIn({ ...said, water: { content: '0.2' } }, page, 'metric')).toBeUndefined()
    expect(filledIn({ ...said, fromVesselIds: ['b2'] }, page, 'metric')).toBeUndefined()
  })

  test('is in the units of the studio, or nothing', () => {
    const said = {
      runId: 'r1',
      turnings: { gross: { value: '24.5', unit: 'oz' }, tare: { value: '1', unit: 'lb' } },
    }
    expect(filledIn(said, page, 'pounds_ounces')).toEqual([
      ['amountOunces', '24.5'],
      ['amountTarePounds', '1'],
    ])
    expect(filledIn(said, page, 'metric')).toBeUndefined()
  })

  test('is nothing where the page takes the tare off in a way of its own', () => {
    const own = { ...page, fieldOf: { ...page.fieldOf, '/turnings/tare': 'bucketBefore' } }
    const said = { runId: 'r1', turnings: { net: g('450') } }
    expect(filledIn(said, own, 'metric')).toBeUndefined()
  })

  test('puts nothing but a mass into a field of masses', () => {
    const other = { ...page, path: '/wheel/turn' }
    const said = { runId: 'r1', turnings: { net: g('450') } }
    expect(filledIn(said, other, 'metric')).toBeUndefined()
  })
})
