import { Decimal, ONE, ZERO } from './decimal.ts'
import { doubtBy, standardUncertaintyOfDoubt } from './doubt.ts'
import { surely, unsureDifference, unsureQuotient, unsureTimes, type Unsure } from './how-sure.ts'
import { dryBasisFromWetBasis } from './water.ts'

/** A mass as somebody read it, or as the books have it, with one standard uncertainty. Units: grams. */
export interface MassRead {
  readonly grams: Decimal
  readonly standardUncertaintyGrams: Decimal
}

export interface SlabDoubt {
  readonly waterContentWetBasis: Decimal
  readonly waterToGoGrams: Decimal
}

export interface WentDoubt {
  readonly leftGrams: Decimal
  readonly drunkGrams: Decimal
  readonly evaporatedGrams: Decimal
}

/** How a bat's mass was come by: read alone, or as the pair less the slab of the same moment. */
export type BatRead =
  | { readonly kind: 'alone'; readonly bat: MassRead }
  | { readonly kind: 'pair_less_slab'; readonly pair: MassRead }

const WATER_DIGITS = 4
const GRAM_DIGITS = 1

/**
 * How unsure it is what a slab weighs when it is ready: as its dry clay is, with the water that belongs
 * to it.
 *
 * Units: one standard uncertainty, grams to a tenth. Source: as `doubtPropagated`.
 */
export function readyDoubt(dry: MassRead, readyWaterContentWetBasis: Decimal): Decimal {
  return grams(readyMass(massOf('dry clay', dry), readyWaterContentWetBasis))
}

/**
 * How unsure it is what a weigh-in of a slab says: by its dry clay, and by the scale.
 *
 * Units: one standard uncertainty; a fraction of the wet mass to four digits, grams to a tenth.
 * Source: as `doubtPropagated`.
 */
export function slabDoubt(
  slab: MassRead & { readonly dry: MassRead },
  readyWaterContentWetBasis: Decimal,
): SlabDoubt {
  const dry = massOf('dry clay', slab.dry)
  const whole = massOf('slab', slab)
  const water = unsureDifference(surely(ONE), unsureQuotient(dry, whole))
  const toGo = unsureDifference(whole, readyMass(dry, readyWaterContentWetBasis))
  return {
    waterContentWetBasis: standardUncertaintyOfDoubt(water.doubt).toDecimalPlaces(WATER_DIGITS),
    waterToGoGrams: grams(toGo),
  }
}

/**
 * How unsure it is where the water of a slab went: by what was laid, by the slab, and by the bat or the
 * pair. Where the pair was weighed, the slab's reading takes from the plaster what it gives to the air.
 * The bat's dry mass is taken as it was entered.
 *
 * Units: one standard uncertainty, grams to a tenth. Source: as `doubtPropagated`.
 */
export function wentDoubt(read: {
  readonly laid: MassRead
  readonly slab: MassRead
  readonly bat: BatRead
}): WentDoubt {
  const slab = massOf('slab', read.slab)
  const left = unsureDifference(massOf('laid', read.laid), slab)
  const drunk =
    read.bat.kind === 'alone'
      ? massOf('bat', read.bat.bat)
      : unsureDifference(massOf('pair', read.bat.pair), slab)
  return {
    leftGrams: grams(left),
    drunkGrams: grams(drunk),
    evaporatedGrams: grams(unsureDifference(left, drunk)),
  }
}

function massOf(source: string, { grams: amount, standardUncertaintyGrams }: MassRead): Unsure {
  return { amount, doubt: doubtBy(source, Decimal.max(standardUncertaintyGrams, ZERO)) }
}

function readyMass(dry: Unsure, waterContentWetBasis: Decimal): Unsure {
  return unsureTimes(dry, dryBasisFromWetBasis(waterContentWetBasis).plus(1))
}

function grams({ doubt }: Unsure): Decimal {
  return standardUncertaintyOfDoubt(doubt).toDecimalPlaces(GRAM_DIGITS)
}
