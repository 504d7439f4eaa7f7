import { doubtNegated, type Doubt } from '../shared/doubt.ts'
import { smallOnesMerged } from '../shared/doubt-source.ts'
import { isInside } from '../shared/place.ts'
import type { Held } from '../shared/quantity.ts'
import type { Book } from './book.ts'

/**
 * What is left to do when the act is through. An empty holding is not unsure of what it holds: that
 * doubt goes where the clay of the books would have gone. And where a holding keeps more readings apart
 * than anybody can tell, the small ones become one.
 */
export async function settleDoubts(book: Book): Promise<void> {
  for (const slot of book.heldWhere(({ place }) => isInside(place))) {
    const doubts = doubtsToLeave(book, slot.held)
    if (Object.values(doubts).every(({ size }) => size === 0)) continue
    book.shiftExactly(slot, await book.outsideLike('unexplained', slot.ref), doubts)
  }
}

function doubtsToLeave(book: Book, held: Held) {
  const gone = (isEmpty: boolean, doubt: Doubt) => (isEmpty ? doubt : smallOnesOf(book, doubt))
  const hasNoClay = held.dryGrams.isZero()
  const hasNoMaterial = held.materialGrams.isZero()
  const hasNothing = hasNoClay && hasNoMaterial && held.pieces.isZero()
  return {
    dryDoubt: gone(hasNoClay, held.dryDoubt),
    materialDoubt: gone(hasNoMaterial, held.materialDoubt),
    costDoubt: gone(hasNothing, held.costDoubt),
  }
}

/** What is to be taken from a doubt so that its small sources become one. */
function smallOnesOf(book: Book, doubt: Doubt): Doubt {
  const into = { water: book.ownSource('merged_water'), mass: book.ownSource('merged') }
  return doubtNegated(smallOnesMerged(doubt, into))
}
