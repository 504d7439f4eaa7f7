import { decimal } from '../../shared/decimal.ts'
import { bucketIn, handlesGlaze, moveWetMaterial } from '../glaze-bucket.ts'
import { moveMaterial } from '../materials.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { WASTE_WATER_WORDS } from '../drawn-off.ts'

export interface LoseGlazeSaid extends Circumstances {
  readonly vesselId: string
  /** Why it was lost. */
  readonly why: 'sieve' | 'wash' | 'spilt' | 'thrown_away'
  /** Glaze as wet as it is in the bucket. */
  readonly reading?: ReadingSaid | undefined
  /** Or its dry mass. */
  readonly dryGrams?: string | undefined
  /** Or all that is in the bucket. */
  readonly whatIsLeft?: true | undefined
}

/** Glaze that is lost goes to waste with its cost. */
export const loseGlaze: Act<LoseGlazeSaid> = {
  kind: 'lose_glaze',
  async write(book, said) {
    const bucket = await bucketIn(book, said.vesselId)
    const from = bucket.slot
    const to = await book.outsideLike('waste', from.ref)
    if (said.reading !== undefined) {
      const pointer = '/reading'
      const { netGrams: wetGrams, netDoubt } = await takeReading(book, said.reading, { pointer })
      await moveWetMaterial(book, { from, to, wetGrams, readingDoubt: netDoubt, pointer })
    } else if (said.dryGrams === undefined) {
      book.moveAll(from, to)
    } else {
      const dryGrams = decimal(said.dryGrams)
      await pointingAt('/dryGrams', () => moveMaterial(book, { from, to, dryGrams }))
    }
    await handlesGlaze(book, bucket)
    const made = { glazeId: bucket.glaze.materialId, vesselId: said.vesselId }
    return { ...made, words: [WASTE_WATER_WORDS] }
  },
}
