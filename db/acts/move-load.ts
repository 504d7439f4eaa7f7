import { decimal } from '../../shared/decimal.ts'
import { Refusal } from '../../shared/refusal.ts'
import { refuseLoadedBat, refuseUnlessOnPlaster, weighBatAlone } from '../bats.ts'
import { weighKnownDry } from '../known-dry.ts'
import { makeLot } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, type ReadingSaid } from '../readings.ts'
import { findBat, findLot } from '../studio.ts'
import type { MinutesTold } from '../work-told.ts'

export interface MoveLoadSaid extends Circumstances, MinutesTold {
  /** The load. */
  readonly lotId: string
  /** The bat that it is laid on. */
  readonly batId: string
  readonly newLotId?: string | undefined
  /** The slab, lifted and weighed alone. */
  readonly reading?: ReadingSaid | undefined
  /** The bat that it lay on, weighed alone. */
  readonly bat?: ReadingSaid | undefined
}

/**
 * A slab is lifted off its bat and laid on a dry one. It is a load of its own there, because it begins
 * to dry anew; its dry clay is known, so that the reading of the slab tells its water.
 *
 * Refuses: `lot_not_found`, `bat_not_found`, `bat_must_be_another`, `bat_must_be_empty`,
 * `clay_must_be_enough`, `reading_must_not_be_below_known_dry`, and what a reading refuses.
 */
export const moveLoad: Act<MoveLoadSaid> = {
  kind: 'move_load',
  async write(book, said) {
    const load = await pointingAt('/lotId', () => findLot(book.ledger, book.studioId, said.lotId))
    const bat = await pointingAt('/batId', () => findBat(book.ledger, book.studioId, said.batId))
    if (load.batId === said.batId) {
      throw new Refusal('bat_must_be_another', `The slab lies on ${bat.name} already.`, {
        pointer: '/batId',
      })
    }
    await refuseLoadedBat(book, said.batId, '/batId')
    const { bodyId, thicknessMillimetres } = load
    const [from] = await book.hold([{ place: 'plaster', bodyId, lotId: load.lotId }])
    refuseUnlessOnPlaster(from)
    const lotId = await makeLot(book, {
      lotId: said.newLotId,
      kind: 'load',
      bodyId,
      label: `load on ${bat.name}`,
      batId: said.batId,
      dryGramsAtFirst: from.held.dryGrams,
      ...(thicknessMillimetres === null
        ? {}
        : { thicknessMillimetres: decimal(thicknessMillimetres) }),
    })
    // A holding that is new with this entry is nobody else's yet, so that no ring can close on it.
    const [to] = await book.hold([{ place: 'plaster', bodyId, lotId }])
    if (said.reading !== undefined) {
      await weighKnownDry(book, from, { said: said.reading, of: 'slab' })
    }
    await weighBatAlone(book, said.bat)
    book.moveAll(from, to)
    return { lotId }
  },
}
