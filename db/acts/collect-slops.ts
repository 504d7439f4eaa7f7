import { blendInto, vesselFor } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { potsOf, takeFromRuns } from '../pots.ts'
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
    const refs = []
    for (const runId of said.runIds) refs.push(await potsOf(book, { runId, place: 'greenware' }))
    const bucket = await vesselFor(book, {
      place: 'scrap',
      vesselId: said.vesselId,
      bodyIds: refs.map((ref) => ref.bodyId),
      blendBodyId: said.blendBodyId,
      pointer: '/vesselId',
    })
    const [goal, ...runs] = await book.hold([bucket.ref, ...refs])
    blendInto(book, goal, await book.holdById(bucket.blending))
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
