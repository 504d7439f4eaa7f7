import { ONE } from '../../shared/decimal.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import { sourceOf } from '../../shared/doubt-source.ts'
import { materialByMeasure } from '../../shared/parting.ts'
import type { Mass, Volume } from '../../shared/units.ts'
import type { Book } from '../book.ts'
import { bucketIn, handlesGlaze, type GlazeBucket } from '../glaze-bucket.ts'
import { SOLIDS, SOLIDS_UNCERTAINTY, WASTE_WATER_WORDS, waterGramsOf } from '../drawn-off.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'

export interface WaterGlazeSaid extends Circumstances {
  readonly vesselId: string
  /** Water that is put in, by its mass or its volume. */
  readonly water?: Mass | undefined
  readonly waterVolume?: Volume | undefined
  /** Or water that stood over the glaze and was drawn off. */
  readonly takenOff?: ReadingSaid | undefined
  readonly clarity?: 'clear' | 'cloudy' | undefined
}

/**
 * A glaze is thinned from the tap, or the water that stands over it is drawn off, with the little powder
 * that swims in it: that goes to waste.
 */
export const waterGlaze: Act<WaterGlazeSaid> = {
  kind: 'water_glaze',
  async write(book, said) {
    const bucket = await bucketIn(book, said.vesselId)
    await handlesGlaze(book, bucket)
    const made = { glazeId: bucket.glaze.materialId, vesselId: said.vesselId }
    if (said.takenOff !== undefined) {
      await drawOff(book, bucket, { takenOff: said.takenOff, clarity: said.clarity ?? 'clear' })
      return { ...made, words: [WASTE_WATER_WORDS] }
    }
    const { slot } = bucket
    const waterGrams = waterGramsOf(said)
    book.shiftExactly(await book.outsideLike('tap', slot.ref), slot, { waterGrams })
    return made
  },
}

async function drawOff(
  book: Book,
  bucket: GlazeBucket,
  said: { takenOff: ReadingSaid; clarity: 'clear' | 'cloudy' },
): Promise<void> {
  const { slot, glaze } = bucket
  const { clarity } = said
  const reading = await takeReading(book, said.takenOff, { pointer: '/takenOff' })
  const solidsSource = sourceOf('solids', clarity, 'assumed', glaze.materialId)
  const estimate = dryMassFromWet({
    netGrams: reading.netGrams,
    netDoubt: reading.netDoubt,
    waterContentWetBasis: ONE.minus(SOLIDS[clarity]),
    waterDoubt: new Map([[solidsSource, SOLIDS_UNCERTAINTY[clarity]]]),
    method: 'default_for_state',
    standing: 'assumed',
  })
  const waste = await book.outsideLike('waste', slot.ref)
  // As weighed and not as a share: what stays is thicker than what leaves.
  await pointingAt('/takenOff', () => {
    const { dryGrams, dryDoubt, waterGrams } = estimate
    const what = materialByMeasure(book.now(slot), { dryGrams, dryDoubt })
    book.shift({ from: slot, to: waste, what: { ...what, waterGrams } })
  })
  book.estimated({ slot, of: 'decanted', estimate, weighingNo: reading.weighingNo })
}
