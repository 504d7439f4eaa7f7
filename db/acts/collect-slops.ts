import type { Act, Circumstances } from '../perform.ts'
import { takeFromRuns, vesselAndRuns } from '../pots.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { dryMassOfReading, type WaterSaid } from '../water-figures.ts'

export interface SlopsSaid extends Circumstances {
  /** The runs that the slops are of: shared over them by dry mass. */
  readonly runIds: readonly string[]
  readonly vesselId: string
  readonly state: 'slops' | 'off_cuts' | 'throwing_water'
  readonly reading: ReadingSaid
  readonly water?: WaterSaid | undefined
  readonly blendBodyId?: string | undefined
}

/** Slops, skirts and off-cuts of one or several runs go from the wheel into a vessel. */
export const collectSlops: Act<SlopsSaid> = {
  kind: 'collect_slops',
  async write(book, said) {
    const { runIds } = said
    const { goal, runs } = await vesselAndRuns(book, said, { runIds, bodyIds: [] })
    const reading = await takeReading(book, said.reading, { pointer: '/reading' })
    const estimate = await dryMassOfReading(book, {
      reading,
      said: said.water,
      state: said.state,
      bodyId: goal.ref.bodyId,
      pointer: '/water',
    })
    await pointingAt('/reading', () => takeFromRuns(book, { runs, goal, estimate }))
    book.estimated({ slot: goal, of: said.state, estimate, weighingNo: reading.weighingNo })
    return {}
  },
}
