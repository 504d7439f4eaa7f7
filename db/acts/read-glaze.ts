import { dryMassOfSlurry } from '../../shared/slurry-reading.ts'
import { toLedgerScale } from '../../shared/decimal.ts'
import {
  bucketIn,
  handlesGlaze,
  jugSourceOf,
  readBucket,
  readJug,
  type DensitySaid,
} from '../glaze-bucket.ts'
import { settleMaterial } from '../materials.ts'
import type { Act, Circumstances } from '../perform.ts'
import type { ReadingSaid } from '../readings.ts'

export interface ReadGlazeSaid extends Circumstances {
  readonly vesselId: string
  /** The whole bucket, where the books are to be set by it. */
  readonly reading?: ReadingSaid | undefined
  readonly density: DensitySaid
}

/**
 * The density of a glaze tells how much of it is powder. With the weight of the whole bucket it tells what
 * the bucket holds, and what that differs from the books is unexplained; without it nothing moves.
 */
export const readGlaze: Act<ReadGlazeSaid> = {
  kind: 'read_glaze',
  async write(book, said) {
    const { vesselId, reading, density } = said
    const bucket = await bucketIn(book, vesselId)
    await handlesGlaze(book, bucket)
    const of = { bucket, pointer: '', jugSource: jugSourceOf(book, density) }
    const made = { glazeId: bucket.glaze.materialId, vesselId }
    if (reading === undefined) {
      const jug = await readJug(book, density, { ...of, pointer: '/density' })
      const estimate = dryMassOfSlurry(jug.said, jug.reading)
      const { weighingNo } = jug.reading
      book.estimated({ slot: bucket.slot, of: 'sample', estimate, weighingNo })
      const found = toLedgerScale(jug.said.densityGramsPerMillilitre).toFixed()
      return { ...made, gramsPerMillilitre: found }
    }
    const contents = await readBucket(book, { reading, density }, of)
    await settleMaterial(book, bucket.slot, {
      dryGrams: contents.dry.amount,
      dryDoubt: contents.dry.doubt,
      waterGrams: contents.water.amount,
    })
    return made
  },
}
