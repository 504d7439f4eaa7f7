import { and, eq, gt } from 'drizzle-orm'
import { dryGramsInWetMass } from '../../shared/parting.ts'
import { dryUncertaintyGramsOf } from '../../shared/quantity.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Book, Slot } from '../book.ts'
import { contentOf, makeLot } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { holding, lot } from '../schema.ts'
import { findBat } from '../studio.ts'
import { waterFigure, type WaterSaid } from '../water-figures.ts'
import { dryMassFromWet, type DryMassEstimate } from '../../shared/dry-mass.ts'

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

async function slurryWater(book: Book, said: PourSaid, basin: Slot) {
  if (said.water === undefined) return undefined
  return waterFigure(book, {
    said: said.water,
    state: 'slurry',
    bodyId: basin.ref.bodyId,
    pointer: '/water',
  })
}

async function pourLoad(
  book: Book,
  poured: {
    load: PourSaid['loads'][number]
    water: Awaited<ReturnType<typeof slurryWater>>
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
  const held = book.now(basin)
  const estimate: DryMassEstimate =
    water === undefined
      ? {
          ...bookEstimate(basin, book, reading.netGrams),
          standardUncertaintyGrams: dryUncertaintyGramsOf(held),
        }
      : dryMassFromWet({
          netGrams: reading.netGrams,
          netUncertaintyGrams: reading.standardUncertaintyGrams,
          waterContentWetBasis: water.waterContentWetBasis,
          waterContentUncertainty: water.standardUncertainty,
          method: water.method,
          standing: water.standing,
        })
  const lotId = await makeLot(book, {
    lotId: load.lotId,
    kind: 'load',
    bodyId,
    label: `load on ${bat.name}`,
    batId: load.batId,
    dryGramsAtFirst: estimate.dryGrams,
  })
  const [plaster] = await book.hold([{ place: 'plaster', bodyId, lotId }])
  await pointingAt(`${pointer}/reading`, async () => {
    if (water === undefined) {
      book.moveShare(basin, plaster, {
        dryGrams: estimate.dryGrams,
        readingUncertaintyGrams: reading.standardUncertaintyGrams,
      })
    } else await book.moveMeasured(basin, plaster, { estimate })
  })
  const unsure = dryUncertaintyGramsOf(book.now(plaster))
  book.estimated(
    plaster,
    'load',
    { ...estimate, standardUncertaintyGrams: unsure },
    reading.weighingNo,
  )
  return lotId
}

function bookEstimate(basin: Slot, book: Book, wetGrams: DryMassEstimate['dryGrams']) {
  const held = book.now(basin)
  const isMore = wetGrams.greaterThan(held.dryGrams.plus(held.waterGrams))
  const dryGrams = isMore && held.dryGrams.isZero() ? wetGrams : dryGramsInWetMass(held, wetGrams)
  return {
    dryGrams,
    waterGrams: wetGrams.minus(dryGrams),
    method: 'lot_water_content' as const,
    standing: 'estimated' as const,
  }
}

async function refuseLoadedBat(book: Book, batId: string, pointer: string): Promise<void> {
  const [loaded] = await book.ledger
    .select({ lotId: lot.lotId })
    .from(lot)
    .innerJoin(holding, and(eq(holding.studioId, lot.studioId), eq(holding.lotId, lot.lotId)))
    .where(
      and(
        eq(lot.studioId, book.studioId),
        eq(lot.batId, batId),
        eq(holding.place, 'plaster'),
        gt(holding.dryGrams, '0'),
      ),
    )
  if (loaded === undefined) return
  throw new Refusal(
    'bat_must_be_empty',
    'That bat still carries a load. Lift it first, or pour on another bat.',
    { pointer, facts: { batId, lotId: loaded.lotId } },
  )
}
