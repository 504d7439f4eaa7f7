import { assert } from './assert.ts'
import { betaBinomialLogLikelihood, type GroupCount } from './beta-binomial.ts'
import { decimal, decimalOfNumber, ZERO, type Decimal } from './decimal.ts'
import type { SplitLoss } from './spoilage.ts'
import { believedSpreads, mixedBelief, type MixedBelief } from './spread-belief.ts'

/** Pieces that came to the fire, and how many of them were lost after it. */
export interface FiredPieces {
  readonly entered: Decimal
  readonly lost: Decimal
}

/** An earlier run. */
export interface EarlierRun extends FiredPieces {
  /** Of the lost, those that were found to be beyond the usual then; a run with such is no history now. */
  readonly abnormal?: Decimal
}

export type AllowanceBasis = 'own_runs' | 'leans_on_all_forms' | 'house_figure_only'

/** What set the number: the runs themselves, or that more than three in ten is never called usual. */
export type AllowanceDecider = 'runs' | 'three_in_ten'

/** How many of a run are usually lost, and on what that rests. */
export interface Allowance {
  readonly allowedPieces: Decimal
  /** What the runs alone would allow. */
  readonly allowedByRuns: Decimal
  readonly pieces: Decimal
  readonly basis: AllowanceBasis
  readonly decidedBy: AllowanceDecider
  /** Of earlier runs of the form that went as usual. */
  readonly firedBefore: Decimal
  readonly lostBefore: Decimal
  /** How likely it was thought that so many, or more, would be lost; at least one in twenty. */
  readonly probability: Decimal
  readonly words: string
}

/** What happens in one run of twenty or more often is usual. Our choice. */
export const USUAL_PROBABILITY = 0.05

/**
 * With this we begin before a studio has told us anything: one pot of twenty lost after it came to the
 * fire. Our choice, because potters say 2 to 8 in a hundred for both fires together, and beginners more.
 */
const HOUSE_RUNS: readonly GroupCount[] = [
  { events: 0, trials: 20 },
  { events: 2, trials: 20 },
]
/**
 * More than so much of a run is never called usual, but one pot always may be. Our choice: where little is
 * known the spreads allow for more than half a run. A glaze firing loses 2 to 5 in a hundred, a beginner's
 * 5 to 15 (from memory).
 */
export const USUAL_FRACTION_MAX = decimal('0.3')
/** All other forms together weigh as one run of no more than so many pots. Our choice. */
const OTHER_FORMS_PIECES_MAX = 40
const ROUNDING = 1e-9

/**
 * How many pieces of a run may be lost in and after the fire before it is more than what usually happens.
 *
 * The largest number of which it is still as likely as one in twenty that so many, or more, are lost.
 * What is expected comes from the form's own earlier runs, each taken as a whole, since a kiln takes many
 * pots together. Beside them stand two runs of the house, of twenty pieces with none and with two lost,
 * and one run that lost as all other forms of the studio did, of forty pieces at most. All spreads
 * between runs that explain these are allowed for, so where there are few runs much is usual; but never
 * more than three in ten of the run, or one pot. A run with a loss that was beyond the usual then is no
 * history at all: were it counted as far as it was usual, each disaster would excuse a larger one.
 *
 * Shape: whole pieces; at least one in the run. Units: pieces; a probability from 0 to 1.
 * Errors: pieces that are not whole, or more lost than entered, are a defect.
 * Source: the beta-binomial predictive distribution, J. G. Skellam, J. Royal Stat. Soc. B 10 (1948),
 * 257-261 (from memory), over the spreads of `believedSpreads`; one in twenty, three in ten, the house
 * runs and the weight of other forms are our choice.
 */
export function allowanceOfRun(asked: {
  readonly pieces: Decimal
  readonly earlier: readonly EarlierRun[]
  readonly otherForms: FiredPieces
}): Allowance {
  const { pieces, earlier, otherForms } = asked
  const asUsual = earlier.filter(wentAsUsual)
  const own = asUsual.map(counted).filter(({ trials }) => trials > 0)
  const others = asOneRun(counted(otherForms))
  const belief = newRunBelief([...HOUSE_RUNS, ...(others.trials > 0 ? [others] : []), ...own])
  const trials = wholeNumber(pieces)
  assert(trials >= 1, 'a run has pieces')
  const byRuns = largestUsual(trials, belief)
  const most = mostEverUsual(pieces)
  const isCapped = byRuns.allowed > most
  const probability = isCapped
    ? probabilityOfAtLeast({ events: most, trials }, belief)
    : byRuns.probability
  const found = {
    allowedPieces: decimal(isCapped ? most : byRuns.allowed),
    allowedByRuns: decimal(byRuns.allowed),
    pieces,
    basis: basisOf(own, others),
    decidedBy: isCapped ? ('three_in_ten' as const) : ('runs' as const),
    firedBefore: total(asUsual.map(({ entered }) => entered)),
    lostBefore: total(asUsual.map(({ lost }) => lost)),
    probability: decimalOfNumber(probability),
  }
  const leftOut = earlier.filter((run) => !wentAsUsual(run))
  return { ...found, words: allowanceWords(found, { otherForms, leftOut }) }
}

/**
 * True where an earlier run tells something of what is usual: no loss of it was beyond that.
 *
 * Units: pieces. Source: our choice.
 * Errors: more beyond the usual than was lost is a defect.
 */
export function wentAsUsual({ lost, abnormal = ZERO }: EarlierRun): boolean {
  assert(abnormal.lessThanOrEqualTo(lost), 'no more is beyond the usual than was lost')
  return abnormal.isZero()
}

function mostEverUsual(pieces: Decimal): number {
  return Math.max(1, pieces.times(USUAL_FRACTION_MAX).floor().toNumber())
}

function basisOf(own: readonly GroupCount[], others: GroupCount): AllowanceBasis {
  if (own.length > 0) return 'own_runs'
  return others.trials > 0 ? 'leans_on_all_forms' : 'house_figure_only'
}

/**
 * What is believed of the share that a run to come loses, after some runs.
 *
 * Shape: two runs or more, of which some lost pieces and not all. Units: as `mixedBelief`.
 * Source: as `believedSpreads`, for a run of which nothing is known yet.
 */
export function newRunBelief(runs: readonly GroupCount[]): MixedBelief {
  return mixedBelief({ events: 0, trials: 0 }, believedSpreads(runs))
}

/**
 * How likely it is that so many of a number of pieces, or more, are lost.
 *
 * Shape: whole numbers; a belief of one part or more. Units: pieces; a probability from 0 to 1.
 * Source: the beta-binomial distribution, as `betaBinomialLogLikelihood`, mixed by weight.
 */
export function probabilityOfAtLeast({ events, trials }: GroupCount, belief: MixedBelief): number {
  let sum = 0
  for (let lost = trials; lost >= events; lost -= 1)
    sum += probabilityOf({ events: lost, trials }, belief)
  return Math.min(1, sum)
}

function probabilityOf(count: GroupCount, belief: MixedBelief): number {
  const whole = belief.reduce((sum, { weight }) => sum + weight, 0)
  return belief.reduce((sum, { alpha, beta, weight }) => {
    const strength = alpha + beta
    const logarithm = betaBinomialLogLikelihood([count], { meanShare: alpha / strength, strength })
    return sum + (weight / whole) * Math.exp(logarithm)
  }, 0)
}

/** From all pieces downwards: the first number that is likely enough. Nothing lost is always usual. */
function largestUsual(trials: number, belief: MixedBelief) {
  let probability = 0
  for (let lost = trials; lost > 0; lost -= 1) {
    probability += probabilityOf({ events: lost, trials }, belief)
    if (probability >= USUAL_PROBABILITY - ROUNDING) {
      return { allowed: lost, probability: Math.min(1, probability) }
    }
  }
  return { allowed: 0, probability: 1 }
}

function counted({ entered, lost }: FiredPieces): GroupCount {
  const [events, trials] = [wholeNumber(lost), wholeNumber(entered)]
  assert(events <= trials, 'no more are lost than were fired')
  return { events, trials }
}

/** The same share in fewer pieces, where there are many; what is left over goes to the lost. */
function asOneRun({ events, trials }: GroupCount): GroupCount {
  if (trials <= OTHER_FORMS_PIECES_MAX) return { events, trials }
  const fewer = Math.ceil((events * OTHER_FORMS_PIECES_MAX) / trials)
  return { events: fewer, trials: OTHER_FORMS_PIECES_MAX }
}

function wholeNumber(pieces: Decimal): number {
  assert(pieces.isInteger() && pieces.greaterThanOrEqualTo(0), 'pieces are whole')
  return pieces.toNumber()
}

function total(amounts: readonly Decimal[]): Decimal {
  return amounts.reduce((sum, amount) => sum.plus(amount), ZERO)
}

function allowanceWords(
  found: Omit<Allowance, 'words'>,
  more: { otherForms: FiredPieces; leftOut: readonly EarlierRun[] },
): string {
  return `${basisWords(found, more)}: ${usualWords(found)}`
}

function basisWords(
  found: Omit<Allowance, 'words'>,
  { otherForms, leftOut }: { otherForms: FiredPieces; leftOut: readonly EarlierRun[] },
): string {
  const without = leftOutWords(leftOut)
  switch (found.basis) {
    case 'own_runs':
      return `${found.firedBefore.toFixed()} fired, ${found.lostBefore.toFixed()} lost${without}`
    case 'leans_on_all_forms':
      return `none of this form fired yet${without}; of all forms ${otherForms.entered.toFixed()} fired, ${otherForms.lost.toFixed()} lost`
    case 'house_figure_only':
      return `nothing fired yet${without}, so we begin with 2 lost of 40`
  }
}

function leftOutWords(leftOut: readonly EarlierRun[]): string {
  if (leftOut.length === 0) return ''
  const lost = `${total(leftOut.map((run) => run.lost)).toFixed()} of ${total(leftOut.map(({ entered }) => entered)).toFixed()}`
  return leftOut.length === 1
    ? ` (without a run that lost ${lost}, beyond the usual)`
    : ` (without ${String(leftOut.length)} runs that lost ${lost}, beyond the usual)`
}

function usualWords(found: Omit<Allowance, 'words'>): string {
  const { allowedPieces, allowedByRuns, pieces } = found
  const some = `${upTo(allowedPieces)} of ${pieces.toFixed()} ${allowedPieces.equals(1) ? 'is' : 'are'}`
  return found.decidedBy === 'runs'
    ? `${some} what usually happens`
    : `${some} called usual, never more than three in ten or one pot (by the runs alone up to ${allowedByRuns.toFixed()})`
}

function upTo(pieces: Decimal): string {
  return pieces.isZero() ? 'none' : `up to ${pieces.toFixed()}`
}

/**
 * What is said of a loss: what usually happens, and how many are beyond it.
 *
 * Units: pieces. Source: our choice of words.
 */
export function lossFindingWords(
  allowance: Pick<Allowance, 'words' | 'pieces'>,
  loss: SplitLoss & { readonly lostBefore: Decimal },
): string {
  const { normalPieces, abnormalPieces, lostBefore } = loss
  const lost = normalPieces.plus(abnormalPieces).plus(lostBefore)
  const all = `${lost.toFixed()} of ${allowance.pieces.toFixed()} lost`
  if (abnormalPieces.isZero())
    return `${allowance.words}; ${all} ${lost.equals(1) ? 'is' : 'are'} within it`
  const beyond = abnormalPieces.toFixed()
  return `${allowance.words}; ${all}: ${beyond} ${abnormalPieces.equals(1) ? 'is' : 'are'} beyond it`
}
