import { present } from '../../shared/assert.ts'
import { doubtBy, doubtOfPart, doubtOfSum } from '../../shared/doubt.ts'
import { dryMassEstimate, type DryMassEstimate } from '../../shared/dry-mass.ts'
import { LOSS_STAGES, type LossStage, type PotPlace } from '../../shared/place.ts'
import { count, proportionalPart } from '../../shared/quantity.ts'
import { Refusal } from '../../shared/refusal.ts'
import { waterWith } from '../../shared/water.ts'
import type { Book, Slot } from '../book.ts'
import { loseFired, NOTHING_LOST, recordLoss } from '../losses.ts'
import { blendInto, vesselFor } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { potsOf, refuseMoreThanThere } from '../pots.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { dryMassOfReading, waterFigure, type WaterSaid } from '../water-figures.ts'

export interface LoseSaid extends Circumstances {
  readonly runId: string
  readonly pieces: number
  readonly stage: LossStage
  readonly cause: string
  /** Before bisque: the vessel that the pieces go back into. */
  readonly vesselId?: string | undefined
  readonly reading?: ReadingSaid | undefined
  readonly water?: WaterSaid | undefined
  readonly blendBodyId?: string | undefined
  /** Which of the finished pots, where finished ones are lost. */
  readonly grade?: 'first' | 'second' | undefined
}

/**
 * Pieces are lost. Before bisque their clay goes back into a vessel with its cost; after it they are
 * shards, which never become clay again. As many as are usual leave their cost to the survivors of their
 * run; what those beyond it cost stands by itself.
 */
export const losePieces: Act<LoseSaid> = {
  kind: 'lose',
  async write(book, said) {
    const place: PotPlace = LOSS_STAGES[said.stage]
    const { runId, grade } = said
    const ref = await potsOf(book, { runId, place, ...(grade === undefined ? {} : { grade }) })
    if (place !== 'greenware') refuseFiredScrap(said)
    const found =
      place === 'greenware' ? await loseGreen(book, said, ref) : await loseShards(book, said, ref)
    const { pieces, stage, cause } = said
    await recordLoss(book, { runId, pieces, stage, cause, found })
    return { runId }
  },
}

function refuseFiredScrap(said: LoseSaid): void {
  if (said.vesselId === undefined && said.reading === undefined) return
  throw new Refusal(
    'fired_clay_must_not_return_to_scrap',
    'After bisque a broken pot is shards, not clay: it goes to waste. Leave vesselId and reading out.',
    { pointer: said.vesselId === undefined ? '/reading' : '/vesselId' },
  )
}

type PotsRef = Awaited<ReturnType<typeof potsOf>>

async function loseShards(book: Book, said: LoseSaid, ref: PotsRef) {
  const [pots] = await book.hold([ref])
  const pieces = count(said.pieces)
  refuseMoreThanThere(book, pots, { pieces, doing: 'lost at that stage', pointer: '/pieces' })
  return loseFired(book, { runId: said.runId, pots, pieces })
}

async function loseGreen(book: Book, said: LoseSaid, ref: PotsRef) {
  const pieces = count(said.pieces)
  const bucket = await vesselFor(book, {
    place: 'scrap',
    vesselId: present(said.vesselId, 'green pots go back into a vessel'),
    bodyIds: [ref.bodyId],
    blendBodyId: said.blendBodyId,
    pointer: '/vesselId',
  })
  const [pots, goal] = await book.hold([ref, bucket.ref])
  blendInto(book, goal, await book.holdById(bucket.blending))
  refuseMoreThanThere(book, pots, { pieces, doing: 'lost at that stage', pointer: '/pieces' })
  const { estimate, weighingNo } = await massOfLost(book, said, pots)
  await pointingAt('/reading', () => book.moveMeasured(pots, goal, { estimate }))
  book.shiftExactly(pots, await book.outside('hands', ref.bodyId), { pieces })
  await leaveNothingBehind(book, pots)
  book.estimated({ slot: goal, of: 'lost_pieces', estimate, weighingNo: weighingNo })
  return NOTHING_LOST
}

async function massOfLost(book: Book, said: LoseSaid, pots: Slot) {
  if (said.reading === undefined) return { estimate: await shareOfRun(book, said, pots) }
  const reading = await takeReading(book, said.reading, { pointer: '/reading' })
  const state = said.stage === 'wheel' ? 'off_cuts' : 'leather_hard'
  const estimate = await dryMassOfReading(book, {
    reading,
    said: said.water,
    state: said.stage === 'drying' ? 'air_dry' : state,
    bodyId: pots.ref.bodyId,
    pointer: '/water',
  })
  return { estimate, weighingNo: reading.weighingNo }
}

/**
 * Pieces that nobody weighed are taken to be like the rest of their run; those lost in drying are as
 * dry as clay gets in the air, whatever water the run was last seen with.
 */
async function shareOfRun(book: Book, said: LoseSaid, pots: Slot): Promise<DryMassEstimate> {
  const held = book.now(pots)
  const share = { part: count(said.pieces), whole: held.pieces }
  const dryGrams = proportionalPart({ amount: held.dryGrams, ...share })
  const unlike = doubtBy(book.ownSource('unlike'), UNLIKE.times(dryGrams))
  return dryMassEstimate({
    dryGrams,
    waterGrams:
      said.stage === 'drying'
        ? waterWith(dryGrams, (await airDry(book, pots.ref.bodyId)).waterContentWetBasis)
        : proportionalPart({ amount: held.waterGrams, part: dryGrams, whole: held.dryGrams }),
    dryDoubt: doubtOfSum([doubtOfPart(held.dryDoubt, share), unlike]),
    method: 'share_of_holding',
    standing: 'estimated',
  })
}

function airDry(book: Book, bodyId: string) {
  return waterFigure(book, { said: undefined, state: 'air_dry', bodyId, pointer: '/water' })
}

/** Pots of one run differ by some hundredths of their mass. Our choice. */
const UNLIKE = count(5).dividedBy(100)

/** With the last piece gone, what the books still say is there was never weighed anywhere. */
async function leaveNothingBehind(book: Book, pots: Slot): Promise<void> {
  const held = book.now(pots)
  if (held.pieces.greaterThan(0) || held.dryGrams.isZero()) return
  book.moveAll(pots, await book.outside('unexplained', pots.ref.bodyId))
}
