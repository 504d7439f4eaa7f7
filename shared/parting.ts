import { costLeaving } from './cost.ts'
import { Decimal, toLedgerScale, ZERO } from './decimal.ts'
import { proportionalPart, type Held, type Quantities } from './quantity.ts'

/** What leaves a holding, and what that does to how sure we are of both ends. */
export interface Parting {
  readonly leaves: Quantities
  /** How unsure the dry mass that leaves is, as it arrives. Units: grams. */
  readonly leavesUncertaintyGrams: Decimal
  /** Added to the variance of the dry mass that stays, g². */
  readonly varianceAtSource: Decimal
  /** Added to the variance of the dry mass where it arrives, g². */
  readonly varianceAtGoal: Decimal
}

/** A share that leaves a holding, and how unsure the wet reading was that says how much. */
export interface ShareTaken {
  readonly dryGrams: Decimal
  readonly pieces?: Decimal
  readonly readingUncertaintyGrams?: Decimal | undefined
}

/** Variances keep twice the digits of the ledger, being squares. */
const VARIANCE_SCALE = 12

/**
 * A share of a holding that leaves it, known as a fraction of what is there.
 *
 * Water, cost and uncertainty go in proportion to dry mass: one doubtful water content makes all of
 * its clay doubtful together, so a third of the clay takes a third of the standard uncertainty.
 *
 * Units: grams, money, g². Moving average: the whole takes all cost, to the last digit.
 * Source: our choice, after the moving weighted average of IAS 2 paragraph 27.
 */
export function partByShare(held: Held, taken: ShareTaken): Parting {
  const share = { part: taken.dryGrams, whole: held.dryGrams }
  const stays = held.dryGrams.minus(taken.dryGrams)
  const reading = stays.isZero() ? ZERO : readingVariance(held, taken.readingUncertaintyGrams)
  const squared = (amount: Decimal) =>
    held.dryGrams.isZero()
      ? ZERO
      : Decimal.max(held.dryVariance, 0)
          .times(amount.pow(2))
          .dividedBy(held.dryGrams.pow(2))
          .toDecimalPlaces(VARIANCE_SCALE)
  return {
    leaves: {
      dryGrams: taken.dryGrams,
      waterGrams: proportionalPart({ amount: held.waterGrams, ...share }),
      pieces: taken.pieces ?? ZERO,
      cost: costLeaving(held, taken.dryGrams),
    },
    leavesUncertaintyGrams: uncertaintyOf(squared(taken.dryGrams).plus(reading)),
    varianceAtSource: squared(stays).minus(held.dryVariance).plus(reading),
    varianceAtGoal: squared(taken.dryGrams).plus(reading),
  }
}

/** What a doubtful wet reading leaves open of the dry clay in it: only its dry part counts. */
function readingVariance(held: Quantities, wetUncertaintyGrams: Decimal | undefined): Decimal {
  const wetGrams = held.dryGrams.plus(held.waterGrams)
  if (wetUncertaintyGrams === undefined || wetGrams.isZero()) return ZERO
  return varianceOf(wetUncertaintyGrams.times(held.dryGrams).dividedBy(wetGrams))
}

/**
 * A measured amount that leaves a holding.
 *
 * What was weighed out is doubtful by its own measurement, and what stays by as much more. Where all
 * of it leaves, nothing stays to be doubtful of.
 *
 * Units: grams, money, g². Source: JCGM 100:2008, 5.1.2 (sums of independent readings).
 */
export function partByMeasure(
  held: Held,
  taken: { dryGrams: Decimal; standardUncertaintyGrams: Decimal; pieces?: Decimal },
): Parting {
  const { dryGrams, pieces } = taken
  const byShare = partByShare(held, { dryGrams, ...(pieces === undefined ? {} : { pieces }) })
  const variance = varianceOf(taken.standardUncertaintyGrams)
  const leavesAll = taken.dryGrams.equals(held.dryGrams)
  return {
    leaves: byShare.leaves,
    leavesUncertaintyGrams: taken.standardUncertaintyGrams,
    varianceAtSource: leavesAll ? held.dryVariance.negated() : variance,
    varianceAtGoal: variance,
  }
}

/** The standard uncertainty behind a variance. Units: g from g², ledger scale. */
function uncertaintyOf(variance: Decimal): Decimal {
  return toLedgerScale(variance.sqrt())
}

/**
 * What clay that is known only as a share of another holding adds to a holding's variance.
 *
 * Bag after bag of one doubtful delivery is doubtful by the same water content, so the uncertainties
 * themselves add up, and moving clay about never makes it surer. Of clays that have nothing to do with
 * each other this says too much doubt rather than too little.
 *
 * Units: g². Source: JCGM 100:2008, 5.2.2, note 1: fully correlated inputs add linearly.
 */
export function varianceJoining(held: Decimal, arriving: Decimal): Decimal {
  const together = Decimal.max(held, 0).sqrt().plus(Decimal.max(arriving, 0).sqrt()).pow(2)
  return together.minus(Decimal.max(held, 0)).toDecimalPlaces(VARIANCE_SCALE)
}

/** The variance of a dry mass. Units: g² from g. */
export function varianceOf(standardUncertaintyGrams: Decimal): Decimal {
  return standardUncertaintyGrams.pow(2).toDecimalPlaces(VARIANCE_SCALE)
}

/**
 * The dry clay in a wet mass taken from a holding of one known water content.
 *
 * Units: grams; ledger scale. All of the wet mass gives all of the dry mass.
 * Source: mass balance.
 */
export function dryGramsInWetMass(held: Quantities, wetGrams: Decimal): Decimal {
  const heldWetGrams = held.dryGrams.plus(held.waterGrams)
  if (heldWetGrams.isZero() || wetGrams.equals(heldWetGrams)) return held.dryGrams
  return toLedgerScale(wetGrams.times(held.dryGrams).dividedBy(heldWetGrams))
}
