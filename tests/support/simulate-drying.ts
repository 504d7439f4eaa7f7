import type { DryingLoad, Estimate, SlabWeighIn } from '../../shared/drying-load.ts'
import type { PastLoad } from '../../shared/drying-prior.ts'
import type { Chance } from './chance.ts'

/** The laws that simulated loads dry by: two of the forecast's own, and two that it does not know. */
export const LAWS = ['newton', 'page', 'logarithmic', 'two_stage'] as const
export type Law = (typeof LAWS)[number]

/** A studio: how long its slabs take and how they differ. */
export interface SimulatedStudio {
  readonly law: Law
  readonly logHours: number
  readonly logHoursSpread: number
  readonly exponent: number
  readonly exponentSpread: number
}

/** A load with the truth behind it. */
export interface SimulatedLoad {
  readonly load: DryingLoad
  readonly gramsAfter: (hours: number) => number
  readonly hoursTo: (waterContentWetBasis: number) => number
  readonly weighedAt: (hours: readonly number[]) => SlabWeighIn[]
}

const DIVISION_GRAMS = 10
const SCALE_UNCERTAINTY = DIVISION_GRAMS / Math.sqrt(12)
/** How far a slab lies off its curve when it is weighed, as a part of all its water. */
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
  }
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
  const read = (grams: number) =>
    DIVISION_GRAMS *
    Math.round((grams + SCALE_UNCERTAINTY * 0.5 * chance.normal()) / DIVISION_GRAMS)
  return {
    load: {
      dryGrams: estimate(dryGrams + dryUncertainty * chance.normal(), dryUncertainty),
      pouredGrams: estimate(read(pouredGrams), SCALE_UNCERTAINTY),
      thicknessMillimetres,
    },
    gramsAfter,
    hoursTo: (wetBasis) => crossing(gramsAfter, dryGrams / (1 - wetBasis)),
    weighedAt: (allHours) =>
      allHours.map((hours) => ({
        hours,
        slabGrams: read(gramsAfter(hours) + OFF_CURVE * (pouredGrams - dryGrams) * chance.normal()),
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
  }
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
