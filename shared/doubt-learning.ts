import { decimal, Decimal, toLedgerScale, ZERO } from './decimal.ts'
import { doubtOfDifference, doubtOfSum, type Doubt } from './doubt.ts'
import { kindOfSource } from './doubt-source.ts'
import type { Quantities } from './quantity.ts'

/** What a dry test found of some clay, beside what the books had reckoned with for it. */
export interface WaterFound {
  readonly reckonedWetBasis: Decimal
  readonly foundWetBasis: Decimal
  /** What made the reckoned content unsure, in fractions of the wet mass by source. */
  readonly reckonedDoubt: Doubt
  /** How far what was found may be from the truth for other reasons. */
  readonly foundUncertainty: Decimal
}

/** What is known of the sources of doubt after a test, where before each was as likely off as not. */
export interface Learned {
  readonly sources: readonly string[]
  /** By how many of its standard uncertainties each source is off, as far as one can tell now. */
  readonly shifts: readonly number[]
  /** What is left open of them, as a triangular root of their covariance. */
  readonly root: readonly (readonly number[])[]
}

/** What a test changes in a holding that was reckoned with the same figures. */
export interface Correction {
  readonly dryGrams: Decimal
  readonly dryDoubt: Doubt
}

/** A correction never takes more than this share of the clay or the water of a holding. Our choice. */
const SHARE_MAX = decimal('0.5')

/**
 * What a dry test says of the sources that made a water content unsure.
 *
 * Each is blamed by how much it could have moved that water content; what the test itself leaves open is
 * blamed along with them. The figures that many entries share come first, so that what is left open of
 * them stays under their own names.
 *
 * Units: standard uncertainties of each source.
 * Source: the linear Gaussian update (Kalman, Trans. ASME J. Basic Eng. 82 (1960), 35-45; from memory).
 */
export function learnedFrom(found: WaterFound): Learned {
  const all = [...found.reckonedDoubt].sort(([one], [other]) => orderOf(one) - orderOf(other))
  const slopes = all.map(([, slope]) => slope.toNumber())
  const variance =
    slopes.reduce((sum, slope) => sum + slope * slope, 0) + found.foundUncertainty.toNumber() ** 2
  const surprise = found.foundWetBasis.minus(found.reckonedWetBasis).toNumber()
  if (variance === 0 || all.length === 0) return { sources: [], shifts: [], root: [] }
  return {
    sources: all.map(([source]) => source),
    shifts: slopes.map((slope) => (slope * surprise) / variance),
    root: rootOfWhatIsLeft(slopes, found.foundUncertainty.toNumber() ** 2),
  }
}

/**
 * The triangular root of the unit covariance less what one sum of its sources has told.
 *
 * Worked out and not found by elimination, which fails where a test leaves next to nothing open.
 */
function rootOfWhatIsLeft(slopes: readonly number[], openVariance: number): number[][] {
  const openFrom = slopes.map((_, from) =>
    slopes.slice(from).reduce((sum, slope) => sum + slope * slope, openVariance),
  )
  return slopes.map((slope, row) =>
    slopes.map((other, column) => {
      const before = openFrom[column] ?? 0
      const after = openFrom[column + 1] ?? openVariance
      if (column === row) return before === 0 ? 1 : Math.sqrt(after / before)
      return column > row || after === 0 ? 0 : (-slope * other) / Math.sqrt(after * before)
    }),
  )
}

function orderOf(source: string): number {
  return kindOfSource(source) === 'moisture' ? 0 : 1
}

/**
 * What was learned, in the clay of a holding that was reckoned with the same figures: how much more or
 * less of it is dry, and how unsure it stays.
 *
 * Its wet mass was weighed and stays. Corrections are linear, so that over all holdings, inside and
 * outside, they sum to nothing.
 *
 * Units: grams, ledger scale. Source: as `learnedFrom`.
 */
export function correctionOf(held: Quantities, learned: Learned): Correction {
  const before = learned.sources.map((source) => held.dryDoubt.get(source) ?? ZERO)
  const dryGrams = before.reduce(
    (sum, one, index) => sum.plus(one.times(learned.shifts[index] ?? 0)),
    ZERO,
  )
  const after = learned.sources.map((source, column): [string, Decimal] => [
    source,
    toLedgerScale(
      before.reduce((sum, one, row) => sum.plus(one.times(learned.root[row]?.[column] ?? 0)), ZERO),
    ),
  ])
  const was = new Map(learned.sources.map((source, index) => [source, before[index] ?? ZERO]))
  return {
    dryGrams: toLedgerScale(dryGrams),
    dryDoubt: doubtOfDifference(doubtOfSum([new Map(after)]), doubtOfSum([was])),
  }
}

/**
 * How much of what was learned can be believed: all of it, unless a holding would lose half its clay, or
 * half its water, to the other. What was weighed wet stays as heavy as it was.
 *
 * Shape: holdings with their corrections. Units: a share of the corrections, 0 to 1.
 * Source: our choice, because the linear rule holds for small corrections.
 */
export function believable(
  corrections: readonly { readonly held: Quantities; readonly correction: Correction }[],
): Decimal {
  return corrections.reduce((share, { held, correction: { dryGrams } }) => {
    // Fired pots hold no water; more clay in them is no less water.
    const giving =
      dryGrams.isNegative() || held.waterGrams.isZero() ? held.dryGrams : held.waterGrams
    const most = giving.times(SHARE_MAX)
    return dryGrams.abs().greaterThan(most)
      ? Decimal.min(share, most.dividedBy(dryGrams.abs()))
      : share
  }, decimal(1))
}
