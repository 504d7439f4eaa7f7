import { assert } from './assert.ts'
import { decimal, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'

export const MASS_UNITS = ['g', 'kg', 'lb', 'oz'] as const
export type MassUnit = (typeof MASS_UNITS)[number]

/** Ounces to the avoirdupois pound, exactly. */
export const OUNCES_OF_POUND = 16

/** A mass as it was read: the digits as text, so that the last of them still counts. */
export interface Mass {
  readonly value: string
  readonly unit: MassUnit
}

export const VOLUME_UNITS = ['ml', 'l', 'imperial_pint', 'us_pint'] as const
export type VolumeUnit = (typeof VOLUME_UNITS)[number]

/** A volume as it was read. A pint names its gallon, because the two differ by a fifth. */
export interface Volume {
  readonly value: string
  readonly unit: VolumeUnit
}

/** What a unit is a unit of. The sizes below are in grams, millilitres, millimetres and joules. */
export type Dimension = 'mass' | 'volume' | 'length' | 'energy'

interface ExactUnit {
  readonly of: Dimension
  readonly size: string
}

/**
 * Units that are exact by definition, each in the base unit of its dimension.
 *
 * Units: grams, millilitres, millimetres, joules.
 * Source: the pound of 1959 and the inch of 25.4 mm; the gallon of 4.54609 L (UK, 1985) and of 231
 * cubic inches (US); the International Table BTU. The file definitions.units of GNU units 2.22 agrees
 * for all but the last four, which are from memory and agree with NIST SP 811 appendix B.
 */
export const EXACT_UNITS = {
  g: { of: 'mass', size: '1' },
  kg: { of: 'mass', size: '1000' },
  lb: { of: 'mass', size: '453.59237' },
  oz: { of: 'mass', size: '28.349523125' },
  grain: { of: 'mass', size: '0.06479891' },
  stone: { of: 'mass', size: '6350.29318' },
  hundredweight_uk: { of: 'mass', size: '50802.34544' },
  hundredweight_us: { of: 'mass', size: '45359.237' },
  ton_short: { of: 'mass', size: '907184.74' },
  ton_long: { of: 'mass', size: '1016046.9088' },
  ml: { of: 'volume', size: '1' },
  l: { of: 'volume', size: '1000' },
  imperial_fluid_ounce: { of: 'volume', size: '28.4130625' },
  imperial_pint: { of: 'volume', size: '568.26125' },
  imperial_quart: { of: 'volume', size: '1136.5225' },
  imperial_gallon: { of: 'volume', size: '4546.09' },
  us_fluid_ounce: { of: 'volume', size: '29.5735295625' },
  us_cup: { of: 'volume', size: '236.5882365' },
  us_pint: { of: 'volume', size: '473.176473' },
  us_quart: { of: 'volume', size: '946.352946' },
  us_gallon: { of: 'volume', size: '3785.411784' },
  cubic_foot: { of: 'volume', size: '28316.846592' },
  millimetre: { of: 'length', size: '1' },
  inch: { of: 'length', size: '25.4' },
  joule: { of: 'energy', size: '1' },
  kilowatt_hour: { of: 'energy', size: '3600000' },
  btu: { of: 'energy', size: '1055.05585262' },
  therm_ec: { of: 'energy', size: '105505585.262' },
  therm_us: { of: 'energy', size: '105480400' },
} as const satisfies Record<string, ExactUnit>
export type ExactUnitName = keyof typeof EXACT_UNITS

/**
 * An amount in one unit, said in another of the same dimension.
 *
 * Units: as named; multiplied by one exact size and divided by the other, once, to 60 digits.
 * Source: the definitions in `EXACT_UNITS`.
 */
export function convertedExactly(value: Decimal, from: ExactUnitName, to: ExactUnitName): Decimal {
  const source = EXACT_UNITS[from]
  const target = EXACT_UNITS[to]
  assert(source.of === target.of, `${from} and ${to} measure the same thing`)
  return value.times(source.size).dividedBy(target.size)
}

/**
 * The grams in a mass as it was read.
 *
 * The exact size of the unit times the digits, so that no rounding but the last comes in.
 *
 * Units: any of `MASS_UNITS` to grams; rounded once to ledger scale.
 * Source: the international pound of 1959, 453.59237 g exactly.
 */
export function gramsFrom(mass: Mass): Decimal {
  const grams = decimal(mass.value).times(EXACT_UNITS[mass.unit].size)
  assert(grams.isFinite(), 'a mass is a number')
  return toLedgerScale(grams)
}

/**
 * The grams in a mass that was typed, as text; what is no number comes back as it was typed, for whoever
 * checks the digits to say what is wrong with them.
 *
 * Units: any of `MASS_UNITS` to grams. Source: as `gramsFrom`.
 */
export function gramsTyped(mass: Mass): string {
  return /^\d+(\.\d+)?$/.test(mass.value) ? gramsFrom(mass).toFixed() : mass.value
}

/**
 * The millilitres in a volume as it was read.
 *
 * Units: any of `VOLUME_UNITS` to millilitres; rounded once to ledger scale.
 * Source: the gallons of 4.54609 L (imperial) and 231 cubic inches (US), an eighth of each.
 */
export function millilitresFrom(volume: Volume): Decimal {
  const millilitres = decimal(volume.value).times(EXACT_UNITS[volume.unit].size)
  assert(millilitres.isFinite(), 'a volume is a number')
  return toLedgerScale(millilitres)
}

/**
 * The division of a scale that nobody described, guessed from the last digit of its reading.
 *
 * Whoever writes 12.46 kg reads a scale that shows ten grams; whoever writes 400 g reads one that
 * shows single grams. A scale that steps by twos or fives is coarser than this says, so a named
 * scale is better.
 *
 * Units: any of `MASS_UNITS` to grams; ledger scale.
 * Source: our choice, because the last written digit is all that an unnamed scale leaves behind.
 */
export function divisionGramsFromLastDigit(mass: Mass): Decimal {
  const digitsAfterPoint = mass.value.split('.')[1]?.length ?? 0
  const lastDigit = decimal(10).toPower(-digitsAfterPoint)
  return toLedgerScale(lastDigit.times(EXACT_UNITS[mass.unit].size))
}
