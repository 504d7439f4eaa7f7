import { decimal, ONE, toLedgerScale, type Decimal } from './decimal.ts'
import { dryMassFromWet, type DryMassEstimate } from './dry-mass.ts'
import type { Doubt } from './doubt.ts'
import { doubtPropagated } from './propagation.ts'
import { slurryWaterContentWetBasis } from './slurry.ts'

/** A jug of stirred slurry: what it weighs, how much it holds and what makes both unsure. */
export interface SlurryJug {
  readonly netGrams: Decimal
  readonly netDoubt: Doubt
  readonly millilitres: Decimal
  /** How full it was, as a source of doubt. */
  readonly jugSource: string
}

/** What a jug of slurry says: its density and its water, each with what makes it unsure, by source. */
export interface SlurrySaid {
  readonly densityGramsPerMillilitre: Decimal
  readonly densityDoubt: Doubt
  readonly waterContentWetBasis: Decimal
  readonly waterDoubt: Doubt
}

/** Grain density is known to a few hundredths; a jug is filled to the line within one per cent. Ours. */
const GRAIN_UNCERTAINTY = decimal('0.05')
const VOLUME_UNCERTAINTY_FRACTION = decimal('0.01')

/**
 * The density of a slurry and the water in it.
 *
 * The density rests on the scale and on how full the jug was; the water on the density and on what the
 * grains of clay weigh, which is one figure for every reading of that clay.
 *
 * Units: g/mL; fractions of the wet mass; 60 digits.
 * Refuses: `density_must_exceed_water`, `density_must_be_below_solids`.
 * Source: Brongniart's rule (`slurryWaterContentWetBasis`) and its partial derivatives.
 */
export function slurrySaid(
  jug: SlurryJug,
  clay: {
    readonly waterGramsPerMillilitre: Decimal
    readonly solidsGramsPerMillilitre: Decimal
    readonly grainSource: string
  },
): SlurrySaid {
  const { waterGramsPerMillilitre: water, solidsGramsPerMillilitre: solids } = clay
  const density = jug.netGrams.dividedBy(jug.millilitres)
  const waterContentWetBasis = slurryWaterContentWetBasis({
    densityGramsPerMillilitre: density,
    waterGramsPerMillilitre: water,
    solidsGramsPerMillilitre: solids,
  })
  const perMillilitre = ONE.dividedBy(jug.millilitres)
  const densityDoubt = doubtPropagated([
    { doubt: jug.netDoubt, slope: perMillilitre },
    // A jug that holds more than its line makes the slurry lighter than it seemed.
    {
      doubt: volumeDoubt(jug.jugSource, jug.millilitres),
      slope: density.times(perMillilitre).negated(),
    },
  ])
  const gap = solids.minus(water)
  const byDensity = solids.times(water).dividedBy(density.pow(2).times(gap)).negated()
  const byGrain = density
    .minus(water)
    .times(water)
    .dividedBy(density.times(gap.pow(2)))
  return {
    densityGramsPerMillilitre: density,
    densityDoubt,
    waterContentWetBasis,
    waterDoubt: doubtPropagated([
      { doubt: densityDoubt, slope: byDensity },
      { doubt: new Map([[clay.grainSource, GRAIN_UNCERTAINTY]]), slope: byGrain },
    ]),
  }
}

/**
 * The mass of a basin of slurry that was measured by its volume.
 *
 * What makes the density unsure makes this mass unsure alike, beside how the basin's volume was read.
 *
 * Units: millilitres to grams, ledger scale. Source: the definition of density.
 */
export function slurryByVolume(
  said: SlurrySaid,
  whole: { readonly millilitres: Decimal; readonly volumeSource: string },
): { readonly netGrams: Decimal; readonly netDoubt: Doubt } {
  const { millilitres, volumeSource } = whole
  const density = said.densityGramsPerMillilitre
  return {
    netGrams: toLedgerScale(millilitres.times(density)),
    netDoubt: doubtPropagated([
      { doubt: said.densityDoubt, slope: millilitres },
      { doubt: volumeDoubt(volumeSource, millilitres), slope: density },
    ]),
  }
}

function volumeDoubt(source: string, millilitres: Decimal): Doubt {
  return new Map([[source, millilitres.times(VOLUME_UNCERTAINTY_FRACTION)]])
}

/** The dry clay in so much of a slurry. Units: grams, ledger scale. Source: as `dryMassFromWet`. */
export function dryMassOfSlurry(
  said: SlurrySaid,
  wet: { readonly netGrams: Decimal; readonly netDoubt: Doubt },
): DryMassEstimate {
  return dryMassFromWet({
    ...wet,
    waterContentWetBasis: said.waterContentWetBasis,
    waterDoubt: said.waterDoubt,
    method: 'slurry_density',
    standing: 'measured',
  })
}
