import { assert, present } from './assert.ts'
import { profileInterval } from './logistic-interval.ts'
import { logisticRegression, type BinomialRow, type LogisticFit } from './logistic-regression.ts'

/** What was different about a run, and what the kiln decided on of it. */
export interface ComparedRun {
  readonly formId: string
  readonly circumstance: number
  readonly firedPieces: number
  readonly lostPieces: number
}

/** Why nothing can be said, or not clearly. */
export type LinkReason =
  | 'nothing_lost'
  | 'too_few_runs'
  | 'too_few_losses'
  | 'all_alike'
  | 'parted_completely'
  | 'interval_holds_no_effect'

export interface OddsRatio {
  readonly estimate: number
  readonly interval95: { readonly from: number; readonly to: number }
}

export interface LossLink {
  readonly verdict: 'more_loses_more' | 'more_loses_fewer' | 'no_link_seen' | 'too_little_to_say'
  readonly reason: LinkReason | null
  /** What the verdict rests on: forms that were not all made alike, of which some were lost, not all. */
  readonly runs: number
  readonly firedPieces: number
  readonly lostPieces: number
  /** What the odds of a loss are multiplied by for each step of the circumstance; null without a fit. */
  readonly oddsRatio: OddsRatio | null
  /** How many losses, and pots that came through, it would take. */
  readonly lossesWanted: number
}

/** So many runs it takes. */
export const LINK_RUNS_MIN = 8
const LOSSES_A_COEFFICIENT = 10
const CONFIDENCE = 0.95

/**
 * Whether pots are lost in the kiln more often where there was more of some circumstance.
 *
 * Forms differ in both, so each has a level of its own, and runs are compared within their form; a form
 * that lost no pot, or all, or was always made alike, says nothing. A link is said where the 95 %
 * interval of the slope has zero outside, and only with at least eight runs and with ten losses, and
 * ten pots that came through, for the slope and for each form beyond the first. Losses of one firing
 * come together, so the interval is as much wider as the runs vary more than chance makes them. It says
 * what goes together, not what causes what.
 *
 * Shape: a row a run that has been fired; a step above zero.
 * Units: the circumstance and the step in one unit; pieces.
 * Source: ten events a coefficient: P. Peduzzi et al., J. Clinical Epidemiology 49 (1996), 1373-1379
 * (from memory); eight runs are our choice, because a dispersion from fewer says little.
 */
export function lossLink(all: readonly ComparedRun[], step: number): LossLink {
  const fired = checkedRuns(all)
  const runs = tellingRuns(fired)
  const forms = [...new Set(runs.map(({ formId }) => formId))]
  const rests = restsOn(runs, forms.length)
  const reason = tooLittle({ fired, runs, forms: forms.length, rests })
  const nothing = { verdict: 'too_little_to_say' as const, ...rests, oddsRatio: null }
  if (reason !== null) return { ...nothing, reason }
  const rows = runs.map((run) => rowOf(run, forms))
  const fit = logisticRegression(rows)
  if (fit.outcome === 'fitted') return { ...rests, ...judged({ rows, fit, step }) }
  return { ...nothing, reason: fit.outcome === 'separated' ? 'parted_completely' : 'all_alike' }
}

type Rests = Pick<LossLink, 'runs' | 'firedPieces' | 'lostPieces' | 'lossesWanted'>

function checkedRuns(all: readonly ComparedRun[]): ComparedRun[] {
  for (const { firedPieces, lostPieces } of all) {
    assert(lostPieces >= 0 && lostPieces <= firedPieces, 'no more are lost than were fired')
  }
  return all.filter(({ firedPieces }) => firedPieces > 0)
}

/** Runs of forms that were not all made alike, and lost some pots and not all. */
function tellingRuns(fired: readonly ComparedRun[]): ComparedRun[] {
  return fired.filter(({ formId }) => {
    const ofForm = fired.filter((run) => run.formId === formId)
    const { firedPieces, lostPieces } = restsOn(ofForm, 1)
    const circumstances = new Set(ofForm.map(({ circumstance }) => circumstance))
    return lostPieces > 0 && lostPieces < firedPieces && circumstances.size > 1
  })
}

function restsOn(runs: readonly ComparedRun[], forms: number): Rests {
  return {
    runs: runs.length,
    firedPieces: total(runs.map(({ firedPieces }) => firedPieces)),
    lostPieces: total(runs.map(({ lostPieces }) => lostPieces)),
    lossesWanted: LOSSES_A_COEFFICIENT * Math.max(1, forms),
  }
}

function tooLittle(asked: {
  fired: readonly ComparedRun[]
  runs: readonly ComparedRun[]
  forms: number
  rests: Rests
}): LinkReason | null {
  const { fired, runs, forms, rests } = asked
  if (total(fired.map(({ lostPieces }) => lostPieces)) === 0) return 'nothing_lost'
  const rarer = Math.min(rests.lostPieces, rests.firedPieces - rests.lostPieces)
  if (runs.length < LINK_RUNS_MIN || runs.length < forms + 3) return 'too_few_runs'
  return rarer < rests.lossesWanted ? 'too_few_losses' : null
}

function rowOf(run: ComparedRun, forms: readonly string[]): BinomialRow {
  const levels = forms.slice(1).map((formId) => (run.formId === formId ? 1 : 0))
  return {
    regressors: [run.circumstance, ...levels],
    events: run.lostPieces,
    trials: run.firedPieces,
  }
}

function judged(asked: {
  rows: readonly BinomialRow[]
  fit: LogisticFit
  step: number
}): Pick<LossLink, 'verdict' | 'reason' | 'oddsRatio'> {
  const { rows, fit, step } = asked
  const { dispersion, degreesOfFreedom } = fit
  const slope = present(fit.coefficients[1], 'the circumstance has a coefficient')
  const { from, to } = profileInterval(rows, {
    index: 0,
    confidence: CONFIDENCE,
    ...(dispersion > 1 ? { clumping: { dispersion, degreesOfFreedom } } : {}),
  })
  const ratio = (value: number) => Math.exp(value * step)
  const oddsRatio = {
    estimate: ratio(slope.estimate),
    interval95: { from: ratio(from), to: ratio(to) },
  }
  if (from > 0) return { verdict: 'more_loses_more', reason: null, oddsRatio }
  if (to < 0) return { verdict: 'more_loses_fewer', reason: null, oddsRatio }
  return { verdict: 'no_link_seen', reason: 'interval_holds_no_effect', oddsRatio }
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0)
}
