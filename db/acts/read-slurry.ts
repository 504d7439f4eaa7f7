import { decimal } from '../../shared/decimal.ts'
import { sourceOf } from '../../shared/doubt-source.ts'
import {
  dryMassOfSlurry,
  slurryByVolume,
  slurrySaid,
  type SlurrySaid,
} from '../../shared/slurry-reading.ts'
import { waterDensityGramsPerMillilitre } from '../../shared/slurry.ts'
import { millilitresFrom, type Volume } from '../../shared/units.ts'
import type { Book } from '../book.ts'
import { contentOf } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type Reading, type ReadingSaid } from '../readings.ts'
import { findBody } from '../studio.ts'

export interface ReadSlurrySaid extends Circumstances {
  readonly basinVesselId: string
  /** A measured volume of the stirred slurry, and what it weighs. */
  readonly slurry: ReadingSaid
  readonly volume: Volume
  readonly celsius?: string | undefined
  /** The whole basin, weighed or by its volume, where the books are to be set by it. */
  readonly whole?: ReadingSaid | undefined
  readonly wholeVolume?: Volume | undefined
}

const ROOM_CELSIUS = '20'

/**
 * The density of a slurry tells how much of it is clay. With the mass or volume of the whole basin it
 * tells the basin's dry clay, and what that differs from the books is unexplained.
 */
export const readSlurry: Act<ReadSlurrySaid> = {
  kind: 'read_slurry',
  async write(book, said) {
    const basin = await contentOf(book, {
      vesselId: said.basinVesselId,
      place: 'basin',
      pointer: '/basinVesselId',
    })
    const body = await findBody(book.ledger, book.studioId, basin.ref.bodyId)
    const sample = await takeReading(book, said.slurry, { pointer: '/slurry' })
    const jug = {
      ...sample,
      millilitres: millilitresFrom(said.volume),
      jugSource: book.ownSource('jug'),
    }
    const slurry = await pointingAt('/slurry', () =>
      slurrySaid(jug, {
        waterGramsPerMillilitre: waterDensityGramsPerMillilitre(
          decimal(said.celsius ?? ROOM_CELSIUS),
        ),
        solidsGramsPerMillilitre: body.grainGramsPerMillilitre,
        grainSource: sourceOf('grain', body.grainGramsPerMillilitre.toFixed(), body.bodyId),
      }),
    )
    const whole = await wholeOf(book, said, slurry)
    const isWhole = whole !== undefined
    const estimate = dryMassOfSlurry(slurry, whole ?? sample)
    if (isWhole) await book.settle(basin, estimate)
    book.estimated({
      slot: basin,
      of: isWhole ? 'basin' : 'sample',
      estimate,
      weighingNo: whole?.weighingNo ?? sample.weighingNo,
    })
    return {}
  },
}

type Whole = Pick<Reading, 'netGrams' | 'netDoubt'> & { readonly weighingNo?: number }

/** The whole basin: as it was weighed, or by its volume, which nobody weighed and no weigh-in says. */
async function wholeOf(
  book: Book,
  said: ReadSlurrySaid,
  slurry: SlurrySaid,
): Promise<Whole | undefined> {
  if (said.whole !== undefined) return takeReading(book, said.whole, { pointer: '/whole' })
  if (said.wholeVolume === undefined) return undefined
  const millilitres = millilitresFrom(said.wholeVolume)
  return slurryByVolume(slurry, { millilitres, volumeSource: book.ownSource('volume') })
}
