import type { Grade } from '../../shared/place.ts'
import { packSold, type PackingPart, type PackingSaid } from '../packing.ts'
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
  /** What it went out of the door in; nothing where it is not said. */
  readonly packing?: PackingSaid | undefined
}

/** Pots go out of the door for money; what they cost, and what they are packed in, goes with them. */
export const sell: Act<SellSaid> = {
  kind: 'sell',
  async write(book, said) {
    const { formId, grade, pieces, priceEach, channel, packing } = said
    const form = await findForm(book.ledger, book.studioId, formId)
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
    if (packing === undefined) return { runIds }
    const usual = form.packing as readonly PackingPart[]
    return { runIds, packedIn: await packSold(book, { packing, usual, pieces }) }
  },
}
