import { assert } from './assert.ts'
import { ZERO, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { printedAmount } from './money.ts'

/** Something of a kiln that firings use up: its elements, its shelves, its props. */
export type WornPart =
  | { readonly name: string; readonly price: Decimal; readonly expectedFirings: number }
  | { readonly name: string; readonly costPerFiringSaid: Decimal }

export interface WearPerFiring {
  /** One for each part, in their order. */
  readonly costs: readonly Decimal[]
  readonly cost: Decimal
}

/**
 * What a firing is charged for what it wears: a set's price over the firings it is expected to last,
 * or as somebody says.
 *
 * Shape: prices of zero or more, a whole number of firings of one or more; no part at all costs nothing.
 * Units: money at ledger scale; each part is rounded once, and the parts make up the whole.
 * Source: the units-of-production way of writing off (from memory of every costing textbook).
 */
export function wearPerFiring(parts: readonly WornPart[]): WearPerFiring {
  const costs = parts.map(costOfPart)
  return { costs, cost: costs.reduce((sum, cost) => sum.plus(cost), ZERO) }
}

/** What firings were charged, against what was put into the kiln. */
export interface WearBalance {
  readonly chargedSoFar: Decimal
  readonly putIn: Decimal
  /** Put in less charged: above zero where firings have not paid for it yet. */
  readonly stillToCharge: Decimal
  /** What each of the firings so far should have been charged; null before the first. */
  readonly putInPerFiring: Decimal | null
  readonly words: string
}

/**
 * Whether what firings were charged pays for what was put in.
 *
 * New elements have their firings before them, so a balance of one set is nothing to mend.
 *
 * Shape: amounts of zero or more; `digits` are those of the currency.
 * Units: money at ledger scale.
 * Source: arithmetic; the words are our choice.
 */
export function wearBalance(wear: {
  readonly chargedSoFar: Decimal
  readonly putIn: Decimal
  readonly firings: number
  readonly digits: number
}): WearBalance {
  const { chargedSoFar, putIn, firings, digits } = wear
  assert(!chargedSoFar.isNegative() && !putIn.isNegative(), 'nobody is charged less than nothing')
  assert(Number.isInteger(firings) && firings >= 0, 'firings are counted')
  const stillToCharge = toLedgerScale(putIn.minus(chargedSoFar))
  const shown = (amount: Decimal) => printedAmount(amount, digits)
  return {
    chargedSoFar,
    putIn,
    stillToCharge,
    putInPerFiring: firings === 0 ? null : toLedgerScale(putIn.dividedBy(firings)),
    words: `Charged so far ${shown(chargedSoFar)}, put in ${shown(putIn)}. ${balanceWords(stillToCharge, shown)}`,
  }
}

function costOfPart(part: WornPart): Decimal {
  if ('costPerFiringSaid' in part) {
    assert(!part.costPerFiringSaid.isNegative(), 'wear costs nothing or more')
    return toLedgerScale(part.costPerFiringSaid)
  }
  assert(!part.price.isNegative(), 'a price is not below zero')
  assert(
    Number.isInteger(part.expectedFirings) && part.expectedFirings >= 1,
    'a set lasts one firing or more',
  )
  return toLedgerScale(part.price.dividedBy(part.expectedFirings))
}

function balanceWords(stillToCharge: Decimal, shown: (amount: Decimal) => string): string {
  if (stillToCharge.isZero()) return 'The two are even.'
  return stillToCharge.greaterThan(0)
    ? `Firings have ${shown(stillToCharge)} still to pay.`
    : `Firings have paid ${shown(stillToCharge.abs())} towards the next set.`
}
