import { Decimal, ZERO, decimal } from './decimal.ts'
import { NO_DOUBT, standardUncertaintyOfDoubt, type Doubt } from './doubt.ts'
import { giveOrTake, howSure, type HowSure } from './how-sure.ts'
import { printedAmount, roundedToSum } from './money.ts'
import { negatedColumns, sumOfColumns, type Quantities } from './quantity.ts'
import type { Place } from './place.ts'

/** What a cell of the month report holds. Bags and pots are both told in pieces and kept apart. */
export interface Amounts {
  readonly dryGrams: Decimal
  readonly waterGrams: Decimal
  readonly bags: Decimal
  readonly pots: Decimal
  readonly cost: Decimal
  readonly dryDoubt: Doubt
  readonly costDoubt: Doubt
}

/** Amounts as they are printed: rounded so that the printed column adds up by hand. */
export interface Shown {
  readonly dryKilograms: Decimal
  readonly waterKilograms: Decimal
  readonly cost: Decimal
}

/** The same, written out with all the digits that they are printed with. */
export type Printed = Readonly<Record<keyof Shown, string>>

export interface Cell extends Omit<Amounts, 'dryDoubt' | 'costDoubt'> {
  /** One standard uncertainty of the dry clay, and of the cost. */
  readonly dryUncertaintyGrams: Decimal
  readonly costUncertainty: Decimal
  readonly shown: Printed
}

/** How sure the two doubtful columns of a row are. */
export interface RowSure {
  readonly dry: HowSure
  readonly cost: HowSure
}

export const NO_AMOUNTS: Amounts = {
  dryGrams: ZERO,
  waterGrams: ZERO,
  bags: ZERO,
  pots: ZERO,
  cost: ZERO,
  dryDoubt: NO_DOUBT,
  costDoubt: NO_DOUBT,
}

const COLUMNS = ['dryGrams', 'waterGrams', 'bags', 'pots', 'cost'] as const
const KILOGRAM_DIGITS = 3
const GRAMS_PER_KILOGRAM = decimal(1000)

/** What was moved at a place inside, its pieces being bags in the store and pots elsewhere. Units: as given. */
export function amountsAt(place: Place, moved: Quantities): Amounts {
  const { dryGrams, waterGrams, pieces, cost, dryDoubt, costDoubt } = moved
  const isStore = place === 'store'
  return {
    dryGrams,
    waterGrams,
    bags: isStore ? pieces : ZERO,
    pots: isStore ? ZERO : pieces,
    cost,
    dryDoubt,
    costDoubt,
  }
}

/** The sum of each column. Units: as given; exact. */
export function totalOf(all: readonly Amounts[]): Amounts {
  return sumOfColumns(COLUMNS, all)
}

/** What is left of amounts when others are taken off. Units: as given; exact. */
export function less(some: Amounts, taken: Amounts): Amounts {
  return totalOf([some, negatedColumns(COLUMNS, taken)])
}

/** True where anything moved. Units: none. */
export function movesSomething(some: Amounts): boolean {
  return COLUMNS.some((column) => !some[column].isZero())
}

/** Amounts as a report's cell has them. Units: as given. */
export function cellOf(some: Amounts, shown: Printed): Cell {
  const { dryGrams, waterGrams, bags, pots, cost } = some
  return {
    ...{ dryGrams, waterGrams, bags, pots, cost },
    dryUncertaintyGrams: standardUncertaintyOfDoubt(some.dryDoubt),
    costUncertainty: standardUncertaintyOfDoubt(some.costDoubt),
    shown,
  }
}

/** Half of an interval as it is printed. Units: kilograms to the gram. Source: as `howSure`. */
export function plusMinusKilograms(sure: HowSure): string {
  return kilograms(giveOrTake(sure.standardUncertainty)).toFixed(KILOGRAM_DIGITS)
}

/** How sure a row's dry clay and cost are. Units: as given. Source: as `howSure`. */
export function rowSure(some: Amounts): RowSure {
  return {
    dry: howSure({ amount: some.dryGrams, doubt: some.dryDoubt }),
    cost: howSure({ amount: some.cost, doubt: some.costDoubt }),
  }
}

/**
 * Amounts printed by themselves, each rounded half up.
 *
 * Units: kilograms to the gram; money in the currency's digits.
 * Source: our choice. A balance is printed alike as one month's closing and the next one's opening;
 * rounded half up, two balances that differ by a whole coin are printed a whole coin apart.
 */
export function shownAlone(
  some: Pick<Amounts, 'dryGrams' | 'waterGrams' | 'cost'>,
  moneyDigits: number,
): Shown {
  const rounded = (amount: Decimal, digits: number) =>
    amount.toDecimalPlaces(digits, Decimal.ROUND_HALF_UP)
  return {
    dryKilograms: rounded(kilograms(some.dryGrams), KILOGRAM_DIGITS),
    waterKilograms: rounded(kilograms(some.waterGrams), KILOGRAM_DIGITS),
    cost: rounded(some.cost, moneyDigits),
  }
}

/** What is printed, with its digits: 4.000 kg and 36.00. Units: as in `shownAlone`. */
export function printed(shown: Shown, moneyDigits: number): Printed {
  return {
    dryKilograms: printedAmount(shown.dryKilograms, KILOGRAM_DIGITS),
    waterKilograms: printedAmount(shown.waterKilograms, KILOGRAM_DIGITS),
    cost: printedAmount(shown.cost, moneyDigits),
  }
}

/**
 * The flows of a column printed so that they lead from its printed opening to its printed closing.
 *
 * Shape: one for each flow, in their order. Units: as in `shownAlone`.
 * Source: the largest remainder method, T. Hare, 1857, between two fixed ends.
 */
export function shownBetween(
  ends: { readonly opening: Shown; readonly closing: Shown },
  flows: readonly Amounts[],
  moneyDigits: number,
): Shown[] {
  const column = (name: keyof Shown, parts: Decimal[], digits: number) =>
    roundedBetween(ends.closing[name].minus(ends.opening[name]), parts, digits)
  const dry = column(
    'dryKilograms',
    flows.map((flow) => kilograms(flow.dryGrams)),
    KILOGRAM_DIGITS,
  )
  const water = column(
    'waterKilograms',
    flows.map((flow) => kilograms(flow.waterGrams)),
    KILOGRAM_DIGITS,
  )
  const cost = column(
    'cost',
    flows.map((flow) => flow.cost),
    moneyDigits,
  )
  return flows.map((_, index) => ({
    dryKilograms: dry[index] ?? ZERO,
    waterKilograms: water[index] ?? ZERO,
    cost: cost[index] ?? ZERO,
  }))
}

/**
 * Parts rounded so that they sum to a total that was rounded by itself.
 *
 * A unit may be left over. It goes where it changes least, and never to what was printed without
 * rounding: 36.00 on an invoice stays 36.00.
 *
 * Shape: as many as came in, in their order. Units: the parts', at `digits` after the point.
 * Source: the largest remainder method, T. Hare, 1857.
 */
export function roundedBetween(
  difference: Decimal,
  parts: readonly Decimal[],
  digits: number,
): Decimal[] {
  const rounded = roundedToSum(parts, digits)
  const unit = decimal(10).toPower(-digits)
  let left = difference.minus(rounded.reduce((sum, part) => sum.plus(part), ZERO))
  const step = left.isNegative() ? unit.negated() : unit
  while (!left.isZero()) {
    const favoured = mostWanting(parts, rounded, step)
    rounded[favoured] = (rounded[favoured] ?? ZERO).plus(step)
    left = left.minus(step)
  }
  return rounded
}

function mostWanting(
  parts: readonly Decimal[],
  rounded: readonly Decimal[],
  step: Decimal,
): number {
  const wants = parts.map((part, index) => part.minus(rounded[index] ?? ZERO).times(step))
  const isRounded = (index: number) => parts[index]?.modulo(step).isZero() === false
  return wants.reduce((best, want, index) => {
    if (isRounded(index) !== isRounded(best)) return isRounded(index) ? index : best
    return want.greaterThan(wants[best] ?? ZERO) ? index : best
  }, 0)
}

function kilograms(grams: Decimal): Decimal {
  return grams.dividedBy(GRAMS_PER_KILOGRAM)
}
