import { decimal, type Decimal } from './decimal.ts'

/** Shares of clay are not known better than to a tenth of a point. Our choice. */
const USUAL_DIGITS = 1

/**
 * A share in points of a hundred, as a sentence says it.
 *
 * Units: a fraction to points, one digit after the point unless told. Source: arithmetic.
 */
export function percentPoints(share: Decimal | number, digits = USUAL_DIGITS): string {
  return decimal(share).times(100).toFixed(digits)
}

/** The same with its sign; per cent exists only in words. Units: as `percentPoints`. Source: arithmetic. */
export function percentWords(share: Decimal | number, digits = USUAL_DIGITS): string {
  return `${percentPoints(share, digits)} %`
}

/** Digits as somebody writes them. */
const DIGITS = /^-?\d+(\.\d+)?$/

/**
 * The share that was typed in points of a hundred; what is no number comes back as it was typed, for
 * whoever checks the digits to say what is wrong with them.
 *
 * Units: points to a fraction, exact. Source: arithmetic.
 */
export function fractionOfPoints(typed: string): string {
  return DIGITS.test(typed) ? decimal(typed).dividedBy(100).toFixed() : typed
}

/** A share in points of a hundred, with all of its digits. Units: a fraction to points. Source: arithmetic. */
export function pointsOfFraction(fraction: string): string {
  return decimal(fraction).times(100).toFixed()
}
