import type { EntryKind } from '../../shared/entry-kind.ts'
import type { Grade } from '../../shared/place.ts'
import type { Act, Circumstances } from '../perform.ts'
import { takeFinished } from '../shelf.ts'
import { findForm } from '../studio.ts'

export interface PartWithSaid extends Circumstances {
  readonly formId: string
  readonly grade: Grade
  readonly pieces: number
  readonly reason?: string | undefined
  readonly runId?: string | undefined
}

/** Pots are given away: out of the door without money. */
export const giveAway: Act<PartWithSaid> = partWith('give_away', 'customer')

/** Pots are kept: the potter's own kitchen, samples. */
export const keepPieces: Act<PartWithSaid> = partWith('keep', 'customer')

/**
 * Finished pots are broken in the shop. They were made already: their cost is a loss of the shop, and
 * their sisters on the shelf do not become dearer by it.
 */
export const breakInShop: Act<PartWithSaid> = partWith('break_in_shop', 'waste')

function partWith(
  kind: Extract<EntryKind, 'give_away' | 'keep' | 'break_in_shop'>,
  to: 'customer' | 'waste',
): Act<PartWithSaid> {
  return {
    kind,
    async write(book, said) {
      await findForm(book.ledger, book.studioId, said.formId)
      return { runIds: await takeFinished(book, { ...said, to }) }
    },
  }
}
