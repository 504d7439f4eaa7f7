import { assert } from './assert.ts'
import {
  checkLoad,
  contradictionIn,
  equilibriumOf,
  hoursToWaterContent,
  waterContentWetBasisAfter,
  type DryingLoad,
  type SlabTruth,
  type SlabWeighIn,
} from './drying-load.ts'
import { DRYING_MODELS, type DryingModel } from './drying-models.ts'
import { dryingPosterior, type WeighedTruth } from './drying-posterior.ts'
import { shapePriorFor, type DryingPrior } from './drying-prior.ts'
import { weightedQuantiles } from './quasi-random.ts'
import { Refusal } from './refusal.ts'
import { chiSquareQuantile } from './statistics.ts'

export interface DryingQuestion {
  readonly load: DryingLoad
  readonly weighIns: readonly SlabWeighIn[]
  readonly prior: DryingPrior
  readonly targetWaterContentWetBasis: number
  /** Below this the slab has to be wetted again. */
  readonly tooDryWaterContentWetBasis: number
  /** Since the pour. */
  readonly nowHours: number
  /** Where the curve is asked for as well, in hours since the pour, once it is known how long it is. */
  readonly curveHours?: ((known: DryingTimes) => readonly number[]) | undefined
}

/** When a slab is ready, and too dry, in hours since the pour. */
export type DryingTimes = Pick<DryingForecast, 'readyAtHours' | 'tooDryAfterHours'>

/** The middle of what is possible, and where nine tenths of it lie. */
export interface Range {
  readonly median: number
  readonly from: number
  readonly to: number
}

export interface DryingForecast {
  readonly waterNowWetBasis: Range
  readonly readyAtHours: Range
  /** Absent where the slab comes to rest before it is too dry. */
  readonly tooDryAfterHours: Range | undefined
  readonly modelWeights: Readonly<Record<DryingModel, number>>
  readonly basis: string
  /** The water content at each of `curveHours`. */
  readonly curve: readonly { readonly hours: number; readonly waterContentWetBasis: Range }[]
}

/** Why a curve is not knowable, for the facts of the refusal. */
export type Unknowable = 'target_at_rest' | 'interval_too_wide' | 'readings_contradict'

/** The tails left out on either side of a range. */
const TAIL = 0.05
/** Weigh-ins that lie this far off any curve, or farther, come once in so many loads. Our choice. */
const UNLIKELY = 1e-5
/** A range is of use if it is shorter than a day, or than twice the time it speaks of. Our choice. */
const USEFUL_HOURS = 24
const USEFUL_TIMES_MEDIAN = 2

/**
 * When a slab on plaster will be ready, and when too dry, and how wet it is now.
 *
 * Past loads say what to expect; each weigh-in of this one narrows it. Two laws of drying are laid
 * through what is known, each counting as much as its readings were likely, and a thousand slabs that
 * might be this one are asked when they are ready. A slab that is moved to a dry bat begins anew: what it
 * weighs then counts as poured.
 *
 * Shape: weigh-ins of the slab alone, in any order, none later than now.
 * Units: grams, hours since the pour, fractions of the wet mass. Ranges hold nine times in ten.
 * Refuses: `curve_must_be_knowable`, where the target is not reached, where weigh-ins contradict one
 * another, and where the range would be of no use (`facts.why` says which); `fit_must_converge`, which
 * no load that we tried has met.
 * Source: Bayes' rule; the laws are those of `moistureRatioAfter`, the averaging over laws as in
 * A. E. Raftery, Biometrika 83 (1996), 251-266 (from memory).
 */
export function forecastDrying(question: DryingQuestion): DryingForecast {
  const { load, weighIns, nowHours, targetWaterContentWetBasis: target } = question
  checkQuestion(question)
  const contradiction = contradictionIn(load, weighIns)
  if (contradiction !== undefined) refuse('readings_contradict', contradiction)
  refuseTargetAtRest(question)
  const { truths, modelWeights } = possibleTruths(question)
  const readyAtHours = rangeOf(truths, (truth) => hoursToWaterContent(truth, target))
  refuseUseless(readyAtHours)
  const tooDry = rangeOf(truths, (truth) =>
    hoursToWaterContent(truth, question.tooDryWaterContentWetBasis),
  )
  const tooDryAfterHours = Number.isFinite(tooDry.median) ? tooDry : undefined
  const curveHours = question.curveHours?.({ readyAtHours, tooDryAfterHours }) ?? []
  return {
    waterNowWetBasis: rangeOf(truths, (truth) => waterContentWetBasisAfter(truth, nowHours)),
    readyAtHours,
    tooDryAfterHours,
    modelWeights,
    basis: basisOf(weighIns.length),
    curve: curveHours.map((hours) => ({
      hours,
      waterContentWetBasis: rangeOf(truths, (truth) => waterContentWetBasisAfter(truth, hours)),
    })),
  }
}

function checkQuestion(question: DryingQuestion): void {
  const { load, weighIns, nowHours } = question
  const { targetWaterContentWetBasis: target, tooDryWaterContentWetBasis: tooDry } = question
  checkLoad(load, weighIns)
  assert(Number.isFinite(nowHours) && nowHours >= 0, 'now is after the pour')
  assert(
    weighIns.every(({ hours }) => hours <= nowHours),
    'nothing was weighed after now',
  )
  assert(target < 1 && tooDry >= 0, 'water contents are fractions of the wet mass')
  assert(tooDry < target, 'too dry is drier than ready')
}

/** The truths under both laws, each law by how likely it made the weigh-ins. */
function possibleTruths(question: DryingQuestion): {
  truths: WeighedTruth[]
  modelWeights: Record<DryingModel, number>
} {
  const { load, weighIns, prior } = question
  const { scatter } = prior
  const seen = DRYING_MODELS.map((model) => {
    const { weight, shape } = prior.models[model]
    const posterior = dryingPosterior({
      load,
      weighIns,
      scatter,
      prior: shapePriorFor(shape, load),
    })
    return { model, posterior, logWeight: Math.log(weight) + posterior.logEvidence }
  })
  refuseNoCurve(
    weighIns.length,
    seen.map(({ posterior }) => posterior.misfit),
  )
  const largest = Math.max(...seen.map(({ logWeight }) => logWeight))
  const total = seen.reduce((sum, { logWeight }) => sum + Math.exp(logWeight - largest), 0)
  const modelWeights = { newton: 0, page: 0 }
  const truths = seen.flatMap(({ model, posterior, logWeight }) => {
    const share = Math.exp(logWeight - largest) / total
    modelWeights[model] = share
    return posterior.truths.map(({ truth, weight }) => ({ truth, weight: weight * share }))
  })
  return { truths, modelWeights }
}

function rangeOf(truths: readonly WeighedTruth[], of: (truth: SlabTruth) => number): Range {
  const points = truths.map(({ truth, weight }) => ({ value: of(truth), weight }))
  const [from = 0, median = 0, to = 0] = weightedQuantiles(points, [TAIL, 1 / 2, 1 - TAIL])
  return { from, median, to }
}

function refuseNoCurve(weighIns: number, misfits: readonly number[]): void {
  if (weighIns === 0) return
  if (Math.min(...misfits) <= chiSquareQuantile(1 - UNLIKELY, weighIns)) return
  refuse(
    'readings_contradict',
    'No drying curve passes near all of these weigh-ins. If the slab was cut, wetted or moved to a dry bat, count from then on; if not, one of the weigh-ins is not of this slab alone.',
  )
}

function refuseTargetAtRest(question: DryingQuestion): void {
  const { load, targetWaterContentWetBasis: target } = question
  const { value } = equilibriumOf(load)
  if (target / (1 - target) > value) return
  refuse(
    'target_at_rest',
    `In this air the slab comes to rest at ${perCent(value / (1 + value))} of water, so it never gets down to ${perCent(target)}. Choose a wetter target.`,
  )
}

function refuseUseless({ from, median, to }: Range): void {
  if (!Number.isFinite(to)) {
    refuse(
      'target_at_rest',
      'The slab may come to rest before it is down to the target. Choose a wetter target, or find out how dry clay gets in this room.',
    )
  }
  const width = to - from
  if (width <= USEFUL_HOURS || width <= USEFUL_TIMES_MEDIAN * median) return
  refuse(
    'interval_too_wide',
    `The slab would be ready at some time between ${from.toFixed(0)} h and ${to.toFixed(0)} h after the pour, which is too wide to be of use. Lift it once after some hours and weigh it alone.`,
  )
}

function refuse(why: Unknowable, words: string): never {
  throw new Refusal('curve_must_be_knowable', words, { facts: { why } })
}

function basisOf(weighIns: number): string {
  if (weighIns === 0) return 'prior only'
  return weighIns === 1 ? '1 weigh-in' : `${String(weighIns)} weigh-ins`
}

function perCent(fraction: number): string {
  return `${(100 * fraction).toFixed(1)} %`
}
