import { Decimal as Shared } from 'decimal.js'

/**
 * The one Decimal of the program: a private clone with 60 significant digits, rounding half to even.
 *
 * The library's own constructor rounds every sum to 20 digits and anyone may change its settings, so
 * no other file imports it.
 */
export const Decimal = Shared.clone({
  precision: 60,
  rounding: Shared.ROUND_HALF_EVEN,
  toExpNeg: -1e9,
  toExpPos: 1e9,
})
export type Decimal = Shared

export const ZERO: Decimal = new Decimal(0)
export const ONE: Decimal = new Decimal(1)

/** Digits after the point that the ledger keeps of a gram and of a unit of money. */
export const LEDGER_SCALE = 6

/**
 * A decimal rounded once, half to even, to the scale that the ledger keeps.
 *
 * Units: any; six digits after the point. Source: our choice, because a microgram of clay and a
 * millionth of a coin are below every reading and every price.
 */
export function toLedgerScale(value: Decimal): Decimal {
  return value.toDecimalPlaces(LEDGER_SCALE)
}

/** A decimal from the text or whole number that carries it. */
export function decimal(value: string | number | Decimal): Decimal {
  return new Decimal(value)
}

/** What was reckoned with plain numbers, as a decimal at ledger scale. */
export function decimalOfNumber(value: number): Decimal {
  return toLedgerScale(new Decimal(value))
}
