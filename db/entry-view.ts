import { and, asc, eq, sql } from 'drizzle-orm'
import { Refusal } from '../shared/refusal.ts'
import type { Transaction } from './connection.ts'
import { factsOf } from './entry-facts.ts'
import type { EntryView, EstimateView, LineView, WeighingView } from './entry-shown.ts'
import { lineSure } from './line-sure.ts'
import { entry, estimate, holding, line, weighing } from './schema.ts'

/** One entry with all that hangs on it. Refuses: `entry_not_found`. */
export async function viewEntry(
  ledger: Transaction,
  studioId: string,
  entryId: string,
): Promise<EntryView> {
  const [row] = await ledger
    .select()
    .from(entry)
    .where(and(eq(entry.studioId, studioId), eq(entry.entryId, entryId)))
  if (row === undefined)
    throw new Refusal('entry_not_found', 'There is no such entry in this studio.')
  const [reversal] = await ledger
    .select({ entryId: entry.entryId })
    .from(entry)
    .where(and(eq(entry.studioId, studioId), eq(entry.reversesEntryId, entryId)))
  return {
    entryId,
    kind: row.kind,
    happenedAt: row.happenedAt.toISOString(),
    recordedAt: row.recordedAt.toISOString(),
    recordedBy: row.recordedBy,
    note: row.note,
    reversesEntryId: row.reversesEntryId,
    reversedByEntryId: reversal?.entryId ?? null,
    said: row.said,
    lines: await linesOf(ledger, studioId, entryId),
    weighings: await weighingsOf(ledger, studioId, entryId),
    estimates: await estimatesOf(ledger, studioId, entryId),
    ...(await factsOf(ledger, studioId, entryId)),
  }
}

/** The lines that move something; what a line only makes surer or less sure is no movement. */
async function linesOf(
  ledger: Transaction,
  studioId: string,
  entryId: string,
): Promise<LineView[]> {
  const rows = await ledger
    .select({
      lineNo: line.lineNo,
      holdingId: line.holdingId,
      place: holding.place,
      bodyId: holding.bodyId,
      materialId: holding.materialId,
      lotId: holding.lotId,
      runId: holding.runId,
      vesselId: holding.vesselId,
      grade: holding.grade,
      dryGrams: line.dryGrams,
      materialGrams: line.materialGrams,
      waterGrams: line.waterGrams,
      pieces: line.pieces,
      cost: line.cost,
      costLayers: line.costLayers,
      dryDoubt: line.dryDoubt,
      costDoubt: line.costDoubt,
    })
    .from(line)
    .innerJoin(
      holding,
      and(eq(holding.studioId, line.studioId), eq(holding.holdingId, line.holdingId)),
    )
    .where(and(eq(line.studioId, studioId), eq(line.entryId, entryId), MOVES_SOMETHING))
    .orderBy(asc(line.lineNo))
  return rows.map(({ dryDoubt, costDoubt, ...row }) => ({
    ...row,
    ...lineSure({ dryDoubt, costDoubt }),
  }))
}

const MOVES_SOMETHING = sql`(${line.dryGrams}, ${line.materialGrams}, ${line.waterGrams}, ${line.pieces}, ${line.cost}) <> (0, 0, 0, 0, 0)`

async function weighingsOf(
  ledger: Transaction,
  studioId: string,
  entryId: string,
): Promise<WeighingView[]> {
  const rows = await ledger
    .select()
    .from(weighing)
    .where(and(eq(weighing.studioId, studioId), eq(weighing.entryId, entryId)))
    .orderBy(asc(weighing.weighingNo))
  return rows.map((row) => ({
    weighingNo: row.weighingNo,
    purpose: row.purpose,
    kind: row.kind,
    asRead: row.asRead,
    grossGrams: row.grossGrams,
    tareGrams: row.tareGrams,
    netGrams: row.netGrams,
    standardUncertaintyGrams: row.standardUncertaintyGrams,
    vesselId: row.vesselId,
    scaleId: row.scaleId,
    weighedAt: row.weighedAt.toISOString(),
    weighedBy: row.weighedBy,
  }))
}

async function estimatesOf(
  ledger: Transaction,
  studioId: string,
  entryId: string,
): Promise<EstimateView[]> {
  const rows = await ledger
    .select()
    .from(estimate)
    .where(and(eq(estimate.studioId, studioId), eq(estimate.entryId, entryId)))
    .orderBy(asc(estimate.estimateNo))
  return rows.map(({ studioId: _studio, entryId: _entry, ...view }) => view)
}
