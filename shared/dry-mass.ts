import { assert } from './assert.ts'
import { ONE, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import {
  doubtNegated,
  doubtOfSum,
  doubtTimes,
  standardUncertaintyOfDoubt,
  type Doubt,
} from './doubt.ts'
import type { Standing } from './moisture.ts'
import { Refusal } from './refusal.ts'

/** How a dry mass was come by. */
export const DRY_MASS_METHODS = [
  'dry_test',
  'known_dry_weighed_again',
  'slurry_density',
  'lot_water_content',
  'stated_water_content',
  'studio_tests',
  'body_figure',
  'default_for_state',
  'share_of_holding',
  'fired_weighing',
  'loss_on_ignition',
  'label',
  'stated_dry_mass',
] as const
export type DryMassMethod = (typeof DRY_MASS_METHODS)[number]

export interface DryMassEstimate {
  readonly dryGrams: Decimal
  readonly waterGrams: Decimal
  /** What makes the dry mass unsure, in grams by source. */
  readonly dryDoubt: Doubt
  /** All of it together. */
  readonly standardUncertaintyGrams: Decimal
  readonly method: DryMassMethod
  readonly standing: Standing
}

/** A dry mass with what makes it unsure. Units: grams, ledger scale. Source: as `Doubt`. */
export function dryMassEstimate(
  known: Omit<DryMassEstimate, 'standardUncertaintyGrams'>,
): DryMassEstimate {
  return { ...known, standardUncertaintyGrams: standardUncertaintyOfDoubt(known.dryDoubt) }
}

/**
 * Dry clay and water in a wet mass of known water content.
 *
 * The dry clay is what is not water; the water is the remainder, so that the two make up the mass.
 * The dry mass is unsure through what the scale left open and through the water content. A source that
 * speaks of both, as the density of a slurry does of its mass and of its water, counts once.
 *
 * Units: grams at ledger scale, fractions of the wet mass. `dryGrams + waterGrams = netGrams`.
 * Source: the definition of the wet basis; GUM, JCGM 100:2008, 5.1.2 and 5.2.2 (from memory).
 */
export function dryMassFromWet(wet: {
  readonly netGrams: Decimal
  /** In grams by source. */
  readonly netDoubt: Doubt
  readonly waterContentWetBasis: Decimal
  /** In fractions of the wet mass by source; more is wetter. */
  readonly waterDoubt: Doubt
  readonly method: DryMassMethod
  readonly standing: Standing
}): DryMassEstimate {
  const { netGrams, waterContentWetBasis, method, standing } = wet
  assert(netGrams.greaterThanOrEqualTo(0), 'a mass is not below zero')
  assert(
    waterContentWetBasis.greaterThanOrEqualTo(0) && waterContentWetBasis.lessThanOrEqualTo(1),
    'a water content is a fraction of the wet mass',
  )
  const dryFraction = ONE.minus(waterContentWetBasis)
  const dryGrams = toLedgerScale(netGrams.times(dryFraction))
  return dryMassEstimate({
    dryGrams,
    waterGrams: netGrams.minus(dryGrams),
    dryDoubt: doubtOfSum([
      doubtTimes(wet.netDoubt, dryFraction),
      doubtNegated(doubtTimes(wet.waterDoubt, netGrams)),
    ]),
    method,
    standing,
  })
}

/**
 * The water in a load whose dry clay is known from before.
 *
 * Water comes and goes, the clay stays: what the load weighs above its dry clay is water. The dry
 * mass is as uncertain as it was, and stands no better than an estimate unless the caller knows more.
 *
 * Units: grams at ledger scale. `dryGrams + waterGrams = netGrams`.
 * Refuses: `reading_must_not_be_below_known_dry`.
 * Source: conservation of the dry clay.
 */
export function dryMassKnown(load: {
  readonly knownDryGrams: Decimal
  readonly knownDoubt: Doubt
  readonly netGrams: Decimal
  readonly standing?: Standing
}): DryMassEstimate {
  const { knownDryGrams, knownDoubt, netGrams, standing = 'estimated' } = load
  if (netGrams.lessThan(knownDryGrams)) {
    throw new Refusal(
      'reading_must_not_be_below_known_dry',
      `This load holds ${knownDryGrams.toFixed()} g of dry clay and cannot weigh ${netGrams.toFixed()} g. If clay was taken off it, record that first; where its dry clay was only assumed, weigh it with a water content or count it.`,
    )
  }
  return dryMassEstimate({
    dryGrams: knownDryGrams,
    waterGrams: netGrams.minus(knownDryGrams),
    dryDoubt: knownDoubt,
    method: 'known_dry_weighed_again',
    standing,
  })
}
