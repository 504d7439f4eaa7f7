import { asc, eq } from 'drizzle-orm'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { studioDryingFrom, type StudioDrying } from '../../shared/drying-prior.ts'
import { restingBat, type RestingBat } from '../../shared/plaster-bat.ts'
import { pastLoadOf } from '../../shared/plaster-history.ts'
import { loadFigures } from '../../shared/plaster-load.ts'
import { Refusal } from '../../shared/refusal.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { readPlasterLoads, type PlasterLoad } from '../plaster-loads.ts'
import { inSnapshot } from '../report-reading.ts'
import { bat } from '../schema.ts'
import { findLot, findStudio } from '../studio.ts'
import { trailTo } from '../trail-links.ts'
import { plasterRow, type PlasterRow } from '../plaster-row.ts'
import { wallClock, type WallClock } from '../wall-clock.ts'

interface EmptyBat {
  readonly batId: string
  readonly batName: string
  readonly dryGrams: Decimal | null
  readonly weighedAt: string | null
  readonly weighedGrams: Decimal | null
  readonly heldGrams: Decimal | null
  readonly drinksStillGramsFrom: Decimal | null
  readonly drinksStillGramsTo: Decimal | null
  readonly emptySince: string | null
  readonly words: string
  readonly trail: string
}

interface Board {
  readonly studioId: string
  readonly timeZone: string
  readonly at: string
  readonly pastLoads: number
  readonly loads: readonly PlasterRow[]
  readonly emptyBats: readonly EmptyBat[]
}

export type PlasterBoard = Written<Board>

/** How many of the latest past loads are learnt from: more hardly narrow what is expected. Our choice. */
const PAST_LOADS_MAX = 30

/**
 * Every bat: what lies on it, how wet that is, when it will be ready and too dry, and what to do; and
 * what the empty ones hold. A load whose curve cannot be known says why in its own row.
 *
 * Units: grams, hours, fractions of the wet mass; moments by the studio's clock.
 * Refuses: `studio_not_found`.
 */
export function plasterBoard(
  db: Database,
  asked: { readonly studioId: string; readonly now: Date },
): Promise<PlasterBoard> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, now } = asked
    const { timeZone } = await findStudio(ledger, studioId)
    const clock = wallClock(timeZone)
    const loads = await readPlasterLoads(ledger, studioId)
    const lying = loads.filter(({ history }) => history.endedAt === undefined)
    const learnt = learntFrom(loads)
    const board: Board = {
      studioId,
      timeZone,
      at: clock.time(now),
      pastLoads: learnt.anyBat.loads,
      loads: lying
        .map((load) => rowOf(load, { learnt, now, clock }))
        .sort((one, other) => (one.batName < other.batName ? -1 : 1)),
      emptyBats: await emptyBatsOf(ledger, { studioId, loads, clock }),
    }
    return written(board)
  })
}

/**
 * One load, as on the board; of a load that has left its bat, the curve that it took.
 *
 * Refuses: `studio_not_found`, `lot_not_found`, `lot_must_be_a_load`.
 */
export function plasterOfLoad(
  db: Database,
  asked: { readonly studioId: string; readonly lotId: string; readonly now: Date },
): Promise<Written<PlasterRow>> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, lotId, now } = asked
    const { timeZone } = await findStudio(ledger, studioId)
    const lot = await findLot(ledger, studioId, lotId)
    if (lot.kind !== 'load') {
      throw new Refusal('lot_must_be_a_load', `'${lot.label}' never lay on plaster.`, {
        facts: { kind: lot.kind },
      })
    }
    const loads = await readPlasterLoads(ledger, studioId)
    const load = loads.find((one) => one.lotId === lotId)
    if (load === undefined) {
      throw new Refusal('lot_must_be_a_load', 'That load was taken back: it was never laid.', {
        facts: { madeByEntryId: lot.madeByEntryId },
      })
    }
    const learnt = learntFrom(loads.filter((one) => one !== load))
    return written(rowOf(load, { learnt, now, clock: wallClock(timeZone) }))
  })
}

/** What the studio's loads that have left their bats lead to expect. */
function learntFrom(loads: readonly PlasterLoad[]): StudioDrying {
  const past = loads
    .filter(({ history }) => history.endedAt !== undefined)
    .flatMap(({ history }) => pastLoadOf(history) ?? [])
    .filter(({ weighIns }) => weighIns.length > 0)
  return studioDryingFrom(past.slice(-PAST_LOADS_MAX))
}

function rowOf(
  load: PlasterLoad,
  of: { learnt: StudioDrying; now: Date; clock: WallClock },
): PlasterRow {
  const { learnt, now, clock } = of
  const prior = learnt.ofBat.get(load.history.batId) ?? learnt.anyBat
  return plasterRow(load, { figures: loadFigures(load.history, { prior, now }), clock })
}

/** Grain: one row a bat that carries no load. */
async function emptyBatsOf(
  ledger: Transaction,
  of: { studioId: string; loads: readonly PlasterLoad[]; clock: WallClock },
): Promise<EmptyBat[]> {
  const { studioId, loads, clock } = of
  const rows = await ledger
    .select()
    .from(bat)
    .where(eq(bat.studioId, studioId))
    .orderBy(asc(bat.name))
  return rows.flatMap((row) => {
    const own = loads.filter(({ history }) => history.batId === row.batId)
    if (own.some(({ history }) => history.endedAt === undefined)) return []
    const dryGrams = row.dryGrams === null ? undefined : decimal(row.dryGrams)
    const histories = own.map(({ history }) => history)
    return [emptyBat(row, { dryGrams, resting: restingBat(histories, dryGrams), clock })]
  })
}

function emptyBat(
  row: { batId: string; name: string },
  of: { dryGrams: Decimal | undefined; resting: RestingBat; clock: WallClock },
): EmptyBat {
  const { resting, clock } = of
  const { figures, emptySince } = resting
  const { thirst } = figures
  return {
    batId: row.batId,
    batName: row.name,
    dryGrams: of.dryGrams ?? null,
    weighedAt: clock.timeOr(figures.at),
    weighedGrams: figures.at === undefined ? null : (figures.nowGrams ?? null),
    heldGrams: thirst?.holdsGrams ?? null,
    drinksStillGramsFrom: thirst?.drinksStillGramsMin ?? null,
    drinksStillGramsTo: thirst?.drinksStillGramsMax ?? null,
    emptySince: clock.timeOr(emptySince),
    words: figures.words,
    trail: trailTo('bats', row.batId),
  }
}
