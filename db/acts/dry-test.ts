import { and, desc, eq, gt, inArray } from 'drizzle-orm'
import { ZERO, type Decimal } from '../../shared/decimal.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import type { ClayState } from '../../shared/moisture.ts'
import type { PlaceOutside } from '../../shared/place.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Book, Slot } from '../book.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading } from '../readings.ts'
import { dryTest, entry, estimate, holding, weighing } from '../schema.ts'
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
    const body = await findBody(book.ledger, book.studioId, said.bodyId)
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
    // Whatever the clay was, its dried sample is dry.
    book.handles({ handlesDryClay: true, dustThresholdWetBasis: body.dustThresholdWetBasis })
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
  refuseAnotherClay(said, lot)
  const counterpart = whoseDifference(lot.kind)
  for (const slot of await book.holdById(await undriedOf(book, lot.lotId))) {
    await divideAgain(book, { slot, figure, counterpart })
  }
}

/** The states of clay that a lot in the store or on the bench can be sampled in. */
const STATES_OF_LOTS: readonly ClayState[] = ['as_delivered', 'wedged']

function refuseAnotherClay(said: DryTestSaid, lot: { bodyId: string; kind: string }): void {
  if (lot.bodyId !== said.bodyId) {
    throw new Refusal(
      'lot_must_be_of_the_body',
      `That lot is '${lot.bodyId}' and the test is of '${said.bodyId}'. Name the lot's own body, or leave the lot out.`,
      { pointer: '/lotId' },
    )
  }
  if (lot.kind !== 'load' && STATES_OF_LOTS.includes(said.state)) return
  throw new Refusal(
    'lot_must_be_of_the_body',
    `A sample sets a lot right that is in the store or on the bench, as delivered or wedged. A load on plaster tells its water when it is weighed alone; leave lotId out to test '${said.state}' clay of the body.`,
    { pointer: '/lotId' },
  )
}

/** Bought clay was other than the supplier or the opening said; of clay made here nobody knows why. */
function whoseDifference(lotKind: string): PlaceOutside {
  if (lotKind === 'delivery' || lotKind === 'opened') return 'supplier'
  return lotKind === 'earlier' ? 'before' : 'unexplained'
}

/** A test tells the water; how much clay there is stays as unsure as its last weighing left it. */
async function massUncertainty(book: Book, slot: Slot): Promise<Decimal> {
  const [weighed] = await book.ledger
    .select({ net: weighing.netGrams, doubt: weighing.standardUncertaintyGrams })
    .from(estimate)
    .innerJoin(
      weighing,
      and(
        eq(weighing.studioId, estimate.studioId),
        eq(weighing.entryId, estimate.entryId),
        eq(weighing.weighingNo, estimate.weighingNo),
      ),
    )
    .innerJoin(
      entry,
      and(eq(entry.studioId, estimate.studioId), eq(entry.entryId, estimate.entryId)),
    )
    .where(and(eq(estimate.studioId, book.studioId), eq(estimate.holdingId, slot.holdingId)))
    .orderBy(desc(entry.happenedAt), desc(entry.entryId))
    .limit(1)
  if (weighed === undefined) return ZERO
  const wetGrams = slot.held.dryGrams.plus(slot.held.waterGrams)
  return wetGrams.times(weighed.doubt).dividedBy(weighed.net)
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
    netUncertaintyGrams: await massUncertainty(book, slot),
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
