import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { salesKnownBy } from '../../shared/sales-identity.ts'
import type { FileRow, SalesReading } from '../../shared/sales-reading.ts'
import { salesRead } from '../../shared/sales-rows.ts'

const READING: SalesReading = {
  columns: { day: 0, order: 1, piece: 2, pieces: 3, price: 4, channel: 5 },
  dayOrder: 'day_month_year',
  decimalMark: 'point',
  priceFor: 'line',
  channel: 'shop',
  currency: 'GBP',
  timeZone: 'Europe/London',
  today: '2026-06-15',
}

const MUG = { formId: 'mug', grade: 'first' } as const

const read = (cells: readonly (readonly string[])[], reading = READING) =>
  salesRead(rowsOf(cells), reading, ({ name }) => (name === 'Postage' ? 'not_ours' : MUG))

const rowsOf = (cells: readonly (readonly string[])[]): FileRow[] =>
  cells.map((row, index) => ({ line: index + 2, cells: row }))

/** What the books would be told, without the line that it was on. */
const told = (cells: readonly (readonly string[])[]) =>
  salesKnownBy(read(cells).sales).map(({ line: _, ...sale }) => ({
    ...sale,
    priceEach: sale.priceEach.toFixed(),
  }))

const keys = (cells: readonly (readonly string[])[]) =>
  told(cells).map(({ identity, nth }) => `${identity} ${String(nth)}`)

const row = fc.tuple(
  fc.constantFrom('13/04/2026', '14/04/2026', ''),
  fc.constantFrom('', '1001', '1002'),
  fc.constantFrom('Mug', 'Blue mug'),
  fc.constantFrom('1', '2', '3', '-1', 'two'),
  fc.constantFrom('10.00', '24.00', '(3.00)', ''),
  fc.constantFrom('', 'fair'),
)

describe('rows of a file', () => {
  test('each sale is known by a name of its own', () => {
    fc.assert(
      fc.property(fc.array(row, { maxLength: 30 }), (cells) => {
        const all = keys(cells)
        expect(new Set(all).size).toBe(all.length)
      }),
    )
  })

  test('a file that overlaps another adds only what is new', () => {
    fc.assert(
      fc.property(
        fc.array(row, { maxLength: 20 }),
        fc.array(row, { maxLength: 10 }),
        (one, more) => {
          const first = new Set(keys(one.filter(hasDay)))
          const both = new Set(keys([...one, ...more].filter(hasDay)))
          expect([...first].filter((key) => !both.has(key))).toEqual([])
        },
      ),
    )
  })

  test('the order of the rows changes nothing of what is recorded, nor in which order', () => {
    const shuffled = fc
      .array(row, { maxLength: 25 })
      .chain((cells) =>
        fc.tuple(
          fc.constant(cells),
          fc.shuffledSubarray(cells, { minLength: cells.length, maxLength: cells.length }),
        ),
      )
    fc.assert(
      fc.property(shuffled, ([cells, mixed]) => {
        expect(told(mixed)).toEqual(told(cells))
      }),
    )
  })

  test('what was paid for a line stays to the last coin', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 99_999 }),
        fc.integer({ min: 1, max: 40 }),
        (pence, n) => {
          const price = (pence / 100).toFixed(2)
          const { sales } = read([['13/04/2026', '', 'Mug', String(n), price, '']])
          const paid = sales.map(({ priceEach, pieces }) => priceEach.times(pieces))
          expect(paid.reduce((sum, one) => sum.plus(one)).toFixed(2)).toBe(price)
          expect(sales.reduce((sum, { pieces }) => sum + pieces, 0)).toBe(n)
        },
      ),
    )
  })
})

function hasDay(cells: readonly string[]): boolean {
  return cells[0] !== ''
}

test('a row without a day has the day of its order, where that has one', () => {
  const rows = [
    ['13/04/2026', '7', 'Mug', '1', '10.00'],
    ['', '7', 'Mug', '2', '20.00'],
    ['', '', 'Mug', '1', '10.00'],
  ]
  const { sales, faults } = read(rows)
  expect(sales.map(({ day }) => day)).toEqual(['2026-04-13', '2026-04-13'])
  expect(faults).toMatchObject([{ line: 4, column: 'day' }])
})

test('which of equal rows one is may be said, and the others take the other numbers', () => {
  const nth = { ...READING, columns: { ...READING.columns, nth: 6 } }
  const cells = [
    ['13/04/2026', '', 'Mug', '1', '10.00', '', ''],
    ['13/04/2026', '', 'Mug', '1', '10.00', '', '1'],
  ]
  expect(salesKnownBy(read(cells, nth).sales).map((sale) => [sale.line, sale.nth])).toEqual([
    [2, 2],
    [3, 1],
  ])
})

test('what is not ours is left out before anything is found wrong with it', () => {
  const { sales, faults, leftOut } = read([['', '', 'Postage', '', '']])
  expect([sales, faults, leftOut.map(({ line }) => line)]).toEqual([[], [], [2]])
})
