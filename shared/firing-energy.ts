import { assert, present } from './assert.ts'
import { ONE, ZERO, decimal, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import type { KilnKind } from './kiln-load.ts'
import type { Standing } from './moisture.ts'
import { convertedExactly } from './units.ts'
import type { ExactUnitName } from './units.ts'

/** How an energy came to be known, the best first; gas is another fuel and comes on top. */
export const ENERGY_HOW = ['meter', 'said', 'usual', 'rule', 'gas_weighed'] as const
export type EnergyHow = (typeof ENERGY_HOW)[number]

/** Why no energy can be told. */
export type EnergyWhyNot =
  | 'meter_ran_over_or_was_swapped'
  | 'meter_did_not_move'
  | 'rate_is_no_total'
  | 'cylinder_grew_heavier'
  | 'cylinder_kept_its_weight'
  | 'no_metered_firing_yet'

export interface FiringEnergy {
  readonly how: EnergyHow
  /** Null where it cannot be told; `whyNot` then says why. */
  readonly kilowattHours: Decimal | null
  readonly standing: Standing
  /** A fraction of the energy. */
  readonly relativeStandardUncertainty: Decimal | null
  readonly whyNot: EnergyWhyNot | null
  readonly words: string
}

/** An energy that could be told. */
export type KnownEnergy = FiringEnergy & { readonly kilowattHours: Decimal }

/** How far a meter itself may be off, as a fraction. Our choice: about what a household meter is allowed. */
export const METER_RELATIVE_UNCERTAINTY = decimal('0.01')

/** How far the rule of rated power may be off, as a fraction. Our choice: elements age, firings differ. */
export const RULE_RELATIVE_UNCERTAINTY = decimal('0.25')

/** The same where the kiln's usual hours stand for hours that nobody read. Our choice. */
export const RULE_WITH_USUAL_HOURS_RELATIVE_UNCERTAINTY = decimal('0.35')

/** How far one firing strays from a kiln's usual before there is a spread to go by, as a fraction. Our choice. */
export const USUAL_RELATIVE_SPREAD = decimal('0.10')

/** For how many degrees of freedom that first guess of the spread counts. Our choice. */
const USUAL_SPREAD_DEGREES = 2

/**
 * The part of its hours for which a kiln draws its rated power.
 *
 * Units: fractions. Source: a rule of the trade (from memory), for candling, a bisque, and a glaze
 * firing to cone 6; it is no better than `RULE_RELATIVE_UNCERTAINTY` says.
 */
export const RATED_DUTY: Readonly<Record<KilnKind | 'candling', Decimal>> = {
  candling: decimal('0.15'),
  bisque: decimal('0.50'),
  glaze: decimal('0.65'),
}

/**
 * The energy between two readings of a meter.
 *
 * A meter that reads less afterwards ran past its last digit, was swapped, or was read the wrong way
 * round: which of these nobody can tell from the readings, so there is no energy then, but a reason.
 *
 * Shape: readings of zero or more; the division is the step of the last digit.
 * Units: kilowatt-hours, ledger scale; the uncertainty is a fraction at ledger scale.
 * Errors: none; `whyNot` is `meter_ran_over_or_was_swapped` or `meter_did_not_move`.
 * Source: JCGM 100:2008, 4.3.7 (from memory): a rectangle of one division for each reading; the
 * meter's own error is our choice.
 */
export function energyByMeter(meter: {
  readonly before: Decimal
  readonly after: Decimal
  readonly division: Decimal
}): FiringEnergy {
  const { before, after, division } = meter
  assert(
    !before.isNegative() && !after.isNegative() && !division.isNegative(),
    'a meter reads nothing below zero',
  )
  const read = `The meter read ${before.toFixed()} before and ${after.toFixed()} after.`
  if (after.lessThan(before)) {
    return unknownEnergy('meter', {
      whyNot: 'meter_ran_over_or_was_swapped',
      words: `${read} It ran past its last digit, was changed, or the two were swapped. Say the kilowatt-hours instead.`,
    })
  }
  if (after.equals(before)) {
    return unknownEnergy('meter', {
      whyNot: 'meter_did_not_move',
      words: `${read} It did not move. Is it the meter of this kiln?`,
    })
  }
  const kilowattHours = toLedgerScale(after.minus(before))
  return {
    ...known('meter', kilowattHours, relativeOfReadings(kilowattHours, division)),
    words: `${kilowattHours.toFixed()} kWh by the meter.`,
  }
}

export const ENERGY_UNITS_SAID = ['kilowatt_hour', 'btu', 'therm_ec', 'therm_us'] as const
export const ENERGY_RATES = ['kilowatt', 'btu_per_hour', 'btu_per_hour_per_cubic_foot'] as const
export type EnergyUnitSaid = (typeof ENERGY_UNITS_SAID)[number]
/** What a burner or a kiln is rated by: energy in each hour, which is no energy of a firing. */
export type EnergyRate = (typeof ENERGY_RATES)[number]

const RATE_WORDS: Readonly<Record<EnergyRate, string>> = {
  kilowatt: 'Kilowatts say',
  btu_per_hour: 'BTU per hour say',
  btu_per_hour_per_cubic_foot: 'BTU per hour per cubic foot say',
}

/**
 * The energy that somebody read off and said.
 *
 * A rate, as of a burner, is no energy of a firing: it is not taken for one, and a reason comes back.
 *
 * Shape: above zero; the division is the step of its last digit, in the same unit.
 * Units: as named, converted exactly to kilowatt-hours at ledger scale.
 * Errors: none; `whyNot` is `rate_is_no_total`.
 * Source: `EXACT_UNITS`; uncertainty as `energyByMeter`, with one reading.
 */
export function energyAsSaid(said: {
  readonly value: Decimal
  readonly unit: EnergyUnitSaid | EnergyRate
  readonly division: Decimal
}): FiringEnergy {
  const { value, unit, division } = said
  if (isRate(unit)) {
    return unknownEnergy('said', {
      whyNot: 'rate_is_no_total',
      words: `${RATE_WORDS[unit]} how fast it burns, not how much it burnt. Read a meter or weigh the cylinder.`,
    })
  }
  assert(value.greaterThan(0), 'an energy that is said is above zero')
  const exact: ExactUnitName = unit
  const kilowattHours = toLedgerScale(convertedExactly(value, exact, 'kilowatt_hour'))
  const ofReading = division.dividedBy(value).pow(2).dividedBy(12)
  return {
    ...known('said', kilowattHours, ofReading.plus(METER_RELATIVE_UNCERTAINTY.pow(2)).sqrt()),
    words: `${kilowattHours.toDecimalPlaces(2).toFixed()} kWh as said.`,
  }
}

/**
 * The energy by the stated rule: rated power, hours, and the part of the hours in which it draws it.
 *
 * Shape: power and hours above zero; a duty from 0 (excluded) to 1, the rule's own where none is said.
 * Units: kilowatts and hours to kilowatt-hours, ledger scale.
 * Source: `RATED_DUTY`; the relative uncertainty is our choice. Estimated where the hours were read,
 * assumed where they are the kiln's usual.
 */
export function energyByRule(kiln: {
  readonly ratedKilowatts: Decimal
  readonly hours: Decimal
  readonly doing: KilnKind | 'candling'
  readonly dutyFraction?: Decimal
  readonly hoursAreUsual?: boolean
}): KnownEnergy {
  const { ratedKilowatts, hours, doing, hoursAreUsual = false } = kiln
  const duty = kiln.dutyFraction ?? RATED_DUTY[doing]
  assert(ratedKilowatts.greaterThan(0) && hours.greaterThan(0), 'power and hours are above zero')
  assert(duty.greaterThan(0) && duty.lessThanOrEqualTo(1), 'a duty is a part of the hours')
  const rule = `${ratedKilowatts.toFixed()} kW × ${hours.toFixed()} h × ${duty.toFixed(2)}`
  const kilowattHours = toLedgerScale(ratedKilowatts.times(hours).times(duty))
  return {
    how: 'rule',
    kilowattHours,
    standing: hoursAreUsual ? 'assumed' : 'estimated',
    relativeStandardUncertainty: hoursAreUsual
      ? RULE_WITH_USUAL_HOURS_RELATIVE_UNCERTAINTY
      : RULE_RELATIVE_UNCERTAINTY,
    whyNot: null,
    words: `About ${kilowattHours.toDecimalPlaces(1).toFixed()} kWh: ${rule}${hoursAreUsual ? ', with its usual hours' : ''}. A meter reading is better.`,
  }
}

/**
 * What a kiln usually takes: the mean of its metered firings of that kind.
 *
 * The uncertainty is that of one firing more: the spread of the past ones, and that their mean is not
 * quite the kiln's. While they are few, the spread leans on a first guess of ours.
 *
 * Shape: energies above zero of one kiln and one kind, in any order; none is allowed.
 * Units: kilowatt-hours, ledger scale.
 * Errors: none; `whyNot` is `no_metered_firing_yet`.
 * Source: JCGM 100:2008, 4.2 (from memory), for mean and variance; the first guess of the spread and
 * its two degrees of freedom are our choice.
 */
export function energyByUsual(pastKilowattHours: readonly Decimal[]): FiringEnergy {
  const count = pastKilowattHours.length
  if (count === 0) {
    return unknownEnergy('usual', {
      whyNot: 'no_metered_firing_yet',
      words: 'No firing of this kind was metered in this kiln yet.',
    })
  }
  assert(
    pastKilowattHours.every((one) => one.greaterThan(0)),
    'a metered firing took something',
  )
  const mean = sumOf(pastKilowattHours).dividedBy(count)
  const squares = sumOf(pastKilowattHours.map((one) => one.minus(mean).pow(2)))
  const guessed = mean.times(USUAL_RELATIVE_SPREAD).pow(2).times(USUAL_SPREAD_DEGREES)
  const variance = squares.plus(guessed).dividedBy(count - 1 + USUAL_SPREAD_DEGREES)
  const ofOneMore = variance.times(ONE.plus(ONE.dividedBy(count))).sqrt()
  const kilowattHours = toLedgerScale(mean)
  const firings = count === 1 ? 'one metered firing' : `the mean of ${count} metered firings`
  return {
    how: 'usual',
    kilowattHours,
    standing: 'estimated',
    relativeStandardUncertainty: toLedgerScale(ofOneMore.dividedBy(mean)),
    whyNot: null,
    words: `About ${kilowattHours.toDecimalPlaces(1).toFixed()} kWh, as usual for this kiln: ${firings} of this kind.`,
  }
}

/**
 * The best of what is known of one firing's electricity: meter, then as said, then usual, then rule.
 *
 * What a better way could not tell stays in the words. Gas weighed is another fuel, never a stand-in
 * for electricity: `energyTogether` adds it.
 *
 * Shape: one way or more, in any order, none of them gas. Units: as given.
 * Source: our choice of order: what was read beats what was reckoned.
 */
export function bestOfElectricity(ways: readonly FiringEnergy[]): FiringEnergy {
  assert(ways.length > 0, 'there is a way to know the energy')
  assert(
    ways.every(({ how }) => how !== 'gas_weighed'),
    'gas is added to electricity and does not replace it',
  )
  const ranked = [...ways].sort((one, other) => rankOf(one) - rankOf(other))
  const best = ranked.find(isKnown) ?? present(ranked[0], 'there is a way to know the energy')
  const better = ranked.slice(0, ranked.indexOf(best)).map(({ words }) => words)
  return better.length === 0 ? best : { ...best, words: [...better, best.words].join(' ') }
}

/**
 * Energies that add up, as candling and firing of one load, or electricity and gas of one kiln.
 *
 * Parts that are known in the same way are off together: one rated power, one meter, one scale.
 *
 * Shape: one or more that are known. Units: kilowatt-hours, ledger scale; the standing is that of the
 * weakest part.
 * Source: JCGM 100:2008, 5.1.2 and 5.2.2 (from memory): independent ways in quadrature, parts of one
 * way as they are.
 */
export function energyTogether(parts: readonly KnownEnergy[]): KnownEnergy {
  const first = present(parts[0], 'there is an energy to add')
  if (parts.length === 1) return first
  const kilowattHours = sumOf(parts.map((part) => part.kilowattHours))
  const variance = sumOf(
    ENERGY_HOW.map((how) => sumOf(parts.filter((part) => part.how === how).map(doubtOf)).pow(2)),
  )
  const weakest = [...parts].sort((one, other) => weaknessOf(other) - weaknessOf(one))[0] ?? first
  return {
    how: weakest.how,
    kilowattHours,
    standing: weakest.standing,
    relativeStandardUncertainty: kilowattHours.isZero()
      ? ZERO
      : toLedgerScale(variance.sqrt().dividedBy(kilowattHours)),
    whyNot: null,
    words: parts.map(({ words }) => words).join(' '),
  }
}

/** Whether an energy could be told. Units: none. Source: the definition. */
export function isKnown(energy: FiringEnergy): energy is KnownEnergy {
  return energy.kilowattHours !== null
}

/** An energy that cannot be told, and why not. Units: none. Source: our choice of words. */
export function unknownEnergy(
  how: EnergyHow,
  { whyNot, words }: { readonly whyNot: EnergyWhyNot; readonly words: string },
): FiringEnergy {
  return {
    ...{ how, kilowattHours: null, standing: 'assumed', relativeStandardUncertainty: null },
    ...{ whyNot, words },
  }
}

function known(how: EnergyHow, kilowattHours: Decimal, relative: Decimal) {
  return {
    how,
    kilowattHours,
    standing: 'measured' as const,
    relativeStandardUncertainty: toLedgerScale(relative),
    whyNot: null,
  }
}

function relativeOfReadings(kilowattHours: Decimal, division: Decimal): Decimal {
  const ofReadings = division.dividedBy(kilowattHours).pow(2).dividedBy(6)
  return ofReadings.plus(METER_RELATIVE_UNCERTAINTY.pow(2)).sqrt()
}

function isRate(unit: EnergyUnitSaid | EnergyRate): unit is EnergyRate {
  return (ENERGY_RATES as readonly string[]).includes(unit)
}

function rankOf({ how }: FiringEnergy): number {
  return ENERGY_HOW.indexOf(how)
}

function doubtOf({ kilowattHours, relativeStandardUncertainty }: KnownEnergy): Decimal {
  return kilowattHours.times(relativeStandardUncertainty ?? ZERO)
}

const FROM_SURE_TO_WEAK: readonly Standing[] = ['measured', 'estimated', 'assumed']

function weaknessOf({ standing }: FiringEnergy): number {
  return FROM_SURE_TO_WEAK.indexOf(standing)
}

function sumOf(amounts: readonly Decimal[]): Decimal {
  return amounts.reduce((sum, amount) => sum.plus(amount), ZERO)
}
