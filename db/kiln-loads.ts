import { and, asc, eq, gt, isNull, ne, sql } from 'drizzle-orm'
import { present } from '../shared/assert.ts'
import { FIRE_OF_KIND, type KilnKind } from '../shared/kiln-load.ts'
import { piecesTogether } from '../shared/pieces-left.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Database, Transaction } from './connection.ts'
import { findKiln } from './materials.ts'
import { momentOf, type Services } from './perform.ts'
import { inLedger } from './posting.ts'
import { pointingAt } from './readings.ts'
import { inSnapshot } from './report-reading.ts'
import { form, holding, kilnLoad, kilnLoadRun, run } from './schema.ts'
import { findRun, findStudio } from './studio.ts'

/** What is in a kiln, run by run. */
export interface KilnLoadView {
  readonly kilnLoadId: string
  readonly kind: KilnKind
  readonly kilnId: string | null
  readonly loadedAt: string
  readonly loadedBy: string | null
  readonly unloadedAt: string | null
  readonly firedByEntryId: string | null
  readonly pieces: number
  /** Those of which some pieces are in it. */
  readonly runs: readonly RunInLoad[]
}

export interface RunInLoad {
  readonly runId: string
  readonly label: string
  readonly formName: string
  readonly pieces: number
}

export interface RunLoaded {
  readonly runId: string
  readonly pieces: number
}

export interface LoadSaid {
  readonly kilnLoadId: string
  readonly kind: KilnKind
  /** The kiln, where there is one in the books. */
  readonly kilnId?: string | undefined
  readonly runs: readonly RunLoaded[]
  readonly happenedAt?: string | undefined
  readonly by?: string | undefined
}

/** The loads that are in a kiln now, the oldest first. */
export async function openLoads(
  ledger: Transaction,
  { studioId }: { studioId: string },
): Promise<KilnLoadView[]> {
  const rows = await ledger
    .select()
    .from(kilnLoad)
    .where(and(eq(kilnLoad.studioId, studioId), isNull(kilnLoad.unloadedAt)))
    .orderBy(asc(kilnLoad.loadedAt), asc(kilnLoad.kilnLoadId))
  const views: KilnLoadView[] = []
  for (const row of rows) views.push(await viewLoad(ledger, row))
  return views
}

/** One load, in the kiln or out of it. Refuses: `kiln_load_not_found`. */
export function findKilnLoad(
  db: Database,
  which: { studioId: string; kilnLoadId: string },
): Promise<KilnLoadView> {
  return inSnapshot(db, (ledger) => readLoad(ledger, which))
}

/** The same inside a transaction. Refuses: `kiln_load_not_found`. */
export async function readLoad(
  ledger: Transaction,
  which: { studioId: string; kilnLoadId: string },
): Promise<KilnLoadView> {
  const [row] = await ledger.select().from(kilnLoad).where(isLoad(which))
  if (row !== undefined) return viewLoad(ledger, row)
  throw new Refusal('kiln_load_not_found', 'There is no such load in this studio.', {
    facts: { id: which.kilnLoadId },
  })
}

/** A load that is in the kiln still. Refuses: `kiln_load_not_found`, `kiln_load_must_be_in_the_kiln`. */
export async function readLoadInKiln(
  ledger: Transaction,
  which: { studioId: string; kilnLoadId: string },
): Promise<KilnLoadView> {
  const load = await readLoad(ledger, which)
  if (load.unloadedAt === null) return load
  throw new Refusal(
    'kiln_load_must_be_in_the_kiln',
    `This load came out of the kiln already, on ${load.unloadedAt.slice(0, 10)}.`,
  )
}

/**
 * Puts pots into a kiln: writes down which and how many. Loading again under the same id changes nothing.
 *
 * Refuses: `studio_not_found`, `run_not_found`, `kiln_not_found`, `date_must_not_be_in_the_future`,
 * `stage_must_hold_the_pieces` where fewer wait.
 */
export function loadKiln(
  services: Services,
  studioId: string,
  said: LoadSaid,
): Promise<KilnLoadView> {
  return inLedger(services.db, async (ledger) => {
    await waitForOtherLoading(ledger, studioId)
    const { kilnLoadId, kind, by, kilnId } = said
    const [earlier] = await ledger.select().from(kilnLoad).where(isLoad({ studioId, kilnLoadId }))
    if (earlier !== undefined) return viewLoad(ledger, earlier)
    if (kilnId !== undefined) {
      await pointingAt('/kilnId', () => findKiln(ledger, studioId, kilnId))
    }
    await refuseMoreThanWaits(ledger, { studioId, kilnLoadId, kind, runs: said.runs })
    const loadedAt = momentOf(said.happenedAt, services.now())
    const row = { studioId, kilnLoadId, kind, kilnId, loadedAt, loadedBy: by ?? null }
    await ledger.insert(kilnLoad).values(row)
    await ledger
      .insert(kilnLoadRun)
      .values(said.runs.map(({ runId, pieces }) => ({ studioId, kilnLoadId, runId, pieces })))
    return readLoad(ledger, { studioId, kilnLoadId })
  })
}

/**
 * Puts in or takes out before the fire: what is said is all that is in it from now on.
 *
 * Refuses: as `loadKiln`, and `kiln_load_not_found`, `kiln_load_must_be_in_the_kiln`.
 */
export function changeLoad(
  services: Services,
  which: { studioId: string; kilnLoadId: string },
  said: Pick<LoadSaid, 'runs' | 'kilnId'>,
): Promise<KilnLoadView> {
  const { runs, kilnId } = said
  return inLedger(services.db, async (ledger) => {
    await waitForOtherLoading(ledger, which.studioId)
    const { kind } = await readLoadInKiln(ledger, which)
    if (kilnId !== undefined) {
      await pointingAt('/kilnId', () => findKiln(ledger, which.studioId, kilnId))
      await ledger.update(kilnLoad).set({ kilnId }).where(isLoad(which))
    }
    await refuseMoreThanWaits(ledger, { ...which, kind, runs })
    const { studioId, kilnLoadId } = which
    const isOfLoad = and(eq(kilnLoadRun.studioId, studioId), eq(kilnLoadRun.kilnLoadId, kilnLoadId))
    await ledger.update(kilnLoadRun).set({ pieces: 0 }).where(isOfLoad)
    for (const { runId, pieces } of runs) {
      await ledger
        .insert(kilnLoadRun)
        .values({ studioId, kilnLoadId, runId, pieces })
        .onConflictDoUpdate({
          target: [kilnLoadRun.studioId, kilnLoadRun.kilnLoadId, kilnLoadRun.runId],
          set: { pieces },
        })
    }
    return readLoad(ledger, which)
  })
}

/**
 * Takes a load out without a fire: its pots wait again, and nothing is written into the ledger.
 *
 * Refuses: `kiln_load_not_found`, `kiln_load_must_be_in_the_kiln`.
 */
export function takeLoadOut(
  services: Services,
  which: { studioId: string; kilnLoadId: string },
): Promise<void> {
  return inLedger(services.db, async (ledger) => {
    await waitForOtherLoading(ledger, which.studioId)
    await readLoadInKiln(ledger, which)
    await ledger.update(kilnLoad).set({ unloadedAt: services.now() }).where(isLoad(which))
  })
}

export const isLoad = ({ studioId, kilnLoadId }: { studioId: string; kilnLoadId: string }) =>
  and(eq(kilnLoad.studioId, studioId), eq(kilnLoad.kilnLoadId, kilnLoadId))

/** Of two who fill or empty a kiln at once the second sees what the first did. */
export async function waitForOtherLoading(ledger: Transaction, studioId: string): Promise<void> {
  await findStudio(ledger, studioId)
  const kilns = JSON.stringify(['kiln_load', studioId])
  await ledger.execute(sql`select pg_advisory_xact_lock(hashtextextended(${kilns}, 0))`)
}

async function viewLoad(
  ledger: Transaction,
  row: typeof kilnLoad.$inferSelect,
): Promise<KilnLoadView> {
  const { studioId, kilnLoadId } = row
  const runs = await ledger
    .select({
      runId: run.runId,
      label: run.label,
      formName: form.name,
      pieces: kilnLoadRun.pieces,
    })
    .from(kilnLoadRun)
    .innerJoin(run, and(eq(run.studioId, kilnLoadRun.studioId), eq(run.runId, kilnLoadRun.runId)))
    .innerJoin(form, and(eq(form.studioId, run.studioId), eq(form.formId, run.formId)))
    .where(
      and(
        eq(kilnLoadRun.studioId, studioId),
        eq(kilnLoadRun.kilnLoadId, kilnLoadId),
        gt(kilnLoadRun.pieces, 0),
      ),
    )
    .orderBy(asc(run.thrownAt), asc(run.runId))
  return {
    kilnLoadId,
    kind: row.kind as KilnKind,
    kilnId: row.kilnId,
    loadedAt: row.loadedAt.toISOString(),
    loadedBy: row.loadedBy,
    unloadedAt: row.unloadedAt?.toISOString() ?? null,
    firedByEntryId: row.firedByEntryId,
    pieces: piecesTogether(runs.map(({ pieces }) => pieces)),
    runs,
  }
}

/** Pots that are in another kiln already do not wait for this one. */
async function refuseMoreThanWaits(
  ledger: Transaction,
  asked: { studioId: string; kilnLoadId: string; kind: KilnKind; runs: readonly RunLoaded[] },
): Promise<void> {
  for (const [index, { runId, pieces }] of asked.runs.entries()) {
    const pointer = `/runs/${String(index)}`
    await pointingAt(`${pointer}/runId`, () => findRun(ledger, asked.studioId, runId))
    const waits = await piecesWaiting(ledger, { ...asked, runId })
    if (pieces <= waits) continue
    throw new Refusal(
      'stage_must_hold_the_pieces',
      `${String(waits)} pieces of this run wait for this fire; ${String(pieces)} were named. Record first how the others came here, or count them.`,
      { pointer: `${pointer}/pieces`, facts: { runId, held: String(waits) } },
    )
  }
}

async function piecesWaiting(
  ledger: Transaction,
  asked: { studioId: string; kilnLoadId: string; kind: KilnKind; runId: string },
): Promise<number> {
  const { studioId, kilnLoadId, kind, runId } = asked
  const place = FIRE_OF_KIND[kind].from
  const [held] = await ledger
    .select({ pieces: sql<number>`coalesce(sum(${holding.pieces}), 0)::integer` })
    .from(holding)
    .where(and(eq(holding.studioId, studioId), eq(holding.runId, runId), eq(holding.place, place)))
  const [elsewhere] = await ledger
    .select({ pieces: sql<number>`coalesce(sum(${kilnLoadRun.pieces}), 0)::integer` })
    .from(kilnLoadRun)
    .innerJoin(
      kilnLoad,
      and(
        eq(kilnLoad.studioId, kilnLoadRun.studioId),
        eq(kilnLoad.kilnLoadId, kilnLoadRun.kilnLoadId),
      ),
    )
    .where(
      and(
        eq(kilnLoadRun.studioId, studioId),
        eq(kilnLoadRun.runId, runId),
        eq(kilnLoad.kind, kind),
        ne(kilnLoad.kilnLoadId, kilnLoadId),
        isNull(kilnLoad.unloadedAt),
      ),
    )
  return present(held, 'a sum is a row').pieces - present(elsewhere, 'a sum is a row').pieces
}
