import { normalQuantile, tQuantile } from './statistics.ts'

/** How many of the pieces of one run did what is asked about. */
export interface RunCount {
  readonly events: number
  readonly trials: number
}

/**
 * How many standard deviations an interval for a share reaches, where what befalls the pieces of one run
 * befalls them together.
 *
 * As many as the normal distribution says where the runs differ no more than chance makes them; otherwise
 * as many as Student's says, times the root of how much more they differ. What the groups differ by from
 * each other does not count.
 *
 * Shape: groups of runs, a share to each group; runs without pieces are left out; confidence between 0
 * and 1, both excluded. Units: standard deviations of a share with independent pieces.
 * Source: Pearson's dispersion, never taken below one: P. McCullagh and J. A. Nelder, Generalized Linear
 * Models (1989), 4.5 (from memory).
 */
export function clumpedDeviations(
  groups: readonly (readonly RunCount[])[],
  confidence: number,
): number {
  const parts = groups.map(pearson)
  const probability = (1 + confidence) / 2
  const degreesOfFreedom = parts.reduce((sum, part) => sum + part.degreesOfFreedom, 0)
  const chiSquare = parts.reduce((sum, part) => sum + part.chiSquare, 0)
  const isClumped = degreesOfFreedom > 0 && chiSquare > degreesOfFreedom
  if (!isClumped) return normalQuantile(probability)
  return Math.sqrt(chiSquare / degreesOfFreedom) * tQuantile(probability, degreesOfFreedom)
}

/** How far the runs of a group lie about its share. */
function pearson(all: readonly RunCount[]): { chiSquare: number; degreesOfFreedom: number } {
  const runs = all.filter(({ trials }) => trials > 0)
  const trials = runs.reduce((sum, run) => sum + run.trials, 0)
  const share = trials === 0 ? 0 : runs.reduce((sum, run) => sum + run.events, 0) / trials
  if (share === 0 || share === 1) return { chiSquare: 0, degreesOfFreedom: 0 }
  const chiSquare = runs.reduce(
    (sum, run) => sum + (run.events - run.trials * share) ** 2 / (run.trials * share * (1 - share)),
    0,
  )
  return { chiSquare, degreesOfFreedom: runs.length - 1 }
}
