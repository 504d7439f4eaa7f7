import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ZERO } from '../../shared/decimal.ts'
import {
  columnUnit,
  massAlone,
  massesLeading,
  massGiveOrTake,
  massParts,
  moneyGiveOrTake,
  printedParts,
  signed,
} from '../../shared/month-printed.ts'
import { monthBefore } from '../../shared/month.ts'

const grams = fc
  .integer({ min: -900_000_000, max: 900_000_000 })
  .map((one) => decimal(one).dividedBy(1000))
const sum = (all: readonly (string | typeof ZERO)[]) =>
  all.reduce<typeof ZERO>((total, one) => total.plus(one), ZERO)

describe.each(['metric', 'pounds_ounces'] as const)('masses down a column, %s', (system) => {
  const unit = columnUnit(system)

  test('lead from the printed opening to the printed closing, none far from what it is', () => {
    fc.assert(
      fc.property(grams, fc.array(grams, { minLength: 1, maxLength: 20 }), (opening, flows) => {
        const closing = sum([opening, ...flows])
        const printed = massesLeading([opening, ...flows, closing], unit)
        expect(sum(printed.slice(0, -1)).toFixed()).toBe(decimal(printed.at(-1) ?? '').toFixed())
        expect(printed[0]).toBe(massAlone(opening, unit))
        expect(printed.at(-1)).toBe(massAlone(closing, unit))
        const last = decimal(10).toPower(-unit.digits)
        flows.forEach((flow, index) => {
          const off = decimal(printed[index + 1] ?? '').minus(flow.dividedBy(unit.grams))
          expect(off.abs().lessThanOrEqualTo(last.times(2))).toBe(true)
        })
      }),
    )
  })

  test('that are parts of a total come to the total as printed', () => {
    fc.assert(
      fc.property(fc.array(grams, { minLength: 1 }), (parts) => {
        const total = massAlone(sum(parts), unit)
        expect(sum(massParts(total, parts, unit)).toFixed()).toBe(decimal(total).toFixed())
      }),
    )
  })
})

test('pounds are told in hundredths, kilograms in grams', () => {
  const twoBags = decimal('25000')
  expect(massAlone(twoBags, columnUnit('metric'))).toBe('25.000')
  expect(massAlone(twoBags, columnUnit('pounds_ounces'))).toBe('55.12')
})

test('money that is shared out comes to the whole, and nothing is shared by nobody', () => {
  const thirds = ['1', '1', '1'].map((one) => decimal(one).dividedBy(3))
  expect(printedParts('1.00', thirds, 2)).toEqual(['0.34', '0.33', '0.33'])
  expect(printedParts('0.00', [], 2)).toEqual([])
})

test('what is sure has no give or take, and what is hardly unsure says so', () => {
  const unit = columnUnit('metric')
  expect(massGiveOrTake(ZERO, unit)).toBe('')
  expect(massGiveOrTake(decimal('0.1'), unit)).toBe('± < 0.001')
  expect(massGiveOrTake(decimal('100'), unit)).toBe('± 0.196')
  expect(moneyGiveOrTake(decimal('1'), 'GBP')).toBe('± 1.96')
  expect(moneyGiveOrTake(decimal('0.1'), 'JPY')).toBe('± < 1')
})

test('what comes has a sign and what goes another, nothing has none', () => {
  expect(['1.00', '-1.00', '-0.00', '0.00'].map(signed)).toEqual(['+1.00', '−1.00', '0.00', '0.00'])
})

test('the month before January is December', () => {
  expect(['2026-01', '2026-11'].map(monthBefore)).toEqual(['2025-12', '2026-10'])
})
