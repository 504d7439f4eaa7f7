import { waterContentWetBasisOf } from '../../shared/quantity.ts'
import { Refusal } from '../../shared/refusal.ts'
import { gramsFrom, type Mass } from '../../shared/units.ts'
import type { Act, Circumstances } from '../perform.ts'
import { findBody, findLot } from '../studio.ts'
import type { MinutesTold } from '../work-told.ts'

export interface RewetSaid extends Circumstances, MinutesTold {
  readonly lotId: string
  readonly place: 'store' | 'bench'
  readonly water: Mass
}

/** Clay that went hard is brought back with water. Water is not clay: its dry mass stays. */
export const rewet: Act<RewetSaid> = {
  kind: 'rewet',
  async write(book, said) {
    const lot = await findLot(book.ledger, book.studioId, said.lotId)
    const [clay] = await book.hold([{ place: said.place, bodyId: lot.bodyId, lotId: lot.lotId }])
    if (book.now(clay).dryGrams.isZero()) {
      throw new Refusal(
        'clay_must_be_enough',
        'By the books none of that clay is there. If there is some, count it first.',
        { pointer: '/lotId' },
      )
    }
    const body = await findBody(book.ledger, book.studioId, lot.bodyId)
    book.handles({
      waterContentWetBasis: waterContentWetBasisOf(book.now(clay)),
      dustThresholdWetBasis: body.dustThresholdWetBasis,
    })
    const tap = await book.outside('tap', lot.bodyId)
    book.shiftExactly(tap, clay, { waterGrams: gramsFrom(said.water) })
    return { lotId: lot.lotId }
  },
}
