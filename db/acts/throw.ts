import { count } from '../../shared/quantity.ts'
import { ballsIn, bodyOf, claySources, takeClay, type ClaySourceSaid } from '../clay-sources.ts'
import { makeRun } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { findForm } from '../studio.ts'

export interface ThrowSaid extends Circumstances {
  readonly formId: string
  readonly runId?: string | undefined
  readonly label?: string | undefined
  readonly from: readonly ClaySourceSaid[]
  /** How many pieces were begun, where the balls do not tell. */
  readonly pieces?: number | undefined
  /** The blend that the pieces are of, where their clay comes from two bodies. */
  readonly blendBodyId?: string | undefined
}

/** Clay from the bench becomes a run of pieces of one form. */
export const throwRun: Act<ThrowSaid> = {
  kind: 'throw',
  async write(book, said) {
    const form = await findForm(book.ledger, book.studioId, said.formId)
    const sources = await claySources(book, said.from)
    const bodyId = await bodyOf(book, sources, said.blendBodyId)
    const pieces = said.pieces === undefined ? ballsIn(said.from) : count(said.pieces)
    const runId = await makeRun(book, {
      runId: said.runId,
      formId: form.formId,
      bodyId,
      label: said.label ?? `${form.name} of ${book.facts.day}`,
    })
    const [run, ...clays] = await book.hold([
      { place: 'greenware', bodyId, runId },
      ...sources.map((source) => source.ref),
    ])
    for (const [index, source] of sources.entries()) {
      const from = clays[index]
      if (from !== undefined) await takeClay(book, { from, to: run, source })
    }
    book.shiftExactly(await book.outside('hands', bodyId), run, { pieces })
    return { runId }
  },
}
