import { assert } from './assert.ts'
import { ALL_LAYERS, type AnyLayer } from './cost-layer.ts'
import { ONE, toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import { printedAmount } from './money.ts'

export type CostByLayer = Readonly<Record<AnyLayer, Decimal>>

/** What a sold piece of a form cost. */
export interface PieceCostByLayer {
  readonly own: CostByLayer
  /** Its share of what was lost after bisque; a lost pot was never packed. */
  readonly ofLost: CostByLayer
  /** What came through of what came to the kiln. */
  readonly yieldAfterBisque: Decimal
  /** What came to the kiln of what was thrown. */
  readonly yieldBeforeBisque: Decimal
}

/** What clay that goes back to a bucket costs: what it cost, or nothing, which leaves all to the pots. */
export type ReclaimRule = 'by_mass' | 'at_nil'

export interface Change {
  /** By what fraction prices rise; below zero they fall. */
  readonly priceRise?: Readonly<Partial<Record<AnyLayer, Decimal>>>
  /** By how much of one the shares that come through rise: three points are 0.03. */
  readonly yieldAfterBisqueRise?: Decimal
  readonly yieldBeforeBisqueRise?: Decimal
  /** How full the kiln was and would be, as fractions of the shelf space. */
  readonly kilnFill?: { readonly from: Decimal; readonly to: Decimal }
  /** As the books do it, `by_mass`, unless told. */
  readonly reclaim?: ReclaimRule
}

export interface CostAfter {
  readonly own: CostByLayer
  readonly ofLost: CostByLayer
  readonly total: Decimal
  /** After less before. */
  readonly difference: Decimal
}

/**
 * What a sold piece would cost if prices, yields or the filling of the kiln changed.
 *
 * A price changes its own layer, in the piece and in the lost ones that it pays for. A better yield after
 * bisque leaves fewer lost pots to each survivor. One before bisque changes nothing by the books' rule,
 * since the clay of green pots goes back to the bucket with its cost; where reclaim counts as nil, it
 * changes the clay. A fuller kiln shares the same firing among more, so fire and wear fall as filling
 * rises: no more energy for more pots, which flatters a little.
 *
 * Shape: yields above zero up to one, before and after. Units: money a piece at ledger scale; fractions.
 * Errors: a yield or filling outside that, or a price that falls by more than all, is a defect.
 * Source: our choice; lost pots to each survivor are (1 - y) / y, arithmetic; normal spoilage goes to the
 * good units, Horngren, Cost Accounting 14e, ch. 18 (from memory).
 */
export function costIf(before: PieceCostByLayer, change: Change): CostAfter {
  const lost = lostTimes(before, change)
  const times = ALL_LAYERS.map((layer) => [layer, timesOfLayer(layer, before, change)] as const)
  const own = byLayer(times, (layer, factor) => scaled(before.own[layer], [factor]))
  const ofLost = byLayer(times, (layer, factor) => lostAfter(before, layer, [factor, lost]))
  const total = sum(own).plus(sum(ofLost))
  return { own, ofLost, total, difference: total.minus(totalOf(before)) }
}

/** All that a sold piece cost. Units: money a piece, exact. Source: arithmetic. */
export function totalOf(cost: Pick<PieceCostByLayer, 'own' | 'ofLost'>): Decimal {
  return sum(cost.own).plus(sum(cost.ofLost))
}

export interface Effects {
  readonly together: CostAfter
  readonly alone: readonly { readonly words: string; readonly after: CostAfter }[]
  /** What the changes do together beyond what each does alone. */
  readonly interplay: Decimal
}

/**
 * Each change by itself and all together.
 *
 * Shape: a row a change, in the order of prices by layer, yield after bisque, yield before, filling.
 * Units: money a piece at ledger scale; the rows and what lies between them sum to the whole difference.
 * Errors, Source: as `costIf`.
 */
export function effectsOf(before: PieceCostByLayer, change: Change): Effects {
  const together = costIf(before, change)
  const alone = singleChanges(change).map(({ words, single }) => ({
    words,
    after: costIf(before, { ...single, reclaim: change.reclaim ?? 'by_mass' }),
  }))
  const separately = alone.reduce((all, { after }) => all.plus(after.difference), ZERO)
  return { together, alone, interplay: together.difference.minus(separately) }
}

export interface PricesThatKeep {
  /** The same money is left over materials. */
  readonly sameMoney: Decimal
  /** Materials are the same part of the price; null where nothing was spent before. */
  readonly samePart: Decimal | null
  readonly words: string
}

/**
 * What a piece must be sold for to leave as much over its materials as before.
 *
 * Units: money a piece at ledger scale; words in the currency's digits.
 * Errors: a price below zero is a defect. Source: arithmetic.
 */
export function pricesThatKeepMargin(
  asked: { readonly price: Decimal; readonly before: Decimal; readonly after: Decimal },
  moneyDigits: number,
): PricesThatKeep {
  const { price, before, after } = asked
  assert(price.greaterThanOrEqualTo(0), 'a price is not below zero')
  const sameMoney = toLedgerScale(price.plus(after).minus(before))
  const samePart = before.isZero() ? null : toLedgerScale(price.times(after).dividedBy(before))
  const money = (amount: Decimal) => printedAmount(amount, moneyDigits)
  const materials = `Materials go from ${money(before)} to ${money(after)} a piece`
  const part =
    samePart === null ? '' : `; for materials to stay the same part of it, ${money(samePart)}`
  const words = before.equals(after)
    ? `Materials stay at ${money(before)} a piece, so the price of ${money(price)} may stay.`
    : `${materials}: sold at ${money(price)} now, it needs ${money(sameMoney)} to leave you the same money${part}.`
  return { sameMoney, samePart, words }
}

/** A factor kept as two, so that one that is nothing but one changes nothing. */
interface Times {
  readonly over: Decimal
  readonly under: Decimal
}
const SAME: Times = { over: ONE, under: ONE }

function timesOfLayer(layer: AnyLayer, before: PieceCostByLayer, change: Change): Times {
  const rise = ONE.plus(change.priceRise?.[layer] ?? ZERO)
  assert(rise.greaterThanOrEqualTo(0), 'no price falls by more than all of it')
  if (layer === 'clay' && change.reclaim === 'at_nil') {
    const from = yieldOf(before.yieldBeforeBisque)
    const to = yieldOf(from.plus(change.yieldBeforeBisqueRise ?? ZERO))
    return { over: rise.times(from), under: to }
  }
  if (layer !== 'fire' && layer !== 'wear') return { over: rise, under: ONE }
  const { from, to } = change.kilnFill ?? { from: ONE, to: ONE }
  assert(from.greaterThan(0) && to.greaterThan(0), 'a kiln that is fired for pots has pots in it')
  return { over: rise.times(from), under: to }
}

/** How many more lost pots each survivor pays for; undefined where none were lost before. */
function lostTimes(before: PieceCostByLayer, change: Change): Times {
  const from = yieldOf(before.yieldAfterBisque)
  const to = yieldOf(from.plus(change.yieldAfterBisqueRise ?? ZERO))
  if (to.equals(from)) return SAME
  // Where none was lost before, what each survivor would pay for is reckoned from a survivor's own cost.
  if (from.equals(1)) return { over: ONE.minus(to), under: to }
  return { over: ONE.minus(to).times(from), under: to.times(ONE.minus(from)) }
}

function lostAfter(before: PieceCostByLayer, layer: AnyLayer, times: readonly Times[]): Decimal {
  const isFirstLoss = before.yieldAfterBisque.equals(1) && times[1] !== SAME
  if (!isFirstLoss) return scaled(before.ofLost[layer], times)
  return layer === 'packaging' ? ZERO : scaled(before.own[layer], times)
}

function scaled(amount: Decimal, times: readonly Times[]): Decimal {
  const over = times.reduce((all, one) => all.times(one.over), amount)
  return toLedgerScale(over.dividedBy(times.reduce((all, one) => all.times(one.under), ONE)))
}

function yieldOf(fraction: Decimal): Decimal {
  assert(fraction.greaterThan(0) && fraction.lessThanOrEqualTo(1), 'a yield is some, up to all')
  return fraction
}

function byLayer(
  times: readonly (readonly [AnyLayer, Times])[],
  amountOf: (layer: AnyLayer, factor: Times) => Decimal,
): CostByLayer {
  const amounts = times.map(([layer, factor]) => [layer, amountOf(layer, factor)])
  return Object.fromEntries(amounts) as Record<AnyLayer, Decimal>
}

function sum(cost: CostByLayer): Decimal {
  return ALL_LAYERS.reduce((all, layer) => all.plus(cost[layer]), ZERO)
}

const PRICE_WORDS: Readonly<Record<AnyLayer, string>> = {
  clay: 'price of clay',
  glaze: 'price of glaze',
  fire: 'price of energy',
  wear: 'elements and shelves',
  packaging: 'price of packaging',
}

function singleChanges(change: Change): { words: string; single: Change }[] {
  const { priceRise = {}, yieldAfterBisqueRise, yieldBeforeBisqueRise, kilnFill } = change
  const prices = ALL_LAYERS.flatMap((layer) => {
    const rise = priceRise[layer]
    return rise === undefined
      ? []
      : [{ words: PRICE_WORDS[layer], single: { priceRise: { [layer]: rise } } }]
  })
  return [
    ...prices,
    ...(yieldAfterBisqueRise === undefined
      ? []
      : [{ words: 'what comes through the kiln', single: { yieldAfterBisqueRise } }]),
    ...(yieldBeforeBisqueRise === undefined
      ? []
      : [{ words: 'what comes as far as the kiln', single: { yieldBeforeBisqueRise } }]),
    ...(kilnFill === undefined ? [] : [{ words: 'how full the kiln is', single: { kilnFill } }]),
  ]
}
