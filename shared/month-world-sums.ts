import { amountsAt, less, NO_AMOUNTS, totalOf, type Amounts } from './month-amounts.ts'
import { worldPlaceOfBags, worldRowOf, type MonthMovement } from './month-world.ts'
import { isInside } from './place.ts'
import type { Decimal } from './decimal.ts'

/** By row of the world: what came in through it (plus) or went out (minus). */
export type WorldCells = ReadonlyMap<string, Amounts>

/**
 * What crossed the studio's door, by the way that it took.
 *
 * An entry sums to zero, so that the world gives what the studio gains. Outside, bags and pots are
 * both plain pieces: how many of them were bags is told by the store. Clay that became another clay
 * by blending leaves its own body's sheet by `other_bodies`, and glaze comes to a body's pots from its bucket, which
 * is on no body's sheet; on the sheet of all together both are zero in money.
 *
 * Units: grams, pieces, money; exact.
 */
export function worldOf(movements: readonly MonthMovement[]): WorldCells {
  const cells = new Map<string, Amounts>()
  const give = (row: string, some: Partial<Amounts>) =>
    cells.set(row, totalOf([cells.get(row) ?? NO_AMOUNTS, { ...NO_AMOUNTS, ...some }]))
  const inMonth = movements.filter(({ kind }) => kind !== undefined)
  for (const { place, kind, ...moved } of inMonth) {
    const { pieces } = moved
    // Outside, bags and pots are both plain pieces.
    const amounts = amountsAt('waste', moved)
    give(worldRowOf('other_bodies', kind).row, amounts)
    if (!isInside(place)) {
      give(worldRowOf(place, kind).row, less(NO_AMOUNTS, amounts))
    } else if (place === 'store' && kind !== undefined) {
      give(worldRowOf(worldPlaceOfBags(kind), kind).row, toBags(pieces))
    }
  }
  return cells
}

function toBags(pieces: Decimal): Partial<Amounts> {
  return { bags: pieces, pots: pieces.negated() }
}
