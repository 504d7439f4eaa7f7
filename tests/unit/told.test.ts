import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { amountTold, countTold, decimalMarksTold, isOfCurrency } from '../../shared/amount-told.ts'
import { dayOrdersTold, dayTold } from '../../shared/day-told.ts'
import { gradeMeant, nameMeant } from '../../shared/piece-names.ts'
import { columnsGuessed, headingsGuessed, isForLine } from '../../shared/sales-columns.ts'
import { writtenDay, DATE_ORDERS } from '../../shared/written-day.ts'

const HOW = { order: 'day_month_year', timeZone: 'Europe/London' } as const

describe('days', () => {
  test.each([
    ['2026-03-14', '2026-03-14'],
    ['14/03/2026', '2026-03-14'],
    ['14.3.26', '2026-03-14'],
    ['14/03/2026, 10:11', '2026-03-14'],
    ['Sat 14 March 2026', '2026-03-14'],
    ['Mar 14, 2026', '2026-03-14'],
    ['14. März 2026', '2026-03-14'],
    ['20260314', '2026-03-14'],
    ['2026-06-01T23:30:00Z', '2026-06-02'],
    ['2026-06-01 23:30:00 +0000', '2026-06-02'],
    ['3/14/2026', undefined],
    ['31/02/2026', undefined],
    ['45730', undefined],
    ['May 2026', undefined],
    ['', undefined],
    ['x'.repeat(10_000), undefined],
  ])('%s is %s', (cell, day) => {
    expect(dayTold(cell, HOW)).toBe(day)
  })

  test('a day that is written in any order is read in that order, and named months in all', () => {
    const date = fc.date({
      min: new Date('2000-01-01'),
      max: new Date('2090-12-31'),
      noInvalidDate: true,
    })
    fc.assert(
      fc.property(date, fc.constantFrom(...DATE_ORDERS), (moment, order) => {
        const iso = moment.toISOString().slice(0, 10)
        const [year = '', month = '', day = ''] = iso.split('-')
        const numbers = {
          day_month_year: `${day}/${month}/${year}`,
          month_day_year: `${month}/${day}/${year}`,
          year_month_day: `${year}/${month}/${day}`,
        }[order]
        expect(dayTold(numbers, { ...HOW, order })).toBe(iso)
        expect(
          dayOrdersTold([numbers]).length === 0 || dayOrdersTold([numbers]).includes(order),
        ).toBe(true)
        expect(dayTold(writtenDay(iso, order), HOW)).toBe(iso)
      }),
    )
  })

  test('the order is told by a cell that leaves no choice, and asked otherwise', () => {
    expect(dayOrdersTold(['03/04/2026'])).toEqual(['day_month_year', 'month_day_year'])
    expect(dayOrdersTold(['03/04/2026', '13/04/2026'])).toEqual(['day_month_year'])
    expect(dayOrdersTold(['03/04/2026', '04/13/2026'])).toEqual(['month_day_year'])
    expect(dayOrdersTold(['2026-03-04', '4 Mar 2026'])).toEqual([])
    expect(dayOrdersTold(['01/02/03'])).toHaveLength(3)
  })
})

describe('amounts', () => {
  test.each([
    ['12.50', '12.5', undefined],
    ['£12.50', '12.5', undefined],
    ['12,50 €', undefined, '12.5'],
    ['1.234,56', undefined, '1234.56'],
    ['1,234.56', '1234.56', undefined],
    ["1'234.50", '1234.5', undefined],
    ['1\u202f234,50', undefined, '1234.5'],
    ['(12.50)', '-12.5', undefined],
    ['−£3', '-3', '-3'],
    ['12.50-', '-12.5', undefined],
    ['120:-', '120', '120'],
    ['1.234', '1.234', '1234'],
    ['1.2.3', undefined, undefined],
    ['5 for 3', undefined, undefined],
    ['1,234,56', undefined, undefined],
    ['', undefined, undefined],
    ['a'.repeat(10_000), undefined, undefined],
  ])('%s is %s with a point and %s with a comma', (cell, point, comma) => {
    expect(amountTold(cell, 'point')?.amount.toFixed()).toBe(point)
    expect(amountTold(cell, 'comma')?.amount.toFixed()).toBe(comma)
  })

  test('an amount as any language writes it is read back', () => {
    const places = [
      { language: 'en-GB', mark: 'point' },
      { language: 'de-DE', mark: 'comma' },
      { language: 'fr-FR', mark: 'comma' },
      { language: 'en-IN', mark: 'point' },
      { language: 'de-CH', mark: 'point' },
    ] as const
    fc.assert(
      fc.property(
        fc.integer({ min: -99_999_999, max: 99_999_999 }),
        fc.constantFrom(...places),
        (pence, { language, mark }) => {
          const options = { style: 'currency', currency: 'EUR' } as const
          const text = new Intl.NumberFormat(language, options).format(pence / 100)
          const told = amountTold(text, mark)
          expect(told?.amount.times(100).toNumber()).toBe(pence)
          expect(isOfCurrency(told?.unit ?? '', 'EUR')).toBe(true)
          expect(isOfCurrency(told?.unit ?? '', 'GBP')).toBe(false)
        },
      ),
    )
  })

  test('the style is told by most cells, and asked where it changes something', () => {
    expect(decimalMarksTold(['1.234', '2.50'])).toEqual({ marks: ['point'], isOpen: false })
    expect(decimalMarksTold(['12,5', '1.000'])).toEqual({ marks: ['comma'], isOpen: false })
    expect(decimalMarksTold(['1.234']).isOpen).toBe(true)
    expect(decimalMarksTold(['12']).isOpen).toBe(false)
  })

  test('counts are whole', () => {
    expect(['2', '2.0', 'x2', '2 ×', '-1', '1.5', 'two', ''].map(countTold)).toEqual([
      ...[2, 2, 2, 2, -1],
      ...[undefined, undefined, undefined],
    ])
  })

  test('signs that several currencies share are taken for the studio’s', () => {
    expect(isOfCurrency('$', 'AUD')).toBe(true)
    expect(isOfCurrency('US$', 'USD')).toBe(true)
    expect(isOfCurrency('US$', 'CAD')).toBe(false)
    expect(isOfCurrency('kr', 'SEK')).toBe(true)
  })
})

describe('columns', () => {
  test.each([
    {
      name: 'a shop',
      headings: [
        'Order ID',
        'Order Date',
        'Buyer',
        'Item Name',
        'Quantity',
        'Price',
        'Currency',
        'Order Total',
      ],
      cells: ['1001', '14/03/2026', 'Somebody', 'Blue mug', '2', '24.00', 'GBP', '48.00'],
      columns: { order: 0, day: 1, piece: 3, pieces: 4, price: 5, currency: 6 },
    },
    {
      name: 'a till',
      headings: ['Datum', 'Beleg-Nr', 'Artikel', 'Menge', 'Betrag'],
      cells: ['14.03.2026 10:11', '55', 'Becher blau', '1', '24,00'],
      columns: { day: 0, order: 1, piece: 2, pieces: 3, price: 4 },
    },
    {
      name: 'a market book without headings',
      headings: ['Column 1', 'Column 2', 'Column 3'],
      cells: ['14 Mar 2026', 'Mug', '24.00'],
      columns: { day: 0 },
    },
  ])('of $name are guessed', ({ headings, cells, columns }) => {
    expect(columnsGuessed(headings, [cells, cells])).toMatchObject(columns)
  })

  test('headings are found below a title, or not at all', () => {
    expect(
      headingsGuessed([['Sales of March'], ['Date', 'Item', 'Price'], ['2026-03-14', 'Mug', '24']]),
    ).toBe(1)
    expect(headingsGuessed([['2026-03-14', 'Mug', '24']])).toBeUndefined()
  })

  test('a price is for the line where it is called a total', () => {
    expect(['Total', 'Amount paid', 'Price', 'Unit amount'].map(isForLine)).toEqual([
      true,
      true,
      false,
      false,
    ])
  })
})

describe('names of pieces', () => {
  const forms = [
    { formId: 'mug', name: 'Mug' },
    { formId: 'plate', name: 'Dinner plate' },
    { formId: 'bowl', name: 'Bowl with foot-ring' },
  ]
  test.each([
    { name: 'Mugs', formId: 'mug', grade: 'first', how: 'equal' },
    { name: 'MUG (blue)', formId: 'mug', grade: 'first', how: 'equal' },
    { name: 'Stoneware mug, tenmoku', formId: 'mug', grade: 'first', how: 'similar' },
    { name: 'Dinner plate seconds', formId: 'plate', grade: 'second', how: 'equal' },
    { name: 'Diner plate', formId: 'plate', grade: 'first', how: 'similar' },
  ])('$name is $formId, $grade, $how', ({ name, formId, grade, how }) => {
    expect(nameMeant({ name }, forms)).toEqual({ formId, grade, how })
  })

  test('postage is no form', () => {
    expect(nameMeant({ name: 'Postage' }, forms)).toBeUndefined()
  })

  test('a grade may have a column of its own', () => {
    expect([gradeMeant('Mug', 'II'), gradeMeant('Mug', 'A'), gradeMeant('Mug')]).toEqual([
      'second',
      'first',
      'first',
    ])
  })
})
