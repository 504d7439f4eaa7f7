import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { carriedFields, plain, sendForm, type Fields } from './forms-of-pages.ts'
import { openPottery, STUDIO, type Answered, type Pottery } from './pottery.ts'

const IMPORT = '/books/sales/import'
const SHOP = { where: 'Harbour market' }

let pottery: Pottery
beforeEach(async () => {
  pottery = await openPottery({ studios: [STUDIO] })
})
afterEach(() => pottery.close())

/** So many mugs on the shelf since the beginning of March. */
async function shelve(mugs: number): Promise<void> {
  const at = (day: string, said: object) => ({ ...said, happenedAt: `2026-03-${day}T09:00:00Z` })
  const kg = (value: string) => ({ value, unit: 'kg' })
  const clay = { bodyId: 'buff', lotId: 'd1', bags: 10, bagMass: kg('12.5'), price: '150.00' }
  await pottery.does('receive-delivery', at('01', { clays: [clay] }))
  await pottery.does('open-bag', at('01', { lotId: 'd1', bags: 4, newLotId: 'o1' }))
  const balls = { lotId: 'o1', balls: mugs, ballMass: kg('0.400') }
  await pottery.does('throw', at('02', { formId: 'mug', runId: 'r1', from: [balls] }))
  await pottery.does('bisque', at('03', { runs: [{ runId: 'r1' }] }))
  await pottery.does('glaze-fire', at('04', { runs: [{ runId: 'r1' }] }))
  const grades = { runId: 'r1', firsts: mugs, seconds: 0, wasters: 0 }
  await pottery.does('grade', at('05', grades))
}

/** Presses a button of a page: its fields as they stand, with what is said otherwise. */
function press(page: Answered, step: string, said: Fields = {}): Promise<Answered> {
  return sendForm(pottery, IMPORT, { ...carriedFields(page.text), ...said, step })
}

const bytes = (text: string, letters: BufferEncoding = 'utf8') =>
  new Uint8Array(Buffer.from(text, letters))

const bring = (file: string | Uint8Array<ArrayBuffer>) =>
  typeof file === 'string'
    ? sendForm(pottery, IMPORT, { pasted: file, step: 'columns' })
    : sendForm(pottery, IMPORT, { file, step: 'columns' })

/** As far as the page that says what will be recorded. */
async function toPreview(file: string | Uint8Array<ArrayBuffer>, said: Fields = SHOP) {
  const pieces = await press(await bring(file), 'pieces', said)
  expect(pieces.text).toContain('Which form is which?')
  return press(pieces, 'preview')
}

async function record(file: string | Uint8Array<ArrayBuffer>, said: Fields = SHOP) {
  return press(await toPreview(file, said), 'record')
}

async function sold() {
  const { body } = await pottery.ask('GET', '/v1/sales?limit=200')
  return (body['items'] as Record<string, unknown>[]).map((sale) => ({
    pieces: sale['pieces'],
    priceEach: sale['priceEach'],
    day: String(sale['happenedAt']).slice(0, 10),
    channel: sale['channel'],
    grade: sale['grade'],
  }))
}

/** A figure among the counts of the last page. */
function counted({ text }: Answered, name: string): number {
  return Number(new RegExp(`<dt>${name}</dt><dd>(\\d+)`).exec(text)?.[1])
}

/** The rows to mend, as the last page carries them. */
function csvIn({ text }: Answered): string {
  return plain(/<textarea name="csv"[^>]*>\n?([\s\S]*?)<\/textarea>/.exec(text)?.[1] ?? '')
}

const PLAIN = [
  'Order,Date,Item,Qty,Price',
  '1001,2026-04-13,Mug,2,24.00',
  '1002,2026-04-14,Mugs,1,"£1,024.00"',
  '',
].join('\n')

describe('a plain file', () => {
  test('is recorded once, however often it is brought', async () => {
    await shelve(10)
    const first = await record(PLAIN)
    expect(first.status).toBe(200)
    expect(counted(first, 'Recorded')).toBe(2)
    expect(first.text).toContain('3 pieces, £1,072.00')
    const again = await record(PLAIN)
    expect([counted(again, 'Recorded'), counted(again, 'Known already')]).toEqual([0, 2])
    const overlapping = await record(`${PLAIN}1003,2026-04-15,Mug,1,24\n`)
    expect([counted(overlapping, 'Recorded'), counted(overlapping, 'Known already')]).toEqual([
      1, 2,
    ])
    expect(await sold()).toEqual([
      { pieces: 1, priceEach: '24', day: '2026-04-15', channel: 'Harbour market', grade: 'first' },
      {
        pieces: 1,
        priceEach: '1024',
        day: '2026-04-14',
        channel: 'Harbour market',
        grade: 'first',
      },
      { pieces: 2, priceEach: '24', day: '2026-04-13', channel: 'Harbour market', grade: 'first' },
    ])
  })

  test('is not recorded twice by two presses, nor by two at once', async () => {
    await shelve(10)
    const preview = await toPreview(PLAIN)
    await Promise.all([press(preview, 'record'), press(preview, 'record')])
    await press(preview, 'record')
    expect(await sold()).toHaveLength(2)
  })

  test('says each step in words, and records nothing before the last', async () => {
    await shelve(10)
    const columns = await bring(PLAIN)
    expect(columns.text).toContain('2 rows, headings on line 1')
    const nowhere = await press(columns, 'pieces')
    expect(nowhere.status).toBe(422)
    expect(nowhere.text).toContain('Say where these were sold.')
    const preview = await toPreview(PLAIN)
    expect(preview.text).toContain('Record 2 sales')
    expect(preview.text.match(/<h1>/g)).toHaveLength(1)
    expect(preview.text).not.toMatch(/ style=|<script(?! type="module" src="\/assets)/)
    expect(await sold()).toEqual([])
  })
})

test('semicolons, commas for decimals, a mark at the beginning and quoted breaks', async () => {
  await shelve(10)
  const csv = [
    '\ufeffDatum;Artikel;Menge;Preis',
    '13.04.2026;"Mug\r\n(blue)";2;12,50 £',
    '14.04.2026;Mug;eins;12,50',
    '',
  ].join('\r\n')
  const done = await record(bytes(csv))
  expect(counted(done, 'Recorded')).toBe(1)
  expect(done.text).toContain('<strong>Line 4</strong>: “eins”')
  expect(await sold()).toMatchObject([{ pieces: 2, priceEach: '12.5', day: '2026-04-13' }])
})

test.each([
  {
    name: 'Windows-1252',
    file: bytes('Date,Item,Price\n2026-04-13,Mug café,\xa312.00\n', 'latin1'),
  },
  {
    name: 'UTF-16',
    file: bytes('\ufeffDate\tItem\tPrice\n2026-04-13\tMug café\t£12.00\n', 'utf16le'),
  },
])('a file in $name is read by itself', async ({ file }) => {
  await shelve(10)
  const preview = await toPreview(file)
  expect(preview.text).toContain('£12.00')
  expect(counted(await press(preview, 'record'), 'Recorded')).toBe(1)
})

describe('what could be either is asked', () => {
  const EITHER = 'Date,Item,Price\n03/05/2026,Mug,12.00\n'

  test('of days: the studio’s order is chosen beforehand, and each answer shows its day', async () => {
    await shelve(10)
    const columns = await bring(EITHER)
    expect(columns.text).toContain('Which day is 03/05/2026?')
    expect(columns.text).toContain('3 May 2026')
    expect(columns.text).toContain('5 Mar 2026')
    const pieces = await press(columns, 'pieces', { ...SHOP, dayOrder: 'month_day_year' })
    await press(await press(pieces, 'preview'), 'record')
    expect((await sold())[0]?.day).toBe('2026-03-05')
  })

  test('of nothing where one cell tells it', async () => {
    const { text } = await bring(`${EITHER}14/04/2026,Mug,12.00\n`)
    expect(text).not.toContain('Which day is')
  })

  test('of prices', async () => {
    const { text } = await bring('Date;Item;Price\n2026-04-03;Mug;1.234\n')
    expect(text).toContain('How much is 1.234?')
  })
})

test('rows that cannot be read are named by line, and refunds with what to do', async () => {
  await shelve(10)
  const preview = await toPreview(
    [
      'Order,Date,Item,Qty,Price',
      '1,31/02/2026,Mug,1,24.00',
      '2,13/04/2026,Mug,-1,24.00',
      '3,13/04/2026,Mug,1,(24.00)',
      '4,13/04/2026,Mug,1,€24.00',
      '5,13/04/2027,Mug,1,24.00',
      '6,13/04/2026,Mug,1.5,24.00',
      '7,,Mug,1,24.00',
      '8,13/04/2026,Mug,1,24.005',
    ].join('\n'),
  )
  const faults = [...preview.text.matchAll(/<strong>Line (\d+)<\/strong>(.*?)<\/li>/g)]
  expect(faults.map(([, line]) => line)).toEqual(['2', '3', '4', '5', '6', '7', '8', '9'])
  expect(faults[1]?.[2]).toContain('refund')
  expect(faults[2]?.[2]).toContain('refund')
  expect(faults[3]?.[2]).toContain('GBP')
  expect(preview.text).toContain('Nothing in this file is new')
})

test('what is not ours is left out and counted; a name with nothing chosen is asked for', async () => {
  await shelve(10)
  const file = 'Date,Item,Price\n2026-04-13,Mug,12\n2026-04-13,Postage,4\n2026-04-13,Discount,-2\n'
  const pieces = await press(await bring(file), 'pieces', SHOP)
  const open = await press(pieces, 'preview')
  expect(open.status).toBe(422)
  expect(open.text).toContain('Say which form “Postage” is, or that it is not ours.')
  const preview = await press(pieces, 'preview', { is: ['not-ours', 'first mug', 'not-ours'] })
  const done = await press(preview, 'record')
  expect([counted(done, 'Recorded'), counted(done, 'Left out, not ours')]).toEqual([1, 2])
})

test('what the shelf does not have comes back as a file, which can be brought once mended', async () => {
  await shelve(3)
  const file =
    'Date,Item,Qty,Price\n2026-04-13,Mug,2,24\n2026-04-13,Mug,2,24\n2026-04-13,Mug,one,=1+1\n'
  const preview = await toPreview(file)
  expect(preview.text).toContain('1 too few')
  const done = await press(preview, 'record')
  expect(counted(done, 'Recorded')).toBe(1)
  expect(counted(done, 'Not taken by the books')).toBe(1)
  expect(done.text).toContain('There are 1 firsts of this form on the shelf')
  const csv = await sendForm(pottery, `${IMPORT}/refused.csv`, { csv: csvIn(done) })
  expect(csv.headers.get('content-disposition')).toContain('attachment')
  expect(csv.text).toContain("'=1+1")
  const mended = csv.text.replace('Mug,2,24', 'Mug,1,24').replace("one,'=1+1", '1,24')
  // Two of the same now, of which the shelf has one.
  const later = await record(mended)
  expect([counted(later, 'Recorded'), counted(later, 'Not taken by the books')]).toEqual([1, 1])
})

test('of two equal rows the refused one is not taken for the recorded one', async () => {
  await shelve(1)
  const file = 'Date,Item,Price\n2026-04-13,Mug,24\n2026-04-13,Mug,24\n'
  const done = await record(file)
  const csv = csvIn(done)
  expect(csv).toContain('which of equal rows')
  const later = await toPreview(csv)
  expect(later.text).toContain('Record 1 sale')
})

test('a price for a line that does not part evenly stays what was paid', async () => {
  await shelve(10)
  const file = 'Date,Item,Qty,Total\n2026-04-13,Mug,3,10.00\n'
  const preview = await toPreview(file)
  expect(preview.text).toContain('£10.00')
  expect(preview.text).toContain('does not part evenly')
  const done = await press(preview, 'record')
  expect(done.text).toContain('3 pieces, £10.00')
  expect(
    (await sold())
      .map(({ pieces, priceEach }) => `${String(pieces)} at ${String(priceEach)}`)
      .sort(),
  ).toEqual(['1 at 3.34', '2 at 3.33'])
})

test('a sale recorded by hand is taken for the same, until somebody says that it is another', async () => {
  await shelve(10)
  await pottery.does('sell', {
    formId: 'mug',
    grade: 'first',
    pieces: 1,
    priceEach: '24.00',
    channel: 'fair',
    happenedAt: '2026-04-13T11:00:00Z',
  })
  const file = 'Date,Item,Price\n2026-04-13,Mug,24\n2026-04-13,Mug,24\n'
  const preview = await toPreview(file)
  expect(preview.text).toContain('Perhaps in the books already: 1 row')
  const [, key = ''] = /name="again" value="([^"]+)"/.exec(preview.text) ?? []
  expect(counted(await press(preview, 'record'), 'Left out, not ticked')).toBe(1)
  expect(await sold()).toHaveLength(2)
  await press(await toPreview(file), 'record', { again: key })
  expect(await sold()).toHaveLength(3)
})

test('a sale that was taken back stays out, and can be recorded once more, once', async () => {
  await shelve(10)
  const file = 'Date,Item,Price\n2026-04-13,Mug,24\n'
  await record(file)
  const { body } = await pottery.ask('GET', '/v1/sales')
  const entryId = (body['items'] as { entryId: string }[])[0]?.entryId ?? ''
  await pottery.ask('POST', '/v1/acts/correct', { body: { entryId } })
  const preview = await toPreview(file)
  expect(preview.text).toContain('taken back since')
  const [, key = ''] = /name="again" value="([^"]+)"/.exec(preview.text) ?? []
  const done = await press(preview, 'record', { again: key })
  expect(counted(done, 'Recorded')).toBe(1)
  await press(preview, 'record', { again: key })
  const standing = (await pottery.ask('GET', '/v1/sales')).body['items'] as {
    reversedByEntryId: string | null
  }[]
  expect(standing.filter((sale) => sale.reversedByEntryId === null)).toHaveLength(1)
})

test('a closed month is said by the books, by line', async () => {
  await shelve(10)
  await pottery.does('close-month', { month: '2026-04' })
  const done = await record(PLAIN)
  expect(counted(done, 'Not taken by the books')).toBe(2)
  expect(done.text).toContain('The books of that month are closed')
})

describe('a file that is none', () => {
  test.each([
    { what: 'a workbook', file: bytes('PK\u0003\u0004....'), words: 'save it as CSV first' },
    { what: 'nothing', file: '   ', words: 'Choose a file, or paste its rows.' },
    { what: 'an open quote', file: 'a,b\n1,"x\n2,y\n', words: 'quotation mark on line 2' },
    {
      what: 'too many rows',
      file: `Date,Item,Price\n${'2026-04-13,Mug,1\n'.repeat(5_001)}`,
      words: 'more than 5,000 rows',
    },
    { what: 'too much', file: bytes('x'.repeat(1024 * 1024 + 1)), words: 'larger than 1 MB' },
  ])('$what is refused in words', async ({ file, words }) => {
    const { status, text } = await bring(file)
    expect(status).toBe(422)
    expect(text).toContain(words)
  })

  test('what is far too large is turned away, and the page says why', async () => {
    const answer = await bring(bytes('x'.repeat(3 * 1024 * 1024 + 1)))
    expect(answer.status).toBe(303)
    const { text } = await pottery.ask('GET', answer.headers.get('location') ?? '')
    expect(text).toContain('larger than 1 MB')
  })
})
