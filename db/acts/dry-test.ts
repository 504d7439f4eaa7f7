import { sql } from 'drizzle-orm'
import { present } from '../../shared/assert.ts'
import { doubtOfDifference } from '../../shared/doubt.ts'
import type { WaterFound } from '../../shared/doubt-learning.ts'
import { dryMassEstimate, dryMassFromWet } from '../../shared/dry-mass.ts'
import { dryTestFinding, dryTestWords, type DryTestFinding } from '../../shared/dry-test-finding.ts'
import { moistureSource } from '../../shared/doubt-source.ts'
import type { PlaceInside, PlaceOutside } from '../../shared/place.ts'
import { waterContentWetBasisOf } from '../../shared/quantity.ts'
import { waterWith } from '../../shared/water.ts'
import { waterDoubtOf, wetDoubtOf } from '../../shared/water-doubt.ts'
import type { Book, Slot } from '../book.ts'
import { correctByTest } from '../dry-corrections.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading } from '../readings.ts'
import { refuseBeforeItCame, sampledBy, type SampleOf, type Sampled } from '../sampled-clay.ts'
import { dryTest } from '../schema.ts'
import { findBody, type BodyFacts } from '../studio.ts'
import {
  figureOfSample,
  studioFigure,
  testSource,
  testsOf,
  type SampleSaid,
  type WaterFigure,
} from '../water-figures.ts'

export interface DryTestSaid extends Circumstances, SampleOf {
  readonly sample: SampleSaid
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
    await refuseBeforeItCame(book, sampled)
    const { found, finding, corrected } = await correctAll(book, { said, body, figure, sampled })
    for (const slot of sampled.slots) {
      const isChanged = finding === 'clay_has_changed'
      if (isChanged) await wetToTheTest(book, slot, figure)
      else await divideAgain(book, { slot, figure, counterpart: sampled.counterpart })
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
      finding,
      correctedHoldingIds: corrected,
      words: dryTestWords(found, { finding, corrected: corrected.length }),
    }
  },
}

/** Of two tests of a clay that are told at once the second learns from where the first left off. */
async function waitForOtherTests(book: Book, bodyId: string): Promise<void> {
  const clay = JSON.stringify(['dry_test', book.studioId, bodyId])
  await book.ledger.execute(sql`select pg_advisory_xact_lock(hashtextextended(${clay}, 0))`)
}

interface Corrected {
  readonly found: WaterFound
  readonly finding: DryTestFinding
  readonly corrected: string[]
}

/**
 * Corrects what leant on the figures that the test speaks of: those that what was sampled was reckoned
 * with, and this studio's figure for the clay in that state. Where the clay has changed since it was
 * weighed, or the test does not fit, nothing is.
 */
async function correctAll(
  book: Book,
  test: { said: DryTestSaid; body: BodyFacts; figure: WaterFigure; sampled: Sampled },
): Promise<Corrected> {
  const { said, body, figure, sampled } = test
  const { studioId } = book
  const { bodyId, state } = said
  const tests = await testsOf(book.ledger, { studioId, bodyId, state })
  const known = studioFigure(body, state, tests)
  const shared = moistureSource({ bodyId, state, prior: known.prior })
  const ofState: WaterFound = {
    foundWetBasis: figure.waterContentWetBasis,
    reckonedWetBasis: known.waterContentWetBasis,
    reckonedDoubt: new Map([[shared, known.sharedUncertainty]]),
    foundUncertainty: figure.standardUncertainty.pow(2).plus(known.betweenBatches.pow(2)).sqrt(),
  }
  const [slot] = sampled.slots
  const found = slot === undefined ? ofState : foundIn(slot, figure)
  const place = slot?.ref.place as PlaceInside | undefined
  const finding = dryTestFinding(found, place)
  if (finding !== 'figure_was_off') return { found, finding, corrected: [] }
  const except = sampled.slots.map((one) => one.holdingId)
  const common = { except, counterpart: sampled.counterpart }
  const first = await correctByTest(book, { ...common, found })
  const isDone = slot === undefined || found.reckonedDoubt.has(shared)
  if (isDone || dryTestFinding(ofState, undefined) !== 'figure_was_off') {
    return { found, finding, corrected: first }
  }
  const byState = await correctByTest(book, { ...common, found: ofState })
  return { found, finding, corrected: [...new Set([...first, ...byState])] }
}

/** What the test found of the clay that was sampled, beside what the books have there. */
function foundIn(slot: Slot, figure: WaterFigure): WaterFound {
  return {
    foundWetBasis: figure.waterContentWetBasis,
    reckonedWetBasis: present(waterContentWetBasisOf(slot.held), 'clay was sampled'),
    reckonedDoubt: waterDoubtOf(slot.held),
    foundUncertainty: figure.standardUncertainty,
  }
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

/** Clay that has dried or was wetted since it was weighed is as much clay as before. */
async function wetToTheTest(book: Book, slot: Slot, figure: WaterFigure): Promise<void> {
  const { dryGrams, dryDoubt } = book.now(slot)
  await book.wetTo(slot, waterWith(dryGrams, figure.waterContentWetBasis))
  const { waterGrams } = book.now(slot)
  const estimate = {
    dryGrams,
    waterGrams,
    dryDoubt,
    method: 'dry_test',
    standing: 'estimated',
  } as const
  book.estimated({ slot, of: 'lot', estimate: dryMassEstimate(estimate) })
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
  book.differsBy(slot, estimate)
  book.estimated({ slot, of: 'lot', estimate })
}
