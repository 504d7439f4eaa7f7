import { count, proportionalPart } from '../../shared/quantity.ts'
import type { Book, Slot } from '../book.ts'
import { shareBySecondsRule } from '../seconds.ts'
import { loseFired, recordLoss } from '../losses.ts'
import type { Act, Circumstances } from '../perform.ts'
import { potsOf, refuseMoreThanThere } from '../pots.ts'

export interface GradeSaid extends Circumstances {
  readonly runId: string
  readonly firsts: number
  readonly seconds: number
  readonly wasters: number
  /** Why the wasters are wasters. */
  readonly cause?: string | undefined
}

/** Fired pots are looked at: firsts and seconds go on the shelf, wasters leave their cost to them. */
export const gradeRun: Act<GradeSaid> = {
  kind: 'grade',
  async write(book, said) {
    const { runId } = said
    const [fired, firsts, seconds] = await book.hold([
      await potsOf(book, { runId, place: 'glazed' }),
      await potsOf(book, { runId, place: 'finished', grade: 'first' }),
      await potsOf(book, { runId, place: 'finished', grade: 'second' }),
    ])
    const pieces = count(said.firsts + said.seconds + said.wasters)
    refuseMoreThanThere(book, fired, { pieces, doing: 'graded', pointer: '/firsts' })
    shelve(book, { fired, shelf: firsts, pieces: said.firsts })
    shelve(book, { fired, shelf: seconds, pieces: said.seconds })
    if (said.wasters > 0) {
      const [stage, pieces] = ['glaze_firing' as const, count(said.wasters)]
      const found = await loseFired(book, { runId, pots: fired, pieces })
      const cause = said.cause ?? 'waster'
      await recordLoss(book, { runId, pieces: said.wasters, stage, cause, found })
    }
    await shareBySecondsRule(book, { firsts, seconds })
    return { runId }
  },
}

function shelve(book: Book, graded: { fired: Slot; shelf: Slot; pieces: number }): void {
  const { fired, shelf } = graded
  const pieces = count(graded.pieces)
  if (pieces.isZero()) return
  const held = book.now(fired)
  const dryGrams = proportionalPart({ amount: held.dryGrams, part: pieces, whole: held.pieces })
  book.moveShare(fired, shelf, { dryGrams, pieces })
}
