import { and, asc, eq } from 'drizzle-orm'
import type { Transaction } from './connection.ts'
import { dryTest, firing, firingShare, glazing, loss, sale } from './schema.ts'

type OfEntry = 'studioId' | 'entryId'

/** What a fire took and cost, and what each run bore of it. */
export interface FiringView extends Omit<typeof firing.$inferSelect, OfEntry> {
  readonly shares: readonly Omit<typeof firingShare.$inferSelect, OfEntry>[]
}

/** Glaze that landed on a run. */
export type GlazingView = Omit<typeof glazing.$inferSelect, OfEntry>

/** What is known of an entry beside what it moved. */
export interface EntryFacts {
  readonly losses: readonly {
    runId: string
    pieces: number
    stage: string
    cause: string
    costLeft: string
    abnormalPieces: number
    costAbnormal: string
    usualWords: string | null
  }[]
  readonly sale: {
    formId: string
    grade: string
    pieces: number
    priceEach: string
    channel: string
  } | null
  readonly dryTest: {
    bodyId: string
    lotId: string | null
    state: string
    waterContentWetBasis: string
    standardUncertainty: string
  } | null
  readonly firing: FiringView | null
  readonly glazings: readonly GlazingView[]
}

/** The facts of an entry. Grain: as each says. */
export async function factsOf(
  ledger: Transaction,
  studioId: string,
  entryId: string,
): Promise<EntryFacts> {
  const losses = await ledger
    .select()
    .from(loss)
    .where(and(eq(loss.studioId, studioId), eq(loss.entryId, entryId)))
    .orderBy(asc(loss.runId))
  const [sold] = await ledger
    .select()
    .from(sale)
    .where(and(eq(sale.studioId, studioId), eq(sale.entryId, entryId)))
  const [tested] = await ledger
    .select()
    .from(dryTest)
    .where(and(eq(dryTest.studioId, studioId), eq(dryTest.entryId, entryId)))
  return {
    losses: losses.map(without),
    sale: sold === undefined ? null : without(sold),
    dryTest: tested === undefined ? null : without(tested),
    firing: await firingOf(ledger, studioId, entryId),
    glazings: await glazingsOf(ledger, studioId, entryId),
  }
}

async function firingOf(
  ledger: Transaction,
  studioId: string,
  entryId: string,
): Promise<FiringView | null> {
  const [fired] = await ledger
    .select()
    .from(firing)
    .where(and(eq(firing.studioId, studioId), eq(firing.entryId, entryId)))
  if (fired === undefined) return null
  const shares = await ledger
    .select()
    .from(firingShare)
    .where(and(eq(firingShare.studioId, studioId), eq(firingShare.entryId, entryId)))
    .orderBy(asc(firingShare.runId))
  return { ...without(fired), shares: shares.map(without) }
}

async function glazingsOf(
  ledger: Transaction,
  studioId: string,
  entryId: string,
): Promise<GlazingView[]> {
  const rows = await ledger
    .select()
    .from(glazing)
    .where(and(eq(glazing.studioId, studioId), eq(glazing.entryId, entryId)))
    .orderBy(asc(glazing.runId))
  return rows.map(without)
}

function without<Row extends { studioId: string; entryId: string }>(row: Row) {
  const { studioId: _studio, entryId: _entry, ...rest } = row
  return rest
}
