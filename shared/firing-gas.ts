import { assert } from './assert.ts'
import { decimal, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { unknownEnergy } from './firing-energy.ts'
import type { FiringEnergy } from './firing-energy.ts'
import { convertedExactly } from './units.ts'

/** Gas that was weighed, with the energy in it for comparison; its cost is its own, by mass. */
export interface GasBurnt extends FiringEnergy {
  /** Null where it cannot be told. */
  readonly burntGrams: Decimal | null
}

/** BTU in a US gallon of propane. Source: the trade's round figure (from memory). */
const PROPANE_BTU_A_US_GALLON = decimal(91_000)

/** Grams in that gallon. Source: the trade's round figure (from memory). */
const PROPANE_GRAMS_A_US_GALLON = decimal(1_900)

/**
 * The energy in propane, for comparison with electricity only.
 *
 * Units: kilowatt-hours a gram, gross; 60 digits.
 * Source: about 91 000 BTU and 1.9 kg in a US gallon (from memory); the BTU is exact.
 */
export const PROPANE_KILOWATT_HOURS_PER_GRAM: Decimal = convertedExactly(
  PROPANE_BTU_A_US_GALLON,
  'btu',
  'kilowatt_hour',
).dividedBy(PROPANE_GRAMS_A_US_GALLON)

/** How far that figure may be off, as a fraction. Our choice: bottled propane is never quite pure. */
export const GAS_CONTENT_RELATIVE_UNCERTAINTY = decimal('0.03')

export type GasWeighed =
  | {
      readonly cylinderBeforeGrams: Decimal
      readonly cylinderAfterGrams: Decimal
      readonly divisionGrams: Decimal
    }
  | { readonly burntGrams: Decimal; readonly divisionGrams: Decimal }

/**
 * The gas of a firing by weighing the cylinder, or as the grams that somebody says were burnt.
 *
 * Valve and hose must be the same at both weighings. A cylinder that did not get lighter tells no gas,
 * and a reason comes back.
 *
 * Shape: grams of zero or more; what is said to be burnt is above zero.
 * Units: grams at ledger scale; kilowatt-hours for comparison, with the content given or propane's.
 * The uncertainty is of those kilowatt-hours: scale and content together.
 * Errors: none; `whyNot` is `cylinder_grew_heavier` or `cylinder_kept_its_weight`.
 * Source: JCGM 100:2008, 4.3.7 and 5.1.2 (from memory); `PROPANE_KILOWATT_HOURS_PER_GRAM`.
 */
export function gasBurnt(
  weighed: GasWeighed,
  kilowattHoursPerGram: Decimal = PROPANE_KILOWATT_HOURS_PER_GRAM,
): GasBurnt {
  if ('burntGrams' in weighed) {
    assert(weighed.burntGrams.greaterThan(0), 'gas that is said to be burnt weighs something')
    return told({ ...weighed, readings: 1, kilowattHoursPerGram })
  }
  const { cylinderBeforeGrams: before, cylinderAfterGrams: after, divisionGrams } = weighed
  assert(!before.isNegative() && !after.isNegative(), 'a cylinder weighs nothing below zero')
  const read = `The cylinder weighed ${before.toFixed()} g before and ${after.toFixed()} g after.`
  if (after.greaterThan(before)) {
    return untold('cylinder_grew_heavier', `${read} Was it another cylinder, or were they swapped?`)
  }
  if (after.equals(before)) {
    return untold('cylinder_kept_its_weight', `${read} No gas went. Was it this cylinder?`)
  }
  const burntGrams = before.minus(after)
  return told({ burntGrams, divisionGrams, readings: 2, kilowattHoursPerGram })
}

function told(gas: {
  readonly burntGrams: Decimal
  readonly divisionGrams: Decimal
  readonly readings: number
  readonly kilowattHoursPerGram: Decimal
}): GasBurnt {
  const burntGrams = toLedgerScale(gas.burntGrams)
  const kilowattHours = toLedgerScale(burntGrams.times(gas.kilowattHoursPerGram))
  const ofScale = gas.divisionGrams.dividedBy(burntGrams).pow(2).times(gas.readings).dividedBy(12)
  const relative = ofScale.plus(GAS_CONTENT_RELATIVE_UNCERTAINTY.pow(2)).sqrt()
  return {
    how: 'gas_weighed',
    burntGrams,
    kilowattHours,
    standing: 'measured',
    relativeStandardUncertainty: toLedgerScale(relative),
    whyNot: null,
    words: `${burntGrams.toFixed()} g of gas, about ${kilowattHours.toDecimalPlaces(1).toFixed()} kWh to compare.`,
  }
}

function untold(
  whyNot: 'cylinder_grew_heavier' | 'cylinder_kept_its_weight',
  words: string,
): GasBurnt {
  return { ...unknownEnergy('gas_weighed', { whyNot, words }), burntGrams: null }
}
