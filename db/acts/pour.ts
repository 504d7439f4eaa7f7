import type { Decimal } from '../../shared/decimal.ts'
import { dryMassFromWet, type DryMassEstimate } from '../../shared/dry-mass.ts'
import { dryGramsInWetMass } from '../../shared/parting.ts'
import type { Quantities } from '../../shared/quantity.ts'
import { refuseLoadedBat } from '../bats.ts'
import type { Book, Slot } from '../book.ts'
import { estimateOfShare } from '../clay-sources.ts'
import { contentOf, makeLot } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type Reading, type ReadingSaid } from '../readings.ts'
import { findBat } from '../studio.ts'
import { waterFigure, type WaterFigure, type WaterSaid } from '../water-figures.ts'

export interface PourSaid extends Circumstances {
  readonly basinVesselId: string
  readonly loads: readonly {
    readonly batId: string
    readonly lotId?: string | undefined
    readonly reading: ReadingSaid
  }[]
  /** The slurry's water content; the books' own for the basin where it is not said. */
  readonly water?: WaterSaid | undefined
}

/** Slurry is poured from a basin onto plaster bats; each bat's load is a lot of its own. */
export const pour: Act<PourSaid> = {
  kind: 'pour',
  async write(book, said) {
    const basin = await contentOf(book, {
      vesselId: said.basinVesselId,
      place: 'basin',
      pointer: '/basinVesselId',
    })
    const water = await slurryWater(book, said, basin)
    const lotIds: string[] = []
    for (const [index, load] of said.loads.entries()) {
      lotIds.push(await pourLoad(book, { load, water, basin, pointer: `/loads/${String(index)}` }))
    }
    return { lotIds }
  },
}

async function slurryWater(
  book: Book,
  said: PourSaid,
  basin: Slot,
): Promise<WaterFigure | undefined> {
  if (said.water === undefined) return undefined
  const { bodyId } = basin.ref
  return waterFigure(book, { said: said.water, state: 'slurry', bodyId, pointer: '/water' })
}

async function pourLoad(
  book: Book,
  poured: {
    load: PourSaid['loads'][number]
    water: WaterFigure | undefined
    basin: Slot
    pointer: string
  },
): Promise<string> {
  const { load, water, basin, pointer } = poured
  const { bodyId } = basin.ref
  const bat = await pointingAt(`${pointer}/batId`, () =>
    findBat(book.ledger, book.studioId, load.batId),
  )
  await refuseLoadedBat(book, load.batId, `${pointer}/batId`)
  const reading = await takeReading(book, load.reading, { pointer: `${pointer}/reading` })
  const measured = water === undefined ? undefined : measuredLoad(reading, water)
  const dryGrams = measured?.dryGrams ?? dryByTheBooks(book.now(basin), reading.netGrams)
  const lotId = await makeLot(book, {
    lotId: load.lotId,
    kind: 'load',
    bodyId,
    label: `load on ${bat.name}`,
    batId: load.batId,
    dryGramsAtFirst: dryGrams,
  })
  const [plaster] = await book.hold([{ place: 'plaster', bodyId, lotId }])
  await pointingAt(`${pointer}/reading`, async () => {
    if (measured !== undefined) {
      await book.moveMeasured(basin, plaster, { estimate: measured })
      book.estimated({
        slot: plaster,
        of: 'load',
        estimate: measured,
        weighingNo: reading.weighingNo,
      })
      return
    }
    const parting = book.moveShare(basin, plaster, {
      dryGrams,
      readingDoubt: reading.netDoubt,
    })
    book.estimated({
      slot: plaster,
      of: 'load',
      estimate: estimateOfShare(parting),
      weighingNo: reading.weighingNo,
    })
  })
  return lotId
}

function measuredLoad(reading: Reading, water: WaterFigure): DryMassEstimate {
  return dryMassFromWet({
    netGrams: reading.netGrams,
    netDoubt: reading.netDoubt,
    waterContentWetBasis: water.waterContentWetBasis,
    waterDoubt: water.waterDoubt,
    method: water.method,
    standing: water.standing,
  })
}

/** Where the books have nothing at all, the whole reading is asked for, and refused in words. */
function dryByTheBooks(held: Quantities, wetGrams: Decimal): Decimal {
  return held.dryGrams.isZero() ? wetGrams : dryGramsInWetMass(held, wetGrams)
}
