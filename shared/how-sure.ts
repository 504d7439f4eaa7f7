import { assert } from './assert.ts'
import { decimal, toLedgerScale, type Decimal } from './decimal.ts'
import {
  doubtOfDifference,
  doubtOfSum,
  doubtTimes,
  NO_DOUBT,
  standardUncertaintyOfDoubt,
  type Doubt,
} from './doubt.ts'
import { doubtPropagated } from './propagation.ts'

import type { Quantities } from './quantity.ts'

/** An amount with what makes it unsure. */
export interface Unsure {
  readonly amount: Decimal
  readonly doubt: Doubt
}

/** How sure a figure is, as a report says it. */
export interface HowSure {
  readonly standardUncertainty: Decimal
  /** The true value lies in it 19 times in 20 where the errors are normal. */
  readonly interval95: { readonly from: Decimal; readonly to: Decimal }
  /** False where the interval holds zero: the figure may as well be none. */
  readonly isDistinguishableFromZero: boolean
}

/** Two-sided, 95 % of a normal distribution. */
const COVERAGE_FACTOR = decimal('1.96')

/**
 * What is said after "give or take": the true value lies so near 19 times in 20.
 *
 * Units: of the uncertainty, ledger scale. Source: as `howSure`.
 */
export function giveOrTake(standardUncertainty: Decimal): Decimal {
  return toLedgerScale(standardUncertainty.times(COVERAGE_FACTOR))
}

/**
 * The standard uncertainty of what somebody says to be known "give or take" so much: 19 times in 20.
 *
 * Units: as said, ledger scale. Source: as `howSure`.
 */
export function standardUncertaintyOf(giveOrTakeSaid: Decimal): Decimal {
  return toLedgerScale(giveOrTakeSaid.dividedBy(COVERAGE_FACTOR))
}

export const NOT_DISTINGUISHABLE = 'not distinguishable from zero'

/**
 * How sure an amount is.
 *
 * Units: of the amount, ledger scale. What is surely zero is not distinguishable from it.
 * Source: JCGM 100:2008, 6.2.1 and table G.1 (coverage factor 1.96).
 */
export function howSure({ amount, doubt }: Unsure): HowSure {
  const standardUncertainty = standardUncertaintyOfDoubt(doubt)
  const half = giveOrTake(standardUncertainty)
  const value = toLedgerScale(amount)
  return {
    standardUncertainty,
    interval95: { from: value.minus(half), to: value.plus(half) },
    isDistinguishableFromZero: value.abs().greaterThan(half),
  }
}

/** The dry clay of some quantities. Units: grams. Source: the definition. */
export function dryOf(some: Quantities): Unsure {
  return { amount: some.dryGrams, doubt: some.dryDoubt }
}

/** Their cost. Units: money. Source: the definition. */
export function costOf(some: Quantities): Unsure {
  return { amount: some.cost, doubt: some.costDoubt }
}

/** An amount that nobody doubts, such as a count. Units: as given. Source: the definition. */
export function surely(amount: Decimal): Unsure {
  return { amount, doubt: NO_DOUBT }
}

/** Amounts added up. Units: as given. Source: as `doubtOfSum`. */
export function unsureSum(all: readonly Unsure[]): Unsure {
  return {
    amount: all.reduce((sum, { amount }) => sum.plus(amount), decimal(0)),
    doubt: doubtOfSum(all.map(({ doubt }) => doubt)),
  }
}

/** One amount less another. Units: as given. Source: as `doubtOfSum`. */
export function unsureDifference(one: Unsure, other: Unsure): Unsure {
  return {
    amount: one.amount.minus(other.amount),
    doubt: doubtOfDifference(one.doubt, other.doubt),
  }
}

/** An amount times an exact number. Units: of the product. Source: as `doubtTimes`. */
export function unsureTimes(one: Unsure, factor: Decimal): Unsure {
  return { amount: one.amount.times(factor), doubt: doubtTimes(one.doubt, factor) }
}

/** An amount shared by so many. Units: as given, each. Source: as `doubtTimes`. */
export function unsurePer(one: Unsure, pieces: Decimal): Unsure {
  return {
    amount: one.amount.dividedBy(pieces),
    doubt: doubtTimes(one.doubt, decimal(1).dividedBy(pieces)),
  }
}

/**
 * One amount over another that is not zero.
 *
 * What makes both unsure alike, as one wrong water content does, cancels.
 *
 * Units: of the quotient; 60 digits.
 * Source: as `doubtPropagated`, with the partial derivatives of a quotient.
 */
export function unsureQuotient(one: Unsure, other: Unsure): Unsure {
  assert(!other.amount.isZero(), 'nothing is divided by zero')
  const amount = one.amount.dividedBy(other.amount)
  const slope = decimal(1).dividedBy(other.amount)
  return {
    amount,
    doubt: doubtPropagated([
      { doubt: one.doubt, slope },
      { doubt: other.doubt, slope: slope.times(amount).negated() },
    ]),
  }
}
