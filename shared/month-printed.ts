import { Decimal, decimal } from './decimal.ts'
import { giveOrTake } from './how-sure.ts'
import { minorUnitDigits, printedAmount } from './money.ts'
import { roundedBetween } from './month-amounts.ts'
import { EXACT_UNITS } from './units.ts'
import type { MassSystem } from './written-mass.ts'

/** How a studio's books print masses: in one unit all down a column, so that it can be added up. */
export interface ColumnUnit {
  readonly words: 'kg' | 'lb'
  readonly grams: Decimal
  readonly digits: number
}

const KILOGRAMS: ColumnUnit = { words: 'kg', grams: decimal(EXACT_UNITS.kg.size), digits: 3 }
/** Pounds and ounces do not add up by hand; a hundredth of a pound is as near as a scale reads. */
const POUNDS: ColumnUnit = { words: 'lb', grams: decimal(EXACT_UNITS.lb.size), digits: 2 }

/** The unit of a studio's columns. Units: as named. Source: the digits are our choice. */
export function columnUnit(system: MassSystem): ColumnUnit {
  return system === 'metric' ? KILOGRAMS : POUNDS
}

/**
 * A column of masses that leads from its first to its last, printed so that it does so by hand.
 *
 * Shape: opening, what came and went, closing; as many as came in. In kilograms the same as
 * `monthSheet` prints.
 * Units: grams to those of the unit. Source: as `shownBetween`: each end is rounded half up by itself.
 */
export function massesLeading(grams: readonly Decimal[], unit: ColumnUnit): string[] {
  const amounts = grams.map((one) => one.dividedBy(unit.grams))
  const [opening = decimal(0)] = amounts
  const closing = amounts.at(-1) ?? opening
  const ends = [opening, closing].map((end) => halfUp(end, unit.digits))
  const [first = opening, last = closing] = ends
  const between = roundedBetween(last.minus(first), amounts.slice(1, -1), unit.digits)
  return [first, ...between, last].map((one) => printedAmount(one, unit.digits))
}

/**
 * Parts of a total printed so that they add up to the total as it is printed.
 *
 * Shape: as many as came in, none where there are none. Units: of the total, at `digits`.
 * Source: as `roundedBetween`.
 */
export function printedParts(
  printedTotal: string,
  parts: readonly Decimal[],
  digits: number,
): string[] {
  if (parts.length === 0) return []
  return roundedBetween(decimal(printedTotal), parts, digits).map((one) =>
    printedAmount(one, digits),
  )
}

/** Masses that are parts of a printed total, as `printedParts`. Units: grams to those of the unit. */
export function massParts(
  printedTotal: string,
  grams: readonly Decimal[],
  unit: ColumnUnit,
): string[] {
  const amounts = grams.map((one) => one.dividedBy(unit.grams))
  return printedParts(printedTotal, amounts, unit.digits)
}

/** A mass by itself in a column. Units: grams to those of the unit. Source: rounded half up. */
export function massAlone(grams: Decimal, unit: ColumnUnit): string {
  return printedAmount(halfUp(grams.dividedBy(unit.grams), unit.digits), unit.digits)
}

/**
 * What stands after ± beside a mass in such a column; nothing where the figure is sure.
 *
 * Units: grams to those of the unit. Source: `giveOrTake`; what is less than the last digit says so.
 */
export function massGiveOrTake(standardUncertaintyGrams: Decimal, unit: ColumnUnit): string {
  return giveOrTakeWords(giveOrTake(standardUncertaintyGrams).dividedBy(unit.grams), unit.digits)
}

/** The same beside money. Units: the currency's, in its digits. Source: as `massGiveOrTake`. */
export function moneyGiveOrTake(standardUncertainty: Decimal, currency: string): string {
  return giveOrTakeWords(giveOrTake(standardUncertainty), minorUnitDigits(currency))
}

function giveOrTakeWords(half: Decimal, digits: number): string {
  if (half.isZero()) return ''
  const printed = printedAmount(half, digits)
  const least = decimal(10).toPower(-digits).toFixed(digits)
  return decimal(printed).isZero() ? `± < ${least}` : `± ${printed}`
}

/** A printed figure with its sign, as what comes and goes is told. Units: none. Source: nothing has no sign. */
export function signed(figure: string): string {
  if (decimal(figure).isZero()) return figure.replace('-', '')
  return figure.startsWith('-') ? figure.replace('-', '−') : `+${figure}`
}

function halfUp(amount: Decimal, digits: number): Decimal {
  return amount.toDecimalPlaces(digits, Decimal.ROUND_HALF_UP)
}
