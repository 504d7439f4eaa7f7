import { amountTold, countTold, isOfCurrency } from './amount-told.ts'
import { decimal } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { minorUnitDigits } from './money.ts'
import { BadCell, cellOf } from './sales-cells.ts'
import type { SalesColumns } from './sales-columns.ts'
import type { SalesReading } from './sales-reading.ts'

const PIECES_MAX = 1_000_000
const PRICE_MAX = 1_000_000_000

const REFUND =
  'This is a refund. Nothing is recorded for it here. If the pots came back whole, find the sale in the books, take it back, and sell once more what stayed sold. If only money went back, the pots stay sold.'

/** So many pieces at one price. */
export interface Parcel {
  readonly pieces: number
  readonly priceEach: Decimal
}

/**
 * How many pieces a row sells: one where no column says it.
 *
 * Units: pieces. Source: our choice.
 */
export function piecesOf(cells: readonly string[], columns: SalesColumns): number {
  if (columns.pieces === undefined) return 1
  const cell = cellOf(cells, columns, 'pieces')
  const pieces = countTold(cell)
  if (pieces === undefined) {
    throw new BadCell('pieces', cell, 'This is no whole number of pieces. Write it in digits: 2.')
  }
  if (pieces < 0) throw new BadCell('pieces', cell, REFUND)
  if (pieces === 0 || pieces > PIECES_MAX) {
    throw new BadCell('pieces', cell, 'Write how many were sold, or take the line out.')
  }
  return pieces
}

/**
 * What was paid, as pieces at a price each: two parcels where a line's price does not part evenly.
 *
 * Units: the studio's currency, in the digits in which it is paid; what was paid is kept exactly.
 * Source: the largest remainder method, T. Hare, 1857.
 */
export function parcelsOf(
  cells: readonly string[],
  reading: SalesReading,
  pieces: number,
): Parcel[] {
  const amount = paidOf(cells, reading)
  if (reading.priceFor === 'each') return [{ pieces, priceEach: amount }]
  const coin = decimal(10).toPower(-minorUnitDigits(reading.currency))
  const coins = amount.dividedBy(coin)
  const low = coins.dividedToIntegerBy(pieces)
  const dearer = coins.minus(low.times(pieces)).toNumber()
  return [
    { pieces: pieces - dearer, priceEach: low.times(coin) },
    { pieces: dearer, priceEach: low.plus(1).times(coin) },
  ].filter((parcel) => parcel.pieces > 0)
}

function paidOf(cells: readonly string[], reading: SalesReading): Decimal {
  const { columns, currency, decimalMark } = reading
  const cell = cellOf(cells, columns, 'price')
  const told = amountTold(cell, decimalMark)
  if (told === undefined) {
    const style = decimalMark === 'point' ? '12.50' : '12,50'
    throw new BadCell('price', cell, `This is no amount of money. Write it as ${style}.`)
  }
  refuseOtherCurrency(cell, told.unit, currency)
  refuseOtherCurrency(cell, cellOf(cells, columns, 'currency'), currency)
  if (told.amount.isNegative() && !told.amount.isZero()) throw new BadCell('price', cell, REFUND)
  const digits = minorUnitDigits(currency)
  if (told.amount.decimalPlaces() > digits) {
    const words = digits === 0 ? 'no digits' : `${String(digits)} digits`
    throw new BadCell('price', cell, `${currency} has ${words} after the point; this has more.`)
  }
  if (told.amount.greaterThan(PRICE_MAX)) {
    throw new BadCell('price', cell, 'This is more than any pot costs. Look for a missing point.')
  }
  return told.amount
}

function refuseOtherCurrency(cell: string, unit: string, currency: string): void {
  if (isOfCurrency(unit, currency)) return
  throw new BadCell(
    'price',
    unit.length > 0 && !cell.includes(unit) ? `${cell} ${unit}` : cell,
    `The books are kept in ${currency}; this is in ${unit}. Write what it came to in ${currency}.`,
  )
}
