import { inArray, and, eq, gt } from 'drizzle-orm'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import type { ClayState } from '../../shared/moisture.ts'
import type { PlaceOutside } from '../../shared/place.ts'
import type { Book, Slot } from '../book.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading } from '../readings.ts'
import { dryTest, holding } from '../schema.ts'
import { findBody, findLot } from '../studio.ts'
import { figureOfSample, type SampleSaid, type WaterFigure } from '../water-figures.ts'

export interface DryTestSaid extends Circumstances {
  readonly bodyId: string
  readonly state: ClayState
  /** The lot that the sample is of: what is left of it is set right by the test. */
  readonly lotId?: string | undefined
  readonly sample: SampleSaid
}

/**
 * A sample is weighed, dried until it loses no more, and weighed again. It tells the water of its lot,
 * or of the body in that state. What is left of the lot, unopened or on the bench, is set right by an
 * entry of its own: as much wet clay as before, otherwise divided into clay and water.
 */
export const testDry: Act<DryTestSaid> = {
  kind: 'dry_test',
  async write(book, said) {
    await findBody(book.ledger, book.studioId, said.bodyId)
    const figure = await pointingAt('/sample', () => figureOfSample(said.sample))
    await keepReadings(book, said.sample)
    if (said.lotId !== undefined) await setLotRight(book, said, figure)
    await book.ledger.insert(dryTest).values({
      studioId: book.studioId,
      entryId: book.facts.entryId,
      bodyId: said.bodyId,
      lotId: said.lotId ?? null,
      state: said.state,
      waterContentWetBasis: figure.waterContentWetBasis.toDecimalPlaces(12).toFixed(),
      standardUncertainty: figure.standardUncertainty.toDecimalPlaces(12).toFixed(),
    })
    book.handles({ waterContentWetBasis: figure.waterContentWetBasis })
    return { waterContentWetBasis: figure.waterContentWetBasis.toDecimalPlaces(6).toFixed() }
  },
}

async function keepReadings(book: Book, sample: SampleSaid): Promise<void> {
  const tare = sample.tin === undefined ? {} : { tare: sample.tin }
  await takeReading(
    book,
    { gross: sample.wetWithTin, ...tare },
    { pointer: '/sample/wetWithTin', kind: 'sample' },
  )
  await takeReading(
    book,
    { gross: sample.dryWithTin, ...tare },
    { pointer: '/sample/dryWithTin', kind: 'sample' },
  )
}

async function setLotRight(book: Book, said: DryTestSaid, figure: WaterFigure): Promise<void> {
  const lot = await pointingAt('/lotId', () =>
    findLot(book.ledger, book.studioId, said.lotId ?? ''),
  )
  const counterpart = whoseDifference(lot.kind)
  for (const slot of await book.holdById(await undriedOf(book, lot.lotId))) {
    await divideAgain(book, { slot, figure, counterpart })
  }
}

/** Bought clay was other than the supplier or the opening said; of clay made here nobody knows why. */
function whoseDifference(lotKind: string): PlaceOutside {
  if (lotKind === 'delivery' || lotKind === 'opened') return 'supplier'
  return lotKind === 'earlier' ? 'before' : 'unexplained'
}

async function undriedOf(book: Book, lotId: string): Promise<string[]> {
  const rows = await book.ledger
    .select({ holdingId: holding.holdingId })
    .from(holding)
    .where(
      and(
        eq(holding.studioId, book.studioId),
        eq(holding.lotId, lotId),
        inArray(holding.place, ['store', 'bench']),
        gt(holding.dryGrams, '0'),
      ),
    )
    .orderBy(holding.holdingId)
  return rows.map((row) => row.holdingId)
}

async function divideAgain(
  book: Book,
  divided: { slot: Slot; figure: WaterFigure; counterpart: PlaceOutside },
): Promise<void> {
  const { slot, figure, counterpart } = divided
  const held = book.now(slot)
  const estimate = dryMassFromWet({
    netGrams: held.dryGrams.plus(held.waterGrams),
    netUncertaintyGrams: held.dryGrams.minus(held.dryGrams),
    waterContentWetBasis: figure.waterContentWetBasis,
    waterContentUncertainty: figure.standardUncertainty,
    method: 'dry_test',
    standing: 'measured',
  })
  const other = await book.outside(counterpart, slot.ref.bodyId)
  book.shiftExactly(other, slot, {
    dryGrams: estimate.dryGrams.minus(held.dryGrams),
    waterGrams: estimate.waterGrams.minus(held.waterGrams),
  })
  book.unsureBy(slot, estimate.standardUncertaintyGrams)
  book.estimated({ slot, of: 'lot', estimate })
}
