import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import {
  SHOP,
  bring,
  bytes,
  counted,
  press,
  record,
  shelve,
  sold,
  toPreview,
} from './bringing-sales.ts'
import { openPottery, STUDIO, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeEach(async () => {
  pottery = await openPottery({ studios: [STUDIO] })
})
afterEach(() => pottery.close())

const PLAIN = [
  'Order,Date,Item,Qty,Price',
  '1001,2026-04-13,Mug,2,24.00',
  '1002,2026-04-14,Mugs,1,"£1,024.00"',
  '',
].join('\n')

describe('a plain file', () => {
  test('is recorded once, however often it is brought', async () => {
    await shelve(pottery, 10)
    const first = await record(pottery, PLAIN)
    expect(first.status).toBe(200)
    expect(counted(first, 'Recorded')).toBe(2)
    expect(first.text).toContain('3 pieces, £1,072.00')
    const again = await record(pottery, PLAIN)
    expect([counted(again, 'Recorded'), counted(again, 'Known already')]).toEqual([0, 2])
    const overlapping = await record(pottery, `${PLAIN}1003,2026-04-15,Mug,1,24\n`)
    expect([counted(overlapping, 'Recorded'), counted(overlapping, 'Known already')]).toEqual([
      1, 2,
    ])
    expect(await sold(pottery)).toEqual([
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
    await shelve(pottery, 10)
    const preview = await toPreview(pottery, PLAIN)
    await Promise.all([
      press(pottery, preview, { step: 'record' }),
      press(pottery, preview, { step: 'record' }),
    ])
    await press(pottery, preview, { step: 'record' })
    expect(await sold(pottery)).toHaveLength(2)
  })

  test('says each step in words, and records nothing before the last', async () => {
    await shelve(pottery, 10)
    const columns = await bring(pottery, PLAIN)
    expect(columns.text).toContain('2 rows, headings on line 1')
    const nowhere = await press(pottery, columns, { step: 'pieces' })
    expect(nowhere.status).toBe(422)
    expect(nowhere.text).toContain('Say where these were sold.')
    const preview = await toPreview(pottery, PLAIN)
    expect(preview.text).toContain('Record 2 sales')
    expect(preview.text.match(/<h1>/g)).toHaveLength(1)
    expect(preview.text).not.toMatch(/ style=|<script(?! type="module" src="\/assets)/)
    expect(await sold(pottery)).toEqual([])
  })
})

test('semicolons, commas for decimals, a mark at the beginning and quoted breaks', async () => {
  await shelve(pottery, 10)
  const csv = [
    '\ufeffDatum;Artikel;Menge;Preis',
    '13.04.2026;"Mug\r\n(blue)";2;12,50 £',
    '14.04.2026;Mug;eins;12,50',
    '',
  ].join('\r\n')
  const done = await record(pottery, bytes(csv))
  expect(counted(done, 'Recorded')).toBe(1)
  expect(done.text).toContain('<strong>Line 4</strong>: “eins”')
  expect(await sold(pottery)).toMatchObject([{ pieces: 2, priceEach: '12.5', day: '2026-04-13' }])
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
  await shelve(pottery, 10)
  const preview = await toPreview(pottery, file)
  expect(preview.text).toContain('£12.00')
  expect(counted(await press(pottery, preview, { step: 'record' }), 'Recorded')).toBe(1)
})

describe('what could be either is asked', () => {
  const EITHER = 'Date,Item,Price\n03/05/2026,Mug,12.00\n'

  test('of days: the studio’s order is chosen beforehand, and each answer shows its day', async () => {
    await shelve(pottery, 10)
    const columns = await bring(pottery, EITHER)
    expect(columns.text).toContain('Which day is 03/05/2026?')
    expect(columns.text).toContain('3 May 2026')
    expect(columns.text).toContain('5 Mar 2026')
    const pieces = await press(pottery, columns, {
      step: 'pieces',
      ...SHOP,
      dayOrder: 'month_day_year',
    })
    await press(pottery, await press(pottery, pieces, { step: 'preview' }), { step: 'record' })
    expect((await sold(pottery))[0]?.day).toBe('2026-03-05')
  })

  test('of nothing where one cell tells it', async () => {
    const { text } = await bring(pottery, `${EITHER}14/04/2026,Mug,12.00\n`)
    expect(text).not.toContain('Which day is')
  })

  test('of prices', async () => {
    const { text } = await bring(pottery, 'Date;Item;Price\n2026-04-03;Mug;1.234\n')
    expect(text).toContain('How much is 1.234?')
  })
})

test('rows that cannot be read are named by line, and refunds with what to do', async () => {
  await shelve(pottery, 10)
  const preview = await toPreview(
    pottery,
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
  await shelve(pottery, 10)
  const file = 'Date,Item,Price\n2026-04-13,Mug,12\n2026-04-13,Postage,4\n2026-04-13,Discount,-2\n'
  const pieces = await press(pottery, await bring(pottery, file), { ...SHOP, step: 'pieces' })
  const open = await press(pottery, pieces, { step: 'preview' })
  expect(open.status).toBe(422)
  expect(open.text).toContain('Say which form “Postage” is, or that it is not ours.')
  const preview = await press(pottery, pieces, {
    step: 'preview',
    is: ['not-ours', 'first mug', 'not-ours'],
  })
  const done = await press(pottery, preview, { step: 'record' })
  expect([counted(done, 'Recorded'), counted(done, 'Left out, not ours')]).toEqual([1, 2])
})

test('a price for a line that does not part evenly stays what was paid', async () => {
  await shelve(pottery, 10)
  const file = 'Date,Item,Qty,Total\n2026-04-13,Mug,3,10.00\n'
  const preview = await toPreview(pottery, file)
  expect(preview.text).toContain('£10.00')
  expect(preview.text).toContain('does not part evenly')
  const done = await press(pottery, preview, { step: 'record' })
  expect(done.text).toContain('3 pieces, £10.00')
  expect(
    (await sold(pottery))
      .map(({ pieces, priceEach }) => `${String(pieces)} at ${String(priceEach)}`)
      .sort(),
  ).toEqual(['1 at 3.34', '2 at 3.33'])
})

test('a closed month is said by the books, by line', async () => {
  await shelve(pottery, 10)
  await pottery.does('close-month', { month: '2026-04' })
  const done = await record(pottery, PLAIN)
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
    const { status, text } = await bring(pottery, file)
    expect(status).toBe(422)
    expect(text).toContain(words)
  })

  test('what is far too large is turned away, and the page says why', async () => {
    const answer = await bring(pottery, bytes('x'.repeat(3 * 1024 * 1024 + 1)))
    expect(answer.status).toBe(303)
    const { text } = await pottery.ask('GET', answer.headers.get('location') ?? '')
    expect(text).toContain('larger than 1 MB')
  })
})
