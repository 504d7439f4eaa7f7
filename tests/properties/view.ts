import { sql } from 'drizzle-orm'
import type { Database } from '../../db/connection.ts'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import type { Place } from '../../shared/place.ts'

/** What a holding is and has, as the database keeps it. */
export interface HeldHere {
  readonly holdingId: string
  readonly place: Place
  readonly isInside: boolean
  readonly bodyId: string
  readonly materialId: string | null
  readonly lotId: string | null
  readonly runId: string | null
  readonly vesselId: string | null
  readonly grade: string | null
  readonly dryGrams: Decimal
  readonly materialGrams: Decimal
  readonly waterGrams: Decimal
  readonly wetGrams: Decimal
  readonly pieces: number
  /** All kept columns and what the cost is for, without idle zeros: two of them are equal or the balance has moved. */
  readonly balance: string
}

/** The studio as somebody sees it who is about to do something. */
export interface View {
  readonly holdings: readonly HeldHere[]
  readonly lots: readonly { lotId: string; bodyId: string; kind: string }[]
  readonly runs: readonly { runId: string; bodyId: string; formId: string }[]
  readonly entries: readonly { entryId: string; kind: string }[]
}

/** How unsure it is, source by source; what a source is called depends on which entry came first. */
const DOUBTS = sql.raw(
  `(select string_agg(value, ' ' order by value) from jsonb_each_text(dry_doubt)),
   (select string_agg(value, ' ' order by value) from jsonb_each_text(material_doubt)),
   (select string_agg(value, ' ' order by value) from jsonb_each_text(cost_doubt))`,
)

export async function viewStudio(db: Database, studioId: string): Promise<View> {
  const holdings = await db.execute<Record<string, string | null>>(sql`
    select holding_id, place, is_inside::text, body_id, material_id, lot_id, run_id, vessel_id, grade,
           dry_grams::text, material_grams::text, water_grams::text, pieces::text,
           concat_ws(' ', trim_scale(dry_grams), trim_scale(material_grams), trim_scale(water_grams),
                     trim_scale(pieces), trim_scale(cost), nullif(cost_layers::text, '{}'), ${DOUBTS}) as balance
      from holding where studio_id = ${studioId} order by holding_id`)
  const lots = await db.execute<Record<string, string>>(
    sql`select lot_id, body_id, kind from lot where studio_id = ${studioId} order by lot_id`,
  )
  const runs = await db.execute<Record<string, string>>(
    sql`select run_id, body_id, form_id from run where studio_id = ${studioId} order by run_id`,
  )
  const entries = await db.execute<Record<string, string>>(
    sql`select entry_id, kind from entry where studio_id = ${studioId} order by entry_id`,
  )
  const text = (value: string | null | undefined) => value ?? ''
  return {
    holdings: holdings.map(heldHere),
    lots: lots.map((row) => ({
      lotId: text(row.lot_id),
      bodyId: text(row.body_id),
      kind: text(row.kind),
    })),
    runs: runs.map((row) => ({
      runId: text(row.run_id),
      bodyId: text(row.body_id),
      formId: text(row.form_id),
    })),
    entries: entries.map((row) => ({ entryId: text(row.entry_id), kind: text(row.kind) })),
  }
}

function heldHere(row: Record<string, string | null>): HeldHere {
  const dryGrams = decimal(row.dry_grams ?? '0')
  const materialGrams = decimal(row.material_grams ?? '0')
  const waterGrams = decimal(row.water_grams ?? '0')
  return {
    holdingId: row.holding_id ?? '',
    place: row.place as Place,
    isInside: row.is_inside === 'true',
    bodyId: row.body_id ?? '',
    materialId: row.material_id as string | null,
    lotId: row.lot_id ?? null,
    runId: row.run_id ?? null,
    vesselId: row.vessel_id ?? null,
    grade: row.grade ?? null,
    dryGrams,
    materialGrams,
    waterGrams,
    wetGrams: dryGrams.plus(row.body_id === null ? materialGrams : 0).plus(waterGrams),
    pieces: Number(row.pieces),
    balance: row.balance ?? '',
  }
}

const EMPTY = '0 0 0 0 0'

/** Every holding that has something, by its id: equal before and after, or something has moved. */
export function balancesOf(view: View): Record<string, string> {
  const kept = view.holdings.filter((held) => held.balance !== EMPTY)
  return Object.fromEntries(kept.map((held) => [held.holdingId, held.balance]))
}

/** The same by what tells a holding from another, for two studios that did the same. */
export function balancesByName(view: View): Record<string, string> {
  const kept = view.holdings.filter((held) => held.balance !== EMPTY)
  const named = kept.map((held) => {
    const { place, bodyId, materialId, lotId, runId, vesselId, grade, balance } = held
    return [[place, bodyId, materialId, lotId, runId, vesselId, grade].join('/'), balance] as const
  })
  return Object.fromEntries(named)
}

/** Holdings at a place that hold clay, the emptied ones left out. */
export function clayAt(view: View, ...places: readonly Place[]): HeldHere[] {
  return view.holdings.filter((held) => places.includes(held.place) && !held.dryGrams.isZero())
}

/** Holdings at a place that hold pieces. */
export function piecesAt(view: View, ...places: readonly Place[]): HeldHere[] {
  return view.holdings.filter((held) => places.includes(held.place) && held.pieces > 0)
}
