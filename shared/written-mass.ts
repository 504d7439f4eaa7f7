import { decimal, type Decimal } from './decimal.ts'
import { giveOrTake } from './how-sure.ts'
import { printedAmount } from './money.ts'
import { EXACT_UNITS, OUNCES_OF_POUND } from './units.ts'

export const MASS_SYSTEMS = ['metric', 'pounds_ounces'] as const

/** In which units a studio reads its scales and writes its masses. */
export type MassSystem = (typeof MASS_SYSTEMS)[number]

const GRAMS_OF_KILOGRAM = 1000
/** Digits after the point of a kilogram: ten grams, which is as a platform scale reads. Our choice. */
const USUAL_DIGITS = 2
/** The same for what weighs less than one: single grams, which is as a bench scale reads. Our choice. */
const SMALL_DIGITS = 3
const SIGNIFICANT = 2
/** From here on an uncertainty is said in whole pounds. Our choice. */
const POUNDS_ALONE_FROM = 10

/**
 * A mass as a studio writes it: `12.46 kg`, `460 g`, or `27 lb 7.5 oz`.
 *
 * Units: grams, to ten of them from a kilogram on, to single ones below; pounds and ounces to a tenth of
 * an ounce. `digits` after the point of a kilogram ask for another place: 3 is a gram. Rounded once, half
 * to even, before pounds are split off, so that sixteen ounces are a pound.
 * Source: the international pound of 1959; the places are our choice.
 */
export function writtenMass(grams: Decimal, system: MassSystem, digits?: number): string {
  if (system === 'pounds_ounces') {
    return poundsAndOunces(ouncesOf(grams), ounceDigits(digits ?? USUAL_DIGITS))
  }
  const small = printedAmount(grams, Math.max(0, (digits ?? SMALL_DIGITS) - SMALL_DIGITS))
  if (decimal(small).abs().lessThan(GRAMS_OF_KILOGRAM)) return `${small} g`
  return `${printedAmount(grams.dividedBy(GRAMS_OF_KILOGRAM), digits ?? USUAL_DIGITS)} kg`
}

/** A mass with how far it may be off. */
export interface DoubtfulMass {
  readonly grams: Decimal
  readonly standardUncertaintyGrams: Decimal
}

/**
 * A mass and its give or take: `12.46 kg ± 0.12`, `27 lb 7.5 oz ± 4.2 oz`.
 *
 * Units: grams to those of the studio. The give or take is 1.96 standard uncertainties, rounded to two
 * significant digits (from a pound on to whole ounces, from ten pounds on to two digits of pounds), and
 * the mass is rounded to the same place.
 * Source: JCGM 100:2008, 7.2.6, for the digits; as `giveOrTake` for the factor.
 */
export function writtenMassSure(mass: DoubtfulMass, system: MassSystem): string {
  const half = giveOrTake(mass.standardUncertaintyGrams)
  if (half.isZero()) return writtenMass(mass.grams, system)
  if (system === 'pounds_ounces') return ouncesSure(ouncesOf(mass.grams), ouncesOf(half))
  const small = rounded(mass.grams, half)
  const isSmall = [small.value, small.half].every((one) => one.abs().lessThan(GRAMS_OF_KILOGRAM))
  if (isSmall) return `${shown(small, 'value')} g ± ${shown(small, 'half')}`
  const large = rounded(mass.grams.dividedBy(GRAMS_OF_KILOGRAM), half.dividedBy(GRAMS_OF_KILOGRAM))
  return `${shown(large, 'value')} kg ± ${shown(large, 'half')}`
}

interface Rounded {
  readonly value: Decimal
  readonly half: Decimal
  readonly digits: number
}

function shown(one: Rounded, which: 'value' | 'half'): string {
  return printedAmount(one[which], Math.max(0, one.digits))
}

/** Both to the place of the second digit of the give or take; `digits` below zero are tens and more. */
function rounded(value: Decimal, half: Decimal): Rounded {
  const short = half.toSignificantDigits(SIGNIFICANT)
  const digits = SIGNIFICANT - 1 - short.e
  return { value: toPlace(value, digits), half: short, digits }
}

function toPlace(value: Decimal, digits: number): Decimal {
  const unit = decimal(10).toPower(-digits)
  return value.dividedBy(unit).toDecimalPlaces(0).times(unit)
}

function ouncesSure(ounces: Decimal, half: Decimal): string {
  if (half.greaterThanOrEqualTo(OUNCES_OF_POUND * POUNDS_ALONE_FROM)) {
    const pounds = rounded(ounces.dividedBy(OUNCES_OF_POUND), half.dividedBy(OUNCES_OF_POUND))
    return `${shown(pounds, 'value')} lb ± ${shown(pounds, 'half')} lb`
  }
  const digits = Math.max(0, rounded(ounces, half).digits)
  const short = digits === 0 ? half.toDecimalPlaces(0) : half.toSignificantDigits(SIGNIFICANT)
  return `${poundsAndOunces(ounces, digits)} ± ${poundsAndOunces(short, digits)}`
}

function ouncesOf(grams: Decimal): Decimal {
  return grams.dividedBy(EXACT_UNITS.oz.size)
}

/** A tenth of an ounce is three grams; a place finer comes with a tenth of a gram. */
function ounceDigits(digitsOfKilogram: number): number {
  return digitsOfKilogram < USUAL_DIGITS ? 0 : Math.max(1, digitsOfKilogram - USUAL_DIGITS)
}

function poundsAndOunces(ounces: Decimal, digits: number): string {
  const whole = ounces.toDecimalPlaces(digits)
  const pounds = whole.abs().dividedToIntegerBy(OUNCES_OF_POUND)
  const rest = whole.abs().minus(pounds.times(OUNCES_OF_POUND)).toFixed(digits)
  const sign = whole.isNegative() && !whole.isZero() ? '-' : ''
  return pounds.isZero() ? `${sign}${rest} oz` : `${sign}${pounds.toFixed()} lb ${rest} oz`
}
