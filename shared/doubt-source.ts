import type { Decimal } from './decimal.ts'
import {
  doubtBy,
  doubtNegated,
  doubtOfSum,
  doubtOnly,
  NO_DOUBT,
  standardUncertaintyOfDoubt,
  type Doubt,
} from './doubt.ts'
import type { ClayState, MoistureTest } from './moisture.ts'

/**
 * What can make an amount of clay unsure. Those in the first group speak of its water: how much of a wet
 * mass is clay. The others speak of the mass itself.
 */
export const WATER_SOURCES = [
  'moisture',
  'batch',
  'test',
  'said',
  'sample',
  'solids',
  'grain',
  'jug',
  'merged_water',
] as const
export const MASS_SOURCES = [
  'reading',
  'tare',
  'volume',
  'unlike',
  'guess',
  'energy',
  'merged',
  'earlier',
] as const
export type SourceKind = (typeof WATER_SOURCES)[number] | (typeof MASS_SOURCES)[number]

/** What each is called where a person reads it. */
export const SOURCE_WORDS: Readonly<Record<SourceKind, string>> = {
  moisture: 'the figure for the water of this clay in this state',
  batch: 'how far this clay differs from that figure',
  test: 'a dry test',
  said: 'a water content that was said',
  sample: 'a dried sample',
  solids: 'how much clay swims in drawn-off water',
  grain: 'the density of the clay itself',
  jug: 'how full the jug was',
  merged_water: 'several small ones of water together',
  reading: 'a reading of the scale',
  tare: 'the tare of a vessel',
  volume: 'how full the basin was',
  unlike: 'pots that were taken to be alike',
  guess: 'pots that nobody weighed',
  energy: 'how much energy a fire took',
  merged: 'several small ones together',
  earlier: 'what was doubted before sources were told apart',
}

/** The name of a source: its kind and what tells it from others. Units: none. Source: our choice. */
export function sourceOf(kind: SourceKind, ...rest: readonly string[]): string {
  return [kind, ...rest].join('|')
}

/** What kind of source a name is of. Units: none. Source: as `sourceOf`. */
export function kindOfSource(source: string): SourceKind {
  return source.split('|', 1)[0] as SourceKind
}

/**
 * The figure that a studio reckons with for the water of a body in a state, under what it believed
 * before any test: each dry test makes it surer for all that was ever reckoned with it.
 *
 * Units: none. Source: as `moistureFigure`.
 */
export function moistureSource(of: {
  readonly bodyId: string
  readonly state: ClayState
  readonly prior: MoistureTest
}): string {
  const { waterContentWetBasis, standardUncertainty } = of.prior
  const figure = [waterContentWetBasis, standardUncertainty].map((one) => one.toFixed())
  return sourceOf('moisture', of.state, ...figure, of.bodyId)
}

/** True where a source speaks of the water in the clay, not of its mass. Units: none. Source: our choice. */
export function isOfWater(source: string): boolean {
  return (WATER_SOURCES as readonly string[]).includes(kindOfSource(source))
}

/** One kind of reason why an amount is unsure, and how unsure it alone would make it. */
export interface ReasonUnsure {
  readonly because: string
  readonly standardUncertainty: Decimal
}

/**
 * Why an amount is unsure, the weightiest reason first.
 *
 * Sources of one kind count together, as independent as they are.
 *
 * Units: of the amount. Source: as `standardUncertaintyOfDoubt`.
 */
export function reasonsUnsure(doubt: Doubt): ReasonUnsure[] {
  const kinds = [...new Set([...doubt.keys()].map(kindOfSource))]
  return kinds
    .map((kind) => ({
      because: SOURCE_WORDS[kind],
      standardUncertainty: standardUncertaintyOfDoubt(
        doubtOnly(doubt, (source) => kindOfSource(source) === kind),
      ),
    }))
    .sort((one, other) => other.standardUncertainty.comparedTo(one.standardUncertainty))
}

/** Sources that many entries share and that stay named, however small they are. */
const SHARED: readonly SourceKind[] = ['moisture', 'test', 'said', 'solids', 'grain', 'tare']

/** So many sources that are of one entry alone a holding keeps apart. Our choice. */
const OWN_SOURCES_MAX = 12
const OWN_SOURCES_KEPT = 6

/**
 * The small sources of a doubt taken together, where there are too many to keep apart: as one those that
 * speak of water, and as another those that speak of mass, because clay that leaves takes the one along
 * and not the other.
 *
 * A lot that gives clay to a hundred runs has been read a hundred times. What is left as unsure stays so,
 * to the last digit but rounding; only that the smallest of its readings are also readings of what left
 * is forgotten.
 *
 * Shape: what changes, to be added to the doubt and taken from another's.
 * Units: of the amount. Source: our choice, because readings are small beside water contents.
 */
export function smallOnesMerged(
  doubt: Doubt,
  into: { readonly water: string; readonly mass: string },
): Doubt {
  const own = [...doubt].filter(([source]) => !SHARED.includes(kindOfSource(source)))
  if (own.length <= OWN_SOURCES_MAX) return NO_DOUBT
  const bySize = own.sort(([, one], [, other]) => other.abs().comparedTo(one.abs()))
  const small = new Map(bySize.slice(OWN_SOURCES_KEPT))
  const together = (ofWater: boolean) =>
    standardUncertaintyOfDoubt(doubtOnly(small, (source) => isOfWater(source) === ofWater))
  return doubtOfSum([
    doubtBy(into.water, together(true)),
    doubtBy(into.mass, together(false)),
    doubtNegated(small),
  ])
}
