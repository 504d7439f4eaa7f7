import { present } from './assert.ts'
import { sumOfSquares } from './curve-problem.ts'
import {
  checkLoad,
  contradictionIn,
  waterToLoseGrams,
  type DryingLoad,
  type SlabWeighIn,
} from './drying-load.ts'
import { DRYING_MODELS, type DryingModel } from './drying-models.ts'
import {
  logEvidenceIn,
  populationAsSeenBy,
  populationOf,
  tailsOfStudent,
  type Population,
} from './drying-population.ts'
import { shapeFit, type ShapeFit, type ShapePrior } from './drying-posterior.ts'
import { choleskyRoot, timesMatrix, timesVector } from './linear-algebra.ts'
import { mean } from './statistics.ts'

/** A load that has been lifted, with its weigh-ins. */
export interface PastLoad {
  readonly load: DryingLoad
  readonly weighIns: readonly SlabWeighIn[]
  /** The bat that it lay on; loads of one bat are more alike. */
  readonly batId?: string | undefined
}

/** What is expected of the next load: of any bat, and of each bat that past loads lay on. */
export interface StudioDrying {
  readonly anyBat: DryingPrior
  readonly ofBat: ReadonlyMap<string, DryingPrior>
}

/** What a studio's past loads lead to expect of the next one. */
export interface DryingPrior {
  /** Past loads that were weighed at least once and do not contradict themselves. */
  readonly loads: number
  /** How many of these lay on the bat that it is for. */
  readonly loadsOnBat: number
  /** How far slabs lie off their curves, as a standard deviation of the moisture ratio. */
  readonly scatter: number
  readonly models: Readonly<
    Record<DryingModel, { readonly weight: number; readonly shape: ShapePrior }>
  >
}

/** The thickness that the priors are for. Units: millimetres. */
const USUAL_MILLIMETRES = 30
/** Studios in general: 12 h to a moisture ratio of 1/e, give or take a factor of 2.7. */
const USUAL_LOG_HOURS = Math.log(12)
const LOG_HOURS_SPREAD = 1
/** Within a studio, from load to load: a factor of 1.3. */
const OWN_LOG_HOURS_SPREAD = 0.25
/** Exponents in general: about the plain decay; and within a studio. */
const USUAL_EXPONENT = 1
const EXPONENT_SPREAD = 0.25
const OWN_EXPONENT_SPREAD = 0.05
/** How far slabs lie off their curves, and how many readings' worth that belief counts. */
const USUAL_SCATTER = 0.005
const READINGS_BEHIND_SCATTER = 3
const SCATTER_ROUNDS = 2
const WEIGHT_ROUNDS = 30

/**
 * What is believed of a shape before any load was seen, for a slab of the usual thickness.
 *
 * Time and exponent are independent; so the rate constant, which is the time to the power of minus the
 * exponent, goes against the exponent.
 */
const BROAD_SHAPES: Readonly<Record<DryingModel, ShapePrior>> = {
  newton: { mean: [-USUAL_LOG_HOURS], root: [[LOG_HOURS_SPREAD]] },
  page: {
    mean: [-USUAL_EXPONENT * USUAL_LOG_HOURS, USUAL_EXPONENT],
    root: [
      [USUAL_EXPONENT * LOG_HOURS_SPREAD, -USUAL_LOG_HOURS * EXPONENT_SPREAD],
      [0, EXPONENT_SPREAD],
    ],
  },
}

/** For each direction of a model, the part of the variance that is found within a studio. */
const OWN_SHARES: Readonly<Record<DryingModel, readonly number[]>> = {
  newton: [(OWN_LOG_HOURS_SPREAD / LOG_HOURS_SPREAD) ** 2],
  page: [
    (OWN_LOG_HOURS_SPREAD / LOG_HOURS_SPREAD) ** 2,
    (OWN_EXPONENT_SPREAD / EXPONENT_SPREAD) ** 2,
  ],
}

/**
 * What to expect of the next load, from past loads of the same studio, or of studios in general.
 *
 * Each load has a rate constant (log-normal) and an exponent (normal) of its own, about a mean that the
 * studio's loads share. Which model the studio's loads follow is learnt by how likely their weigh-ins
 * were under each; how far slabs lie off their curves, from what the curves leave over.
 *
 * Shape: past loads in any order; none gives the broad prior. Units: hours, millimetres.
 * Source: our choice, because nobody has published drying curves of clay on plaster; the form is that of
 * `populationOf`.
 */
export function dryingPriorFrom(pastLoads: readonly PastLoad[]): DryingPrior {
  return studioDryingFrom(pastLoads).anyBat
}

/**
 * As `dryingPriorFrom`, and the same for each bat: its own past loads count most.
 *
 * Shape: as `dryingPriorFrom`. Units: hours, millimetres.
 * Source: as `dryingPriorFrom` and `populationAsSeenBy`.
 */
export function studioDryingFrom(pastLoads: readonly PastLoad[]): StudioDrying {
  const usable = pastLoads.filter(isUsable)
  const scatter = scatterOf(usable)
  const seen = { newton: fitsOf('newton', usable, scatter), page: fitsOf('page', usable, scatter) }
  const populations = {
    newton: populationOf(seen.newton, OWN_SHARES.newton),
    page: populationOf(seen.page, OWN_SHARES.page),
  }
  const likelier = usable.map(
    (_, index) =>
      logEvidenceIn(present(seen.page[index], 'each load is fitted'), populations.page) -
      logEvidenceIn(present(seen.newton[index], 'each load is fitted'), populations.newton),
  )
  const pageWeight = pageWeightFrom(likelier)
  const priorOf = (isOnBat: (past: PastLoad) => boolean): DryingPrior => {
    const shapeOf = (model: DryingModel) => {
      const own = seen[model].filter((_, index) =>
        isOnBat(present(usable[index], 'each fit is of a load')),
      )
      return shapeFrom(model, populationAsSeenBy(own, populations[model]))
    }
    return {
      loads: usable.length,
      loadsOnBat: usable.filter(isOnBat).length,
      scatter,
      models: {
        newton: { weight: 1 - pageWeight, shape: shapeOf('newton') },
        page: { weight: pageWeight, shape: shapeOf('page') },
      },
    }
  }
  const batIds = new Set(usable.flatMap(({ batId }) => batId ?? []))
  return {
    anyBat: priorOf(() => false),
    ofBat: new Map([...batIds].map((id) => [id, priorOf(({ batId }) => batId === id)])),
  }
}

/** What to expect of a load in a studio of which nothing is known. */
export const BROAD_DRYING_PRIOR: DryingPrior = dryingPriorFrom([])

/**
 * A prior made for a slab of this thickness.
 *
 * Units: millimetres. Source: diffusion takes four times as long through twice the thickness, so the
 * rate constant goes with one over its square (J. Crank, The Mathematics of Diffusion, 1956, from
 * memory). That it does so in both models is our choice.
 */
export function shapePriorFor(prior: ShapePrior, load: DryingLoad): ShapePrior {
  const thicker = (load.thicknessMillimetres ?? USUAL_MILLIMETRES) / USUAL_MILLIMETRES
  const [logRate = 0, ...others] = prior.mean
  return { mean: [logRate - 2 * Math.log(thicker), ...others], root: prior.root }
}

function isUsable({ load, weighIns }: PastLoad): boolean {
  checkLoad(load, weighIns)
  return weighIns.length > 0 && contradictionIn(load, weighIns) === undefined
}

function fitsOf(model: DryingModel, pastLoads: readonly PastLoad[], scatter: number): ShapeFit[] {
  return pastLoads.map(({ load, weighIns }) =>
    shapeFit({ load, weighIns, scatter, prior: shapePriorFor(BROAD_SHAPES[model], load) }),
  )
}

/**
 * What the curves leave over, less what the scales explain of it. The more flexible model is asked, so
 * that the choice between models is not settled here. While it rests on a few readings it is wider, as
 * Student's t is.
 */
function scatterOf(pastLoads: readonly PastLoad[]): number {
  let scatter = USUAL_SCATTER
  let degrees = READINGS_BEHIND_SCATTER
  for (let round = 0; round < SCATTER_ROUNDS && pastLoads.length > 0; round += 1) {
    let sum = READINGS_BEHIND_SCATTER * USUAL_SCATTER ** 2
    degrees = READINGS_BEHIND_SCATTER
    for (const [index, fit] of fitsOf('page', pastLoads, scatter).entries()) {
      const past = present(pastLoads[index], 'each load is fitted')
      const left = sumOfSquares(fit.residuals)
      sum += left - fit.degreesOfFreedom * scaleVariance(past)
      degrees += fit.degreesOfFreedom
    }
    scatter = Math.sqrt(Math.max(SCATTER_MIN ** 2, sum / degrees))
  }
  return scatter * tailsOfStudent(degrees)
}

/** Below this, slabs would follow their curves better than anything dries. Our choice. */
const SCATTER_MIN = 0.001

function scaleVariance({ load, weighIns }: PastLoad): number {
  const span = waterToLoseGrams(load)
  const squares = weighIns.map(({ standardUncertaintyGrams: one }) => (one / span) ** 2)
  return mean(squares)
}

/** The share of loads that follow Page's law; before any was seen, one half, worth two loads. */
function pageWeightFrom(likelier: readonly number[]): number {
  let weight = 1 / 2
  for (let round = 0; round < WEIGHT_ROUNDS; round += 1) {
    const odds = Math.log(weight / (1 - weight))
    const ofPage = likelier.map((log) => 1 / (1 + Math.exp(-odds - log)))
    weight =
      (1 + ofPage.reduce((sum, one) => sum + one, 0)) / (DRYING_MODELS.length + ofPage.length)
  }
  return weight
}

function shapeFrom(model: DryingModel, population: Population): ShapePrior {
  const broad = BROAD_SHAPES[model]
  const away = timesVector(broad.root, population.mean)
  return {
    mean: broad.mean.map((one, index) => one + (away[index] ?? 0)),
    root: timesMatrix(broad.root, choleskyRoot(population.nextSpread)),
  }
}
