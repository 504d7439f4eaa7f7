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
  /** Of the lost, those that were found to be beyond the usual then; they do not count as usual now. */
  readonly abnormal?: Decimal
}

export type AllowanceBasis = 'own_runs' | 'leans_on_all_forms' | 'house_figure_only'

/** How many of a run are usually lost, and on what that rests. */
export interface Allowance {
  readonly allowedPieces: Decimal
  readonly pieces: Decimal
  readonly basis: AllowanceBasis
  /** Of earlier runs of the form. */
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
 * between runs that explain these are allowed for, so where there are few runs much is usual. A loss that
 * was beyond the usual then counts only as far as it was usual: one disaster does not excuse the next.
 *
 * Shape: whole pieces; at least one in the run. Units: pieces; a probability from 0 to 1.
 * Errors: pieces that are not whole, or more lost than entered, are a defect.
 * Source: the beta-binomial predictive distribution, J. G. Skellam, J. Royal Stat. Soc. B 10 (1948),
 * 257-261 (from memory), over the spreads of `believedSpreads`; one in twenty, the house runs and the
 * weight of other forms are our choice.
 */
export function allowanceOfRun(asked: {
  readonly pieces: Decimal
  readonly earlier: readonly EarlierRun[]
  readonly otherForms: FiredPieces
}): Allowance {
  const { pieces, earlier, otherForms } = asked
  const own = earlier.map(usualCount).filter(({ trials }) => trials > 0)
  const others = asOneRun(counted(otherForms))
  const belief = newRunBelief([...HOUSE_RUNS, ...(others.trials > 0 ? [others] : []), ...own])
  const trials = wholeNumber(pieces)
  assert(trials >= 1, 'a run has pieces')
  const { allowed, probability } = largestUsual(trials, belief)
  const basis =
    own.length > 0 ? 'own_runs' : others.trials > 0 ? 'leans_on_all_forms' : 'house_figure_only'
  const found = {
    allowedPieces: decimal(allowed),
    pieces,
    basis: basis as AllowanceBasis,
    firedBefore: total(earlier.map(({ entered }) => entered)),
    lostBefore: total(earlier.map(({ lost }) => lost)),
    probability: decimalOfNumber(probability),
  }
  const beyond = total(earlier.map(({ abnormal = ZERO }) => abnormal))
  return { ...found, words: allowanceWords(found, { otherForms, beyond }) }
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

function usualCount({ entered, lost, abnormal = ZERO }: EarlierRun): GroupCount {
  assert(abnormal.lessThanOrEqualTo(lost), 'no more is beyond the usual than was lost')
  return counted({ entered, lost: lost.minus(abnormal) })
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
  { otherForms, beyond }: { otherForms: FiredPieces; beyond: Decimal },
): string {
  const usual = `${upTo(found.allowedPieces)} of ${found.pieces.toFixed()} ${found.allowedPieces.equals(1) ? 'is' : 'are'} what usually happens`
  switch (found.basis) {
    case 'own_runs':
      return `${found.firedBefore.toFixed()} fired, ${found.lostBefore.toFixed()} lost${beyond.isZero() ? '' : ` (${beyond.toFixed()} of them beyond the usual)`}: ${usual}`
    case 'leans_on_all_forms':
      return `none of this form fired yet; of all forms ${otherForms.entered.toFixed()} fired, ${otherForms.lost.toFixed()} lost: ${usual}`
    case 'house_figure_only':
      return `nothing fired yet, so we begin with 2 lost of 40: ${usual}`
  }
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
