import { sql, type SQL } from 'drizzle-orm'
import { ENTRY_KINDS, FLOW_OF_KIND, type EntryKind } from '../shared/entry-kind.ts'
import { WORLD_ROWS, type WorldRow, type WorldRowName } from '../shared/month-world.ts'
import type { Month } from '../shared/month.ts'
import type { Place } from '../shared/place.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Transaction } from './connection.ts'
import { findMaterial } from './materials.ts'
import { COUNTED_KIND, endOf, MOVES_SOMETHING, startOf } from './report-reading.ts'
import { findBody, findForm, findLot, findRun, findVessel } from './studio.ts'

/** What a list of entries is narrowed to. All that is named must hold. */
export interface EntryFilters {
  readonly month?: Month | undefined
  readonly fromMonth?: Month | undefined
  readonly toMonth?: Month | undefined
  /** Moments: from this on, and before that. */
  readonly from?: string | undefined
  readonly to?: string | undefined
  readonly kinds?: readonly EntryKind[] | undefined
  /** Rows of the month report; a reversal counts with what it takes back. */
  readonly flows?: readonly string[] | undefined
  readonly world?: WorldRowName | undefined
  readonly place?: Place | undefined
  readonly bodyId?: string | undefined
  readonly materialId?: string | undefined
  readonly holdingId?: string | undefined
  readonly lotId?: string | undefined
  readonly runId?: string | undefined
  readonly vesselId?: string | undefined
  readonly formId?: string | undefined
  /** Who wrote it down. */
  readonly by?: string | undefined
}

/** Refuses what a filter names and the studio does not have: `body_not_found` and its sisters. */
export async function refuseUnknown(
  ledger: Transaction,
  studioId: string,
  filters: EntryFilters,
): Promise<void> {
  const { bodyId, materialId, lotId, runId, vesselId, formId, holdingId } = filters
  if (bodyId !== undefined) await findBody(ledger, studioId, bodyId)
  if (materialId !== undefined) await findMaterial(ledger, studioId, materialId)
  if (lotId !== undefined) await findLot(ledger, studioId, lotId)
  if (runId !== undefined) await findRun(ledger, studioId, runId)
  if (vesselId !== undefined) await findVessel(ledger, studioId, vesselId)
  if (formId !== undefined) await findForm(ledger, studioId, formId)
  if (holdingId !== undefined) await refuseUnknownHolding(ledger, studioId, holdingId)
}

/** Refuses: `holding_not_found`. */
export async function refuseUnknownHolding(
  ledger: Transaction,
  studioId: string,
  holdingId: string,
): Promise<void> {
  const found = await ledger.execute(sql`
    select from holding where studio_id = ${studioId} and holding_id = ${holdingId}`)
  if (found.length > 0) return
  throw new Refusal('holding_not_found', `There is no holding '${holdingId}' in this studio.`, {
    facts: { id: holdingId },
  })
}

/** The filters as conditions on entry `e` and the entry `r` that it takes back. */
export function conditionsOf(filters: EntryFilters, timeZone: string): SQL {
  const { by } = filters
  const isBy = by === undefined ? sql`` : sql`and e.recorded_by = ${by}`
  return sql.join([timeOf(filters, timeZone), kindOf(filters), touches(filters), isBy], sql` `)
}

function timeOf({ month, fromMonth, toMonth, from, to }: EntryFilters, timeZone: string): SQL {
  const since = [month, fromMonth].filter((one) => one !== undefined)
  const until = [month, toMonth].filter((one) => one !== undefined)
  return sql.join(
    [
      ...since.map((one) => sql`and e.happened_at >= ${startOf(one, timeZone)}`),
      ...until.map((one) => sql`and e.happened_at < ${endOf(one, timeZone)}`),
      ...(from === undefined ? [] : [sql`and e.happened_at >= ${from}::timestamptz`]),
      ...(to === undefined ? [] : [sql`and e.happened_at < ${to}::timestamptz`]),
    ],
    sql` `,
  )
}

function kindOf({ kinds, flows, world }: EntryFilters): SQL {
  const conditions: SQL[] = []
  if (kinds !== undefined) conditions.push(sql`and e.kind in ${kinds}`)
  if (flows !== undefined) {
    const ofFlows = ENTRY_KINDS.filter(
      (kind) => kind !== 'reverse' && flows.includes(FLOW_OF_KIND[kind]),
    )
    conditions.push(ofFlows.length === 0 ? sql`and false` : sql`and ${COUNTED_KIND} in ${ofFlows}`)
  }
  if (world !== undefined) conditions.push(kindsOfWorld(world))
  return sql.join(conditions, sql` `)
}

/** A row of the world that names no kinds gathers those that its place's other rows do not. */
function kindsOfWorld(world: WorldRowName): SQL {
  const rows: readonly WorldRow[] = WORLD_ROWS
  const row = rows.find((one) => one.row === world)
  if (row?.kinds !== undefined) return sql`and ${COUNTED_KIND} in ${row.kinds}`
  const others = rows.filter((one) => one.place === row?.place).flatMap((one) => one.kinds ?? [])
  return others.length === 0 ? sql`` : sql`and ${COUNTED_KIND} not in ${others}`
}

function touches(filters: EntryFilters): SQL {
  const rows: readonly WorldRow[] = WORLD_ROWS
  const worldPlace = rows.find((one) => one.row === filters.world)?.place
  const isBlending = filters.world === 'other_bodies'
  const places = [filters.place, worldPlace === 'other_bodies' ? undefined : worldPlace].filter(
    (one) => one !== undefined,
  )
  const blends = isBlending ? BLENDS : sql``
  const wanted = [...places.map((one) => sql`and h.place = ${one}`), ...lineOf(filters)]
  if (wanted.length === 0) return blends
  const all = sql.join(wanted, sql` `)
  // A reading that moved nothing has no lines, but says of which holding it was taken.
  const isEstimated =
    places.length > 0
      ? sql``
      : sql`or exists (select from estimate t
      join holding h on h.studio_id = t.studio_id and h.holding_id = t.holding_id
     where t.studio_id = e.studio_id and t.entry_id = e.entry_id ${all})`
  const { lotId } = filters
  const isSaid = lotId === undefined ? sql`` : sql`or e.said ->> 'lotId' = ${lotId}`
  return sql`${blends} and (exists (select from line l
      join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
     where l.studio_id = e.studio_id and l.entry_id = e.entry_id and ${MOVES_SOMETHING} ${all})
      ${isEstimated} ${isSaid})`
}

/** What one line's holding `h` must be. */
function lineOf(filters: EntryFilters): SQL[] {
  const { bodyId, materialId, holdingId, lotId, runId, vesselId, formId } = filters
  return [
    ...(bodyId === undefined ? [] : [sql`and h.body_id = ${bodyId}`]),
    ...(materialId === undefined ? [] : [sql`and h.material_id = ${materialId}`]),
    ...(holdingId === undefined ? [] : [sql`and h.holding_id = ${holdingId}`]),
    ...(lotId === undefined ? [] : [sql`and h.lot_id = ${lotId}`]),
    ...(runId === undefined ? [] : [sql`and h.run_id = ${runId}`]),
    ...(vesselId === undefined ? [] : [sql`and h.vessel_id = ${vesselId}`]),
    ...(formId === undefined
      ? []
      : [
          sql`and exists (select from run n
        where n.studio_id = h.studio_id and n.run_id = h.run_id and n.form_id = ${formId})`,
        ]),
  ]
}

const BLENDS = sql`and (select count(distinct h.body_id) from line l
     join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
    where l.studio_id = e.studio_id and l.entry_id = e.entry_id) > 1`
