import { refuseUnlessOnPlaster, weighBatAlone } from '../bats.ts'
import { weighKnownDry } from '../known-dry.ts'
import type { Act, Circumstances } from '../perform.ts'
import { takeReading, type ReadingSaid } from '../readings.ts'
import { findLot } from '../studio.ts'

export interface WeighOnPlasterSaid extends Circumstances {
  /** The load. */
  readonly lotId: string
  readonly reading: ReadingSaid
  /** True where the bat was weighed with it. */
  readonly withPlaster: boolean
  /** The bat alone, weighed while the load was off it. */
  readonly bat?: ReadingSaid | undefined
  /** True where the slab was turned over. */
  readonly turned?: boolean | undefined
}

/**
 * A load is weighed while it dries. Lifted off its bat and weighed alone, it tells its water, because
 * its dry clay cannot leave it. Weighed together with the plaster it tells nothing of that: what the
 * clay lost, the plaster drank. Such a reading is kept as what it is and moves nothing.
 */
export const weighOnPlaster: Act<WeighOnPlasterSaid> = {
  kind: 'weigh_on_plaster',
  async write(book, said) {
    const lot = await findLot(book.ledger, book.studioId, said.lotId)
    const [load] = await book.hold([{ place: 'plaster', bodyId: lot.bodyId, lotId: lot.lotId }])
    refuseUnlessOnPlaster(load)
    if (said.withPlaster) {
      await takeReading(book, said.reading, { pointer: '/reading', kind: 'clay_with_plaster' })
      return {}
    }
    await weighKnownDry(book, load, { said: said.reading, of: 'load' })
    await weighBatAlone(book, said.bat)
    return {}
  },
}
