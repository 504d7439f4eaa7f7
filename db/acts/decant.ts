import { decimal, type Decimal } from '../../shared/decimal.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Book, Slot } from '../book.ts'
import { blendInto, contentOf, vesselFor } from '../making.ts'
import { SOLIDS, SOLIDS_UNCERTAINTY } from '../drawn-off.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { sourceOf } from '../../shared/doubt-source.ts'
import { partByMeasure } from '../../shared/parting.ts'
import type { MinutesTold } from '../work-told.ts'

export interface DecantSaid extends Circumstances, MinutesTold {
  readonly basinVesselId: string
  readonly reading: ReadingSaid
  readonly clarity: 'clear' | 'cloudy'
  /** What share of the water drawn off is clay, where it was measured. */
  readonly solidsFraction?: string | undefined
  /** The vessel it goes into; where none is named, it leaves the studio. */
  readonly intoVesselId?: string | undefined
  readonly blendBodyId?: string | undefined
}

/** Water that stands over the clay is drawn off, with the little clay that swims in it. */
export const decant: Act<DecantSaid> = {
  kind: 'decant',
  async write(book, said) {
    const basin = await contentOf(book, {
      vesselId: said.basinVesselId,
      place: 'basin',
      pointer: '/basinVesselId',
    })
    if (said.intoVesselId === said.basinVesselId) {
      throw new Refusal(
        'vessel_must_be_another',
        'Water is drawn off into another vessel, or out of the studio where intoVesselId is left out.',
        { pointer: '/intoVesselId' },
      )
    }
    const goal = await goalOf(book, said, basin)
    const reading = await takeReading(book, said.reading, { pointer: '/reading' })
    const estimate = dryMassFromWet({
      netGrams: reading.netGrams,
      netDoubt: reading.netDoubt,
      waterContentWetBasis: decimal(1).minus(solidsOf(said)),
      waterDoubt: new Map([[solidsSource(said, basin), SOLIDS_UNCERTAINTY[said.clarity]]]),
      method: said.solidsFraction === undefined ? 'default_for_state' : 'stated_water_content',
      standing: said.solidsFraction === undefined ? 'assumed' : 'estimated',
    })
    // The water is taken as weighed, not as a share: what stays is thicker than what leaves.
    const { dryGrams, dryDoubt, waterGrams } = estimate
    await pointingAt('/reading', () => {
      const what = partByMeasure(book.now(basin), { dryGrams, dryDoubt })
      book.shift({ from: basin, to: goal, what: { ...what, waterGrams } })
    })
    book.estimated({ slot: goal, of: 'decanted', estimate, weighingNo: reading.weighingNo })
    return {}
  },
}

/** What swims in drawn-off water is one guess for all of it, until somebody measures it. */
function solidsSource(said: DecantSaid, basin: Slot): string {
  const fraction = said.solidsFraction === undefined ? 'assumed' : solidsOf(said).toFixed()
  return sourceOf('solids', said.clarity, fraction, basin.ref.bodyId)
}

function solidsOf(said: DecantSaid): Decimal {
  return said.solidsFraction === undefined ? SOLIDS[said.clarity] : decimal(said.solidsFraction)
}

async function goalOf(book: Book, said: DecantSaid, basin: Slot): Promise<Slot> {
  if (said.intoVesselId === undefined) return book.outside('waste', basin.ref.bodyId)
  const into = await vesselFor(book, {
    place: 'scrap',
    vesselId: said.intoVesselId,
    bodyIds: [basin.ref.bodyId],
    blendBodyId: said.blendBodyId,
    pointer: '/intoVesselId',
  })
  const [goal] = await book.hold([into.ref])
  blendInto(book, goal, await book.holdById(into.blending))
  return goal
}
