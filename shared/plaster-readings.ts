import type { Decimal } from './decimal.ts'
import { slabDoubt, type SlabDoubt } from './plaster-doubt.ts'
import {
  gramsAsItIsNow,
  hoursBetween,
  isAfter,
  type Beginning,
  type LoadHistory,
  type PlasterReading,
} from './plaster-history.ts'
import { readingWithPlaster, slabWater } from './plaster.ts'
import { Refusal } from './refusal.ts'

export interface WeighInFigures {
  readonly reading: PlasterReading
  readonly hours: number
  readonly waterContentWetBasis: Decimal | undefined
  readonly waterToGoGrams: Decimal | undefined
  /** One standard uncertainty of the two; absent with them. */
  readonly doubt: SlabDoubt | undefined
  /** True where the curve rests on it. */
  readonly isUsed: boolean
  readonly words: string
}

export interface PairFigures {
  readonly reading: PlasterReading
  readonly hours: number
  readonly evaporatedGrams: Decimal | undefined
  readonly waterInBothGrams: Decimal | undefined
  readonly waterContentWetBasisMax: Decimal | undefined
  readonly words: string
}

const WATER_DIGITS = 4
const MODELLED_DIGITS = 1
const PAIR_ONLY =
  'What the clay lost, the plaster drank: this tells what has evaporated, and only the most that the clay can hold.'

/**
 * What a weigh-in of the slab alone said: its dry clay is known, so the rest is water.
 *
 * Units: grams, fractions of the wet mass, hours since the slab was laid. Source: as `slabWater`.
 */
export function weighInFigures(
  history: LoadHistory,
  slab: PlasterReading,
  beginning: Beginning | undefined,
): WeighInFigures {
  const hours = hoursBetween(history.laidAt, slab.at)
  const isUsed = beginning !== undefined && isAfter(slab, beginning)
  const told = { reading: slab, hours, isUsed }
  const { dryGrams, target } = history
  const slabGrams = gramsAsItIsNow(history, slab)
  try {
    const { waterContentWetBasis, waterToGoGrams } = slabWater({
      dryGrams,
      slabGrams,
      targetWaterContentWetBasis: target.readyWaterContentWetBasis,
    })
    const words = isUsed ? '' : unusedWords(slab, beginning)
    return {
      ...told,
      waterContentWetBasis: waterContentWetBasis.toDecimalPlaces(WATER_DIGITS),
      waterToGoGrams: waterToGoGrams.toDecimalPlaces(MODELLED_DIGITS),
      doubt: weighInDoubt(history, slab, slabGrams),
      words,
    }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    const nothing = { waterContentWetBasis: undefined, waterToGoGrams: undefined }
    return { ...told, ...nothing, doubt: undefined, words: error.message }
  }
}

/** Of a slab of which some was thrown away since, the scale is in doubt by what is left of its doubt. */
function weighInDoubt(
  { dryGrams, dryUncertaintyGrams, target }: LoadHistory,
  slab: PlasterReading,
  slabGrams: Decimal,
): SlabDoubt {
  const kept = slabGrams.dividedBy(slab.grams)
  return slabDoubt(
    {
      grams: slabGrams,
      standardUncertaintyGrams: slab.standardUncertaintyGrams.times(kept),
      dry: { grams: dryGrams, standardUncertaintyGrams: dryUncertaintyGrams },
    },
    target.readyWaterContentWetBasis,
  )
}

function unusedWords(slab: PlasterReading, beginning: Beginning | undefined): string {
  return beginning !== undefined && slab.at < beginning.at
    ? 'Weighed before it was laid on this bat, by the books: left out of the curve.'
    : 'The curve begins with it.'
}

/**
 * What a weighing of slab and bat together said: what has evaporated, and no more.
 *
 * Units: grams, fractions of the wet mass, hours since the slab was laid.
 * Source: as `readingWithPlaster`.
 */
export function pairFigures(history: LoadHistory, pair: PlasterReading): PairFigures {
  const { batDryGrams, laid, dryGrams, laidAt } = history
  const told = {
    reading: pair,
    hours: hoursBetween(laidAt, pair.at),
    evaporatedGrams: undefined,
    waterInBothGrams: undefined,
    waterContentWetBasisMax: undefined,
  }
  if (history.partings.some(({ at }) => at <= pair.at)) {
    return { ...told, words: `${PAIR_ONLY} Clay was taken off this slab before, so not even that.` }
  }
  if (batDryGrams === undefined || laid === undefined) {
    const words = `${PAIR_ONLY} How much that is needs the bat’s dry mass and what was laid on it.`
    return { ...told, words }
  }
  try {
    const read = readingWithPlaster({
      batDryGrams,
      clayDryGrams: dryGrams,
      pairAtFirstGrams: batDryGrams.plus(laid.grams),
      pairNowGrams: pair.grams,
    })
    return {
      ...told,
      ...read,
      waterContentWetBasisMax: read.waterContentWetBasisMax.toDecimalPlaces(WATER_DIGITS),
      words: PAIR_ONLY,
    }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return { ...told, words: error.message }
  }
}
