import { typedDecimal } from './typed-decimal.ts'
import { decimal, type Decimal } from './decimal.ts'
import { convertedExactly, gramsFrom, OUNCES_OF_POUND, type Mass } from './units.ts'
import { writtenMass } from './written-mass.ts'

/** What stands in two boxes, of which either may be empty. */
export interface TypedPounds {
  readonly pounds: string
  readonly ounces: string
}

/** The mass that was typed, with what else it may have meant; or what is wrong with it. */
export type TypedMass =
  { readonly mass: Mass; readonly caution?: string } | { readonly fault: string }

const DIGITS = /^\d+(\.\d+)?$/
const WHOLE = /^\d+$/
/** Digits behind a point that may have been ounces beside the pounds of a scale. */
const LIKE_OUNCES = /^(\d+)\.(\d{1,2})$/

/**
 * The mass that somebody typed as pounds and ounces; undefined where both boxes are empty.
 *
 * Ounces keep their last digit, which tells the scale's division: 27 lb 7.50 oz is 439.50 oz. One box
 * alone is taken as it is, and whoever checks the digits says what is wrong with them. Pounds alone may
 * have a point; where the digits behind it could be ounces (5.12), a caution says how it was read.
 *
 * Units: pounds and ounces, comma or point, to ounces or pounds; exact.
 * Source: sixteen ounces to the pound; the slip is handbook, section 9, number 18.
 */
export function massOfTypedPounds(typed: TypedPounds): TypedMass | undefined {
  const read = [typed.pounds, typed.ounces].map(typedDecimal)
  const fault = read.find((one) => 'fault' in one)
  if (fault !== undefined) return fault
  const [pounds = '', ounces = ''] = read.map((one) => ('text' in one ? one.text : ''))
  if (ounces === '') return pounds === '' ? undefined : poundsAlone(pounds)
  if (pounds === '') return { mass: { value: ounces, unit: 'oz' } }
  if (!DIGITS.test(pounds) || !DIGITS.test(ounces)) {
    return { fault: 'Pounds and ounces are numbers, such as 5 lb 12.5 oz.' }
  }
  if (!WHOLE.test(pounds)) {
    return { fault: `Beside ounces, pounds are whole. ${pounds} lb alone needs no ounces.` }
  }
  if (decimal(pounds).greaterThan(0) && decimal(ounces).greaterThanOrEqualTo(OUNCES_OF_POUND)) {
    return { fault: 'Sixteen ounces are a pound. Beside pounds there are fewer than 16.' }
  }
  return { mass: { value: ouncesTogether(pounds, ounces), unit: 'oz' } }
}

function ouncesTogether(pounds: string, ounces: string): string {
  const digitsAfterPoint = ounces.split('.')[1]?.length ?? 0
  return decimal(pounds).times(OUNCES_OF_POUND).plus(ounces).toFixed(digitsAfterPoint)
}

function poundsAlone(pounds: string): TypedMass {
  const mass: Mass = { value: pounds, unit: 'lb' }
  const [, whole = '', behind = ''] = LIKE_OUNCES.exec(pounds) ?? []
  const ounces = Number(behind)
  if (ounces === 0 || ounces >= OUNCES_OF_POUND) return { mass }
  const read = writtenMass(gramsFrom(mass), 'pounds_ounces')
  return {
    mass,
    caution: `${pounds} lb is ${read}. For ${whole} lb ${String(ounces)} oz, write the ounces in their own box.`,
  }
}

/** Digits behind the point of an ounce that is written into a box: a quarter of a gram. Our choice. */
const OUNCE_DIGITS = 2

/**
 * A mass as it would be typed into the two boxes.
 *
 * Units: grams to pounds and ounces, the ounces to a hundredth, rounded once before pounds are split off.
 * Source: the international pound of 1959.
 */
export function poundsToType(grams: Decimal): TypedPounds {
  const all = convertedExactly(grams, 'g', 'oz').toDecimalPlaces(OUNCE_DIGITS)
  const pounds = all.dividedBy(OUNCES_OF_POUND).floor()
  return {
    pounds: pounds.toFixed(),
    ounces: all.minus(pounds.times(OUNCES_OF_POUND)).toFixed(),
  }
}
