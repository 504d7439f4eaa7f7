import { assert } from './assert.ts'
import { decimal, toLedgerScale, type Decimal } from './decimal.ts'
import { printedAmount } from './money.ts'

/** How scrap is made into clay again. Units: none. Source: handbook, section 6. */
export const RECLAIM_WAYS = ['by_hand', 'by_mill'] as const
export type ReclaimWay = (typeof RECLAIM_WAYS)[number]

/** One body reclaimed in one way: what it was bought for, and how much of it was reclaimed in how long. */
export interface ReclaimWork {
  readonly bodyName: string
  /** Null where nobody said. */
  readonly way: ReclaimWay | null
  /** What was paid for clay of this body, freight and all, and the dry clay in it. */
  readonly bought: { readonly cost: Decimal; readonly dryGrams: Decimal }
  readonly reclaimedDryGrams: Decimal
  /** Of hands, drying left out. */
  readonly hours: Decimal
}

export type ReclaimVerdict = 'pays' | 'does_not_pay' | 'nothing_to_compare_with'

export interface ReclaimWorth {
  /** What as much dry clay costs in the bag. */
  readonly clayWorth: Decimal
  readonly worthPerHour: Decimal
  readonly verdict: ReclaimVerdict
  /** In so many hours or fewer it would pay; null where nothing is said to compare it with. */
  readonly hoursThatPay: Decimal | null
  readonly words: string
}

const GRAMS_A_KILOGRAM = 1000
const HOUR_DIGITS = 1
const WAY_WORDS: Readonly<Record<ReclaimWay, string>> = {
  by_hand: 'by hand',
  by_mill: 'through the mill',
}

/**
 * What an hour spent on reclaiming is worth: as much clay as it gave, at what it costs in the bag.
 *
 * The price is that of a dry gram, so that wet clay is not compared with clay of another wetness. Beside
 * it stands what the studio says an hour is worth to it, where it says so. No more than money: clay that
 * cannot be bought, or waste that is disliked, is worth it anyway.
 *
 * Shape: some clay bought and some hours worked. Units: dry grams, hours, money at ledger scale; hours
 * at ledger scale; words in the currency's digits.
 * Errors: no clay bought, no time, or anything below zero, is a defect.
 * Source: price a kilogram ÷ minutes a kilogram × 60: arithmetic.
 */
export function reclaimWorth(
  work: ReclaimWork,
  told: { readonly hourlyFigure: Decimal | null; readonly moneyDigits: number },
): ReclaimWorth {
  const { bought, reclaimedDryGrams, hours } = work
  assert(
    bought.dryGrams.greaterThan(0) && hours.greaterThan(0),
    'clay was bought and time was spent',
  )
  assert(
    !bought.cost.isNegative() && !reclaimedDryGrams.isNegative(),
    'neither price nor clay is below zero',
  )
  const worth = bought.cost.times(reclaimedDryGrams).dividedBy(bought.dryGrams)
  const found = {
    clayWorth: toLedgerScale(worth),
    worthPerHour: toLedgerScale(worth.dividedBy(hours)),
    ...compared(worth, hours, told.hourlyFigure),
  }
  return { ...found, words: worthWords(work, found, told) }
}

function compared(
  worth: Decimal,
  hours: Decimal,
  hourlyFigure: Decimal | null,
): Pick<ReclaimWorth, 'verdict' | 'hoursThatPay'> {
  if (hourlyFigure === null || !hourlyFigure.greaterThan(0)) {
    return { verdict: 'nothing_to_compare_with', hoursThatPay: null }
  }
  const pays = worth.greaterThanOrEqualTo(hourlyFigure.times(hours))
  return {
    verdict: pays ? 'pays' : 'does_not_pay',
    hoursThatPay: toLedgerScale(worth.dividedBy(hourlyFigure)),
  }
}

function worthWords(
  { bodyName, way, reclaimedDryGrams, hours }: ReclaimWork,
  found: Omit<ReclaimWorth, 'words'>,
  told: { readonly hourlyFigure: Decimal | null; readonly moneyDigits: number },
): string {
  const money = (amount: Decimal) => printedAmount(amount, told.moneyDigits)
  const kilograms = reclaimedDryGrams.dividedBy(decimal(GRAMS_A_KILOGRAM)).toFixed(1)
  const done = `${bodyName}${way === null ? '' : ` ${WAY_WORDS[way]}`}: ${kilograms} kg dry in ${hoursWords(hours)} saved ${money(found.clayWorth)} of clay, ${money(found.worthPerHour)} an hour`
  if (found.hoursThatPay === null || told.hourlyFigure === null) {
    return `${done}. Say what your hour is worth to see whether it pays.`
  }
  const hour = `your hour at ${money(told.hourlyFigure)}`
  if (found.verdict === 'pays') return `${done}. With ${hour} it pays.`
  return `${done}. With ${hour} it does not pay for itself: it would in ${hoursWords(found.hoursThatPay)}.`
}

function hoursWords(hours: Decimal): string {
  const shown = hours.toDecimalPlaces(HOUR_DIGITS)
  if (shown.isZero()) return 'no time at all'
  return shown.equals(1) ? 'an hour' : `${shown.toFixed()} hours`
}
