import { present } from '../../shared/assert.ts'
import type { Decimal } from '../../shared/decimal.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Book, Slot } from '../book.ts'
import { bodyOf, claySources, takeClay, type ClaySourceSaid } from '../clay-sources.ts'
import { blendInto, vesselFor } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { potsOf } from '../pots.ts'
import { takeReading, type ReadingSaid } from '../readings.ts'
import { findBody, findRun } from '../studio.ts'
import { dryMassOfReading, type WaterSaid } from '../water-figures.ts'

export interface JoinSaid extends Circumstances {
  readonly runId: string
  readonly from: readonly ClaySourceSaid[]
  /** What of that clay was cut off again and went into a vessel. */
  readonly offCuts?:
    | {
        readonly reading: ReadingSaid
        readonly water?: WaterSaid | undefined
        readonly vesselId: string
        readonly blendBodyId?: string | undefined
      }
    | undefined
}

/** Extra clay is joined on: handles, spouts, lids; what was cut off goes back to a vessel. */
export const joinClay: Act<JoinSaid> = {
  kind: 'join',
  async write(book, said) {
    const run = await findRun(book.ledger, book.studioId, said.runId)
    const sources = await claySources(book, said.from)
    const bodyId = await bodyOf(book, sources, undefined)
    if (bodyId !== run.bodyId) await refuseUnlessBlend(book, run.bodyId, bodyId)
    const bucket = await bucketFor(book, said, bodyId)
    const [pots, ...clays] = await book.hold([
      await potsOf(book, { runId: said.runId, place: 'greenware' }),
      ...sources.map((source) => source.ref),
      ...(bucket === undefined ? [] : [bucket.ref]),
    ])
    refuseNoPots(book, pots)
    let joined = pots.held.dryGrams.minus(pots.held.dryGrams)
    for (const [index, source] of sources.entries()) {
      const from = present(clays[index], 'each source is held')
      joined = joined.plus((await takeClay(book, { from, to: pots, source })).dryGrams)
    }
    if (bucket !== undefined) {
      const goal = present(clays.at(-1), 'the bucket is held')
      blendInto(book, goal, await book.holdById(bucket.blending))
      await takeOffCuts(book, { said, pots, goal, joined, bodyId })
    }
    return { runId: said.runId }
  },
}

/** A blend may take clay of its parts; two plain bodies never meet in a pot unsaid. */
async function refuseUnlessBlend(book: Book, runBodyId: string, bodyId: string): Promise<void> {
  if ((await findBody(book.ledger, book.studioId, runBodyId)).isBlend) return
  throw new Refusal(
    'bodies_must_not_mix_unless_declared',
    `These pots are of '${runBodyId}' and that clay is '${bodyId}'. Join clay of their own body.`,
    { pointer: '/from' },
  )
}

async function bucketFor(book: Book, said: JoinSaid, bodyId: string) {
  if (said.offCuts === undefined) return undefined
  const { vesselId, blendBodyId } = said.offCuts
  return vesselFor(book, {
    place: 'scrap',
    vesselId,
    bodyIds: [bodyId],
    blendBodyId,
    pointer: '/offCuts/vesselId',
  })
}

async function takeOffCuts(
  book: Book,
  cut: { said: JoinSaid; pots: Slot; goal: Slot; joined: Decimal; bodyId: string },
): Promise<void> {
  const offCuts = present(cut.said.offCuts, 'off-cuts were said')
  const reading = await takeReading(book, offCuts.reading, { pointer: '/offCuts/reading' })
  const estimate = await dryMassOfReading(book, {
    reading,
    said: offCuts.water,
    state: 'off_cuts',
    bodyId: cut.bodyId,
    pointer: '/offCuts/water',
  })
  if (estimate.dryGrams.greaterThan(cut.joined)) {
    throw new Refusal(
      'parts_must_not_exceed_the_whole',
      `${cut.joined.toFixed()} g of dry clay were taken; ${estimate.dryGrams.toFixed()} g cannot have been cut off again.`,
      { pointer: '/offCuts/reading' },
    )
  }
  await book.moveMeasured(cut.pots, cut.goal, { estimate })
  book.estimated({ slot: cut.goal, of: 'off_cuts', estimate, weighingNo: reading.weighingNo })
}

function refuseNoPots(book: Book, pots: Slot): void {
  if (book.now(pots).pieces.greaterThan(0)) return
  throw new Refusal(
    'stage_must_hold_the_pieces',
    'This run has no greenware that anything could be joined to.',
    { pointer: '/runId' },
  )
}
