import { waterContentWetBasisOf } from '../../shared/quantity.ts'
import { dryGramsInWetMass } from '../../shared/parting.ts'
import type { Book, Slot } from '../book.ts'
import { blendInto, contentOf, vesselFor } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { findBody } from '../studio.ts'
import type { MinutesTold } from '../work-told.ts'

export interface SlakeSaid extends Circumstances, MinutesTold {
  readonly fromVesselId: string
  readonly basinVesselId: string
  /** How much scrap goes in; all that the vessel has where it is not said. */
  readonly scrap?: ReadingSaid | undefined
  /** The water that is put to it. */
  readonly water?: ReadingSaid | undefined
  readonly blendBodyId?: string | undefined
}

/** Scrap goes from its vessel into a basin of water and falls apart. */
export const slake: Act<SlakeSaid> = {
  kind: 'slake',
  async write(book, said) {
    const from = await contentOf(book, {
      vesselId: said.fromVesselId,
      place: 'scrap',
      pointer: '/fromVesselId',
    })
    const basin = await basinFor(book, said, from)
    await noteWetness(book, from)
    if (said.scrap === undefined) book.moveAll(from, basin)
    else {
      const reading = await takeReading(book, said.scrap, { pointer: '/scrap' })
      const dryGrams = dryGramsInWetMass(book.now(from), reading.netGrams)
      await pointingAt('/scrap', () =>
        book.moveShare(from, basin, {
          dryGrams,
          readingDoubt: reading.netDoubt,
        }),
      )
    }
    if (said.water !== undefined) {
      const poured = await takeReading(book, said.water, { pointer: '/water', kind: 'water' })
      const tap = await book.outside('tap', basin.ref.bodyId)
      book.shiftExactly(tap, basin, { waterGrams: poured.netGrams })
    }
    return {}
  },
}

async function basinFor(book: Book, said: SlakeSaid, from: Slot): Promise<Slot> {
  const isOwnBasin = said.fromVesselId === said.basinVesselId
  const into = await vesselFor(book, {
    place: 'basin',
    vesselId: said.basinVesselId,
    bodyIds: [from.ref.bodyId],
    blendBodyId: said.blendBodyId,
    pointer: '/basinVesselId',
  })
  const [basin] = await book.hold([into.ref])
  const others = await book.holdById(into.blending)
  blendInto(
    book,
    basin,
    others.filter((other) => !isOwnBasin || other.holdingId !== from.holdingId),
  )
  return basin
}

async function noteWetness(book: Book, from: Slot): Promise<void> {
  const body = await findBody(book.ledger, book.studioId, from.ref.bodyId)
  book.handles({
    waterContentWetBasis: waterContentWetBasisOf(book.now(from)),
    dustThresholdWetBasis: body.dustThresholdWetBasis,
  })
}
