import { wilsonInterval } from '../../shared/proportion.ts'
import { normalQuantile } from '../../shared/statistics.ts'

/** Where the truth lay, seen from an interval: within it, before it, behind it. */
export type Outcome = 'held' | 'early' | 'late'

/** What one studio's intervals did. Studios are independent; the intervals of one are not. */
export interface Tally {
  held: number
  early: number
  late: number
}

/** How often intervals held the truth, and how far chance may have moved that; shares from 0 to 1. */
export interface Coverage {
  readonly intervals: number
  readonly studios: number
  readonly held: number
  readonly early: number
  readonly late: number
  /** Where the true share lies 19 times in 20, because only so many studios were looked at. */
  readonly from: number
  readonly to: number
}

const CONFIDENCE = 0.95

export function nothingYet(): Tally {
  return { held: 0, early: 0, late: 0 }
}

/** Whether an interval holds a truth. */
export function outcomeOf(truth: number, { from, to }: { from: number; to: number }): Outcome {
  if (truth < from) return 'early'
  return truth > to ? 'late' : 'held'
}

/** All tallies of a studio as one. */
export function together(tallies: readonly Tally[]): Tally {
  return tallies.reduce(
    (sum, one) => ({
      held: sum.held + one.held,
      early: sum.early + one.early,
      late: sum.late + one.late,
    }),
    nothingYet(),
  )
}

/**
 * The share of intervals that held the truth, over studios.
 *
 * With one interval a studio the margin is Wilson's. With several, they stand or fall together, and the
 * margin is read off how much studios differ.
 */
export function coverageOf(studios: readonly Tally[]): Coverage | undefined {
  const asked = studios.filter((one) => sizeOf(one) > 0)
  const { held, early, late } = together(asked)
  const intervals = held + early + late
  if (intervals === 0) return undefined
  const shares = { held: held / intervals, early: early / intervals, late: late / intervals }
  const margin =
    intervals === asked.length ? ofStudios(held, intervals) : betweenStudios(asked, shares.held)
  return { intervals, studios: asked.length, ...shares, ...margin }
}

function ofStudios(events: number, trials: number): { from: number; to: number } {
  return wilsonInterval({ events, trials, confidence: CONFIDENCE })
}

function betweenStudios(studios: readonly Tally[], share: number): { from: number; to: number } {
  const squares = studios.reduce((sum, one) => sum + (one.held - share * sizeOf(one)) ** 2, 0)
  const intervals = studios.reduce((sum, one) => sum + sizeOf(one), 0)
  if (squares === 0) return ofStudios(Math.round(share * studios.length), studios.length)
  const half = (normalQuantile((1 + CONFIDENCE) / 2) * Math.sqrt(squares)) / intervals
  return { from: Math.max(0, share - half), to: Math.min(1, share + half) }
}

function sizeOf({ held, early, late }: Tally): number {
  return held + early + late
}
