import { present } from './assert.ts'
import { sumOfSquares } from './curve-problem.ts'
import {
  equilibriumOf,
  slabGramsAfter,
  waterToLoseGrams,
  type DryingLoad,
  type SlabTruth,
  type SlabWeighIn,
} from './drying-load.ts'
import { fittedCurve, type FittedCurve } from './least-squares.ts'
import { choleskyRoot, logDeterminant, timesVector, type Rows } from './linear-algebra.ts'
import { normalPoints } from './quasi-random.ts'

/**
 * What is known of one model's parameters before a load is weighed: normal, the logarithm of the rate
 * constant first, then the exponent if the model has one.
 */
export interface ShapePrior {
  readonly mean: readonly number[]
  /** What independent standard deviations are worth: times its own mirror image, the covariance. */
  readonly root: Rows
}

/** A load and all that was read of it, to be seen through one model. */
export interface SeenLoad {
  readonly load: DryingLoad
  readonly weighIns: readonly SlabWeighIn[]
  readonly prior: ShapePrior
  /** How far slabs lie off their curves, as a standard deviation of the moisture ratio. */
  readonly scatter: number
}

/** What a load might truly be, and how much that counts beside the others. */
export interface WeighedTruth {
  readonly truth: SlabTruth
  readonly weight: number
}

export interface DryingPosterior {
  /** Weights add up to one. */
  readonly truths: readonly WeighedTruth[]
  /** Logarithm of how likely the weigh-ins were, to be compared between models. */
  readonly logEvidence: number
  /** Squares of the distances from the nearest curve, over their uncertainties, summed. */
  readonly misfit: number
}

/** How many truths stand for all. Our choice: quantiles to two digits, in some milliseconds. */
const TRUTHS = 600
/** The rate and the exponent; dry mass, poured mass and rest; and the distance off the curve. */
const DIMENSIONS = 6
const POINTS = normalPoints(TRUTHS, DIMENSIONS)
/** Truths are laid out a little wider than the normal form says, and weighed for it. */
const WIDENING = 1.15
/** Exponents below this are bent towards zero and never reach it: slabs do not dry backwards. */
const EXPONENT_BENT_BELOW = 0.4

/**
 * What a load's weigh-ins leave possible, under one model.
 *
 * The most likely truth is found by least squares, the prior counting as readings. About it truths are
 * laid out as the normal form of the posterior says (Laplace's method), and each is weighed by how well
 * it agrees with prior and weigh-ins, which mends what the normal form misses.
 *
 * Units: as the load. Shape: no weigh-ins leave the prior.
 * Source: P. S. Laplace, Mémoire sur la probabilité des causes (1774), for the normal form; T. Kloek &
 * H. K. van Dijk, Econometrica 46 (1978), 1-19, for the weighing (both from memory).
 */
export function dryingPosterior(seen: SeenLoad): DryingPosterior {
  const model = standardModel(seen)
  const fit = bestTruth(model)
  const root = choleskyRoot(fit.covariance)
  const size = fit.parameters.length
  const laidOut = POINTS.map((point) => {
    const place = timesVector(
      root,
      point.slice(0, size).map((one) => WIDENING * one),
    )
    const parameters = place.map((one, index) => one + (fit.parameters[index] ?? 0))
    const drawn = sumOfSquares(point.slice(0, size))
    const offCurve = seen.scatter * present(point.at(-1), 'a point has its last coordinate')
    return {
      truth: { ...model.truthAt(parameters), offCurve },
      logWeight: model.logDensity(parameters) + drawn / 2,
    }
  })
  const largest = Math.max(...laidOut.map(({ logWeight }) => logWeight))
  const weights = laidOut.map(({ logWeight }) => Math.exp(logWeight - largest))
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  return {
    truths: laidOut.map(({ truth }, index) => ({ truth, weight: (weights[index] ?? 0) / total })),
    logEvidence:
      largest +
      Math.log(total / TRUTHS) +
      logDeterminant(fit.covariance) / 2 +
      size * Math.log(WIDENING),
    misfit: fit.residualSumOfSquares,
  }
}

/** The most likely parameters in standard deviations of their priors, and their covariance. */
export interface ShapeFit {
  readonly deviations: readonly number[]
  readonly covariance: Rows
  /** In units of moisture ratio, and the degrees of freedom that they have left. */
  readonly residuals: readonly number[]
  readonly degreesOfFreedom: number
  /** As `DryingPosterior` has it, in its normal form alone. */
  readonly logEvidence: number
}

/**
 * The most likely shape of a load's curve, in standard deviations of its prior.
 *
 * Units: none; residuals as moisture ratios. Source: least squares with the prior as readings.
 */
export function shapeFit(seen: SeenLoad): ShapeFit {
  const model = standardModel(seen)
  const fit = bestTruth(model)
  const size = seen.prior.mean.length
  const truth = model.truthAt(fit.parameters)
  const span = waterToLoseGrams(seen.load)
  // A direction that the readings do not touch keeps its prior variance of one and costs nothing.
  const used = fit.covariance.reduce((sum, row, index) => sum + 1 - (row[index] ?? 1), 0)
  return {
    deviations: fit.parameters.slice(0, size),
    covariance: fit.covariance.slice(0, size).map((row) => row.slice(0, size)),
    residuals: seen.weighIns.map(
      ({ hours, slabGrams }) => (slabGrams - slabGramsAfter(truth, hours)) / span,
    ),
    degreesOfFreedom: Math.max(0, seen.weighIns.length - used),
    logEvidence: model.logDensity(fit.parameters) + logDeterminant(fit.covariance) / 2,
  }
}

/** Everything unknown of a load, counted in standard deviations of what is known beforehand. */
interface StandardModel {
  readonly size: number
  readonly seen: SeenLoad
  readonly noiseGrams: readonly number[]
  readonly truthAt: (deviations: readonly number[]) => SlabTruth
  /** Of prior and weigh-ins, but for a constant that all models share. */
  readonly logDensity: (deviations: readonly number[]) => number
}

function standardModel(seen: SeenLoad): StandardModel {
  const { load, weighIns, prior } = seen
  const shapeSize = prior.mean.length
  const offCurveGrams = seen.scatter * waterToLoseGrams(load)
  const noiseGrams = weighIns.map(({ standardUncertaintyGrams: one }) =>
    Math.hypot(one, offCurveGrams),
  )
  const masses = [load.dryGrams, load.pouredGrams, equilibriumOf(load)]
  const truthAt = (deviations: readonly number[]): SlabTruth => {
    const away = timesVector(prior.root, deviations.slice(0, shapeSize))
    const [logRate = 0, exponent = 1] = prior.mean.map((one, index) => one + (away[index] ?? 0))
    const [dryGrams = 0, pouredGrams = 0, equilibriumWaterContentDryBasis = 0] = masses.map(
      (one, index) => one.value + one.standardUncertainty * (deviations[shapeSize + index] ?? 0),
    )
    const shape = { rateConstant: Math.exp(logRate), exponent: aboveZero(exponent) }
    return { dryGrams, pouredGrams, equilibriumWaterContentDryBasis, shape, offCurve: 0 }
  }
  const logDensity = (deviations: readonly number[]) => {
    const truth = truthAt(deviations)
    const residuals = weighIns.map(
      ({ hours, slabGrams }, index) =>
        (slabGrams - slabGramsAfter(truth, hours)) / (noiseGrams[index] ?? 1),
    )
    return -(sumOfSquares(residuals) + sumOfSquares(deviations)) / 2
  }
  return { size: shapeSize + masses.length, seen, noiseGrams, truthAt, logDensity }
}

function bestTruth(model: StandardModel): FittedCurve {
  const { size, seen, noiseGrams, truthAt } = model
  const none = Array.from({ length: size }, () => 0)
  return fittedCurve({
    curve: (deviations) => {
      const truth = truthAt(deviations)
      return seen.weighIns.map(({ hours }) => slabGramsAfter(truth, hours))
    },
    observed: seen.weighIns.map(({ slabGrams }) => slabGrams),
    standardUncertainties: noiseGrams,
    start: none,
    priors: none.map(() => ({ mean: 0, standardUncertainty: 1 })),
  })
}

function aboveZero(exponent: number): number {
  if (exponent >= EXPONENT_BENT_BELOW) return exponent
  return EXPONENT_BENT_BELOW * Math.exp(exponent / EXPONENT_BENT_BELOW - 1)
}
