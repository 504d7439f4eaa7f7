import { assert } from './assert.ts'
import { clumpedDeviations } from './clumping.ts'
import { percentPoints, percentWords } from './percent.ts'
import { scoreInterval, shareDifference, type ShareInterval } from './proportion.ts'
import { expandedUncertainty, mean, sampleStandardDeviation, tQuantile } from './statistics.ts'

/** A run of one form by a maker. */
export interface MadeRun {
  readonly maker: string
  /** Null where it was not turned, or turned by somebody else. */
  readonly turnedOffFraction: number | null
  readonly firedPieces: number
  readonly lostPieces: number
}

export interface MakerFigures {
  readonly maker: string
  readonly runs: number
  readonly turnedRuns: number
  /** The mean of the runs; null where none was turned. */
  readonly turnedOffFraction: number | null
  /** Of that mean; null with fewer than two runs. */
  readonly turnedOffInterval95: ShareInterval | null
  readonly firedPieces: number
  readonly survivedPieces: number
  /** Of the pots that the kilns have decided on; null where there are none. */
  readonly survivorsFraction: number | null
  readonly survivorsInterval95: ShareInterval | null
}

export interface MakersCompared {
  readonly makers: readonly MakerFigures[]
  /** What tells two makers apart, a sentence each; empty where nothing does. */
  readonly findings: readonly string[]
  readonly words: string
}

/** So many runs of each it takes to tell two makers apart. */
const RUNS_A_MAKER_MIN = 4
const CONFIDENCE = 0.95
/** Each two makers are compared in what they turn off and in what survives. */
const MEASURES = 2

/**
 * The makers of a form side by side, and what tells them apart, said only where something does.
 *
 * Two are told apart where the interval of their difference has zero outside, at 95 % for all such
 * comparisons together, with four runs of each. Runs are the unit of what is turned off; the losses of
 * one run come together, so the survivors' intervals are as much wider as runs of one maker differ more
 * than chance makes them. What else differed between their runs, clay or kiln or season, is not known.
 *
 * Shape: runs of one form. Units: fractions from 0 to 1; pieces.
 * Source: B. L. Welch, Biometrika 34 (1947), 28-35 (from memory), for the means; score intervals as
 * `shareDifference`, reaching as far as `clumpedDeviations` says; four runs, and the sharing of the doubt by the number of
 * comparisons (Bonferroni), are our choice.
 */
export function makersCompared(runs: readonly MadeRun[]): MakersCompared {
  const names = [...new Set(runs.map(({ maker }) => maker))].sort((one, other) =>
    one.localeCompare(other, 'en'),
  )
  const makers = names.map((name) => runs.filter(({ maker }) => maker === name))
  const pairs = makers.flatMap((one, index) =>
    makers.slice(index + 1).map((other) => [one, other] as const),
  )
  const confidence = 1 - (1 - CONFIDENCE) / Math.max(1, MEASURES * pairs.length)
  const findings = pairs.flatMap((pair) => [
    ...turnedApart(pair, confidence),
    ...survivedApart(pair, confidence),
  ])
  return { makers: makers.map(figuresOf), findings, words: wordsOf(makers, findings) }
}

type Runs = readonly MadeRun[]

function figuresOf(runs: Runs): MakerFigures {
  const shares = sharesOf(runs)
  const counts = survivorsOf(runs)
  const isFired = counts.trials > 0
  return {
    maker: nameOf(runs),
    runs: runs.length,
    turnedRuns: shares.length,
    turnedOffFraction: shares.length === 0 ? null : mean(shares),
    turnedOffInterval95: meanInterval(shares),
    firedPieces: counts.trials,
    survivedPieces: counts.events,
    survivorsFraction: isFired ? counts.events / counts.trials : null,
    survivorsInterval95: isFired ? scoreInterval(counts, deviations([runs], CONFIDENCE)) : null,
  }
}

/** Student's interval of a mean, within what a share can be. */
function meanInterval(shares: readonly number[]): ShareInterval | null {
  if (shares.length < 2) return null
  const half =
    (tQuantile((1 + CONFIDENCE) / 2, shares.length - 1) * sampleStandardDeviation(shares)) /
    Math.sqrt(shares.length)
  return { from: Math.max(0, mean(shares) - half), to: Math.min(1, mean(shares) + half) }
}

function turnedApart([one, other]: readonly [Runs, Runs], confidence: number): string[] {
  const [first, second] = [sharesOf(one), sharesOf(other)]
  if (Math.min(first.length, second.length) < RUNS_A_MAKER_MIN) return []
  const sources = [first, second].map((shares) => ({
    standardUncertainty: sampleStandardDeviation(shares) / Math.sqrt(shares.length),
    degreesOfFreedom: shares.length - 1,
  }))
  if (sources.every(({ standardUncertainty }) => standardUncertainty === 0)) return []
  const half = expandedUncertainty(sources, confidence)
  const difference = mean(first) - mean(second)
  if (Math.abs(difference) <= half) return []
  const [more, less, top, bottom] =
    difference > 0 ? [one, other, first, second] : [other, one, second, first]
  const range = `${percentPoints(Math.abs(difference) - half)} to ${percentPoints(Math.abs(difference) + half)}`
  return [
    `${nameOf(more)} turns more off than ${nameOf(less)}: ${percentWords(mean(top))} against ${percentWords(mean(bottom))} a run, ${range} points more.`,
  ]
}

function survivedApart([one, other]: readonly [Runs, Runs], confidence: number): string[] {
  const isEnough = [one, other].every(
    (runs) => runs.filter(({ firedPieces }) => firedPieces > 0).length >= RUNS_A_MAKER_MIN,
  )
  if (!isEnough) return []
  const counts = [survivorsOf(one), survivorsOf(other)] as const
  const { difference, from, to } = shareDifference(counts, deviations([one, other], confidence))
  if (from <= 0 && to >= 0) return []
  const [more, less] = difference > 0 ? [one, other] : [other, one]
  const [low, high] = difference > 0 ? [from, to] : [-to, -from]
  return [
    `More of ${nameOf(more)}’s pots come through the kilns than of ${nameOf(less)}’s: ${countWords(more)} against ${countWords(less)}, ${percentPoints(low)} to ${percentPoints(high)} points more.`,
  ]
}

/** How far an interval reaches: wider where runs of one maker differ beyond chance. */
function deviations(makers: readonly Runs[], confidence: number): number {
  const counts = makers.map((runs) =>
    runs.map((run) => ({ events: run.firedPieces - run.lostPieces, trials: run.firedPieces })),
  )
  return clumpedDeviations(counts, confidence)
}

function sharesOf(runs: Runs): number[] {
  return runs.flatMap(({ turnedOffFraction }) => turnedOffFraction ?? [])
}

function survivorsOf(runs: Runs): { events: number; trials: number } {
  const trials = runs.reduce((sum, { firedPieces }) => sum + firedPieces, 0)
  const lost = runs.reduce((sum, { lostPieces }) => sum + lostPieces, 0)
  assert(lost <= trials, 'no more are lost than were fired')
  return { events: trials - lost, trials }
}

function nameOf(runs: Runs): string {
  return runs[0]?.maker ?? ''
}

function countWords(runs: Runs): string {
  const { events, trials } = survivorsOf(runs)
  return `${events} of ${trials}`
}

function wordsOf(makers: readonly Runs[], findings: readonly string[]): string {
  if (makers.length < 2) return 'It takes two makers of a form to compare them.'
  if (findings.length > 0) return findings.join(' ')
  return `Nothing tells the makers of this form apart yet; it takes ${RUNS_A_MAKER_MIN} runs of each, and a difference beyond chance.`
}
