import { assert, present } from './assert.ts'
import { percentWords } from './percent.ts'
import { individualsChart, type ChartSignal, type IndividualsChart } from './individuals-chart.ts'

/** What of a run's leather-hard clay was turned off. */
export interface TurnedRun {
  readonly label: string
  readonly turnedOffFraction: number
}

export interface TurningDrift {
  readonly lately: 'thinner' | 'thicker' | 'as_usual' | 'not_yet_known'
  /** Null where there are too few runs for one. */
  readonly chart: IndividualsChart | null
  /** How many runs, from the oldest, the limits are drawn from. */
  readonly usualCount: number
  /** The signal that the latest run is part of. */
  readonly signal: ChartSignal | null
  readonly words: string
}

/** So many runs are judged, and so many are needed to judge them by. */
const RUNS_TOGETHER = 8

/**
 * Whether the latest runs of a form are turned thinner than usual: more is turned off them.
 *
 * What is usual is what the runs before the last eight showed; where these are fewer than eight, all
 * runs show it. A signal counts as long as the latest run is part of it.
 *
 * Shape: runs of one form, oldest first; forms differ in what is turned off, so they are not mixed.
 * Units: fractions from 0 to 1.
 * Source: signals as `individualsChart`; eight and eight are our choice, because the rule of eight
 * needs as many, and limits from fewer move about too much.
 */
export function turningThinner(runs: readonly TurnedRun[]): TurningDrift {
  const shares = runs.map(({ turnedOffFraction }) => turnedOffFraction)
  assert(
    shares.every((share) => share >= 0 && share <= 1),
    'what is turned off is a fraction of the run',
  )
  if (runs.length < RUNS_TOGETHER) return tooFew(runs.length)
  const before = runs.length - RUNS_TOGETHER
  const usualCount = before >= RUNS_TOGETHER ? before : runs.length
  const chart = individualsChart(shares, usualCount)
  const last = runs.length - 1
  const signal = chart.signals.find(({ lastIndex }) => lastIndex === last) ?? null
  if (signal === null) {
    return { lately: 'as_usual', chart, usualCount, signal, words: usualWords(chart) }
  }
  const lately = signal.direction === 'up' ? 'thinner' : 'thicker'
  return { lately, chart, usualCount, signal, words: signalWords(runs, signal, chart) }
}

function tooFew(count: number): TurningDrift {
  const words = `Not yet known: ${count} of the ${RUNS_TOGETHER} runs that it takes to see a drift.`
  return { lately: 'not_yet_known', chart: null, usualCount: 0, signal: null, words }
}

function usualWords(chart: IndividualsChart): string {
  return `Turned as usual: ${percentWords(chart.mean)} comes off, and single runs lie between ${percentWords(Math.max(0, chart.lowerLimit))} and ${percentWords(Math.min(1, chart.upperLimit))}.`
}

function signalWords(
  runs: readonly TurnedRun[],
  signal: ChartSignal,
  chart: IndividualsChart,
): string {
  const { lately, which, count } = runsWithin(runs, signal)
  const isUp = signal.direction === 'up'
  const what = {
    beyond_limits: `${isUp ? 'more' : 'less'} was turned off than chance explains`,
    eight_on_one_side: `${count} runs in a row, ${isUp ? 'more' : 'less'} was turned off than usual`,
    six_in_one_direction: `${count} runs in a row, ${isUp ? 'more' : 'less'} was turned off each time`,
  }[signal.kind]
  return `You turn ${isUp ? 'thinner' : 'thicker'} lately. ${which}: ${what} (${percentWords(lately)}; usual is ${percentWords(chart.mean)}).`
}

/**
 * What one signal of a chart says, and what it means for the pots.
 *
 * More turned off than the habit leaves thinner walls and feet, less leaves thicker ones. The latest run
 * makes it now; what lies behind was so then.
 *
 * Shape: the runs and the chart that the signal is of. Units: fractions, told in per cent.
 * Source: the rules of `individualsChart`.
 */
export function signalSentence(
  runs: readonly TurnedRun[],
  signal: ChartSignal,
  chart: IndividualsChart,
): string {
  const { lately, which, count, from, to } = runsWithin(runs, signal)
  const isUp = signal.direction === 'up'
  const isNow = signal.lastIndex === runs.length - 1
  const habit = `where the habit is ${percentWords(chart.mean)}`
  const what = {
    beyond_limits: `${percentWords(lately)} was turned off ${habit}, ${isUp ? 'more' : 'less'} than chance explains`,
    eight_on_one_side: `${percentWords(lately)} was turned off ${habit}, all ${count} on that side`,
    six_in_one_direction: `${isUp ? 'more' : 'less'} was turned off each time, from ${percentWords(from)} to ${percentWords(to)}, ${habit}`,
  }[signal.kind]
  const whose = count === 1 ? which : `${isNow ? 'The last' : 'These'} ${count} runs, ${which}`
  const walls = `the walls or feet ${isNow ? 'are' : 'were'} ${isUp ? 'thinner' : 'thicker'}`
  return `${whose}: ${what}; ${walls}${isNow ? ' now' : ''}.`
}

function runsWithin(runs: readonly TurnedRun[], { firstIndex, lastIndex }: ChartSignal) {
  const within = runs.slice(firstIndex, lastIndex + 1)
  const [first, last] = [present(within[0], 'a signal has runs'), present(within.at(-1), 'a last')]
  return {
    count: within.length,
    lately: within.reduce((sum, run) => sum + run.turnedOffFraction, 0) / within.length,
    from: first.turnedOffFraction,
    to: last.turnedOffFraction,
    which: within.length === 1 ? last.label : `${first.label} to ${last.label}`,
  }
}
