import { assert } from './assert.ts'

/**
 * The laws of drying that a forecast chooses between. Newton's is Page's with an exponent of one.
 */
export const DRYING_MODELS = ['newton', 'page'] as const
export type DryingModel = (typeof DRYING_MODELS)[number]

/** A curve of drying: how fast, and whether it slows down sooner or later than a plain decay. */
export interface DryingShape {
  /** For each hour to the power of the exponent. */
  readonly rateConstant: number
  readonly exponent: number
}

/**
 * The share of the water that is still to go, of all that goes in the end.
 *
 * It is one when the slab is poured and nears zero as the slab comes to rest with the air.
 *
 * Units: water contents on the dry basis to a fraction.
 * Source: the definition common to thin-layer drying, MR = (X - Xe) / (X0 - Xe).
 */
export function moistureRatio(water: {
  readonly waterContentDryBasis: number
  readonly atFirstDryBasis: number
  readonly atRestDryBasis: number
}): number {
  const { waterContentDryBasis, atFirstDryBasis, atRestDryBasis } = water
  assert(atFirstDryBasis > atRestDryBasis, 'a load is wetter at first than at rest')
  return (waterContentDryBasis - atRestDryBasis) / (atFirstDryBasis - atRestDryBasis)
}

/**
 * The moisture ratio after some time.
 *
 * With an exponent of one each hour takes the same share of what is left. Below one the first hours
 * take more, as plaster does that drinks fast and tires; above one they take less.
 *
 * Units: hours since the pour to a fraction from 0 to 1; any unit of time that the rate is in will do.
 * Source: W. K. Lewis, J. Ind. Eng. Chem. 13 (1921), 427-432, after Newton's law of cooling, for the
 * exponent of one; G. E. Page, thesis, Purdue University, 1949 (both from memory): MR = exp(-k t^n).
 */
export function moistureRatioAfter(shape: DryingShape, hours: number): number {
  assert(hours >= 0, 'a slab dries after it was poured')
  return Math.exp(-shape.rateConstant * hours ** shape.exponent)
}

/**
 * The time after which a moisture ratio is reached: the same law, solved for the time.
 *
 * Units: a fraction to hours since the pour; 0 for a ratio of one or more, infinite for none.
 * Source: as `moistureRatioAfter`.
 */
export function hoursToMoistureRatio(shape: DryingShape, ratio: number): number {
  if (ratio >= 1) return 0
  if (ratio <= 0) return Number.POSITIVE_INFINITY
  return (-Math.log(ratio) / shape.rateConstant) ** (1 / shape.exponent)
}
