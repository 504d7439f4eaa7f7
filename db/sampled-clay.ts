import { and, eq, gt, inArray, sql, type SQL } from 'drizzle-orm'
import type { ClayState } from '../shared/moisture.ts'
import { PLACE_WORDS, type PlaceOutside } from '../shared/place.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Book, Slot } from './book.ts'
import { pointingAt } from './readings.ts'
import { entry, holding, line } from './schema.ts'
import { findLot, findVessel } from './studio.ts'

/** What a sample is said to be of. */
export interface SampleOf {
  readonly bodyId: string
  readonly state: ClayState
  /** The lot that the sample is of: what is left of it is set right by the test. */
  readonly lotId?: string | undefined
  /** The vessel that the sample is of: what lies in it is set right by the test. */
  readonly vesselId?: string | undefined
}

/** Holdings of one clay that a sample was taken from, and whose the difference is. */
export interface Sampled {
  readonly slots: readonly Slot[]
  readonly counterpart: PlaceOutside
}

/**
 * What the sample was taken from, held; nothing where it is of the state alone.
 *
 * Refuses: `lot_not_found`, `vessel_not_found`, `lot_must_be_of_the_body`.
 */
export async function sampledBy(book: Book, said: SampleOf): Promise<Sampled> {
  if (said.lotId !== undefined) return sampledLot(book, said, said.lotId)
  if (said.vesselId !== undefined) return sampledVessel(book, said, said.vesselId)
  return { slots: [], counterpart: said.state === 'as_delivered' ? 'supplier' : 'unexplained' }
}

async function sampledLot(book: Book, said: SampleOf, lotId: string): Promise<Sampled> {
  const lot = await pointingAt('/lotId', () => findLot(book.ledger, book.studioId, lotId))
  refuseAnotherClay(said, lot)
  const ids = await undriedOf(
    book,
    and(eq(holding.lotId, lotId), inArray(holding.place, LOT_PLACES)),
  )
  return { slots: await stillThere(book, ids), counterpart: whoseDifference(lot.kind) }
}

async function sampledVessel(book: Book, said: SampleOf, vesselId: string): Promise<Sampled> {
  await pointingAt('/vesselId', () => findVessel(book.ledger, book.studioId, vesselId))
  const slots = await stillThere(book, await undriedOf(book, eq(holding.vesselId, vesselId)))
  const other = slots.find((slot) => slot.ref.bodyId !== said.bodyId)
  if (slots.length > 0 && other === undefined) {
    for (const { ref } of slots) refuseAnotherState(said, ref.place === 'basin' ? 'basin' : 'scrap')
    return { slots, counterpart: 'unexplained' }
  }
  throw new Refusal(
    'lot_must_be_of_the_body',
    other === undefined
      ? 'By the books there is no clay in that vessel. If there is, weigh it in first, or leave vesselId out.'
      : `In that vessel lies '${other.ref.bodyId}' and the test is of '${said.bodyId}'. Name the clay that is in it.`,
    { pointer: '/vesselId' },
  )
}

/** In which states clay lies in a basin, and in which in a bucket of scrap. */
const STATES_OF_VESSELS: Readonly<Record<'basin' | 'scrap', readonly ClayState[]>> = {
  basin: ['slurry', 'slops', 'throwing_water'],
  scrap: ['turnings', 'off_cuts', 'leather_hard', 'air_dry', 'slops', 'throwing_water', 'wedged'],
}

function refuseAnotherState(said: SampleOf, place: 'basin' | 'scrap'): void {
  if (STATES_OF_VESSELS[place].includes(said.state)) return
  throw new Refusal(
    'lot_must_be_of_the_body',
    `What lies in that vessel is ${PLACE_WORDS[place]}, and the test is of '${said.state}' clay. Name one of ${STATES_OF_VESSELS[place].join(', ')}, or leave vesselId out to test the clay in that state.`,
    { pointer: '/state' },
  )
}

/** A sample cannot have been weighed before its clay was there. Refuses: `holding_must_not_have_been_negative`. */
export async function refuseBeforeItCame(book: Book, { slots }: Sampled): Promise<void> {
  for (const { holdingId } of slots) {
    const [first] = await book.ledger
      .select({ at: sql<Date>`min(${entry.happenedAt})`.mapWith(entry.happenedAt) })
      .from(line)
      .innerJoin(entry, and(eq(entry.studioId, line.studioId), eq(entry.entryId, line.entryId)))
      .where(and(eq(line.studioId, book.studioId), eq(line.holdingId, holdingId)))
    if (first === undefined || first.at <= book.facts.happenedAt) continue
    throw new Refusal(
      'holding_must_not_have_been_negative',
      `The clay that was sampled came on ${first.at.toISOString().slice(0, 10)}, and the test is dated before. Say when the dried sample was weighed.`,
      { pointer: '/happenedAt', facts: { holdingId } },
    )
  }
}

/** Where clay of a lot lies that a sample can set right. */
const LOT_PLACES = ['store', 'bench']
/** The states of clay that a lot in the store or on the bench can be sampled in. */
const STATES_OF_LOTS: readonly ClayState[] = ['as_delivered', 'wedged']

function refuseAnotherClay(said: SampleOf, lot: { bodyId: string; kind: string }): void {
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
