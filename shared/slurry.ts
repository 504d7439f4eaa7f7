import { assert } from './assert.ts'
import { ONE, decimal, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { Refusal } from './refusal.ts'

export interface SlurryReading {
  readonly slurryGrams: Decimal
  readonly slurryMillilitres: Decimal
  readonly waterGramsPerMillilitre: Decimal
  readonly solidsGramsPerMillilitre: Decimal
}

export interface SlurryContents {
  readonly dryGrams: Decimal
  readonly waterGrams: Decimal
}

export interface SlurryDensities {
  readonly densityGramsPerMillilitre: Decimal
  readonly waterGramsPerMillilitre: Decimal
  readonly solidsGramsPerMillilitre: Decimal
}

const CUBIC_MILLIMETRES_IN_MILLILITRE = 1000

/** The water temperatures that the density formula was fitted to. */
export const WATER_CELSIUS_MIN: Decimal = decimal(0)
export const WATER_CELSIUS_MAX: Decimal = decimal(40)

/**
 * Dry clay and water in a measured volume of slurry.
 *
 * Clay and water share the volume, so what the slurry weighs above its volume of water is the clay
 * less the water that the clay pushed out.
 *
 * Units: grams, millilitres, g/mL. The results have ledger scale and sum to `slurryGrams` exactly.
 * Refuses: `density_must_exceed_water`, `density_must_be_below_solids`.
 * Source: Brongniart, Traité des arts céramiques I (1854), p. 249.
 */
export function drySolidsInSlurry(reading: SlurryReading): SlurryContents {
  const dryGrams = toLedgerScale(exactDryGrams(reading))
  return { dryGrams, waterGrams: reading.slurryGrams.minus(dryGrams) }
}

function exactDryGrams(reading: SlurryReading): Decimal {
  const { slurryGrams, slurryMillilitres, waterGramsPerMillilitre, solidsGramsPerMillilitre } =
    reading
  assert(slurryMillilitres.greaterThan(0), 'a slurry reading has a volume')
  const asWaterGrams = slurryMillilitres.times(waterGramsPerMillilitre)
  const asSolidsGrams = slurryMillilitres.times(solidsGramsPerMillilitre)
  refuseWhatNoSlurryWeighs({ slurryGrams, asWaterGrams, asSolidsGrams })

  // Multiply first and divide once, last: every division rounds.
  const surplusGrams = slurryGrams.minus(asWaterGrams)
  const densityGap = solidsGramsPerMillilitre.minus(waterGramsPerMillilitre)
  return surplusGrams.times(solidsGramsPerMillilitre).dividedBy(densityGap)
}

/**
 * The share of water in a slurry of known density.
 *
 * The same rule for one millilitre: what of it is not clay is water.
 *
 * Units: g/mL to a fraction of the wet mass; 60 digits.
 * Refuses: `density_must_exceed_water`, `density_must_be_below_solids`.
 * Source: Brongniart, Traité des arts céramiques I (1854), p. 249.
 */
export function slurryWaterContentWetBasis(densities: SlurryDensities): Decimal {
  const { densityGramsPerMillilitre, waterGramsPerMillilitre, solidsGramsPerMillilitre } = densities
  const dryGramsInMillilitre = exactDryGrams({
    slurryGrams: densityGramsPerMillilitre,
    slurryMillilitres: ONE,
    waterGramsPerMillilitre,
    solidsGramsPerMillilitre,
  })
  return ONE.minus(dryGramsInMillilitre.dividedBy(densityGramsPerMillilitre))
}

/**
 * The density of clean water at a temperature.
 *
 * A fitted curve with its top near four degrees, where water is densest.
 *
 * Units: degrees Celsius from 0 to 40, at one atmosphere, to g/mL; 60 digits, good to six.
 * Source: Tanaka et al., Metrologia 38 (2001) 301-309, the formula recommended by the CIPM
 * (second-hand: ten public copies agree).
 */
export function waterDensityGramsPerMillilitre(celsius: Decimal): Decimal {
  assert(
    celsius.greaterThanOrEqualTo(WATER_CELSIUS_MIN) && celsius.lessThanOrEqualTo(WATER_CELSIUS_MAX),
    'the water is between 0 and 40 degrees Celsius',
  )
  const fromTop = celsius.minus('3.983035')
  const numerator = fromTop.times(fromTop).times(celsius.plus('301.797'))
  const denominator = celsius.plus('69.34881').times('522528.9')
  const share = ONE.minus(numerator.dividedBy(denominator))
  return share.times('0.999974950')
}

/**
 * The density of a slurry of known water content.
 *
 * Clay and water share the volume and neither changes it for the other.
 *
 * Units: a fraction of the wet mass and g/mL to g/mL; 60 digits.
 * Source: as `slurryWaterContentWetBasis`, solved for the density.
 */
export function slurryDensityGramsPerMillilitre(slurry: {
  readonly waterContentWetBasis: Decimal
  readonly waterGramsPerMillilitre: Decimal
  readonly solidsGramsPerMillilitre: Decimal
}): Decimal {
  const { waterContentWetBasis, waterGramsPerMillilitre, solidsGramsPerMillilitre } = slurry
  const waterMillilitres = waterContentWetBasis.dividedBy(waterGramsPerMillilitre)
  const solidsMillilitres = ONE.minus(waterContentWetBasis).dividedBy(solidsGramsPerMillilitre)
  return ONE.dividedBy(waterMillilitres.plus(solidsMillilitres))
}

/**
 * How thick so much slurry lies on a bat, spread over the whole of its face.
 *
 * Units: grams, g/mL and millimetres to millimetres; 60 digits.
 * Source: volume is mass over density, and thickness is volume over area. That slurry covers the whole
 * face is our choice: where a rim keeps it in, it lies thicker, and the thickness is better said.
 */
export function layerMillimetres(layer: {
  readonly slurryGrams: Decimal
  readonly densityGramsPerMillilitre: Decimal
  readonly lengthMillimetres: Decimal
  readonly widthMillimetres: Decimal
}): Decimal {
  const { slurryGrams, densityGramsPerMillilitre, lengthMillimetres, widthMillimetres } = layer
  const cubicMillimetres = slurryGrams
    .times(CUBIC_MILLIMETRES_IN_MILLILITRE)
    .dividedBy(densityGramsPerMillilitre)
  return cubicMillimetres.dividedBy(lengthMillimetres.times(widthMillimetres))
}

function refuseWhatNoSlurryWeighs(masses: {
  readonly slurryGrams: Decimal
  readonly asWaterGrams: Decimal
  readonly asSolidsGrams: Decimal
}): void {
  const { slurryGrams, asWaterGrams, asSolidsGrams } = masses
  assert(asSolidsGrams.greaterThan(asWaterGrams), 'clay sinks')
  if (slurryGrams.lessThanOrEqualTo(asWaterGrams)) {
    throw new Refusal(
      'density_must_exceed_water',
      'This weighs no more than as much water, so the reading shows no solids. Stir it and weigh a full measure again.',
    )
  }
  if (slurryGrams.greaterThanOrEqualTo(asSolidsGrams)) {
    throw new Refusal(
      'density_must_be_below_solids',
      'This weighs as much as its solids alone would, or more. Check the volume and the tare of the jug.',
    )
  }
}
