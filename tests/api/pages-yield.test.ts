import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { trailHref } from '../../api/pages/trail-href.ts'
import { percentWords } from '../../shared/percent.ts'
import { decimal } from '../../shared/decimal.ts'
import { openReportApp, type ReportApp } from '../support/report-app.ts'

let app: ReportApp
beforeAll(async () => {
  app = await openReportApp()
})
afterAll(() => app.close())

const share = (fraction: string) => percentWords(decimal(fraction), 1)

describe('the page of yields', () => {
  test('shows what the report says: each stage, its interval, and what it leans on', async () => {
    const { forms, allForms } = await app.json('/v1/reports/yield')
    const { text } = await app.page('/books/yield')
    for (const form of forms) {
      expect(text).toContain(form.formName)
      expect(text).toContain(`${String(form.pieces.thrown)} begun`)
      for (const { estimate } of form.stages) {
        expect(text).toContain(estimate.words)
        if (estimate.yieldFraction === null) continue
        const { from, to } = estimate.interval95
        expect(text).toContain(`${share(estimate.yieldFraction)} (${share(from)} to ${share(to)})`)
      }
    }
    for (const stage of allForms.stages) expect(text).toContain(stage.words)
    expect(text).toContain(allForms.words)
  })

  test('tells what was lost where and why, and leads to it', async () => {
    const { text, links } = await app.page('/books/yield')
    expect(text).toContain('1 lost at the wheel')
    expect(text).toContain('1 lost in the glaze firing')
    expect(text).toContain('1: collapsed')
    expect(text).toContain('1: stuck to the shelf')
    const behind = links.find((link) => link.includes('kind=lose'))
    expect((await app.page(behind ?? '')).status).toBe(200)
  })

  test('is of the months that are asked for', async () => {
    const { text, links } = await app.page('/books/yield?from=2026-05&to=2026-05')
    expect(text).toContain('Pots thrown in May 2026.')
    expect(text).toContain('No pots were begun in these months.')
    expect(text).not.toContain('collapsed')
    expect(links).toContain('/v1/reports/yield?from=2026-05&to=2026-05&format=csv')
  })

  test('draws what it says', async () => {
    const { html } = await app.page('/books/yield')
    expect(html).toContain('id="yield-mug-title"')
    expect(html).not.toMatch(/ style=/)
  })
})

describe('the pages of turning', () => {
  test('say what the report says, of all forms and of one', async () => {
    const overview = await app.json('/v1/reports/turning')
    const all = await app.page('/books/turning')
    for (const form of overview.forms) {
      expect(all.text).toContain(form.words)
      expect(all.links).toContain(trailHref(form.trail))
    }
    expect(all.text).toContain(overview.kilnLosses.byTurnedOff.words)
    const report = await app.json('/v1/reports/turning/mug')
    const { text, links } = await app.page('/books/turning/mug')
    expect(text).toContain(report.words)
    expect(text).toContain(report.waterWords)
    for (const point of report.points) {
      expect(text).toContain(share(point.turnedOffFraction))
      expect(links).toContain(trailHref(point.trail))
    }
  })

  test('answer with a page where there is no such form', async () => {
    expect((await app.page('/books/turning/nothing')).status).toBe(404)
  })

  test('name no maker where the studio compares none', async () => {
    expect((await app.page('/books/turning/mug')).text).not.toContain('Who threw them')
  })
})

describe('the page of the balance', () => {
  test.each(['2026-04', '2026-05'])('says of %s what the report says', async (month) => {
    const report = await app.json(`/v1/reports/mass-balance?month=${month}&bodyId=buff`)
    const { text, links } = await app.page(`/books/balance?month=${month}&bodyId=buff`)
    for (const words of report.words) expect(text).toContain(words)
    for (const one of report.suspicions) {
      expect(text).toContain(one.whatNow)
      expect(links).toContain(trailHref(one.trail))
      for (const offer of one.offers) expect(text).toContain(offer.words)
    }
    for (const reading of report.readings) expect(links).toContain(trailHref(reading.trail))
  })

  test('begins with the first clay and this month', async () => {
    const { status, text } = await app.page('/books/balance')
    expect(status).toBe(200)
    expect(text).toContain('June 2026')
  })
})
