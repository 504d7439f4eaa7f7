import { and, eq, gt, inArray, sql, type SQL } from 'drizzle-orm'
import { present } from '../../shared/assert.ts'
import type { Decimal } from '../../shared/decimal.ts'
import { doubtOfDifference } from '../../shared/doubt.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import { moistureSource } from '../../shared/doubt-source.ts'
import type { ClayState } from '../../shared/moisture.ts'
import type { PlaceOutside } from '../../shared/place.ts'
import { waterContentWetBasisOf } from '../../shared/quantity.ts'
import { Refusal } from '../../shared/refusal.ts'
import { waterDoubtOf, wetDoubtOf } from '../../shared/water-doubt.ts'
import type { Book, Slot } from '../book.ts'
import { correctByTest } from '../dry-corrections.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading } from '../readings.ts'
import { dryTest, holding } from '../schema.ts'
import { findBody, findLot, findVessel, type BodyFacts } from '../studio.ts'
import {
  figureOfSample,
  studioFigure,
  testSource,
  testsOf,
  type SampleSaid,
  type WaterFigure,
} from '../water-figures.ts'

export interface DryTestSaid extends Circumstances {
  readonly bodyId: string
  readonly state: ClayState
  /** The lot that the sample is of: what is left of it is set right by the test. */
  readonly lotId?: string | undefined
  /** The vessel that the sample is of: what lies in it is set right by the test. */
  readonly vesselId?: string | undefined
  readonly sample: SampleSaid
}

/** Holdings of one clay that a sample was taken from, and whose the difference is. */
interface Sampled {
  readonly slots: readonly Slot[]
  readonly counterpart: PlaceOutside
}

/**
 * A sample is weighed, dried until it loses no more, and weighed again. It tells the water of its lot or
 * vessel, or of the body in that state. What is left of what was sampled is set right by an entry of its
 * own: as much wet clay as before, otherwise divided into clay and water. And whatever else was reckoned
 * with the same figures is corrected by as much as it leant on them.
 */
export const testDry: Act<DryTestSaid> = {
  kind: 'dry_test',
  async write(book, said) {
    const body = await findBody(book.ledger, book.studioId, said.bodyId)
    await waitForOtherTests(book, said.bodyId)
    const source = testSource(book.facts.entryId)
    const figure = await pointingAt('/sample', () => figureOfSample(said.sample, source))
    await keepReadings(book, said.sample)
    const sampled = await sampledBy(book, said)
    const corrected = await correctAll(book, { said, body, figure, sampled })
    for (const slot of sampled.slots) {
      await divideAgain(book, { slot, figure, counterpart: sampled.counterpart })
    }
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
    return {
      waterContentWetBasis: figure.waterContentWetBasis.toDecimalPlaces(6).toFixed(),
      correctedHoldingIds: corrected,
    }
  },
}

/** Of two tests of a clay that are told at once the second learns from where the first left off. */
async function waitForOtherTests(book: Book, bodyId: string): Promise<void> {
  const clay = JSON.stringify(['dry_test', book.studioId, bodyId])
  await book.ledger.execute(sql`select pg_advisory_xact_lock(hashtextextended(${clay}, 0))`)
}

/**
 * Corrects what leant on the figures that the test speaks of: those that what was sampled was reckoned
 * with, and this studio's figure for the clay in that state.
 */
async function correctAll(
  book: Book,
  test: { said: DryTestSaid; body: BodyFacts; figure: WaterFigure; sampled: Sampled },
): Promise<string[]> {
  const { said, body, figure, sampled } = test
  const { studioId } = book
  const { bodyId, state } = said
  const tests = await testsOf(book.ledger, { studioId, bodyId, state })
  const known = studioFigure(body, state, tests)
  const shared = moistureSource({ bodyId, state, prior: known.prior })
  const except = sampled.slots.map((slot) => slot.holdingId)
  const common = { except, counterpart: sampled.counterpart }
  const found = { foundWetBasis: figure.waterContentWetBasis }
  const [slot] = sampled.slots
  const reckonedDoubt = slot === undefined ? new Map<string, Decimal>() : waterDoubtOf(slot.held)
  const byLot =
    slot === undefined
      ? []
      : await correctByTest(book, {
          ...common,
          found: {
            ...found,
            reckonedWetBasis: present(waterContentWetBasisOf(slot.held), 'clay was sampled'),
            reckonedDoubt,
            foundUncertainty: figure.standardUncertainty,
          },
        })
  if (reckonedDoubt.has(shared)) return byLot
  const byState = await correctByTest(book, {
    ...common,
    found: {
      ...found,
      reckonedWetBasis: known.waterContentWetBasis,
      reckonedDoubt: new Map([[shared, known.sharedUncertainty]]),
      foundUncertainty: figure.standardUncertainty.pow(2).plus(known.betweenBatches.pow(2)).sqrt(),
    },
  })
  return [...new Set([...byLot, ...byState])]
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

/** What the sample was taken from, held. */
async function sampledBy(book: Book, said: DryTestSaid): Promise<Sampled> {
  if (said.lotId !== undefined) return sampledLot(book, said, said.lotId)
  if (said.vesselId !== undefined) return sampledVessel(book, said, said.vesselId)
  return { slots: [], counterpart: said.state === 'as_delivered' ? 'supplier' : 'unexplained' }
}

async function sampledLot(book: Book, said: DryTestSaid, lotId: string): Promise<Sampled> {
  const lot = await pointingAt('/lotId', () => findLot(book.ledger, book.studioId, lotId))
  refuseAnotherClay(said, lot)
  const ids = await undriedOf(
    book,
    and(eq(holding.lotId, lotId), inArray(holding.place, LOT_PLACES)),
  )
  return { slots: await stillThere(book, ids), counterpart: whoseDifference(lot.kind) }
}

async function sampledVessel(book: Book, said: DryTestSaid, vesselId: string): Promise<Sampled> {
  await pointingAt('/vesselId', () => findVessel(book.ledger, book.studioId, vesselId))
  const slots = await stillThere(book, await undriedOf(book, eq(holding.vesselId, vesselId)))
  const other = slots.find((slot) => slot.ref.bodyId !== said.bodyId)
  if (slots.length > 0 && other === undefined) return { slots, counterpart: 'unexplained' }
  throw new Refusal(
    'lot_must_be_of_the_body',
    other === undefined
      ? 'By the books there is no clay in that vessel. If there is, weigh it in first, or leave vesselId out.'
      : `In that vessel lies '${other.ref.bodyId}' and the test is of '${said.bodyId}'. Name the clay that is in it.`,
    { pointer: '/vesselId' },
  )
}

/** Where clay of a lot lies that a sample can set right. */
const LOT_PLACES = ['store', 'bench']
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

async function undriedOf(book: Book, where: SQL | undefined): Promise<string[]> {
  const rows = await book.ledger
    .select({ holdingId: holding.holdingId })
    .from(holding)
    .where(and(eq(holding.studioId, book.studioId), where, gt(holding.dryGrams, '0')))
    .orderBy(holding.holdingId)
  return rows.map((row) => row.holdingId)
}

/** Held, without those that somebody else emptied in the moment before. */
async function stillThere(book: Book, holdingIds: readonly string[]): Promise<Slot[]> {
  const slots = await book.holdById(holdingIds)
  return slots.filter(({ held }) => held.dryGrams.greaterThan(0))
}

/** A test tells the water; how much clay there is stays as unsure as its weighing left it. */
async function divideAgain(
  book: Book,
  divided: { slot: Slot; figure: WaterFigure; counterpart: PlaceOutside },
): Promise<void> {
  const { slot, figure, counterpart } = divided
  const held = book.now(slot)
  const estimate = dryMassFromWet({
    netGrams: held.dryGrams.plus(held.waterGrams),
    netDoubt: wetDoubtOf(held),
    waterContentWetBasis: figure.waterContentWetBasis,
    waterDoubt: figure.waterDoubt,
    method: 'dry_test',
    standing: 'measured',
  })
  const other = await book.outside(counterpart, slot.ref.bodyId)
  book.shiftExactly(other, slot, {
    dryGrams: estimate.dryGrams.minus(held.dryGrams),
    waterGrams: estimate.waterGrams.minus(held.waterGrams),
    dryDoubt: doubtOfDifference(estimate.dryDoubt, held.dryDoubt),
  })
  book.estimated({ slot, of: 'lot', estimate })
}
