import { assert, present } from './assert.ts'
import { profileInterval } from './logistic-interval.ts'
import { logisticRegression, type BinomialRow, type LogisticFit } from './logistic-regression.ts'

/** What was turned off a run, and what the kiln decided on of it. */
export interface TrimmedRun {
  readonly formId: string
  readonly turnedOffFraction: number
  readonly firedPieces: number
  readonly lostPieces: number
}

export interface TrimmingLink {
  readonly verdict:
    'thinner_loses_more' | 'thinner_loses_fewer' | 'no_link_seen' | 'too_little_to_say'
  /** What the verdict rests on: forms not all turned alike, of which some pots were lost, not all. */
  readonly runs: number
  readonly firedPieces: number
  readonly lostPieces: number
  /** What one hundredth more turned off multiplies the odds of a loss by; null without a fit. */
  readonly oddsRatioAPoint: {
    readonly estimate: number
    readonly interval95: { readonly from: number; readonly to: number }
  } | null
  readonly words: string
}

const LOSSES_A_COEFFICIENT = 10
const RUNS_MIN = 8
const CONFIDENCE = 0.95
const POINT = 0.01

/**
 * Whether pots that are turned thinner are lost in the kiln more often, said only where the runs show it.
 *
 * Forms differ in both, so each has a level of its own, and runs are compared within their form; a form
 * that lost no pot, or all, or was always turned alike, says nothing of the link. The link is said where the 95 % interval of the
 * slope has zero outside, and only with at least eight runs and with ten losses, and ten pots that
 * came through, for the slope and for each form beyond the first. Losses of one firing come together, so
 * the interval is as much wider as the runs vary more than chance makes them. It says what goes
 * together, not what causes what.
 *
 * Shape: a row a run that has been fired. Units: fractions from 0 to 1; pieces.
 * Source: ten events a coefficient: P. Peduzzi et al., J. Clinical Epidemiology 49 (1996), 1373-1379
 * (from memory); eight runs are our choice, because a dispersion from fewer says little.
 */
export function trimmingLink(all: readonly TrimmedRun[]): TrimmingLink {
  const runs = tellingRuns(all)
  const forms = [...new Set(runs.map(({ formId }) => formId))]
  const rests = {
    runs: runs.length,
    firedPieces: total(runs.map(({ firedPieces }) => firedPieces)),
    lostPieces: total(runs.map(({ lostPieces }) => lostPieces)),
  }
  const wanted = LOSSES_A_COEFFICIENT * Math.max(1, forms.length)
  const rarer = Math.min(rests.lostPieces, rests.firedPieces - rests.lostPieces)
  if (runs.length < RUNS_MIN || runs.length < forms.length + 3 || rarer < wanted) {
    return tooLittle(
      rests,
      `it takes ${wanted} losses and as many that came through, in ${RUNS_MIN} runs or more`,
    )
  }
  const rows = runs.map((run) => rowOf(run, forms))
  const fit = logisticRegression(rows)
  if (fit.outcome !== 'fitted') {
    return tooLittle(rests, 'how much was turned off does not vary enough within a form')
  }
  return judged({ rests, rows, fit })
}

type Rests = Pick<TrimmingLink, 'runs' | 'firedPieces' | 'lostPieces'>

/** Runs of forms that were not all turned alike, and lost some pots and not all. */
function tellingRuns(all: readonly TrimmedRun[]): TrimmedRun[] {
  for (const { turnedOffFraction, firedPieces, lostPieces } of all) {
    assert(turnedOffFraction >= 0 && turnedOffFraction <= 1, 'what is turned off is a fraction')
    assert(lostPieces >= 0 && lostPieces <= firedPieces, 'no more are lost than were fired')
  }
  const fired = all.filter(({ firedPieces }) => firedPieces > 0)
  return fired.filter(({ formId }) => {
    const ofForm = fired.filter((run) => run.formId === formId)
    const lost = total(ofForm.map(({ lostPieces }) => lostPieces))
    const pieces = total(ofForm.map(({ firedPieces }) => firedPieces))
    const shares = new Set(ofForm.map(({ turnedOffFraction }) => turnedOffFraction))
    return lost > 0 && lost < pieces && shares.size > 1
  })
}

function rowOf(run: TrimmedRun, forms: readonly string[]): BinomialRow {
  const levels = forms.slice(1).map((formId) => (run.formId === formId ? 1 : 0))
  return {
    regressors: [run.turnedOffFraction, ...levels],
    events: run.lostPieces,
    trials: run.firedPieces,
  }
}

function judged(asked: {
  rests: Rests
  rows: readonly BinomialRow[]
  fit: LogisticFit
}): TrimmingLink {
  const { rests, rows, fit } = asked
  const { dispersion, degreesOfFreedom } = fit
  const slope = present(fit.coefficients[1], 'the share turned off has a coefficient')
  const { from, to } = profileInterval(rows, {
    index: 0,
    confidence: CONFIDENCE,
    ...(dispersion > 1 ? { clumping: { dispersion, degreesOfFreedom } } : {}),
  })
  const ratio = (value: number) => Math.exp(value * POINT)
  const oddsRatioAPoint = {
    estimate: ratio(slope.estimate),
    interval95: { from: ratio(from), to: ratio(to) },
  }
  const verdict = from > 0 ? 'thinner_loses_more' : to < 0 ? 'thinner_loses_fewer' : 'no_link_seen'
  return { verdict, ...rests, oddsRatioAPoint, words: wordsOf(verdict, rests, oddsRatioAPoint) }
}

function wordsOf(
  verdict: Exclude<TrimmingLink['verdict'], 'too_little_to_say'>,
  { runs, firedPieces, lostPieces }: Rests,
  { estimate, interval95 }: NonNullable<TrimmingLink['oddsRatioAPoint']>,
): string {
  const range = `${interval95.from.toFixed(2)} to ${interval95.to.toFixed(2)}`
  const basis = `${lostPieces} of ${firedPieces} pots lost in ${runs} runs`
  const beginning = {
    thinner_loses_more: 'Runs that were turned thinner lost more in the kiln.',
    thinner_loses_fewer: 'Runs that were turned thinner lost fewer in the kiln.',
    no_link_seen: 'No link between turning and kiln losses shows; there may still be one.',
  }[verdict]
  return `${beginning} Each hundredth more turned off went with ${estimate.toFixed(2)} times the odds of a loss (95 %: ${range}; ${basis}).`
}

function tooLittle(rests: Rests, reason: string): TrimmingLink {
  const { runs, firedPieces, lostPieces } = rests
  const words = `Too little to say whether thin turning costs pots: ${lostPieces} of ${firedPieces} lost in ${runs} runs that tell of it; ${reason}.`
  return { verdict: 'too_little_to_say', ...rests, oddsRatioAPoint: null, words }
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0)
}
