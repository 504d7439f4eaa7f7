import { waterWith } from '../../shared/water.ts'
import { weighBatAlone } from '../bats.ts'
import type { Book, Slot } from '../book.ts'
import { weighKnownDry } from '../known-dry.ts'
import { benchLotFor, makeLot } from '../making.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { findBat, findLot } from '../studio.ts'
import { dryMassOfReading, waterFigure, type WaterSaid } from '../water-figures.ts'
import type { WayTold } from '../work-told.ts'

export interface LiftSaid extends Circumstances, WayTold {
  /** The load. */
  readonly lotId: string
  /** The slab, lifted and weighed alone. */
  readonly reading?: ReadingSaid | undefined
  /** The bat alone, weighed when the slab was off it. */
  readonly bat?: ReadingSaid | undefined
  /** What was scraped off the bat and thrown away, for fear of plaster in the clay. */
  readonly scrapings?:
    { readonly reading: ReadingSaid; readonly water?: WaterSaid | undefined } | undefined
  /** The clay on the bench that it joins, where it joins some; else it is a reclaimed lot of its own. */
  readonly intoLotId?: string | undefined
  readonly newLotId?: string | undefined
  readonly label?: string | undefined
}

/**
 * A load is lifted off its bat and is clay on the bench again. Its dry clay is known, so that the
 * reading of the slab tells its water.
 */
export const lift: Act<LiftSaid> = {
  kind: 'lift',
  async write(book, said) {
    const load = await findLot(book.ledger, book.studioId, said.lotId)
    const { bodyId } = load
    const lotId = await goalOf(book, said, load)
    const [plaster, bench] = await book.hold([
      { place: 'plaster', bodyId, lotId: load.lotId },
      { place: 'bench', bodyId, lotId },
    ])
    await throwScrapings(book, said, plaster)
    if (said.reading === undefined) await takeForWedged(book, plaster)
    else await weighKnownDry(book, plaster, { said: said.reading, of: 'slab' })
    await weighBatAlone(book, said.bat)
    await pointingAt('/lotId', () => book.moveShare(plaster, bench, wholeOf(book, plaster)))
    return { lotId }
  },
}

/** A load that is lifted already has nothing left: asking for something of it is refused in words. */
function wholeOf(book: Book, plaster: Slot) {
  const { dryGrams } = book.now(plaster)
  return { dryGrams: dryGrams.isZero() ? dryGrams.plus(1) : dryGrams }
}

async function goalOf(
  book: Book,
  said: LiftSaid,
  load: { bodyId: string; batId: string | null },
): Promise<string> {
  if (said.intoLotId !== undefined) {
    return benchLotFor(book, said.intoLotId, load.bodyId)
  }
  const bat =
    load.batId === null ? undefined : await findBat(book.ledger, book.studioId, load.batId)
  const label = said.label ?? `reclaimed from ${bat?.name ?? 'plaster'}`
  return makeLot(book, { lotId: said.newLotId, kind: 'reclaimed', bodyId: load.bodyId, label })
}

/** A slab that nobody weighed is taken to be as wet as clay that is ready to wedge. */
async function takeForWedged(book: Book, plaster: Slot): Promise<void> {
  const { bodyId } = plaster.ref
  const figure = await waterFigure(book, {
    said: undefined,
    state: 'wedged',
    bodyId,
    pointer: '/reading',
  })
  await book.wetTo(plaster, waterWith(book.now(plaster).dryGrams, figure.waterContentWetBasis))
}

async function throwScrapings(book: Book, said: LiftSaid, plaster: Slot): Promise<void> {
  if (said.scrapings === undefined) return
  const reading = await takeReading(book, said.scrapings.reading, { pointer: '/scrapings/reading' })
  const estimate = await dryMassOfReading(book, {
    reading,
    said: said.scrapings.water,
    state: 'wedged',
    bodyId: plaster.ref.bodyId,
    pointer: '/scrapings/water',
  })
  const waste = await book.outside('waste', plaster.ref.bodyId)
  await pointingAt('/scrapings/reading', () => book.moveMeasured(plaster, waste, { estimate }))
  book.estimated({ slot: waste, of: 'scrapings', estimate, weighingNo: reading.weighingNo })
}
