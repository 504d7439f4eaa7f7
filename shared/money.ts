import { assert } from './assert.ts'
import { ONE, ZERO, decimal } from './decimal.ts'
import type { Decimal } from './decimal.ts'

const WITHOUT_MINOR_UNIT = `
  BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF`
const IN_THOUSANDTHS = 'BHD IQD JOD KWD LYD OMR TND'
const IN_TEN_THOUSANDTHS = 'CLF UYW'
const IN_HUNDREDTHS = `
  AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD
  CAD CDF CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS
  GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL
  MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK
  PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS
  TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG`

const MINOR_UNIT_DIGITS: ReadonlyMap<string, number> = new Map(
  [
    { codes: WITHOUT_MINOR_UNIT, digits: 0 },
    { codes: IN_HUNDREDTHS, digits: 2 },
    { codes: IN_THOUSANDTHS, digits: 3 },
    { codes: IN_TEN_THOUSANDTHS, digits: 4 },
  ].flatMap(({ codes, digits }) =>
    codes
      .trim()
      .split(/\s+/)
      .map((code) => [code, digits] as const),
  ),
)

/** The codes of money that circulates, in the order of the alphabet. Source: as `isCurrency`. */
export const CURRENCIES: readonly string[] = [...MINOR_UNIT_DIGITS.keys()].sort()

/**
 * Whether a code names money that circulates.
 *
 * Source: ISO 4217 list of active codes, without metals, bond units and testing codes.
 */
export function isCurrency(code: string): boolean {
  return MINOR_UNIT_DIGITS.has(code)
}

/**
 * The digits after the point in which a currency is paid.
 *
 * A table of our own, because the runtime's table tells how a price is usually written: Node 20.20
 * with ICU 78 differs from the standard for sixteen currencies.
 *
 * Units: digits. Source: ISO 4217, list of 2023-01-01, with the codes changed since.
 */
export function minorUnitDigits(currency: string): number {
  const digits = MINOR_UNIT_DIGITS.get(currency)
  assert(digits !== undefined, `${currency} is a currency of ISO 4217`)
  return digits
}

/**
 * A total shared out by weight, to the last unit.
 *
 * Each line first gets the whole units of its quota; the units that are left go one each to the
 * largest remainders, and between equal remainders to the earlier line. A line without weight gets
 * nothing, unless no line has any: then the shares are equal.
 *
 * Shape: one share for each weight, in their order.
 * Units: the total's, at `digits` after the point; the shares sum to the total exactly.
 * Source: the largest remainder method, T. Hare, 1857; the tie to the earlier line is our choice.
 */
export function shareOut(total: Decimal, weights: readonly Decimal[], digits = 6): Decimal[] {
  assert(weights.length > 0, 'there is a line to take the total')
  assert(
    weights.every((weight) => weight.greaterThanOrEqualTo(0)),
    'weights are not below zero',
  )
  const units = total.abs().times(decimal(10).toPower(digits))
  assert(units.isInteger(), `the total has at most ${digits} digits after the point`)

  const sum = sumOf(weights)
  const shares = sum.isZero()
    ? wholeShares(
        units,
        weights.map(() => ONE),
      )
    : wholeShares(units, weights)
  const unit = decimal(10)
    .toPower(-digits)
    .times(total.isNegative() ? -1 : 1)
  return shares.map((share) => share.times(unit))
}

/**
 * A column of amounts rounded so that it still adds up to its rounded total.
 *
 * Each amount is cut down to `digits`; the units that this loses go one each to the amounts that
 * lost most, the earlier first. No amount moves by a whole unit, and one that fits stays as it is.
 *
 * Shape: as many amounts as came in, in their order.
 * Units: the amounts', at `digits` after the point; the total rounds half to even.
 * Source: the largest remainder method, T. Hare, 1857.
 */
export function roundedToSum(parts: readonly Decimal[], digits: number): Decimal[] {
  const perUnit = decimal(10).toPower(digits)
  const scaled = parts.map((part) => part.times(perUnit))
  const whole = scaled.map((part) => part.floor())
  const remainders = scaled.map((part, index) => part.minus(whole[index] ?? ZERO))
  const left = sumOf(scaled).toDecimalPlaces(0).minus(sumOf(whole))
  return withUnitsToLargest({ whole, remainders, left }).map((part) => part.dividedBy(perUnit))
}

function wholeShares(units: Decimal, weights: readonly Decimal[]): Decimal[] {
  const sum = sumOf(weights)
  const products = weights.map((weight) => weight.times(units))
  const whole = products.map((product) => product.dividedToIntegerBy(sum))
  const remainders = products.map((product, index) =>
    product.minus((whole[index] ?? ZERO).times(sum)),
  )
  return withUnitsToLargest({ whole, remainders, left: units.minus(sumOf(whole)) })
}

interface Apportionment {
  readonly whole: readonly Decimal[]
  readonly remainders: readonly Decimal[]
  readonly left: Decimal
}

function withUnitsToLargest({ whole, remainders, left }: Apportionment): Decimal[] {
  assert(
    left.isInteger() && left.greaterThanOrEqualTo(0) && left.lessThanOrEqualTo(whole.length),
    'what is left is at most one unit for each line',
  )
  // Sorting is stable, so equal remainders keep the order of their lines.
  const byRemainder = [...remainders.entries()].sort(([, one], [, other]) => other.comparedTo(one))
  const favoured = new Set(byRemainder.slice(0, left.toNumber()).map(([index]) => index))
  return whole.map((units, index) => (favoured.has(index) ? units.plus(1) : units))
}

function sumOf(amounts: readonly Decimal[]): Decimal {
  return amounts.reduce((sum, amount) => sum.plus(amount), ZERO)
}

/**
 * An amount with so many digits after the point, as it is printed: what rounds to nothing has no sign.
 *
 * Units: as given; rounded half to even. Source: our choice, because nobody owes minus nothing.
 */
export function printedAmount(amount: Decimal, digits: number): string {
  const rounded = amount.toDecimalPlaces(digits)
  return (rounded.isZero() ? ZERO : rounded).toFixed(digits)
}
