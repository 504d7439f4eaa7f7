import type { Decimal } from './decimal.ts'
import { moneyByLayer, moneySummed, type MoneyByLayer } from './money-accounted.ts'
import { moneyPer, moneyShown, type MoneyShown } from './month-costs.ts'
import { PLACES_INSIDE, type Grade, type PlaceInside } from './place.ts'
import { sumOf, type Quantities } from './quantity.ts'

/** What an accountant tells stock apart by. */
export const STOCK_GROUPS = {
  raw: 'raw: clay in bags, opened or going round through reclaim, powders, glaze in buckets, packaging, kiln furniture and fuel on the shelf',
  in_making: 'in the making: greenware, bisque, glaze-fired and not yet graded',
  finished: 'finished pots',
} as const
export type StockGroup = keyof typeof STOCK_GROUPS

/**
 * Of which group what lies at a place is.
 *
 * Scrap, slaking clay and clay on plaster are raw: they are clay to be used again, whatever they were once.
 *
 * Units: none. Source: IAS 2, paragraphs 6 and 37 (raw materials, work in progress, finished goods; from memory);
 * that reclaim is raw is our choice.
 */
export function stockGroupOf(place: PlaceInside): StockGroup {
  if (place === 'finished') return 'finished'
  return IN_MAKING.some((one) => one === place) ? 'in_making' : 'raw'
}

const IN_MAKING: readonly PlaceInside[] = ['greenware', 'bisque', 'glazed']

/** Stock at one place, as it was at some moment. */
export interface StockAt extends Quantities {
  readonly place: PlaceInside
}

interface Valued {
  readonly dryGrams: Decimal
  readonly materialGrams: Decimal
  readonly pieces: Decimal
  readonly money: MoneyByLayer
  readonly shown: MoneyShown
}

export interface StockValue {
  readonly groups: readonly (Valued & { readonly group: StockGroup; readonly words: string })[]
  readonly places: readonly (Valued & { readonly place: PlaceInside; readonly group: StockGroup })[]
  readonly total: Valued
}

/**
 * What stock cost, by group and by place, layer by layer.
 *
 * Shape: places sum to their group and groups to the total, exactly; places without anything are left out.
 * Units: grams, pieces, money; printed in the currency's digits. Source: arithmetic.
 */
export function stockValue(all: readonly StockAt[], moneyDigits: number): StockValue {
  const valued = (some: readonly Quantities[]): Valued => {
    const { dryGrams, materialGrams, pieces } = sumOf(some)
    const money = moneySummed(some.map(moneyByLayer))
    return { dryGrams, materialGrams, pieces, money, shown: moneyShown(money, moneyDigits) }
  }
  const at = (isWanted: (one: StockAt) => boolean) => valued(all.filter(isWanted))
  const groups = Object.keys(STOCK_GROUPS) as StockGroup[]
  return {
    groups: groups.map((group) => ({
      ...{ group, words: STOCK_GROUPS[group] },
      ...at(({ place }) => stockGroupOf(place) === group),
    })),
    places: PLACES_INSIDE.map((place) => ({
      ...{ place, group: stockGroupOf(place) },
      ...at((one) => one.place === place),
    })).filter(
      ({ money, dryGrams, materialGrams, pieces }) =>
        ![money.total, dryGrams, materialGrams, pieces].every((amount) => amount.isZero()),
    ),
    total: valued(all),
  }
}

export interface FinishedValue {
  readonly costPerPiece: MoneyByLayer
  /** What a piece of that grade is sold at; null where no price is said. */
  readonly price: Decimal | null
  readonly isCostAbovePrice: boolean
  readonly words: string
}

/**
 * What a finished piece cost beside what it can be sold at.
 *
 * Nothing is written down: whether the lower of the two is to be taken is the accountant's to say.
 *
 * Shape: pieces above zero. Units: money a piece, ledger scale.
 * Source: IAS 2, paragraph 9 (lower of cost and net realisable value; from memory). A second's price is the form's
 * price times the studio's fraction for seconds.
 */
export function finishedValue(
  held: Quantities,
  sold: {
    readonly price: Decimal | null
    readonly grade: Grade
    readonly secondsFraction: Decimal
  },
): FinishedValue {
  const costPerPiece = moneyPer(moneyByLayer(held), held.pieces)
  const price =
    sold.price === null || sold.grade === 'first'
      ? sold.price
      : sold.price.times(sold.secondsFraction)
  const isCostAbovePrice = price !== null && costPerPiece.total.greaterThan(price)
  return { costPerPiece, price, isCostAbovePrice, words: priceWords(price, isCostAbovePrice) }
}

function priceWords(price: Decimal | null, isCostAbovePrice: boolean): string {
  if (price === null) return 'No price is said of this form, so nothing can be compared.'
  if (!isCostAbovePrice) return 'It cost less than it sells at.'
  return 'It cost more than it sells at. Ask your accountant which of the two to value it at; nothing was written down.'
}
