import { afterEach, beforeEach, expect, test } from 'vitest'
import { IMPORT, counted, csvIn, press, record, shelve, sold, toPreview } from './bringing-sales.ts'
import { sendForm } from './forms-of-pages.ts'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'
import { TEST_NOW } from '../support/studio.ts'

let pottery: Pottery
beforeEach(async () => {
  pottery = await openPottery({ studios: [STUDIO] })
})
afterEach(() => pottery.close())

test('what the shelf does not have comes back as a file, which can be brought once mended', async () => {
  await shelve(pottery, 3)
  const file =
    'Date,Item,Qty,Price\n2026-04-13,Mug,2,24\n2026-04-13,Mug,2,24\n2026-04-13,Mug,one,=1+1\n'
  const preview = await toPreview(pottery, file)
  expect(preview.text).toContain('1 too few')
  const done = await press(pottery, preview, { step: 'record' })
  expect(counted(done, 'Recorded')).toBe(1)
  expect(counted(done, 'Not taken by the books')).toBe(1)
  expect(done.text).toContain('There are 1 firsts of this form on the shelf')
  const csv = await sendForm(pottery, `${IMPORT}/refused.csv`, { csv: csvIn(done) })
  expect(csv.headers.get('content-disposition')).toContain('attachment')
  expect(csv.text).toContain("'=1+1")
  const mended = csv.text.replace('Mug,2,24', 'Mug,1,24').replace("one,'=1+1", '1,24')
  // Two of the same now, of which the shelf has one.
  const later = await record(pottery, mended)
  expect([counted(later, 'Recorded'), counted(later, 'Not taken by the books')]).toEqual([1, 1])
})

test('of two equal rows the refused one is not taken for the recorded one', async () => {
  await shelve(pottery, 1)
  const file = 'Date,Item,Price\n2026-04-13,Mug,24\n2026-04-13,Mug,24\n'
  const done = await record(pottery, file)
  const csv = csvIn(done)
  expect(csv).toContain('which of equal rows')
  const later = await toPreview(pottery, csv)
  expect(later.text).toContain('Record 1 sale')
})

test('a sale recorded by hand is taken for the same, until somebody says that it is another', async () => {
  await shelve(pottery, 10)
  await pottery.does('sell', {
    formId: 'mug',
    grade: 'first',
    pieces: 1,
    priceEach: '24.00',
    channel: 'fair',
    happenedAt: '2026-04-13T11:00:00Z',
  })
  const file = 'Date,Item,Price\n2026-04-13,Mug,24\n2026-04-13,Mug,24\n'
  const preview = await toPreview(pottery, file)
  expect(preview.text).toContain('Perhaps in the books already: 1 row')
  const [, key = ''] = /name="again" value="([^"]+)"/.exec(preview.text) ?? []
  expect(counted(await press(pottery, preview, { step: 'record' }), 'Left out, not ticked')).toBe(1)
  expect(await sold(pottery)).toHaveLength(2)
  await press(pottery, await toPreview(pottery, file), { step: 'record', again: key })
  expect(await sold(pottery)).toHaveLength(3)
})

test('a sale that was taken back stays out, and can be recorded once more, once', async () => {
  await shelve(pottery, 10)
  const file = 'Date,Item,Price\n2026-04-13,Mug,24\n'
  await record(pottery, file)
  const { body } = await pottery.ask('GET', '/v1/sales')
  const entryId = (body['items'] as { entryId: string }[])[0]?.entryId ?? ''
  await pottery.ask('POST', '/v1/acts/correct', { body: { entryId } })
  const preview = await toPreview(pottery, file)
  expect(preview.text).toContain('taken back since')
  const [, key = ''] = /name="again" value="([^"]+)"/.exec(preview.text) ?? []
  const done = await press(pottery, preview, { step: 'record', again: key })
  expect(counted(done, 'Recorded')).toBe(1)
  await press(pottery, preview, { step: 'record', again: key })
  const standing = (await pottery.ask('GET', '/v1/sales')).body['items'] as {
    reversedByEntryId: string | null
  }[]
  expect(standing.filter((sale) => sale.reversedByEntryId === null)).toHaveLength(1)
})

test('a file that takes long is recorded in several presses, and counted as one', async () => {
  // Each look at the clock is four seconds later, so that a press has time for a few rows only.
  let looks = 0
  const slow = await openPottery({
    studios: [STUDIO],
    now: () => new Date(TEST_NOW.getTime() + 4_000 * looks++),
  })
  await shelve(slow, 6)
  const rows = Array.from({ length: 8 }, (_, row) => `${String(row)},2026-04-13,Mug,24`)
  let page = await record(slow, ['Order,Date,Item,Price', ...rows, '9,no day,Mug,24'].join('\n'))
  let presses = 1
  while (page.text.includes('recorded so far')) {
    page = await press(slow, page, { step: 'record' })
    presses += 1
  }
  expect(presses).toBeGreaterThan(2)
  const counts = ['Recorded', 'Known already', 'Not taken by the books', 'Could not be read']
  expect(counts.map((name) => counted(page, name))).toEqual([6, 0, 2, 1])
  expect(csvIn(page).trim().split('\n')).toHaveLength(4)
  await slow.close()
})
