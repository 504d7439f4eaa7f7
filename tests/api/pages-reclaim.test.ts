import { afterAll, beforeAll, describe, expect, test } from 'vitest'
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

describe('the page of what reclaiming is worth', () => {
  test('tells it way by way, and shows both rules side by side', async () => {
    const { status, text, html } = await app.page('/books/reclaim')
    expect(status).toBe(200)
    expect(html.match(/<h1/g)).toHaveLength(1)
    expect(text).toContain('Is reclaiming worth it?')
    expect(text).toContain('an hour is to be worth £1.50 to you')
    expect(text).toMatch(/by hand 400 g 45 £1\.20 /)
    expect(text).toMatch(/through the mill 400 g 30 £1\.80 /)
    expect(text).toMatch(/went out of the door with pots £2\.70 £3\.60 /)
    expect(text).toContain('Over time both come to the same')
    expect(text).toContain('not known')
    expect(html).not.toContain('style=')
  })

  test('of some months shows those beside all time, and what was not done says so', async () => {
    const { text } = await app.page('/books/reclaim?from=2026-05&to=2026-05')
    expect(text).toContain('Nothing was reclaimed in that time.')
    expect(text).toContain('In May 2026.')
    expect(text).toMatch(/is in stock -?−?£?-?2\.70/)
    expect(text).toContain('Since the books began, up to now')
    expect((await app.page('/books/reclaim?from=2026-13')).status).toBe(422)
  })

  test('is found in the books, and each of its links leads somewhere', async () => {
    expect((await app.page('/books')).links).toContain('/books/reclaim')
    const { links } = await app.page('/books/reclaim')
    const trails = links.filter((href) => href.startsWith('/books/trail'))
    expect(trails.length).toBeGreaterThan(4)
    for (const href of new Set(trails)) expect((await app.page(href)).status).toBe(200)
  })
})
