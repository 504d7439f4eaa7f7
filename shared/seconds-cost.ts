import { assert } from './assert.ts'
import { ONE, ZERO, type Decimal } from './decimal.ts'
import { shareOut } from './money.ts'

export const SECONDS_COST_RULES = ['like_firsts', 'by_price'] as const
export type SecondsCostRule = (typeof SECONDS_COST_RULES)[number]

/** What each rule does, in a potter's words. */
export const SECONDS_COST_RULE_WORDS: Readonly<Record<SecondsCostRule, string>> = {
  like_firsts: 'a second costs as much as a first: it took as much clay, glaze and firing',
  by_price: 'a second takes less of the cost, as its price is less: the firsts carry the rest',
}

/** How a studio shares the cost of graded pots. */
export interface SecondsCost {
  readonly rule: SecondsCostRule
  /** The price of a second as a fraction of a first's; of no matter where seconds cost like firsts. */
  readonly secondsPriceFraction: Decimal
}

export interface GradedCosts {
  readonly firsts: Decimal
  readonly seconds: Decimal
}

/**
 * The cost of graded pots, shared between firsts and seconds.
 *
 * A first takes one part; a second takes one as well, or as much of one as its price is of a first's. What
 * wasters cost was left to both before. Where there are only firsts, or only seconds, they take all. A
 * cost that is told by layers is shared layer by layer.
 *
 * Shape: at least one pot. Units: pieces; money at ledger scale; the two make up the cost to the last unit.
 * Errors: no pot, pieces below zero, or a price above a first's or not above nothing, are a defect.
 * Source: relative sales value: IAS 2 paragraph 14 (from memory); Horngren, Cost Accounting 14e, ch. 16
 * (from memory).
 */
export function costOfGrades(
  graded: { readonly cost: Decimal; readonly firsts: Decimal; readonly seconds: Decimal },
  { rule, secondsPriceFraction }: SecondsCost,
): GradedCosts {
  const { cost, firsts, seconds } = graded
  assert(
    firsts.greaterThanOrEqualTo(0) && seconds.greaterThanOrEqualTo(0),
    'pots are not below zero',
  )
  assert(firsts.plus(seconds).greaterThan(0), 'there is a pot to take the cost')
  const weight = rule === 'like_firsts' ? ONE : secondsPriceFraction
  assert(
    weight.greaterThan(0) && weight.lessThanOrEqualTo(1),
    'a second has a price, up to a first’s',
  )
  const [ofFirsts = ZERO, ofSeconds = ZERO] = shareOut(cost, [firsts, seconds.times(weight)])
  return { firsts: ofFirsts, seconds: ofSeconds }
}
