import { decimal, type Decimal } from './decimal.ts'
import type { DryingModel } from './drying-models.ts'
import type { DryingPrior } from './drying-prior.ts'
import { forecastDrying, type DryingForecast, type Range } from './drying.ts'
import { adviceToWeigh, plasterAdvice, type PlasterAdvice } from './plaster-advice.ts'
import { batOfLoad, waterWentOf, type BatFigures, type WaterWent } from './plaster-bat.ts'
import { readyDoubt } from './plaster-doubt.ts'
import {
  beginningOf,
  hoursBetween,
  momentAfter,
  weighInsOf,
  type Beginning,
  type LoadHistory,
} from './plaster-history.ts'
import {
  pairFigures,
  weighInFigures,
  type PairFigures,
  type WeighInFigures,
} from './plaster-readings.ts'
import { Refusal } from './refusal.ts'
import { dryBasisFromWetBasis } from './water.ts'

/** Why no curve is given: what `forecastDrying` refuses, or that nobody knows where it began. */
export type WhyNot =
  'target_at_rest' | 'interval_too_wide' | 'readings_contradict' | 'beginning_not_known'

/** A middle and where nine tenths of what is possible lie. */
export interface Span<T> {
  readonly median: T
  readonly from: T
  readonly to: T
}

/** A moment that may lie too far off to be one. */
export type PerhapsMoment = Date | undefined

export interface CurvePoint {
  readonly hours: number
  readonly at: Date
  readonly waterContentWetBasis: Span<Decimal>
}

/** What is known of a slab's drying: a curve, or in words why there is none. */
export type Drying =
  | {
      readonly isKnown: true
      readonly water: Span<Decimal>
      readonly readyAt: Span<PerhapsMoment>
      readonly tooDryAfter: Span<PerhapsMoment> | undefined
      readonly lawWeights: Readonly<Record<DryingModel, Decimal>>
      readonly curve: readonly CurvePoint[]
    }
  | { readonly isKnown: false; readonly whyNot: WhyNot; readonly why: string }

export interface LoadFigures {
  readonly drying: Drying
  readonly restsOn: string
  /** The moment that `drying.water` is of: now, or when the slab left the bat. */
  readonly at: Date
  readonly hoursSinceLaid: number
  readonly readyGrams: Decimal
  /** One standard uncertainty of that. */
  readonly readyUncertaintyGrams: Decimal
  readonly slabNowGrams: Decimal | undefined
  readonly waterToGoGrams: Decimal | undefined
  /** As wide as the water content is unsure: one time in twenty it is less, and one time more. */
  readonly waterToGoRange: Omit<Span<Decimal>, 'median'> | undefined
  readonly advice: Pick<PlasterAdvice, 'act' | 'words'> | undefined
  readonly bat: BatFigures
  readonly waterWent: WaterWent | undefined
  readonly weighIns: readonly WeighInFigures[]
  readonly pairs: readonly PairFigures[]
}

const CURVE_POINTS = 24
/** A curve is drawn so much farther than what it is asked for, and never farther than this. Our choice. */
const CURVE_MARGIN = 1.1
const CURVE_HOURS_MAX = 14 * 24
/** A moment farther off than this is none that anybody waits for. Our choice. */
const HOURS_MAX = 365 * 24
const WATER_DIGITS = 4
/** A tenth of a gram: nothing that is reckoned of a slab is surer. */
const MODELLED_DIGITS = 1
const WEIGHT_DIGITS = 3

/**
 * All that can be said of a load on plaster, from its weigh-ins and this studio's past loads.
 *
 * Shape: `now` is when the question is asked; of a load that has left its bat, the moment of that counts.
 * Units: grams to a tenth where they are reckoned, fractions of the wet mass, hours, moments.
 * Source: as `forecastDrying`, `plasterAdvice`, `batOfLoad`, `slabWater` and `readingWithPlaster`.
 */
export function loadFigures(
  history: LoadHistory,
  asked: { readonly prior: DryingPrior; readonly now: Date },
): LoadFigures {
  const { prior } = asked
  const at = history.endedAt ?? asked.now
  const beginning = beginningOf(history)
  const weighIns = beginning === undefined ? [] : weighInsOf(history, beginning)
  const drying = dryingOf(history, { prior, at, beginning })
  const slabNowGrams = drying.isKnown ? gramsAt(history.dryGrams, drying.water.median) : undefined
  const readyGrams = gramsAt(history.dryGrams, history.target.readyWaterContentWetBasis)
  const bat = batOfLoad(history, slabNowGrams)
  const figures = {
    drying,
    restsOn: restsOnWords(prior, weighIns.length),
    at,
    hoursSinceLaid: hoursBetween(history.laidAt, at),
    readyGrams,
    readyUncertaintyGrams: readyDoubt(
      { grams: history.dryGrams, standardUncertaintyGrams: history.dryUncertaintyGrams },
      history.target.readyWaterContentWetBasis,
    ),
    slabNowGrams,
    waterToGoGrams: slabNowGrams?.minus(readyGrams),
    waterToGoRange: drying.isKnown ? toGoRange(history, drying.water) : undefined,
    bat,
    waterWent: waterWentOf(history),
    weighIns: history.slabs.map((slab) => weighInFigures(history, slab, beginning)),
    pairs: history.pairs.map((pair) => pairFigures(history, pair)),
  }
  return { ...figures, advice: adviceFor(history, figures) }
}

function gramsAt(dryGrams: Decimal, waterContentWetBasis: Decimal): Decimal {
  const grams = dryGrams.times(dryBasisFromWetBasis(waterContentWetBasis).plus(1))
  return grams.toDecimalPlaces(MODELLED_DIGITS)
}

/** The water content is unsure by the dry clay already, and what has to go is water. */
function toGoRange({ dryGrams, target }: LoadHistory, { from, to }: Span<Decimal>) {
  const readyGrams = gramsAt(dryGrams, target.readyWaterContentWetBasis)
  return {
    from: gramsAt(dryGrams, from).minus(readyGrams),
    to: gramsAt(dryGrams, to).minus(readyGrams),
  }
}

function dryingOf(
  history: LoadHistory,
  asked: { prior: DryingPrior; at: Date; beginning: Beginning | undefined },
): Drying {
  const { prior, at, beginning } = asked
  if (beginning === undefined) {
    const why =
      'The slab was moved to this bat and not weighed, so nobody knows how wet it began here. Lift it and weigh it alone.'
    return { isKnown: false, whyNot: 'beginning_not_known', why }
  }
  try {
    const forecast = forecastFor(history, { prior, at, beginning })
    return knownDrying(forecast, beginning)
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    const whyNot = (error.facts['why'] ?? 'readings_contradict') as WhyNot
    return { isKnown: false, whyNot, why: error.message }
  }
}

function forecastFor(
  history: LoadHistory,
  asked: { prior: DryingPrior; at: Date; beginning: Beginning },
): DryingForecast {
  const { prior, at, beginning } = asked
  const weighIns = weighInsOf(history, beginning)
  const nowHours = Math.max(
    0,
    hoursBetween(beginning.at, at),
    ...weighIns.map(({ hours }) => hours),
  )
  return forecastDrying({
    load: beginning.load,
    weighIns,
    prior,
    targetWaterContentWetBasis: history.target.readyWaterContentWetBasis.toNumber(),
    tooDryWaterContentWetBasis: history.target.tooDryWaterContentWetBasis.toNumber(),
    nowHours,
    curveHours: ({ readyAtHours, tooDryAfterHours }) => {
      const farthest = Math.max(nowHours, readyAtHours.to, tooDryAfterHours?.median ?? 0)
      const end = Math.min(CURVE_HOURS_MAX, Math.max(1, CURVE_MARGIN * farthest))
      return Array.from({ length: CURVE_POINTS + 1 }, (_, index) => (index * end) / CURVE_POINTS)
    },
  })
}

function knownDrying(forecast: DryingForecast, beginning: Beginning): Drying {
  const moments = (range: Range): Span<PerhapsMoment> =>
    spanOf(range, (hours) => (hours > HOURS_MAX ? undefined : momentAfter(beginning.at, hours)))
  const { tooDryAfterHours, modelWeights } = forecast
  return {
    isKnown: true,
    water: spanOf(forecast.waterNowWetBasis, waterContent),
    readyAt: moments(forecast.readyAtHours),
    tooDryAfter: tooDryAfterHours === undefined ? undefined : moments(tooDryAfterHours),
    lawWeights: {
      newton: decimal(modelWeights.newton.toFixed(WEIGHT_DIGITS)),
      page: decimal(modelWeights.page.toFixed(WEIGHT_DIGITS)),
    },
    curve: forecast.curve.map(({ hours, waterContentWetBasis }) => ({
      hours,
      at: momentAfter(beginning.at, hours),
      waterContentWetBasis: spanOf(waterContentWetBasis, waterContent),
    })),
  }
}

function spanOf<T>({ median, from, to }: Range, of: (one: number) => T): Span<T> {
  return { median: of(median), from: of(from), to: of(to) }
}

function waterContent(fraction: number): Decimal {
  return decimal(fraction.toFixed(WATER_DIGITS))
}

function adviceFor(
  history: LoadHistory,
  figures: Omit<LoadFigures, 'advice'>,
): LoadFigures['advice'] {
  const { drying, bat, at, waterToGoGrams } = figures
  if (history.endedAt !== undefined) return undefined
  if (!drying.isKnown || waterToGoGrams === undefined) {
    const isAtRest = !drying.isKnown && drying.whyNot === 'target_at_rest'
    return isAtRest ? undefined : adviceToWeigh(history.slabs.length)
  }
  const turned = [history.laidAt, ...history.turnedAt].filter((moment) => moment <= at)
  const lastTurned = turned.reduce((latest, one) => (one > latest ? one : latest), history.laidAt)
  const { act, words } = plasterAdvice({
    bat: massesOf(bat),
    waterToGoGrams,
    isTooDry: drying.water.median.lessThan(history.target.tooDryWaterContentWetBasis),
    waterContentAtMost: isWeighedReady(figures, history) ? undefined : drying.water.to,
    target: history.target,
    hoursSinceTurned: Math.max(0, hoursBetween(lastTurned, at)),
  })
  return { act, words }
}

/** What was on the scale needs no forecast: the slab was at its target or below when it was weighed. */
function isWeighedReady({ weighIns }: Omit<LoadFigures, 'advice'>, { target }: LoadHistory) {
  const last = weighIns.at(-1)?.waterContentWetBasis
  return last?.lessThanOrEqualTo(target.readyWaterContentWetBasis) === true
}

function massesOf({ dryGrams, nowGrams, leastGrams, thirst }: BatFigures) {
  if (dryGrams === undefined || nowGrams === undefined || thirst === undefined) return undefined
  return { dryGrams, nowGrams, ...(leastGrams === undefined ? {} : { leastGrams }) }
}

function restsOnWords({ loads, loadsOnBat }: DryingPrior, weighIns: number): string {
  const onBat = loadsOnBat === 0 ? 'none of them' : String(loadsOnBat)
  const past =
    loads === 0
      ? 'what slabs do in general, for no past load of this studio was weighed'
      : `${String(loads)} past ${loads === 1 ? 'load' : 'loads'} of this studio, ${onBat} on this bat`
  const own =
    weighIns === 0
      ? 'no weigh-in of this slab'
      : `${String(weighIns)} weigh-${weighIns === 1 ? 'in' : 'ins'} of this slab`
  return `${past}; ${own}`
}
