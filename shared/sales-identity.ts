import type { Decimal } from './decimal.ts'
import type { Grade } from './place.ts'
import type { SaleTold } from './sales-rows.ts'

/** A sale of a file with what it is known by when it is brought again. */
export interface KnownSale extends SaleTold {
  /** The order's number and what the line says, or day and line where there is no number. */
  readonly identity: string
  /** How often that same content came before it in the file, and one. */
  readonly nth: number
}

/**
 * The sales of a file with what each is known by, in the order in which they are recorded.
 *
 * Equal sales are numbered, so that two mugs sold alike are two, and the same file brought twice is one.
 * Neither the numbers nor the order depends on how the rows of the file are ordered.
 *
 * Shape: by day, so that what came first is recorded first. Source: our choice.
 */
export function salesKnownBy(sales: readonly SaleTold[]): KnownSale[] {
  const inOrder = sales
    .map((sale) => ({ sale, identity: identityOf(sale), rest: restOf(sale) }))
    .sort(
      (one, other) =>
        byText(one.sale.day, other.sale.day) ||
        byText(one.identity, other.identity) ||
        byText(one.rest, other.rest),
    )
  const taken = takenNumbers(inOrder)
  return inOrder.map(({ sale, identity }) => ({
    ...sale,
    identity,
    nth: sale.nthSaid ?? nextFree(taken, identity),
  }))
}

/** Pieces of one form and grade that a file sells. */
export interface SalesSum {
  readonly formId: string
  readonly grade: Grade
  readonly rows: number
  readonly pieces: number
  readonly paid: Decimal
  readonly firstDay: string
  readonly lastDay: string
}

/**
 * What sales come to by form and grade.
 *
 * Units: pieces; money in the studio's currency. Source: addition.
 */
export function salesSummed(sales: readonly SaleTold[]): SalesSum[] {
  const sums = new Map<string, SalesSum>()
  for (const { formId, grade, pieces, priceEach, day } of sales) {
    const key = `${formId}|${grade}`
    const paid = priceEach.times(pieces)
    const sum = sums.get(key)
    sums.set(
      key,
      sum === undefined
        ? { formId, grade, rows: 1, pieces, paid, firstDay: day, lastDay: day }
        : {
            ...sum,
            rows: sum.rows + 1,
            pieces: sum.pieces + pieces,
            paid: sum.paid.plus(paid),
            firstDay: day < sum.firstDay ? day : sum.firstDay,
            lastDay: day > sum.lastDay ? day : sum.lastDay,
          },
    )
  }
  return [...sums.values()].sort((one, other) =>
    byText(`${one.formId}|${one.grade}`, `${other.formId}|${other.grade}`),
  )
}

function identityOf(sale: SaleTold): string {
  const { order, day, name, gradeCell, pieces, priceEach, time } = sale
  const line = [day, name.toLowerCase(), gradeCell.toLowerCase(), pieces, priceEach.toFixed()]
  return JSON.stringify(order === '' ? ['', ...line, time] : [order, ...line])
}

/** What tells apart, of equal sales, which comes first. */
function restOf({ nthSaid, channel, formId, grade }: SaleTold): string {
  return JSON.stringify([nthSaid ?? 0, channel, formId, grade])
}

type Taken = Map<string, Set<number>>

function takenNumbers(sales: readonly { sale: SaleTold; identity: string }[]): Taken {
  const taken: Taken = new Map()
  for (const { sale, identity } of sales) {
    if (sale.nthSaid !== undefined) numbersOf(taken, identity).add(sale.nthSaid)
  }
  return taken
}

function nextFree(taken: Taken, identity: string): number {
  const numbers = numbersOf(taken, identity)
  let nth = 1
  while (numbers.has(nth)) nth += 1
  numbers.add(nth)
  return nth
}

function numbersOf(taken: Taken, identity: string): Set<number> {
  const numbers = taken.get(identity) ?? new Set()
  taken.set(identity, numbers)
  return numbers
}

function byText(one: string, other: string): number {
  if (one === other) return 0
  return one < other ? -1 : 1
}
