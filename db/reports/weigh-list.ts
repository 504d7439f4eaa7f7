import { sql } from 'drizzle-orm'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import type { ClayState } from '../../shared/moisture.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { inSnapshot, isoText } from '../report-reading.ts'
import { findStudio } from '../studio.ts'

export const WEIGHABLE_KINDS = ['vessel', 'load', 'lot', 'run'] as const

interface Weighable {
  readonly kind: (typeof WEIGHABLE_KINDS)[number]
  /** Of the vessel, of the load's or bag's lot, of the run. */
  readonly id: string
  readonly name: string
  /** What is in it or on it, in the studio's own names. */
  readonly holds: string | null
  readonly bodyId: string | null
  readonly batId: string | null
  readonly holdingId: string | null
  readonly tareGrams: Decimal | null
  readonly dryGrams: Decimal
  readonly waterGrams: Decimal
  readonly wetGrams: Decimal
  readonly pieces: Decimal
  /** How wet its clay was said to be the last time. */
  readonly lastState: ClayState | null
  readonly lastWeighedAt: string | null
  readonly latestAt: string | null
}

/** Something that stands on a scale in a studio, as it is now. */
export type WeighableThing = Written<Weighable>

type Row = Record<Exclude<keyof Weighable, 'wetGrams'>, string | null>

/**
 * All that is weighed at the wheel: vessels of scrap, slabs on plaster, open clay on the bench, pots on
 * their boards. What was weighed or used last comes first.
 *
 * Grain: one row a vessel, and one a load, lot or run of which something is there.
 * Units: grams, pieces. Refuses: `studio_not_found`.
 */
export function weighList(db: Database, studioId: string): Promise<WeighableThing[]> {
  return inSnapshot(db, async (ledger) => {
    await findStudio(ledger, studioId)
    const parts = await Promise.all([
      vesselsOf(ledger, studioId),
      lotsOf(ledger, studioId),
      runsOf(ledger, studioId),
    ])
    return parts
      .flat()
      .map(weighable)
      .sort((one, other) => lastUse(other).localeCompare(lastUse(one)))
      .map((thing) => written(thing))
  })
}

function lastUse({ lastWeighedAt, latestAt }: Weighable): string {
  return lastWeighedAt ?? latestAt ?? ''
}

function weighable(row: Row): Weighable {
  const dryGrams = decimal(row.dryGrams ?? '0')
  const waterGrams = decimal(row.waterGrams ?? '0')
  return {
    ...row,
    kind: row.kind as Weighable['kind'],
    id: row.id ?? '',
    name: row.name ?? '',
    tareGrams: row.tareGrams === null ? null : decimal(row.tareGrams),
    dryGrams,
    waterGrams,
    wetGrams: dryGrams.plus(waterGrams),
    pieces: decimal(row.pieces ?? '0'),
    lastState: row.lastState as ClayState | null,
  }
}

/** Basins are read by their density and not by their mass, so they are not among them. */
async function vesselsOf(ledger: Transaction, studioId: string): Promise<Row[]> {
  return ledger.execute<Row>(sql`
    select 'vessel' as kind, v.vessel_id as id, v.name, b.name as holds,
           h.body_id as "bodyId", null as "batId", h.holding_id as "holdingId",
           v.tare_grams::text as "tareGrams", h.dry_grams::text as "dryGrams",
           h.water_grams::text as "waterGrams", '0' as pieces,
           w.state as "lastState", ${isoText(sql`w.weighed_at`)} as "lastWeighedAt",
           ${isoText(sql`h.latest_at`)} as "latestAt"
      from vessel v
      left join lateral (
        select * from holding
         where studio_id = v.studio_id and vessel_id = v.vessel_id and place = 'scrap'
         order by dry_grams > 0 desc, latest_at desc nulls last limit 1) h on true
      left join body b on b.studio_id = v.studio_id and b.body_id = h.body_id
      left join lateral (
        select e.said ->> 'state' as state, g.weighed_at
          from weighing g
          join entry e on e.studio_id = g.studio_id and e.entry_id = g.entry_id
         where g.studio_id = v.studio_id and g.vessel_id = v.vessel_id and e.kind = 'weigh_scrap'
         order by g.weighed_at desc limit 1) w on true
     where v.studio_id = ${studioId} and v.kind in ('bucket', 'tin', 'other')`)
}

/** Slabs on their bats, and open clay on the bench. */
async function lotsOf(ledger: Transaction, studioId: string): Promise<Row[]> {
  return ledger.execute<Row>(sql`
    select case h.place when 'plaster' then 'load' else 'lot' end as kind, l.lot_id as id,
           case h.place when 'plaster' then coalesce(t.name, l.label) else l.label end as name,
           b.name as holds, h.body_id as "bodyId", l.bat_id as "batId",
           h.holding_id as "holdingId", t.dry_grams::text as "tareGrams",
           h.dry_grams::text as "dryGrams", h.water_grams::text as "waterGrams", '0' as pieces,
           null as "lastState",
           ${isoText(sql`case h.place when 'plaster' then h.latest_at end`)} as "lastWeighedAt",
           ${isoText(sql`h.latest_at`)} as "latestAt"
      from holding h
      join lot l on l.studio_id = h.studio_id and l.lot_id = h.lot_id
      join body b on b.studio_id = h.studio_id and b.body_id = h.body_id
      left join bat t on t.studio_id = l.studio_id and t.bat_id = l.bat_id
     where h.studio_id = ${studioId} and h.place in ('plaster', 'bench') and h.dry_grams > 0`)
}

/** Pots that are not fired yet, run by run. */
async function runsOf(ledger: Transaction, studioId: string): Promise<Row[]> {
  return ledger.execute<Row>(sql`
    select 'run' as kind, r.run_id as id, r.label as name, b.name as holds,
           h.body_id as "bodyId", null as "batId", h.holding_id as "holdingId",
           null as "tareGrams", h.dry_grams::text as "dryGrams",
           h.water_grams::text as "waterGrams", h.pieces::text as pieces, null as "lastState",
           null as "lastWeighedAt", ${isoText(sql`h.latest_at`)} as "latestAt"
      from holding h
      join run r on r.studio_id = h.studio_id and r.run_id = h.run_id
      join body b on b.studio_id = h.studio_id and b.body_id = h.body_id
     where h.studio_id = ${studioId} and h.place = 'greenware' and h.pieces > 0`)
}
