import { costLeaving } from './cost.ts'
import { toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import {
  doubtOfDifference,
  doubtOfPart,
  doubtOfSum,
  doubtTimes,
  NO_DOUBT,
  type Doubt,
} from './doubt.ts'
import { proportionalPart, type Held, type Quantities } from './quantity.ts'

/** A share that leaves a holding, and how unsure the wet reading was that says how much. */
export interface ShareTaken {
  readonly dryGrams: Decimal
  readonly pieces?: Decimal
  readonly readingDoubt?: Doubt | undefined
}

/** An amount that was measured as it left, or as it came to light. */
export interface MeasureTaken {
  readonly dryGrams: Decimal
  readonly dryDoubt: Doubt
  readonly pieces?: Decimal
}

/**
 * A share of a holding that leaves it, known as a fraction of what is there.
 *
 * Water, cost and doubt go in proportion to dry mass: one doubtful water content makes all of its clay
 * doubtful together, so a third of the clay takes a third of it. What the reading of the share leaves
 * open, one end has more and the other less.
 *
 * Units: grams, money. Moving average: the whole takes all cost, to the last digit.
 * Source: our choice, after the moving weighted average of IAS 2 paragraph 27; JCGM 100:2008, 5.2.2.
 */
export function partByShare(held: Held, taken: ShareTaken): Quantities {
  const share = { part: taken.dryGrams, whole: held.dryGrams }
  const reading = taken.dryGrams.equals(held.dryGrams) ? NO_DOUBT : dryPartOf(held, taken)
  return {
    dryGrams: taken.dryGrams,
    waterGrams: proportionalPart({ amount: held.waterGrams, ...share }),
    pieces: taken.pieces ?? ZERO,
    cost: costLeaving(held, taken.dryGrams),
    dryDoubt: doubtOfSum([doubtOfPart(held.dryDoubt, share), reading]),
    costDoubt: doubtOfSum([doubtOfPart(held.costDoubt, share), costOf(held, reading)]),
  }
}

/** What a doubtful wet reading leaves open of the dry clay in it: only its dry part counts. */
function dryPartOf(held: Quantities, { readingDoubt }: ShareTaken): Doubt {
  const wetGrams = held.dryGrams.plus(held.waterGrams)
  if (readingDoubt === undefined || wetGrams.isZero()) return NO_DOUBT
  return doubtOfPart(readingDoubt, { part: held.dryGrams, whole: wetGrams })
}

/**
 * A measured amount that leaves a holding.
 *
 * What was weighed out is doubtful by its own measurement, and what stays is doubtful by what it was and
 * by that measurement together. Its cost is doubtful through both: how much left, and out of how much.
 *
 * Units: grams, money. Source: JCGM 100:2008, 5.1.2 and 5.2.2, with the partial derivatives of
 * cost × part / whole.
 */
export function partByMeasure(held: Held, taken: MeasureTaken): Quantities {
  const { dryGrams, dryDoubt, pieces } = taken
  const byShare = partByShare(held, { dryGrams, ...(pieces === undefined ? {} : { pieces }) })
  const fromShare = doubtOfDifference(dryDoubt, byShare.dryDoubt)
  return {
    ...byShare,
    dryDoubt,
    costDoubt: doubtOfSum([byShare.costDoubt, costOf(held, fromShare)]),
  }
}

/** What doubtful clay means in money, at what the holding's clay cost. */
function costOf(held: Quantities, dryDoubt: Doubt): Doubt {
  if (held.dryGrams.isZero()) return NO_DOUBT
  return doubtTimes(dryDoubt, held.cost.dividedBy(held.dryGrams))
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

/**
 * What was found in a holding beyond what its books said: more clay at the holding's own cost a gram.
 *
 * Afterwards the holding is as unsure as the measurement, and what it was unsure of before is doubt of
 * what was found.
 *
 * Shape: dry clay, cost and their doubt; no water and no pieces.
 * Units: grams, money. Source: as `partByMeasure`.
 */
export function surplusFound(
  held: Held,
  measured: { readonly dryGrams: Decimal; readonly dryDoubt: Doubt },
): Pick<Quantities, 'dryGrams' | 'cost' | 'dryDoubt' | 'costDoubt'> {
  const dryGrams = measured.dryGrams.minus(held.dryGrams)
  const share = { part: dryGrams, whole: held.dryGrams }
  const dryDoubt = doubtOfDifference(measured.dryDoubt, held.dryDoubt)
  const asItLay = doubtOfPart(held.dryDoubt, share)
  return {
    dryGrams,
    cost: held.dryGrams.isZero() ? ZERO : proportionalPart({ amount: held.cost, ...share }),
    dryDoubt,
    costDoubt: doubtOfSum([
      doubtOfPart(held.costDoubt, share),
      costOf(held, doubtOfDifference(dryDoubt, asItLay)),
    ]),
  }
}
