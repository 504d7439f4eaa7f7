import { ONE } from './decimal.ts'
import { doubtOnly, type Doubt } from './doubt.ts'
import { isOfWater } from './doubt-source.ts'
import { doubtPropagated } from './propagation.ts'
import type { Quantities } from './quantity.ts'

/** What of a doubt speaks of the water in the clay. Units: as given. Source: as `isOfWater`. */
export function doubtOfWater(doubt: Doubt): Doubt {
  return doubtOnly(doubt, isOfWater)
}

/** What of a doubt speaks of the mass itself. Units: as given. Source: as `isOfWater`. */
export function doubtOfMass(doubt: Doubt): Doubt {
  return doubtOnly(doubt, (source) => !isOfWater(source))
}

/**
 * How unsure the water content of some clay is, from what makes its dry mass unsure.
 *
 * Of the same wet mass, more clay is less water. Sources that speak of the mass itself leave the water
 * content as it is.
 *
 * Units: fractions of the wet mass by source; 60 digits. Source: the definition of the wet basis.
 */
export function waterDoubtOf(clay: Quantities): Doubt {
  const wetGrams = clay.dryGrams.plus(clay.waterGrams)
  if (wetGrams.isZero()) return new Map()
  return doubtPropagated([
    { doubt: doubtOfWater(clay.dryDoubt), slope: ONE.dividedBy(wetGrams).negated() },
  ])
}

/**
 * How unsure the wet mass of some clay is: what makes its dry mass unsure beside its water content.
 *
 * Units: grams of wet mass by source; 60 digits. Source: as `waterDoubtOf`.
 */
export function wetDoubtOf(clay: Quantities): Doubt {
  const wetGrams = clay.dryGrams.plus(clay.waterGrams)
  if (clay.dryGrams.isZero()) return new Map()
  return doubtPropagated([
    { doubt: doubtOfMass(clay.dryDoubt), slope: wetGrams.dividedBy(clay.dryGrams) },
  ])
}
