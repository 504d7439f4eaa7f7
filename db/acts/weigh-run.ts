import { isGlazed, type PotPlace } from '../../shared/place.ts'
import { count } from '../../shared/quantity.ts'
import { weighKnownDry } from '../known-dry.ts'
import type { Act, Circumstances } from '../perform.ts'
import { potsOf, refuseMoreThanThere } from '../pots.ts'
import { takeReading, type ReadingSaid } from '../readings.ts'
import { dryMassOfReading, type WaterSaid } from '../water-figures.ts'

export interface WeighRunSaid extends Circumstances {
  readonly runId: string
  readonly place: PotPlace
  readonly grade?: 'first' | 'second' | undefined
  /** All pieces of the run that are at that place, together. */
  readonly reading: ReadingSaid
  /** Their water, where it is known better than their dry mass. */
  readonly water?: WaterSaid | undefined
}

/** Bisque out of the kiln is dry. */
const NO_WATER: WaterSaid = { content: '0', basis: 'wet', standing: 'measured' }

/**
 * The pots of a run are weighed. With a water content the reading tells their dry mass, and what that
 * differs from the books is unexplained; without one their dry mass stands and the reading tells how
 * much water they hold. Bisque holds none. Glazed pots weigh their glaze too: such a reading is kept as
 * what it is and moves nothing.
 */
export const weighRun: Act<WeighRunSaid> = {
  kind: 'weigh_run',
  async write(book, said) {
    const { runId, place, grade } = said
    const [pots] = await book.hold([
      await potsOf(book, { runId, place, ...(grade === undefined ? {} : { grade }) }),
    ])
    refuseMoreThanThere(book, pots, { pieces: count(1), doing: 'weighed there', pointer: '/runId' })
    // Bisque that has its glaze on weighs it too.
    if (isGlazed(place) || book.now(pots).materialGrams.greaterThan(0)) {
      await takeReading(book, said.reading, { pointer: '/reading' })
      return { runId }
    }
    if (said.water === undefined && place === 'greenware') {
      await weighKnownDry(book, pots, { said: said.reading, of: 'pots' })
      return { runId }
    }
    const reading = await takeReading(book, said.reading, { pointer: '/reading' })
    const estimate = await dryMassOfReading(book, {
      reading,
      said: said.water ?? NO_WATER,
      state: 'leather_hard',
      bodyId: pots.ref.bodyId,
      pointer: '/water',
    })
    await book.settle(pots, estimate)
    book.estimated({ slot: pots, of: 'pots', estimate, weighingNo: reading.weighingNo })
    return { runId }
  },
}
