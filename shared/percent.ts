import { decimal, type Decimal } from './decimal.ts'
import { giveOrTake, standardUncertaintyOf } from './how-sure.ts'

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

/** Of a give or take that is written into a box. Our choice. */
const DIGITS_OF_DOUBT = 4

/**
 * How unsure a share is, as it is typed: give or take so many points.
 *
 * Units: points, 19 times in 20, to a standard uncertainty as a fraction. Source: as `howSure`.
 */
export function uncertaintyOfPoints(typed: string): string {
  const fraction = fractionOfPoints(typed)
  return DIGITS.test(typed) ? standardUncertaintyOf(decimal(fraction)).toFixed() : typed
}

/** The same as it would be typed, to four digits. Units: as `uncertaintyOfPoints`. Source: as `howSure`. */
export function pointsOfUncertainty(standardUncertainty: string): string {
  const half = giveOrTake(decimal(standardUncertainty)).times(100)
  return half.toSignificantDigits(DIGITS_OF_DOUBT).toFixed()
}

/** A share in points of a hundred, with all of its digits. Units: a fraction to points. Source: arithmetic. */
export function pointsOfFraction(fraction: string): string {
  return decimal(fraction).times(100).toFixed()
}
