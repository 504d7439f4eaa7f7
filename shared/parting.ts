import { eachLayer } from './cost-layer.ts'
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
import { NOTHING, proportionalPart, type Held, type Quantities } from './quantity.ts'
import { doubtOfWater } from './water-doubt.ts'

/** A share that leaves a holding; with how unsure the wet reading was, where one says how much. */
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
 * doubtful together, so a third of the clay takes a third of it. Where a reading says how much left, that
 * much wet clay is known: what its reading leaves open, one end has more and the other less; and what
 * made the mass of the whole unsure, not its water, stays with what stays.
 *
 * Units: grams, money. Moving average: the whole takes all cost, to the last digit.
 * Source: our choice, after the moving weighted average of IAS 2 paragraph 27; JCGM 100:2008, 5.2.2.
 */
export function partByShare(held: Held, taken: ShareTaken): Quantities {
  const { dryGrams, readingDoubt, pieces = ZERO } = taken
  const share = { part: dryGrams, whole: held.dryGrams }
  const part = (amount: Decimal) => proportionalPart({ amount, ...share })
  const proportional = {
    dryGrams,
    materialGrams: dryGrams.isZero() ? ZERO : part(held.materialGrams),
    waterGrams: part(held.waterGrams),
    pieces,
    ...eachLayer(held, (cost) => costLeaving({ ...held, cost }, dryGrams)),
    dryDoubt: doubtOfPart(held.dryDoubt, share),
    materialDoubt: dryGrams.isZero() ? NO_DOUBT : doubtOfPart(held.materialDoubt, share),
    costDoubt: doubtOfPart(held.costDoubt, share),
  }
  if (readingDoubt === undefined || dryGrams.equals(held.dryGrams)) return proportional
  return asMeasured(held, proportional, readDoubt(held, share, readingDoubt))
}

/** What is unsure of clay of a known wetness that was weighed wet: its water, and the reading's dry part. */
function readDoubt(
  held: Quantities,
  share: { part: Decimal; whole: Decimal },
  readingDoubt: Doubt,
): Doubt {
  const wetGrams = held.dryGrams.plus(held.waterGrams)
  return doubtOfSum([
    doubtOfPart(doubtOfWater(held.dryDoubt), share),
    doubtOfPart(readingDoubt, { part: held.dryGrams, whole: wetGrams }),
  ])
}

/** What leaves as a share, where its clay is unsure otherwise than as a share of the whole. */
function asMeasured(held: Held, byShare: Quantities, dryDoubt: Doubt): Quantities {
  const otherwise = doubtOfDifference(dryDoubt, byShare.dryDoubt)
  return {
    ...byShare,
    dryDoubt,
    costDoubt: doubtOfSum([byShare.costDoubt, costOf(held, otherwise)]),
  }
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
  return asMeasured(held, byShare, dryDoubt)
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
): Pick<
  Quantities,
  'dryGrams' | 'materialGrams' | 'cost' | 'costLayers' | 'dryDoubt' | 'materialDoubt' | 'costDoubt'
> {
  const dryGrams = measured.dryGrams.minus(held.dryGrams)
  const share = { part: dryGrams, whole: held.dryGrams }
  const isNew = held.dryGrams.isZero()
  const part = (amount: Decimal) => (isNew ? ZERO : proportionalPart({ amount, ...share }))
  const dryDoubt = doubtOfDifference(measured.dryDoubt, held.dryDoubt)
  const asItLay = doubtOfPart(held.dryDoubt, share)
  return {
    dryGrams,
    materialGrams: part(held.materialGrams),
    ...eachLayer(held, part),
    dryDoubt,
    materialDoubt: isNew ? NO_DOUBT : doubtOfPart(held.materialDoubt, share),
    costDoubt: doubtOfSum([
      doubtOfPart(held.costDoubt, share),
      costOf(held, doubtOfDifference(dryDoubt, asItLay)),
    ]),
  }
}

/**
 * What is held with clay and materials exchanged, so that what is known of parting clay is known of
 * parting glaze: its moving average, its measured amounts, its doubt.
 *
 * Units: as given. Source: both are dry mass that is moved and never made.
 */
export function asIfClay<Some extends Partial<Quantities>>(some: Some): Quantities {
  const all = { ...NOTHING, ...some }
  return {
    ...all,
    dryGrams: all.materialGrams,
    materialGrams: all.dryGrams,
    dryDoubt: all.materialDoubt,
    materialDoubt: all.dryDoubt,
  }
}

/**
 * A share of the materials of a holding that leaves it: water, cost and doubt go along by dry mass.
 *
 * Units: grams, money. Source: as `partByShare`.
 */
export function materialByShare(held: Held, taken: ShareTaken): Quantities {
  return asIfClay(partByShare(asIfClay(held), taken))
}

/** A measured amount of material that leaves a holding. Units: grams, money. Source: as `partByMeasure`. */
export function materialByMeasure(held: Held, taken: MeasureTaken): Quantities {
  return asIfClay(partByMeasure(asIfClay(held), taken))
}

/** What was found of a material beyond what the books said. Units: grams, money. Source: as `surplusFound`. */
export function materialFound(
  held: Held,
  measured: { readonly dryGrams: Decimal; readonly dryDoubt: Doubt },
): Quantities {
  return asIfClay(surplusFound(asIfClay(held), measured))
}

/**
 * A count of things that leaves a holding of things that are counted: each costs the same.
 *
 * Units: pieces, money. Source: as `partByShare`.
 */
export function countedPart(held: Held, pieces: Decimal): Quantities {
  const asMass = partByShare({ ...held, dryGrams: held.pieces }, { dryGrams: pieces, pieces })
  return { ...asMass, dryGrams: ZERO }
}
