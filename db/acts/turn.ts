import { present } from '../../shared/assert.ts'
import { doubtOfDifference, standardUncertaintyOfDoubt } from '../../shared/doubt.ts'
import type { ClayState } from '../../shared/moisture.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Book } from '../book.ts'
import { blendInto, vesselFor } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { potsOf } from '../pots.ts'
import { pointingAt, takeReading, type Reading, type ReadingSaid } from '../readings.ts'
import { dryMassOfReading, type WaterSaid } from '../water-figures.ts'

export interface TurnSaid extends Circumstances {
  readonly runId: string
  readonly vesselId: string
  /** The turnings as weighed; or the pots before and after. */
  readonly turnings?: ReadingSaid | undefined
  readonly before?: ReadingSaid | undefined
  readonly after?: ReadingSaid | undefined
  readonly state?: ClayState | undefined
  readonly water?: WaterSaid | undefined
  readonly blendBodyId?: string | undefined
}

/** What is turned off a run goes into a vessel of scrap and takes its cost along. */
export const turnRun: Act<TurnSaid> = {
  kind: 'turn',
  async write(book, said) {
    const ref = await potsOf(book, { runId: said.runId, place: 'greenware' })
    const bucket = await vesselFor(book, {
      place: 'scrap',
      vesselId: said.vesselId,
      bodyIds: [ref.bodyId],
      blendBodyId: said.blendBodyId,
      pointer: '/vesselId',
    })
    const [pots, goal] = await book.hold([ref, bucket.ref])
    blendInto(book, goal, await book.holdById(bucket.blending))
    const { reading, pointer } = await turningsOf(book, said)
    const estimate = await dryMassOfReading(book, {
      reading,
      said: said.water,
      state: said.state ?? 'turnings',
      bodyId: ref.bodyId,
      pointer: '/water',
    })
    await pointingAt(pointer, () => book.moveMeasured(pots, goal, { estimate }))
    book.estimated({ slot: goal, of: 'turnings', estimate, weighingNo: reading.weighingNo })
    return { runId: said.runId }
  },
}

async function turningsOf(
  book: Book,
  said: TurnSaid,
): Promise<{ reading: Reading; pointer: string }> {
  if (said.turnings !== undefined) {
    const reading = await takeReading(book, said.turnings, { pointer: '/turnings' })
    return { reading, pointer: '/turnings' }
  }
  const pots = present(said.before, 'pots are weighed before')
  const turned = present(said.after, 'and after')
  const before = await takeReading(book, pots, { pointer: '/before' })
  const after = await takeReading(book, turned, { pointer: '/after' })
  const netGrams = before.netGrams.minus(after.netGrams)
  if (netGrams.lessThanOrEqualTo(0)) {
    throw new Refusal(
      'parts_must_not_exceed_the_whole',
      `The pots weighed ${before.netGrams.toFixed()} g before turning and ${after.netGrams.toFixed()} g after. Turning makes them lighter.`,
      { pointer: '/after' },
    )
  }
  // A tare that both were weighed with is off in both alike, and not in what they differ by.
  const netDoubt = doubtOfDifference(before.netDoubt, after.netDoubt)
  const standardUncertaintyGrams = standardUncertaintyOfDoubt(netDoubt)
  return {
    reading: { weighingNo: after.weighingNo, netGrams, netDoubt, standardUncertaintyGrams },
    pointer: '/after',
  }
}
