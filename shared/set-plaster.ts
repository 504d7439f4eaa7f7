import { assert } from './assert.ts'
import { decimal } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { molarMassGramsPerMole } from './firing.ts'

/** A mix of plaster, by the grams of water that a hundred grams of dry plaster were given. */
export interface PlasterMix {
  readonly waterGramsPerHundredPlaster: Decimal
}

export interface SetPlaster {
  /** Water that the plaster did not bind, for a hundred grams of dry plaster. */
  readonly freeWaterGrams: Decimal
  /** What a hundred grams of dry plaster weigh when set and dry. */
  readonly gypsumGrams: Decimal
  /** The share of pores in the set block's volume. */
  readonly porosity: Decimal
  /** Water in full pores, for each gram of dry set plaster. */
  readonly absorptionGramsPerGram: Decimal
}

/**
 * Which volume the set block has: that of its gypsum and free water alone, or still that of the slurry.
 * The truth lies between, because setting plaster swells a little.
 */
export type SetVolume = 'of_its_parts' | 'of_the_slurry'

const PLASTER_FORMULA = 'CaSO4(H2O)0.5'
const WATER_MOLES_BOUND = decimal('1.5')
/** Densities in g/mL, from mineral handbooks (from memory); water as 1. */
const GYPSUM_GRAMS_PER_MILLILITRE = decimal('2.32')
const PLASTER_GRAMS_PER_MILLILITRE = decimal('2.63')
const HUNDRED = decimal(100)

/**
 * The water that setting binds to plaster.
 *
 * Each half-hydrate of calcium sulphate takes up another one and a half molecules of water.
 *
 * Units: grams of water for grams of dry plaster; 60 digits.
 * Source: CaSO4·½H2O + 1½H2O = CaSO4·2H2O, with the atomic weights of `molarMassGramsPerMole`.
 */
export function waterOfSettingGrams(plasterGrams: Decimal): Decimal {
  const boundGrams = molarMassGramsPerMole('H2O').times(WATER_MOLES_BOUND)
  return plasterGrams.times(boundGrams).dividedBy(molarMassGramsPerMole(PLASTER_FORMULA))
}

/**
 * What the pores of a set mix are and could hold at most.
 *
 * The water beyond what setting binds leaves pores behind when it dries. A potter's bat is far from
 * full long before these are: see `batThirst`.
 *
 * Units: grams for a hundred grams of dry plaster; fractions; 60 digits.
 * Source: conservation of mass and volume; densities from mineral handbooks (from memory).
 */
export function setPlaster(mix: PlasterMix, volume: SetVolume): SetPlaster {
  const boundGrams = waterOfSettingGrams(HUNDRED)
  const freeWaterGrams = mix.waterGramsPerHundredPlaster.minus(boundGrams)
  assert(freeWaterGrams.greaterThan(0), 'a mix holds more water than its plaster binds')
  const gypsumGrams = HUNDRED.plus(boundGrams)
  const gypsumMillilitres = gypsumGrams.dividedBy(GYPSUM_GRAMS_PER_MILLILITRE)
  const slurryMillilitres = HUNDRED.dividedBy(PLASTER_GRAMS_PER_MILLILITRE).plus(
    mix.waterGramsPerHundredPlaster,
  )
  const blockMillilitres =
    volume === 'of_its_parts' ? gypsumMillilitres.plus(freeWaterGrams) : slurryMillilitres
  const poreMillilitres = blockMillilitres.minus(gypsumMillilitres)
  return {
    freeWaterGrams,
    gypsumGrams,
    porosity: poreMillilitres.dividedBy(blockMillilitres),
    absorptionGramsPerGram: poreMillilitres.dividedBy(gypsumGrams),
  }
}

/**
 * How fast plaster builds a wall of clay on itself, from one wall and the time that it took.
 *
 * Units: millimetres and minutes to square millimetres a minute; 60 digits.
 * Source: the square-root law of casting, as the introduction of Ceramics (MDPI) 8 (2025), 6, tells it.
 */
export function castingRate(wall: {
  readonly millimetres: Decimal
  readonly minutes: Decimal
}): Decimal {
  assert(wall.minutes.greaterThan(0), 'a wall takes time')
  return wall.millimetres.pow(2).dividedBy(wall.minutes)
}

/**
 * The time in which a wall of clay grows on plaster: twice the wall takes four times as long.
 *
 * What is there already is what the water must pass, so growth slows as the wall thickens.
 *
 * Units: millimetres and square millimetres a minute to minutes; 60 digits.
 * Source: as `castingRate`. It holds for constant conditions; a mould cast again is slower.
 */
export function castingMinutes(wall: {
  readonly millimetres: Decimal
  readonly squareMillimetresPerMinute: Decimal
}): Decimal {
  assert(wall.squareMillimetresPerMinute.greaterThan(0), 'a wall grows')
  return wall.millimetres.pow(2).dividedBy(wall.squareMillimetresPerMinute)
}
