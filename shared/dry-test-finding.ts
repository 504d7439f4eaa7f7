import type { WaterFound } from './doubt-learning.ts'
import { percentWords } from './percent.ts'
import type { PlaceInside } from './place.ts'

/** What a dry test is taken to say. */
export type DryTestFinding =
  /** The figure that was reckoned with was off, as figures are. */
  | 'figure_was_off'
  /** The clay has dried, or was wetted, since it was weighed. */
  | 'clay_has_changed'
  /** It does not fit what is known of such clay, and nothing else is set by it. */
  | 'does_not_fit'

/** Beyond so many deviations a figure is not just off. Clay in a sealed bag neither dries nor drinks. Our choice. */
const OFF_MAX = { sealed: 6, open: 3, of_the_state: 4 } as const

/**
 * By how many standard deviations what a test found differs from what was reckoned with.
 *
 * Units: standard deviations, drier below zero. Source: JCGM 100:2008, 5.2.2: what was reckoned and what
 * was found are unsure on their own.
 */
export function surpriseOf(found: WaterFound): number {
  let variance = found.foundUncertainty.toNumber() ** 2
  for (const slope of found.reckonedDoubt.values()) variance += slope.toNumber() ** 2
  const off = found.foundWetBasis.minus(found.reckonedWetBasis).toNumber()
  return variance === 0 ? 0 : off / Math.sqrt(variance)
}

/**
 * What a test of some clay is taken to say, by how surprising it is.
 *
 * Clay on the bench or in a bucket dries and is wetted, so that a test of it may tell of that and not of
 * the figure that it was reckoned with when it was weighed.
 *
 * Shape: where the sampled clay lies; undefined where the test is of the state alone.
 * Units: none. Source: our choice; three deviations come by chance once in 370 tests.
 */
export function dryTestFinding(found: WaterFound, place: PlaceInside | undefined): DryTestFinding {
  const off = Math.abs(surpriseOf(found))
  if (place === undefined) return off > OFF_MAX.of_the_state ? 'does_not_fit' : 'figure_was_off'
  if (place === 'store') return off > OFF_MAX.sealed ? 'does_not_fit' : 'figure_was_off'
  return off > OFF_MAX.open ? 'clay_has_changed' : 'figure_was_off'
}

/**
 * A test's finding as a potter would say it.
 *
 * Units: per cent of the wet mass. Source: as `dryTestFinding`.
 */
export function dryTestWords(
  found: WaterFound,
  said: { readonly finding: DryTestFinding; readonly corrected: number },
): string {
  const { foundWetBasis, reckonedWetBasis } = found
  const opening = `The test found ${percentWords(foundWetBasis)} of water where ${percentWords(reckonedWetBasis)} was reckoned with`
  const deviations = `${Math.abs(surpriseOf(found)).toFixed(0)} times what the figure and the test leave open`
  if (said.finding === 'clay_has_changed') {
    const way = foundWetBasis.lessThan(reckonedWetBasis) ? 'dried' : 'been wetted'
    return `${opening}, ${deviations}: the clay is taken to have ${way} since it was weighed. Its dry clay stays as it was and its water is set by the test; nothing else is corrected.`
  }
  if (said.finding === 'does_not_fit') {
    return `${opening}, ${deviations}. What was reckoned before is not corrected by it: look at the sample, the tin and the state again, and take the test back if one of them was wrong.`
  }
  if (said.corrected === 0) return `${opening}.`
  const { corrected } = said
  return corrected === 1
    ? `${opening}. One other holding that leant on the same figures is corrected by as much as it leant.`
    : `${opening}. ${String(corrected)} other holdings that leant on the same figures are corrected by as much as they leant.`
}
