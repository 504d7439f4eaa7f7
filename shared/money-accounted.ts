import { ALL_LAYERS, costIn, type AnyLayer, type LayeredCost } from './cost-layer.ts'
import { ZERO, type Decimal } from './decimal.ts'
import type { ActKind } from './month-world.ts'
import { isInside, type Place } from './place.ts'

/** Money by what it was paid for, and all of it. */
export type MoneyByLayer = Readonly<Record<AnyLayer | 'total', Decimal>>

/** What entries of one kind moved of money at one place. */
export interface MoneyMoved extends LayeredCost {
  readonly place: Place
  readonly kind: ActKind
}

export interface MoneyRow {
  readonly row: string
  readonly words: string
  /** Where it came from, or where it is now. */
  readonly side: 'came_in' | 'is_now'
  readonly money: MoneyByLayer
}

export interface MoneyAccount {
  readonly rows: readonly MoneyRow[]
  readonly cameIn: MoneyByLayer
  readonly isNow: MoneyByLayer
  /** What came in less what it became: nothing, where the books are right. */
  readonly missing: MoneyByLayer
}

type Told = Omit<MoneyRow, 'money'>

const ROWS = [
  { row: 'supplier', words: 'bought from suppliers', side: 'came_in' },
  { row: 'utility', words: 'electricity and gas, by the meter', side: 'came_in' },
  { row: 'wear', words: 'elements and shelves, charged by firings', side: 'came_in' },
  { row: 'before', words: 'here before the books began', side: 'came_in' },
  { row: 'stock', words: 'in stock', side: 'is_now' },
  { row: 'sold', words: 'sold', side: 'is_now' },
  { row: 'given_away', words: 'given away', side: 'is_now' },
  { row: 'kept', words: 'kept', side: 'is_now' },
  { row: 'out_of_the_door', words: 'otherwise out of the door', side: 'is_now' },
  { row: 'put_into_kilns', words: 'elements and shelves, put into kilns', side: 'is_now' },
  { row: 'waste', words: 'lost as waste', side: 'is_now' },
  { row: 'abnormal', words: 'lost beyond what is usual', side: 'is_now' },
  { row: 'idle', words: 'spent on a kiln that fired nothing', side: 'is_now' },
  { row: 'unexplained', words: 'lost or found, unexplained', side: 'is_now' },
  {
    row: 'elsewhere',
    words: 'with water, air, fire or counts: there should be none',
    side: 'is_now',
  },
] as const satisfies readonly Told[]
type RowName = (typeof ROWS)[number]['row']

/** Rows that a bookkeeper wants to see even where nothing stands in them. */
const ALWAYS: readonly RowName[] = ['supplier', 'before', 'stock', 'sold', 'waste', 'unexplained']

const OUT_OF_THE_DOOR: Partial<Record<ActKind, RowName>> = {
  sell: 'sold',
  give_away: 'given_away',
  keep: 'kept',
}

const ROW_OF_PLACE: Partial<Record<Place, RowName>> = {
  supplier: 'supplier',
  utility: 'utility',
  before: 'before',
  waste: 'waste',
  abnormal: 'abnormal',
  idle: 'idle',
  unexplained: 'unexplained',
}

/**
 * Where every unit of money came from, and where it is: in stock, out of the door, or lost by name.
 *
 * Shape: the rows of one side sum to it, layer by layer; rows that hold nothing are left out, but for
 * those that are always asked for. Units: money, exact. Source: each entry sums to nothing, and so does their sum.
 */
export function moneyAccount(moved: readonly MoneyMoved[]): MoneyAccount {
  const rows = ROWS.map((told: Told): MoneyRow => {
    const mine = moved.filter((one) => moneyRowOf(one) === told.row).map(moneyByLayer)
    const money = moneySummed(mine)
    return { ...told, money: told.side === 'came_in' ? moneyNegated(money) : money }
  })
  const of = (side: MoneyRow['side']) =>
    moneySummed(rows.filter((row) => row.side === side).map(({ money }) => money))
  const [cameIn, isNow] = [of('came_in'), of('is_now')]
  return {
    rows: rows.filter(({ row, money }) => ALWAYS.some((one) => one === row) || !isNoMoney(money)),
    ...{ cameIn, isNow, missing: moneySummed([cameIn, moneyNegated(isNow)]) },
  }
}

/** The row in which a movement of money stands. Units: none. Source: what the acts post. */
export function moneyRowOf({ place, kind }: Pick<MoneyMoved, 'place' | 'kind'>): string {
  if (isInside(place)) return 'stock'
  if (place === 'customer') return OUT_OF_THE_DOOR[kind] ?? 'out_of_the_door'
  if (place === 'wear') return kind === 'use_material' ? 'put_into_kilns' : 'wear'
  return ROW_OF_PLACE[place] ?? 'elsewhere'
}

/** A cost, laid out by layer. Units: money; exact. Source: arithmetic. */
export function moneyByLayer(of: LayeredCost): MoneyByLayer {
  return eachColumn((column) => (column === 'total' ? of.cost : costIn(of, column)))
}

/** The sum, layer by layer. Units: money; exact. Source: arithmetic. */
export function moneySummed(all: readonly MoneyByLayer[]): MoneyByLayer {
  return eachColumn((column) => all.reduce((sum, one) => sum.plus(one[column]), ZERO))
}

/** The same going the other way. Units: money; exact. Source: arithmetic. */
export function moneyNegated(money: MoneyByLayer): MoneyByLayer {
  return eachColumn((column) => money[column].negated())
}

/** True where there is none of any layer. Units: none. Source: arithmetic. */
export function isNoMoney(money: MoneyByLayer): boolean {
  return MONEY_COLUMNS.every((column) => money[column].isZero())
}

/** The layers in the order of reading, and their total. */
export const MONEY_COLUMNS = [...ALL_LAYERS, 'total'] as const

/** Each layer worked out by itself. Units: as given. Source: arithmetic. */
export function eachColumn<T>(
  give: (column: AnyLayer | 'total') => T,
): Record<AnyLayer | 'total', T> {
  return Object.fromEntries(MONEY_COLUMNS.map((column) => [column, give(column)])) as Record<
    AnyLayer | 'total',
    T
  >
}
