import { decimal, type Decimal } from '../../shared/decimal.ts'
import { dryMassFromWet, type DryMassEstimate } from '../../shared/dry-mass.ts'
import { dryGramsInWetMass } from '../../shared/parting.ts'
import { waterContentWetBasisOf, type Quantities } from '../../shared/quantity.ts'
import {
  layerMillimetres,
  slurryDensityGramsPerMillilitre,
  waterDensityGramsPerMillilitre,
} from '../../shared/slurry.ts'
import { refuseLoadedBat } from '../bats.ts'
import type { Book, Slot } from '../book.ts'
import { estimateOfShare } from '../clay-sources.ts'
import { contentOf, makeLot } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type Reading, type ReadingSaid } from '../readings.ts'
import { findBat, findBody } from '../studio.ts'
import { waterFigure, type WaterFigure, type WaterSaid } from '../water-figures.ts'
import type { MinutesTold } from '../work-told.ts'

export interface PourSaid extends Circumstances, MinutesTold {
  readonly basinVesselId: string
  readonly loads: readonly {
    readonly batId: string
    readonly lotId?: string | undefined
    readonly reading: ReadingSaid
    /** How thick it lies; worked out where it is not said and the bat's sizes are known. */
    readonly thicknessMillimetres?: string | undefined
  }[]
  /** The slurry's water content; the books' own for the basin where it is not said. */
  readonly water?: WaterSaid | undefined
}

/** The slurry's water as warm as a room: a degree more or less is nothing to a thickness. */
const ROOM_CELSIUS = decimal(20)

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
  const thicknessMillimetres = await thicknessOf(book, { said: load, reading, water, basin, bat })
  const lotId = await makeLot(book, {
    lotId: load.lotId,
    kind: 'load',
    bodyId,
    label: `load on ${bat.name}`,
    batId: load.batId,
    dryGramsAtFirst: dryGrams,
    thicknessMillimetres,
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

/** As it was said, or as so much slurry lies on so large a face; unknown where neither is to be had. */
async function thicknessOf(
  book: Book,
  of: {
    said: PourSaid['loads'][number]
    reading: Reading
    water: WaterFigure | undefined
    basin: Slot
    bat: { lengthMillimetres: string | null; widthMillimetres: string | null }
  },
): Promise<Decimal | undefined> {
  const { said, reading, water, basin, bat } = of
  if (said.thicknessMillimetres !== undefined) return decimal(said.thicknessMillimetres)
  const waterContentWetBasis =
    water?.waterContentWetBasis ?? waterContentWetBasisOf(book.now(basin))
  const { lengthMillimetres: length, widthMillimetres: width } = bat
  if (length === null || width === null || waterContentWetBasis === undefined) return undefined
  const { grainGramsPerMillilitre } = await findBody(book.ledger, book.studioId, basin.ref.bodyId)
  const millimetres = layerMillimetres({
    slurryGrams: reading.netGrams,
    densityGramsPerMillilitre: slurryDensityGramsPerMillilitre({
      waterContentWetBasis,
      waterGramsPerMillilitre: waterDensityGramsPerMillilitre(ROOM_CELSIUS),
      solidsGramsPerMillilitre: grainGramsPerMillilitre,
    }),
    lengthMillimetres: decimal(length),
    widthMillimetres: decimal(width),
  }).toDecimalPlaces(1)
  return millimetres.isZero() ? undefined : millimetres
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
