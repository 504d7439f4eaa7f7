import { assert } from './assert.ts'
import { LINK_RUNS_MIN, lossLink, type LossLink, type OddsRatio } from './loss-link.ts'
import { mean } from './statistics.ts'

/** A run that was fired: of which form, and what the kiln decided on of it. */
interface FiredRun {
  readonly formId: string
  readonly firedPieces: number
  readonly lostPieces: number
}

/** What was turned off a run, and what the kiln decided on of it. */
export interface TrimmedRun extends FiredRun {
  readonly turnedOffFraction: number
}

/** What a run's pots weighed each, dry, when they went to the kiln. */
export interface WeighedRun extends FiredRun {
  readonly dryGramsAPiece: number
}

type Rests = Pick<LossLink, 'reason' | 'runs' | 'firedPieces' | 'lostPieces'>

export interface TrimmingLink extends Rests {
  readonly verdict:
    'thinner_loses_more' | 'thinner_loses_fewer' | 'no_link_seen' | 'too_little_to_say'
  /** What one hundredth more turned off multiplies the odds of a loss by; null without a fit. */
  readonly oddsRatioAPoint: OddsRatio | null
  readonly words: string
}

export interface WeightLink extends Rests {
  readonly verdict:
    'lighter_loses_more' | 'lighter_loses_fewer' | 'no_link_seen' | 'too_little_to_say'
  /** What a pot lighter by one hundredth of its form's mean multiplies the odds of a loss by. */
  readonly oddsRatioAPoint: OddsRatio | null
  readonly words: string
}

const POINT = 0.01

/** How a link is told: whether what costs pots, which runs these were, and what a step of it is. */
interface Telling {
  readonly whether: string
  readonly runsWere: string
  readonly between: string
  readonly step: string
  readonly varies: string
}

const TURNED: Telling = {
  whether: 'thin turning costs pots',
  runsWere: 'turned thinner',
  between: 'turning',
  step: 'hundredth more turned off',
  varies: 'how much was turned off',
}
const LIGHTER: Telling = {
  whether: 'light pots are lost more often',
  runsWere: 'lighter',
  between: 'the mass of the pots',
  step: 'hundredth lighter',
  varies: 'the mass of a pot',
}

/**
 * Whether pots that are turned thinner are lost in the kiln more often, said only where the runs show it.
 *
 * Shape: a row a run that has been fired. Units: fractions from 0 to 1; pieces. Source: as `lossLink`.
 */
export function trimmingLink(all: readonly TrimmedRun[]): TrimmingLink {
  for (const { turnedOffFraction } of all) {
    assert(turnedOffFraction >= 0 && turnedOffFraction <= 1, 'what is turned off is a fraction')
  }
  const compared = all.map(({ turnedOffFraction, ...run }) => ({
    ...run,
    circumstance: turnedOffFraction,
  }))
  const link = lossLink(compared, POINT)
  const verdicts = { more: 'thinner_loses_more', fewer: 'thinner_loses_fewer' } as const
  return { verdict: verdictOf(link, verdicts), ...told(link, all, TURNED) }
}

/**
 * Whether lighter pots are lost in the kiln more often, each form's against its own mean.
 *
 * Leather-hard pots are compared dry: their water is another each time and says nothing of their walls.
 *
 * Shape: a row a run that has been fired, turned or not. Units: grams of dry clay; pieces.
 * Source: as `lossLink`; shares of the form's mean are our choice, because a gram is more of a cup than
 * of a planter.
 */
export function weightLink(all: readonly WeighedRun[]): WeightLink {
  assert(
    all.every(({ dryGramsAPiece }) => dryGramsAPiece > 0),
    'a pot weighs something',
  )
  const compared = all.map(({ dryGramsAPiece, ...run }) => {
    const ofForm = all.filter(({ formId }) => formId === run.formId)
    const usual = mean(ofForm.map((one) => one.dryGramsAPiece))
    return { ...run, circumstance: 1 - dryGramsAPiece / usual }
  })
  const link = lossLink(compared, POINT)
  const verdicts = { more: 'lighter_loses_more', fewer: 'lighter_loses_fewer' } as const
  return { verdict: verdictOf(link, verdicts), ...told(link, all, LIGHTER) }
}

function verdictOf<More extends string, Fewer extends string>(
  { verdict }: LossLink,
  verdicts: { readonly more: More; readonly fewer: Fewer },
): More | Fewer | 'no_link_seen' | 'too_little_to_say' {
  if (verdict === 'more_loses_more') return verdicts.more
  return verdict === 'more_loses_fewer' ? verdicts.fewer : verdict
}

function told(
  link: LossLink,
  all: readonly FiredRun[],
  telling: Telling,
): Rests & { oddsRatioAPoint: OddsRatio | null; words: string } {
  const { reason, runs, firedPieces, lostPieces, oddsRatio } = link
  const words = oddsRatio === null ? tooLittleWords(link, all, telling) : linkWords(link, telling)
  return { reason, runs, firedPieces, lostPieces, oddsRatioAPoint: oddsRatio, words }
}

function linkWords(link: LossLink, telling: Telling): string {
  const { verdict, runs, firedPieces, lostPieces, oddsRatio } = link
  if (oddsRatio === null) return ''
  const { estimate, interval95 } = oddsRatio
  const range = `${interval95.from.toFixed(2)} to ${interval95.to.toFixed(2)}`
  const basis = `${lostPieces} of ${firedPieces} pots lost in ${runs} runs`
  const beginning =
    verdict === 'no_link_seen'
      ? `No link between ${telling.between} and kiln losses shows; there may still be one.`
      : `Runs that were ${telling.runsWere} lost ${verdict === 'more_loses_more' ? 'more' : 'fewer'} in the kiln.`
  return `${beginning} Each ${telling.step} went with ${estimate.toFixed(2)} times the odds of a loss (95 %: ${range}; ${basis}).`
}

function tooLittleWords(link: LossLink, all: readonly FiredRun[], telling: Telling): string {
  const { reason, runs, firedPieces, lostPieces, lossesWanted } = link
  const fired = all.reduce((sum, run) => sum + run.firedPieces, 0)
  const beginning = `Too little to say whether ${telling.whether}`
  if (reason === 'nothing_lost') {
    const none = fired === 0 ? 'no run has been through the kilns yet' : `none of ${fired} was lost`
    return `${beginning}: ${none}.`
  }
  if (runs === 0) {
    return `${beginning}: no form lost some of its pots and not all, in runs of which ${telling.varies} differs.`
  }
  const rests = `${beginning}: ${lostPieces} of ${firedPieces} lost in ${runs} runs that tell of it`
  if (reason === 'parted_completely') {
    return `${rests}; ${telling.varies} parts the runs that lost pots from those that lost none so cleanly that any strength of the link would fit.`
  }
  if (reason === 'all_alike') {
    return `${rests}; ${telling.varies} does not vary enough within a form.`
  }
  return `${rests}; it takes ${lossesWanted} losses and as many that came through, in ${LINK_RUNS_MIN} runs or more.`
}
