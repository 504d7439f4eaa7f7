import { ZERO, type Decimal } from './decimal.ts'
import { roundedBetween } from './month-amounts.ts'
import { printedAmount, roundedToSum } from './money.ts'

/** What was paid for one clay in a month. */
export interface Paid {
  readonly goods: Decimal
  readonly freight: Decimal
}

/** The same as it is printed, in the currency's digits. */
export interface PaidShown {
  readonly goods: string
  readonly freight: string
  readonly total: string
}

/**
 * What was paid for each clay and for all together, printed so that it adds up both ways.
 *
 * All together is rounded first: goods and freight to their total. Then the clays' goods are rounded to
 * the goods of all, their freight to the freight of all; a clay's total is the sum of its two as printed.
 *
 * Shape: one for each clay, in their order. Units: money, in the currency's digits.
 * Source: the largest remainder method, T. Hare, 1857.
 */
export function purchasesShown(
  paid: readonly Paid[],
  moneyDigits: number,
): { readonly together: PaidShown; readonly each: readonly PaidShown[] } {
  const goods = paid.map((one) => one.goods)
  const freights = paid.map((one) => one.freight)
  const [allGoods = ZERO, allFreight = ZERO] = roundedToSum(
    [sumOf(goods), sumOf(freights)],
    moneyDigits,
  )
  const shown = (some: Paid): PaidShown => ({
    goods: printedAmount(some.goods, moneyDigits),
    freight: printedAmount(some.freight, moneyDigits),
    total: printedAmount(some.goods.plus(some.freight), moneyDigits),
  })
  const together = shown({ goods: allGoods, freight: allFreight })
  if (paid.length === 0) return { together, each: [] }
  const goodsEach = roundedBetween(allGoods, goods, moneyDigits)
  const freightEach = roundedBetween(allFreight, freights, moneyDigits)
  return {
    together,
    each: paid.map((_, index) =>
      shown({ goods: goodsEach[index] ?? ZERO, freight: freightEach[index] ?? ZERO }),
    ),
  }
}

function sumOf(amounts: readonly Decimal[]): Decimal {
  return amounts.reduce((sum, amount) => sum.plus(amount), ZERO)
}
