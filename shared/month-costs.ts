import { costIn, type LayeredCost } from './cost-layer.ts'
import { decimal, Decimal, toLedgerScale, ZERO } from './decimal.ts'
import { printedAmount, roundedToSum } from './money.ts'
import {
  eachColumn,
  moneyAccount,
  moneyByLayer,
  isNoMoney,
  moneyNegated,
  moneySummed,
  MONEY_COLUMNS,
  type MoneyByLayer,
  type MoneyMoved,
} from './money-accounted.ts'
import { roundedBetween } from './month-amounts.ts'

/** Money as it is printed, in the currency's digits. */
export type MoneyShown = Readonly<Record<keyof MoneyByLayer, string>>

export interface MonthCostRow {
  readonly row: string
  readonly words: string
  readonly money: MoneyByLayer
  /** Each column adds up to that of all together, as printed. */
  readonly shown: MoneyShown
}

export interface MonthPaid {
  readonly row: 'clay' | 'materials' | 'energy'
  readonly words: string
  readonly money: Decimal
  readonly shown: string
}

export interface MonthCosts {
  /** Where the money went that is in the studio no more. */
  readonly rows: readonly MonthCostRow[]
  readonly total: MonthCostRow
  readonly opening: MoneyByLayer
  /** Less what was put into kilns. */
  readonly cameIn: MoneyByLayer
  /** Elements and shelves that were put into kilns in the month. */
  readonly intoKilns: MoneyByLayer
  readonly closing: MoneyByLayer
  /** What was paid in the month; not what the month cost. */
  readonly paid: readonly MonthPaid[]
  readonly paidTotal: Decimal
  readonly paidTotalShown: string
  readonly words: string
}

/**
 * What a month cost, by what for and by where it went: sold, given away, lost by name.
 *
 * Normal losses are in the pots that survived them. Purchases are not cost: what was there and what came in, less
 * what is left, is.
 *
 * Shape: `moved` is of the month, `opening` what the studio held before it. Rows sum to the total column by column,
 * exactly and as printed; the printed sentence leads from the printed opening to the printed cost.
 * Units: money, exact; printed in the currency's digits, each balance half up.
 * Source: conservation of money, entry by entry.
 */
export function monthCosts(
  { opening, moved }: { readonly opening: LayeredCost; readonly moved: readonly MoneyMoved[] },
  moneyDigits: number,
): MonthCosts {
  const account = moneyAccount(moved)
  const still = ['stock', INTO_KILNS]
  const gone = account.rows.filter(({ side, row }) => side === 'is_now' && !still.includes(row))
  const stock = account.rows.find(({ row }) => row === 'stock')
  const intoKilns = account.rows.find(({ row }) => row === INTO_KILNS)?.money ?? moneySummed([])
  const cameIn = moneySummed([account.cameIn, moneyNegated(intoKilns)])
  const before = moneyByLayer(opening)
  const closing = moneySummed([before, ...(stock === undefined ? [] : [stock.money])])
  const total = moneySummed(gone.map(({ money }) => money))
  const ends = [before, cameIn, closing].map(({ total: sum }) =>
    sum.toDecimalPlaces(moneyDigits, Decimal.ROUND_HALF_UP),
  )
  const [first = ZERO, came = ZERO, last = ZERO] = ends
  const cost = first.plus(came).minus(last)
  const columns = eachColumn((column) => {
    const parts = gone.map(({ money }) => money[column])
    return column === 'total'
      ? roundedBetween(cost, parts, moneyDigits)
      : roundedToSum(parts, moneyDigits)
  })
  const printed = (amount: Decimal) => printedAmount(amount, moneyDigits)
  const shownAt = (index: number) => eachColumn((column) => printed(columns[column][index] ?? ZERO))
  const shownTotal = eachColumn((column) =>
    printed(columns[column].reduce((sum, one) => sum.plus(one), ZERO)),
  )
  return {
    rows: gone.map(({ row, words, money }, index) => ({
      row,
      words,
      money,
      shown: shownAt(index),
    })),
    total: { row: 'cost', words: 'what the month cost', money: total, shown: shownTotal },
    ...{ opening: before, cameIn, closing, intoKilns },
    ...paidIn(moved, moneyDigits),
    words: `Purchases are not cost. There was ${printed(first)}, and ${printed(came)} came in: bought, burnt by kilns, or charged for their wear${lessIntoKilns(intoKilns)}. ${printed(last)} is left. So the month cost ${printed(first)} + ${printed(came)} − ${printed(last)} = ${printed(cost)}.`,
  }
}

/** Elements and shelves are paid for by the firings after them, a little each: going in costs no month. */
const INTO_KILNS = 'put_into_kilns'

function lessIntoKilns(intoKilns: MoneyByLayer): string {
  return isNoMoney(intoKilns)
    ? ''
    : ', less the elements and shelves put into kilns, which firings pay for a little each'
}

/** What was paid for in the month: clay, materials, energy. */
function paidIn(
  moved: readonly MoneyMoved[],
  moneyDigits: number,
): Pick<MonthCosts, 'paid' | 'paidTotal' | 'paidTotalShown'> {
  const of = (isPaid: (one: MoneyMoved) => boolean) =>
    moved.filter(isPaid).reduce((sum, { cost }) => sum.minus(cost), ZERO)
  const isMaterial = ({ kind }: MoneyMoved) => kind === 'receive_materials'
  const amounts = [
    of((one) => one.place === 'supplier' && !isMaterial(one)),
    of((one) => one.place === 'supplier' && isMaterial(one)),
    of((one) => one.place === 'utility'),
  ]
  const shown = roundedToSum(amounts, moneyDigits)
  const sum = (all: readonly Decimal[]) => all.reduce((total, one) => total.plus(one), ZERO)
  return {
    paid: PAID.map((told, index) => ({
      ...told,
      money: amounts[index] ?? ZERO,
      shown: printedAmount(shown[index] ?? ZERO, moneyDigits),
    })),
    paidTotal: sum(amounts),
    paidTotalShown: printedAmount(sum(shown), moneyDigits),
  }
}

const PAID = [
  { row: 'clay', words: 'clay, with its freight' },
  { row: 'materials', words: 'materials, with their freight' },
  { row: 'energy', words: 'electricity and gas, by the meter' },
] as const

/** What was sold of a form in a month. */
export interface FormSold extends LayeredCost {
  readonly pieces: Decimal
  /** Fired clay and the glaze on it. */
  readonly firedGrams: Decimal
}

export interface FormCostOfMonth {
  readonly soldPieces: Decimal
  readonly firedKilograms: Decimal
  readonly money: MoneyByLayer
  readonly moneyShown: MoneyShown
  readonly perPiece: MoneyByLayer
  readonly perPieceShown: MoneyShown
  /** Null where nothing fired was sold. */
  readonly perKilogram: MoneyByLayer | null
  readonly perKilogramShown: MoneyShown | null
}

/**
 * What the sold pieces of a form cost, a piece and a kilogram of fired pot.
 *
 * Shape: pieces above zero. Layers sum to their total, exactly and as printed.
 * Units: money; a piece and a kilogram at ledger scale. Source: arithmetic.
 */
export function formCostOfMonth(sold: FormSold, moneyDigits: number): FormCostOfMonth {
  const firedKilograms = sold.firedGrams.dividedBy(GRAMS_A_KILOGRAM)
  const money = moneyByLayer(sold)
  const perPiece = moneyPer(money, sold.pieces)
  const perKilogram = firedKilograms.greaterThan(0) ? moneyPer(money, firedKilograms) : null
  return {
    ...{ soldPieces: sold.pieces, firedKilograms, money, perPiece, perKilogram },
    moneyShown: moneyShown(money, moneyDigits),
    perPieceShown: moneyShown(perPiece, moneyDigits),
    perKilogramShown: perKilogram === null ? null : moneyShown(perKilogram, moneyDigits),
  }
}

/** Money for each of so many: the total rounded once, clay being what the others leave. Units: money each. */
export function moneyPer(money: MoneyByLayer, count: Decimal): MoneyByLayer {
  const cost = toLedgerScale(money.total.dividedBy(count))
  const costLayers = new Map(
    MONEY_COLUMNS.flatMap((column) =>
      column === 'total' || column === 'clay'
        ? []
        : [[column, toLedgerScale(money[column].dividedBy(count))] as const],
    ),
  )
  return eachColumn((column) => (column === 'total' ? cost : costIn({ cost, costLayers }, column)))
}

/** Layers printed so that they sum to their total as printed. Units: as given, in the currency's digits. */
export function moneyShown(money: MoneyByLayer, moneyDigits: number): MoneyShown {
  const layers = MONEY_COLUMNS.filter((column) => column !== 'total')
  const rounded = roundedToSum(
    layers.map((layer) => money[layer]),
    moneyDigits,
  )
  const total = rounded.reduce((sum, one) => sum.plus(one), ZERO)
  return eachColumn((column) =>
    printedAmount(
      column === 'total' ? total : (rounded[layers.indexOf(column)] ?? ZERO),
      moneyDigits,
    ),
  )
}

const GRAMS_A_KILOGRAM = decimal(1000)
