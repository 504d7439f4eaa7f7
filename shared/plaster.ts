import { assert } from './assert.ts'
import { Decimal, ONE, ZERO, decimal, toLedgerScale } from './decimal.ts'
import { Refusal } from './refusal.ts'
import { dryBasisFromWetBasis } from './water.ts'

/** A plaster bat without its load: its own mass when dry, and now. */
export interface BatWeighed {
  readonly dryGrams: Decimal
  readonly nowGrams: Decimal
  /** Given where it was not weighed now: it weighs `nowGrams` at most, and this at least. */
  readonly leastGrams?: Decimal
}

export interface BatThirst {
  /** Water in the plaster; the most that it can be where the bat was not weighed. */
  readonly holdsGrams: Decimal
  readonly heldFractionOfDry: Decimal
  /** The least that it can be; the same where the bat was weighed. */
  readonly leastHeldFractionOfDry: Decimal
  /**
   * What it drinks still at least, holding the most that it can and sated at the low end of the common
   * range; and at most, holding the least that it can and sated at the high end.
   */
  readonly drinksStillGramsMin: Decimal
  readonly drinksStillGramsMax: Decimal
}

export interface SlabWater {
  readonly waterGrams: Decimal
  readonly waterContentWetBasis: Decimal
  /** What the slab weighs when it is ready. */
  readonly readyGrams: Decimal
  /** Water that has to leave yet; below zero where too much has left. */
  readonly waterToGoGrams: Decimal
}

export interface PairReading {
  readonly evaporatedGrams: Decimal
  /** Water in clay and plaster together: a weighing of both cannot say which holds it. */
  readonly waterInBothGrams: Decimal
  /** What the clay would hold if the plaster had drunk nothing. */
  readonly waterContentWetBasisMax: Decimal
}

/** The free water that a bat takes up before it is sated, as fractions of its dry mass. */
const SATED_FRACTION_MIN = decimal('0.05')
const SATED_FRACTION_MAX = decimal('0.15')

/**
 * What a bat holds and can still drink.
 *
 * Its pores could hold three times as much, but it stops drawing long before they are full. What a bat
 * holds that was not weighed lies between two ends, and what it can still drink with it.
 *
 * Units: grams at ledger scale; a fraction of the dry mass, 60 digits.
 * Refuses: `reading_must_not_be_below_known_dry`.
 * Source: common practice, no source: 5 to 15 per cent of the bat's dry mass.
 */
export function batThirst({ dryGrams, nowGrams, leastGrams = nowGrams }: BatWeighed): BatThirst {
  assert(dryGrams.greaterThan(0), 'a bat weighs something')
  if (nowGrams.lessThan(dryGrams)) {
    throw new Refusal(
      'reading_must_not_be_below_known_dry',
      `The bat weighs ${nowGrams.toFixed()} g and is known to weigh ${dryGrams.toFixed()} g dry. If it is chipped or was never dry before, give it a new dry mass.`,
    )
  }
  const holdsGrams = nowGrams.minus(dryGrams)
  const leastHeldGrams = Decimal.max(ZERO, leastGrams.minus(dryGrams))
  const stillUpTo = (fraction: Decimal, heldGrams: Decimal) =>
    toLedgerScale(Decimal.max(ZERO, dryGrams.times(fraction).minus(heldGrams)))
  return {
    holdsGrams,
    heldFractionOfDry: holdsGrams.dividedBy(dryGrams),
    leastHeldFractionOfDry: leastHeldGrams.dividedBy(dryGrams),
    drinksStillGramsMin: stillUpTo(SATED_FRACTION_MIN, holdsGrams),
    drinksStillGramsMax: stillUpTo(SATED_FRACTION_MAX, leastHeldGrams),
  }
}

/**
 * What a weighing of the bat with its load says: how much has evaporated, and no more.
 *
 * What the clay gave the plaster is still on the scale. Taking the dry bat off leaves the clay with all
 * of the plaster's water in it, so that figure is only the most that the clay can hold.
 *
 * Units: grams, exact; a fraction of the wet mass, 60 digits.
 * Refuses: `sample_must_not_dry_heavier`, `reading_must_not_be_below_known_dry`.
 * Source: mass balance.
 */
export function readingWithPlaster(pair: {
  readonly batDryGrams: Decimal
  readonly clayDryGrams: Decimal
  readonly pairAtFirstGrams: Decimal
  readonly pairNowGrams: Decimal
}): PairReading {
  const { batDryGrams, clayDryGrams, pairAtFirstGrams, pairNowGrams } = pair
  if (pairNowGrams.greaterThan(pairAtFirstGrams)) {
    throw new Refusal(
      'sample_must_not_dry_heavier',
      `Bat and clay weighed ${pairAtFirstGrams.toFixed()} g together and now weigh ${pairNowGrams.toFixed()} g. Water leaves them into the air and does not come back, so one of the two readings is of something else.`,
    )
  }
  const upToGrams = pairNowGrams.minus(batDryGrams)
  if (upToGrams.lessThan(clayDryGrams)) {
    throw new Refusal(
      'reading_must_not_be_below_known_dry',
      `The dry bat and the dry clay alone weigh ${batDryGrams.plus(clayDryGrams).toFixed()} g; bat and clay cannot weigh ${pairNowGrams.toFixed()} g together.`,
    )
  }
  const waterInBothGrams = upToGrams.minus(clayDryGrams)
  return {
    evaporatedGrams: pairAtFirstGrams.minus(pairNowGrams),
    waterInBothGrams,
    waterContentWetBasisMax: upToGrams.isZero() ? ZERO : waterInBothGrams.dividedBy(upToGrams),
  }
}

/**
 * The water in a slab weighed alone, and how much of it has to leave yet.
 *
 * The dry clay stays, so what the slab weighs above it is water.
 *
 * Units: grams at ledger scale; fractions of the wet mass.
 * Refuses: `reading_must_not_be_below_known_dry`.
 * Source: conservation of the dry clay and the definition of the wet basis.
 */
export function slabWater(slab: {
  readonly dryGrams: Decimal
  readonly slabGrams: Decimal
  readonly targetWaterContentWetBasis: Decimal
}): SlabWater {
  const { dryGrams, slabGrams, targetWaterContentWetBasis } = slab
  assert(dryGrams.greaterThan(0), 'a slab holds dry clay')
  if (slabGrams.lessThan(dryGrams)) {
    throw new Refusal(
      'reading_must_not_be_below_known_dry',
      `This slab holds ${dryGrams.toFixed()} g of dry clay and cannot weigh ${slabGrams.toFixed()} g.`,
    )
  }
  const waterGrams = slabGrams.minus(dryGrams)
  const readyGrams = toLedgerScale(
    dryGrams.times(ONE.plus(dryBasisFromWetBasis(targetWaterContentWetBasis))),
  )
  return {
    waterGrams,
    waterContentWetBasis: waterGrams.dividedBy(slabGrams),
    readyGrams,
    waterToGoGrams: slabGrams.minus(readyGrams),
  }
}

/**
 * Where the water that left a slab has gone: into the plaster, and into the air.
 *
 * Units: grams, exact. The plaster's share and the air's add up to what left.
 * Refuses: `reading_must_not_be_below_known_dry`, `parts_must_not_exceed_the_whole`.
 * Source: mass balance.
 */
export function whereWaterWent(load: {
  readonly pouredGrams: Decimal
  readonly slabGrams: Decimal
  readonly bat: BatWeighed
}): {
  readonly leftGrams: Decimal
  readonly drunkGrams: Decimal
  readonly evaporatedGrams: Decimal
} {
  const leftGrams = load.pouredGrams.minus(load.slabGrams)
  const drunkGrams = batThirst(load.bat).holdsGrams
  if (drunkGrams.greaterThan(leftGrams)) {
    throw new Refusal(
      'parts_must_not_exceed_the_whole',
      `The slab lost ${leftGrams.toFixed()} g and the bat holds ${drunkGrams.toFixed()} g. The bat was not dry before, or clay was left on it.`,
    )
  }
  return { leftGrams, drunkGrams, evaporatedGrams: leftGrams.minus(drunkGrams) }
}
