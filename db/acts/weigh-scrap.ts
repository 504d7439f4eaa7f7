import { present } from '../../shared/assert.ts'
import { toLedgerScale } from '../../shared/decimal.ts'
import { doubtOfDifference } from '../../shared/doubt.ts'
import { dryMassEstimate, type DryMassEstimate } from '../../shared/dry-mass.ts'
import type { ClayState } from '../../shared/moisture.ts'
import type { Book, Slot } from '../book.ts'
import type { Act, Circumstances } from '../perform.ts'
import { takeFromRuns, vesselAndRuns } from '../pots.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { dryMassOfReading, type WaterSaid } from '../water-figures.ts'
import type { MinutesTold } from '../work-told.ts'

export interface WeighScrapSaid extends Circumstances, MinutesTold {
  readonly vesselId: string
  readonly bodyId: string
  /** The whole vessel, as it stands. */
  readonly reading: ReadingSaid
  readonly state: ClayState
  readonly water?: WaterSaid | undefined
  /** The runs that what is new in it came from, where that is known. */
  readonly runIds?: readonly string[] | undefined
  readonly blendBodyId?: string | undefined
}

/**
 * A vessel of scrap is weighed as it stands. What it holds more than the books say came from the runs
 * that are named, each by its dry mass; where none are, or where it holds less, the difference is
 * unexplained and shows.
 */
export const weighScrap: Act<WeighScrapSaid> = {
  kind: 'weigh_scrap',
  async write(book, said) {
    const from = { runIds: said.runIds ?? [], bodyIds: [said.bodyId] }
    const { goal, runs } = await vesselAndRuns(book, said, from)
    const reading = await takeReading(book, said.reading, { pointer: '/reading' })
    const estimate = await dryMassOfReading(book, {
      reading,
      said: said.water,
      state: said.state,
      bodyId: goal.ref.bodyId,
      pointer: '/water',
    })
    await takeSurplus(book, { runs, goal, estimate })
    await book.settle(goal, estimate)
    book.estimated({ slot: goal, of: 'scrap', estimate, weighingNo: reading.weighingNo })
    return {}
  },
}

async function takeSurplus(
  book: Book,
  taken: { runs: readonly Slot[]; goal: Slot; estimate: DryMassEstimate },
): Promise<void> {
  const { runs, goal, estimate } = taken
  const dryGrams = estimate.dryGrams.minus(book.now(goal).dryGrams)
  if (runs.length === 0 || dryGrams.lessThanOrEqualTo(0)) return
  const wetness = present(
    estimate.dryGrams.isZero() ? undefined : estimate.waterGrams.dividedBy(estimate.dryGrams),
    'more than nothing was weighed',
  )
  const surplus = dryMassEstimate({
    ...estimate,
    dryGrams,
    waterGrams: toLedgerScale(dryGrams.times(wetness)),
    dryDoubt: doubtOfDifference(estimate.dryDoubt, book.now(goal).dryDoubt),
  })
  await pointingAt('/reading', () => takeFromRuns(book, { runs, goal, estimate: surplus }))
}
