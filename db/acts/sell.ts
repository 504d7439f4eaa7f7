import type { Grade } from '../../shared/place.ts'
import type { Act, Circumstances } from '../perform.ts'
import { sale } from '../schema.ts'
import { takeFinished } from '../shelf.ts'
import { findForm } from '../studio.ts'

export interface SellSaid extends Circumstances {
  readonly formId: string
  readonly grade: Grade
  readonly pieces: number
  readonly priceEach: string
  readonly channel: string
  /** The run that they are of; the oldest on the shelf where it is not said. */
  readonly runId?: string | undefined
}

/** Pots go out of the door for money; what they cost goes with them. */
export const sell: Act<SellSaid> = {
  kind: 'sell',
  async write(book, said) {
    const { formId, grade, pieces, priceEach, channel } = said
    await findForm(book.ledger, book.studioId, formId)
    const runIds = await takeFinished(book, { ...said, to: 'customer' })
    await book.ledger.insert(sale).values({
      studioId: book.studioId,
      entryId: book.facts.entryId,
      formId,
      grade,
      pieces,
      priceEach,
      channel,
    })
    return { runIds }
  },
}
