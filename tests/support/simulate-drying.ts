import type { DryingLoad, Estimate, SlabWeighIn } from '../../shared/drying-load.ts'
import type { PastLoad } from '../../shared/drying-prior.ts'
import type { Chance } from './chance.ts'

/** The laws that simulated loads dry by: two of the forecast's own, and three that it does not know. */
export const OWN_LAWS = ['newton', 'page'] as const
export const OTHER_LAWS = ['logarithmic', 'two_stage', 'diffusion'] as const
export const LAWS = [...OWN_LAWS, ...OTHER_LAWS] as const
export type Law = (typeof LAWS)[number]

/** A studio: how long its slabs take and how they differ. */
export interface SimulatedStudio {
  readonly law: Law
  readonly logHours: number
  readonly logHoursSpread: number
  readonly exponent: number
  readonly exponentSpread: number
  /** How far its slabs lie off their curves at any moment, as a part of the water they lose. */
  readonly offCurve: number
}

/** A load with the truth behind it. */
export interface SimulatedLoad {
  readonly load: DryingLoad
  readonly gramsAfter: (hours: number) => number
  /** When the slab itself is so dry: it lies off its curve then, as it does whenever it is weighed. */
  readonly hoursTo: (waterContentWetBasis: number) => number
  readonly weighedAt: (hours: readonly number[]) => SlabWeighIn[]
}

const DIVISION_GRAMS = 10
const SCALE_UNCERTAINTY = DIVISION_GRAMS / Math.sqrt(12)
const OFF_CURVE = 0.004
const USUAL_MILLIMETRES = 30
const TARGET = 0.225
const HOURS_MAX = 5_000

/** Studios whose slabs take from half a working day to some days. */
export function simulatedStudio(chance: Chance, law: Law): SimulatedStudio {
  return {
    law,
    logHours: Math.log(12) + 0.6 * chance.normal(),
    logHoursSpread: chance.between(0.15, 0.35),
    exponent: law === 'page' ? chance.between(0.65, 1.15) : 1,
    exponentSpread: law === 'page' ? chance.between(0.03, 0.08) : 0,
    offCurve: OFF_CURVE,
  }
}

/**
 * A studio drawn from what the forecast believes of studios in general: times about 12 h give or take
 * a factor of 2.7, 1.3 within a studio; exponents about one, 0.25 between studios, 0.05 within; half a
 * per cent off the curve; what is said of spreads and scatter being worth three loads, or readings.
 *
 * Of such studios nine truths in ten must lie inside, whatever the forecast knows of each.
 */
export function believedStudio(chance: Chance, law: (typeof OWN_LAWS)[number]): SimulatedStudio {
  const isPage = law === 'page'
  const wider = () => Math.sqrt(3 / chiSquareOfThree(chance))
  const spreads = wider()
  const own = isPage ? 0.05 * spreads : 0
  const exponent = 1 + Math.sqrt(0.25 ** 2 - 0.05 ** 2) * chance.normal()
  return {
    law,
    logHours: Math.log(12) + Math.sqrt(1 - 0.25 ** 2) * chance.normal(),
    logHoursSpread: Math.min(0.7, 0.25 * spreads),
    // Nothing dries backwards, or all at once: the farthest of both tails are cut off.
    exponent: isPage ? Math.max(0.5, exponent) : 1,
    exponentSpread: Math.min(0.14, own),
    offCurve: Math.min(0.03, 0.005 * wider()),
  }
}

function chiSquareOfThree(chance: Chance): number {
  return chance.normal() ** 2 + chance.normal() ** 2 + chance.normal() ** 2
}

/** One load: what its books say, and how it truly dries. */
export function simulatedLoad(chance: Chance, studio: SimulatedStudio): SimulatedLoad {
  const dryGrams = chance.between(2_500, 6_000)
  const dryUncertainty = dryGrams * chance.between(0.002, 0.012)
  const atFirst = chance.between(0.58, 0.78)
  const atRest = 0.02 + 0.005 * chance.normal()
  const thicknessMillimetres = chance.between(24, 40)
  const pouredGrams = dryGrams * (1 + atFirst)
  const ratioAfter = ratioOf(chance, { studio, thicknessMillimetres })
  const gramsAfter = (hours: number) =>
    dryGrams * (1 + atRest + (atFirst - atRest) * ratioAfter(hours))
  const waterGrams = dryGrams * (atFirst - atRest)
  const off = () => studio.offCurve * waterGrams * chance.normal()
  const read = (grams: number) =>
    DIVISION_GRAMS *
    Math.round((grams + SCALE_UNCERTAINTY * 0.5 * chance.normal()) / DIVISION_GRAMS)
  const offWhenReady = off()
  return {
    load: {
      dryGrams: estimate(dryGrams + dryUncertainty * chance.normal(), dryUncertainty),
      pouredGrams: estimate(read(pouredGrams), SCALE_UNCERTAINTY),
      thicknessMillimetres,
    },
    gramsAfter,
    hoursTo: (wetBasis) => crossing(gramsAfter, dryGrams / (1 - wetBasis) - offWhenReady),
    weighedAt: (allHours) =>
      allHours.map((hours) => ({
        hours,
        slabGrams: read(gramsAfter(hours) + off()),
        standardUncertaintyGrams: SCALE_UNCERTAINTY,
      })),
  }
}

/** Loads that were weighed some times on the way, and when they were lifted. */
export function simulatedPast(chance: Chance, studio: SimulatedStudio, loads: number): PastLoad[] {
  return Array.from({ length: loads }, () => {
    const { load, hoursTo, weighedAt } = simulatedLoad(chance, studio)
    const lifted = hoursTo(TARGET) * chance.between(0.9, 1.1)
    const shares = Array.from({ length: chance.whole(1, 3) }, () => chance.between(0.1, 0.9))
    return { load, weighIns: weighedAt([...shares.map((share) => share * lifted), lifted]) }
  })
}

function ratioOf(
  chance: Chance,
  { studio, thicknessMillimetres }: { studio: SimulatedStudio; thicknessMillimetres: number },
): (hours: number) => number {
  const exponent = studio.exponent + studio.exponentSpread * chance.normal()
  const usualHours = Math.exp(studio.logHours + studio.logHoursSpread * chance.normal())
  const rate = usualHours ** -exponent * (USUAL_MILLIMETRES / thicknessMillimetres) ** 2
  const stopsAt = chance.between(0.05, 0.2)
  const breaksAt = chance.between(0.45, 0.7)
  switch (studio.law) {
    case 'newton':
    case 'page':
      return (hours) => Math.exp(-rate * hours ** exponent)
    case 'logarithmic':
      // Comes to rest above what the air alone would leave, as on a bat that is wet itself.
      return (hours) => stopsAt + (1 - stopsAt) * Math.exp(-rate * hours)
    case 'two_stage':
      // A wet surface loses the same each hour; below the break the loss falls with what is left.
      return (hours) => {
        const even = 1 - rate * breaksAt * hours
        if (even >= breaksAt) return even
        return breaksAt * Math.exp(-rate * (hours - (1 - breaksAt) / (rate * breaksAt)))
      }
    case 'diffusion':
      return (hours) => diffusionRatio(rate * hours)
  }
}

/** Where a slab that dries by diffusion is down to 1/e, in times of its thickness squared over D. */
const DIFFUSION_TIME = 0.3202
const DIFFUSION_TERMS = 40

/**
 * What is left in a slab that loses its water through one face, by diffusion alone (J. Crank, The
 * Mathematics of Diffusion, from memory): fast at first, a plain decay in the end.
 */
function diffusionRatio(time: number): number {
  let sum = 0
  for (let term = 0; term < DIFFUSION_TERMS; term += 1) {
    const odd = (2 * term + 1) ** 2
    sum += Math.exp((-odd * Math.PI ** 2 * DIFFUSION_TIME * time) / 4) / odd
  }
  return (8 / Math.PI ** 2) * sum
}

function crossing(gramsAfter: (hours: number) => number, grams: number): number {
  let early = 0
  let late = HOURS_MAX
  if (gramsAfter(late) > grams) return Number.POSITIVE_INFINITY
  for (let round = 0; round < 60; round += 1) {
    const middle = (early + late) / 2
    if (gramsAfter(middle) > grams) early = middle
    else late = middle
  }
  return (early + late) / 2
}

function estimate(value: number, standardUncertainty: number): Estimate {
  return { value, standardUncertainty }
}
