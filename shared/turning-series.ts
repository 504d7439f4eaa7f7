import {
  movingRangeLimit,
  type ChartSignal,
  type IndividualsChart,
  type SignalKind,
} from './individuals-chart.ts'
import {
  signalSentence,
  turningThinner,
  type TurnedRun,
  type TurningDrift,
} from './turning-drift.ts'

/** A turned run by its id. */
export interface SeriesRun extends TurnedRun {
  readonly runId: string
}

/** How a run stands on the chart of its form; all null or false before there is one. */
export interface SeriesPoint {
  readonly runId: string
  /** How far it differs from the run before it. */
  readonly movingRange: number | null
  /** Further than chance explains. */
  readonly isJump: boolean
  readonly signals: readonly SignalKind[]
}

export interface SeriesSignal {
  readonly kind: SignalKind
  readonly direction: 'thinner' | 'thicker'
  readonly firstRunId: string
  readonly lastRunId: string
  readonly runs: number
  /** The latest run is part of it. */
  readonly isNow: boolean
  readonly words: string
}

export interface SeriesChart {
  readonly centre: number
  readonly upperLimit: number
  readonly lowerLimit: number
  readonly meanMovingRange: number
  readonly movingRangeLimit: number
  /** How many runs, from the oldest, these are drawn from. */
  readonly habitRuns: number
  readonly words: string
}

export interface TurningSeries {
  readonly lately: TurningDrift['lately']
  readonly words: string
  readonly chart: SeriesChart | null
  readonly points: readonly SeriesPoint[]
  readonly signals: readonly SeriesSignal[]
}

/**
 * The turned runs of one form on their chart, and what chance alone seldom does, each in a sentence.
 *
 * Limits that no share can reach are drawn at none and at all.
 *
 * Shape: runs of one form, oldest first. Units: fractions from 0 to 1.
 * Source: as `turningThinner` and `individualsChart`.
 */
export function turningSeries(runs: readonly SeriesRun[]): TurningSeries {
  const drift = turningThinner(runs)
  const { chart, lately, words } = drift
  const limit = chart === null ? null : movingRangeLimit(chart)
  return {
    lately,
    words,
    chart: chart === null ? null : chartOf(chart, drift.usualCount, runs.length),
    points: runs.map((run, index) =>
      pointOf({ run, before: runs[index - 1], limit, chart, index }),
    ),
    signals: chart === null ? [] : chart.signals.map((signal) => shown(runs, signal, chart)),
  }
}

function chartOf(chart: IndividualsChart, habitRuns: number, count: number): SeriesChart {
  const { mean: centre, meanMovingRange, upperLimit, lowerLimit } = chart
  return {
    centre,
    upperLimit: Math.min(1, upperLimit),
    lowerLimit: Math.max(0, lowerLimit),
    meanMovingRange,
    movingRangeLimit: movingRangeLimit(chart),
    habitRuns,
    words:
      habitRuns < count
        ? `The habit is what the ${habitRuns} runs before the last ${count - habitRuns} showed.`
        : `The habit is what all ${count} runs show: there are too few to keep the latest apart from it.`,
  }
}

function pointOf(asked: {
  run: SeriesRun
  before: SeriesRun | undefined
  limit: number | null
  chart: IndividualsChart | null
  index: number
}): SeriesPoint {
  const { run, before, limit, chart, index } = asked
  const movingRange =
    before === undefined ? null : Math.abs(run.turnedOffFraction - before.turnedOffFraction)
  const within = (chart?.signals ?? []).filter(
    ({ firstIndex, lastIndex }) => firstIndex <= index && index <= lastIndex,
  )
  return {
    runId: run.runId,
    movingRange,
    isJump: movingRange !== null && limit !== null && movingRange > limit,
    signals: [...new Set(within.map(({ kind }) => kind))],
  }
}

function shown(
  runs: readonly SeriesRun[],
  signal: ChartSignal,
  chart: IndividualsChart,
): SeriesSignal {
  const { kind, direction, firstIndex, lastIndex } = signal
  return {
    kind,
    direction: direction === 'up' ? 'thinner' : 'thicker',
    firstRunId: runs[firstIndex]?.runId ?? '',
    lastRunId: runs[lastIndex]?.runId ?? '',
    runs: lastIndex - firstIndex + 1,
    isNow: lastIndex === runs.length - 1,
    words: signalSentence(runs, signal, chart),
  }
}
