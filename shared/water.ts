import { assert } from './assert.ts'
import { ONE, decimal, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { Refusal } from './refusal.ts'

/** A sample in its tin, weighed wet, dried until it loses no more, and weighed again. */
export interface SampleReading {
  readonly tinGrams: Decimal
  readonly wetWithTinGrams: Decimal
  readonly dryWithTinGrams: Decimal
}

export interface SampleContents {
  readonly waterGrams: Decimal
  readonly dryGrams: Decimal
  readonly waterContentWetBasis: Decimal
  readonly waterContentDryBasis: Decimal
}

/**
 * The share of water in the wet clay, from its share in the dry clay.
 *
 * Units: fractions; 60 digits. The dry basis may exceed one, the wet basis cannot reach it.
 * Source: m = w / (1 + w), from the definitions of ASTM D2216-19 (dry basis) and of agronomy (wet).
 */
export function wetBasisFromDryBasis(waterContentDryBasis: Decimal): Decimal {
  return waterContentDryBasis.dividedBy(waterContentDryBasis.plus(1))
}

/**
 * The water for each part of dry clay, from its share in the wet clay.
 *
 * Units: fractions; 60 digits.
 * Source: w = m / (1 - m), from the definitions of ASTM D2216-19 (dry basis) and of agronomy (wet).
 */
export function dryBasisFromWetBasis(waterContentWetBasis: Decimal): Decimal {
  assert(waterContentWetBasis.lessThan(1), 'wet clay is not all water')
  return waterContentWetBasis.dividedBy(ONE.minus(waterContentWetBasis))
}

/**
 * Water and dry clay in a sample, and its water content on both bases.
 *
 * What the sample lost in drying was its water; the tin is in both readings and falls out.
 *
 * Units: grams, exact; fractions to 60 digits.
 * Refuses: `sample_must_not_dry_heavier`, `reading_must_be_above_zero`.
 * Source: ASTM D2216-19, section 1.3; ISO 17892-1:2014 (from memory) defines it alike.
 */
export function waterContentOfSample(reading: SampleReading): SampleContents {
  const { tinGrams, wetWithTinGrams, dryWithTinGrams } = reading
  if (dryWithTinGrams.greaterThan(wetWithTinGrams)) {
    throw new Refusal(
      'sample_must_not_dry_heavier',
      `The sample weighs ${dryWithTinGrams.toFixed()} g dry and ${wetWithTinGrams.toFixed()} g wet. Drying takes water away, so the dry reading is the smaller one.`,
    )
  }
  const wetGrams = wetWithTinGrams.minus(tinGrams)
  const dryGrams = dryWithTinGrams.minus(tinGrams)
  if (dryGrams.lessThanOrEqualTo(0)) {
    throw new Refusal(
      'reading_must_be_above_zero',
      `With the tin of ${tinGrams.toFixed()} g taken off, no dry clay is left. The readings are with the tin.`,
    )
  }
  const waterGrams = wetGrams.minus(dryGrams)
  return {
    waterGrams,
    dryGrams,
    waterContentWetBasis: waterGrams.dividedBy(wetGrams),
    waterContentDryBasis: waterGrams.dividedBy(dryGrams),
  }
}

/**
 * The share of water in the wet clay, from a content said on either basis.
 *
 * Units: fractions; 60 digits.
 * Refuses: `water_content_must_be_below_one`.
 * Source: as `wetBasisFromDryBasis`.
 */
export function waterContentWetBasisFrom(content: Decimal, basis: 'wet' | 'dry'): Decimal {
  if (content.lessThan(0)) {
    throw new Refusal('water_content_must_be_below_one', 'Clay cannot hold less than no water.')
  }
  const wetBasis = basis === 'wet' ? content : wetBasisFromDryBasis(content)
  if (wetBasis.lessThan(1)) return wetBasis
  throw new Refusal(
    'water_content_must_be_below_one',
    `A water content of ${content.toFixed()} of the wet mass leaves no clay. Say it as a fraction below 1, or on the dry basis.`,
  )
}

/**
 * How unsure the water content of a dried sample is.
 *
 * The scale's division is met twice, wet and dry; on top of it no handful stands for the whole batch
 * better than to two parts in a thousand.
 *
 * Units: grams; fraction of the wet mass; 60 digits.
 * Source: GUM, JCGM 100:2008, 5.1.2 (from memory), for the quadrature; 0.002 for the sampling is our
 * choice, because nobody has published one.
 */
export function sampleWaterUncertainty(sample: {
  readonly waterGrams: Decimal
  readonly dryGrams: Decimal
  readonly divisionGrams: Decimal
}): Decimal {
  const { waterGrams, dryGrams, divisionGrams } = sample
  const wetGrams = waterGrams.plus(dryGrams)
  const oneReading = divisionGrams.pow(2).dividedBy(12)
  const fromDry = oneReading.dividedBy(wetGrams.pow(2))
  const fromWet = oneReading.times(dryGrams.pow(2)).dividedBy(wetGrams.pow(4))
  return fromDry.plus(fromWet).plus(SAMPLING_UNCERTAINTY.pow(2)).sqrt()
}

/** How far a handful may be from its batch, as a fraction of the wet mass. Our choice. */
const SAMPLING_UNCERTAINTY = decimal('0.002')

/**
 * The water that goes with some dry clay at a water content.
 *
 * Units: grams, ledger scale; a fraction of the wet mass, below one.
 * Source: the definition of the wet basis.
 */
export function waterWith(dryGrams: Decimal, waterContentWetBasis: Decimal): Decimal {
  return toLedgerScale(
    dryGrams.times(waterContentWetBasis).dividedBy(ONE.minus(waterContentWetBasis)),
  )
}
