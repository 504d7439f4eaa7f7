import { dryGramsInWetMass } from '../../shared/parting.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { DryAct } from '../../shared/silica.ts'
import { refuseMaterials } from '../materials.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { waterContentWetBasisOf } from '../../shared/quantity.ts'
import { findBody } from '../studio.ts'

export interface DiscardSaid extends Circumstances {
  readonly holdingId: string
  /** How much of it; all where it is not said. */
  readonly reading?: ReadingSaid | undefined
  readonly reason: string
  /** Where the clay was swept or crushed on its way out. */
  readonly dryAct?: DryAct | undefined
}

/** Clay is thrown away: dirty, mixed with plaster, not worth the water. Its cost goes with it. */
export const discard: Act<DiscardSaid> = {
  kind: 'discard',
  async write(book, said) {
    const slot = await book.holdOneById(said.holdingId)
    refuseMaterials(slot)
    const held = book.now(slot)
    if (held.pieces.greaterThan(0) || held.dryGrams.isZero()) {
      throw new Refusal(
        'clay_must_be_enough',
        held.pieces.isZero()
          ? 'By the books there is no clay in that holding. If there is, count it first.'
          : 'That holding is told in pieces. Lose pots, or open bags, before their clay is thrown away.',
        { pointer: '/holdingId' },
      )
    }
    const body = await findBody(book.ledger, book.studioId, slot.ref.bodyId)
    book.handles({
      waterContentWetBasis: waterContentWetBasisOf(held),
      dustThresholdWetBasis: body.dustThresholdWetBasis,
      dryAct: said.dryAct,
    })
    const waste = await book.outside('waste', slot.ref.bodyId)
    if (said.reading === undefined) {
      book.moveAll(slot, waste)
      return {}
    }
    const reading = await takeReading(book, said.reading, { pointer: '/reading' })
    const dryGrams = dryGramsInWetMass(held, reading.netGrams)
    await pointingAt('/reading', () =>
      book.moveShare(slot, waste, {
        dryGrams,
        readingDoubt: reading.netDoubt,
      }),
    )
    return {}
  },
}
