import { sql } from 'drizzle-orm'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import type { Mass } from '../../shared/units.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { inSnapshot, isoText } from '../report-reading.ts'
import { findStudio } from '../studio.ts'

interface Thrown {
  readonly formId: string
  readonly name: string
  /** As the catalogue has it. */
  readonly ballGrams: string | null
  readonly lastThrownAt: string | null
  /** As they were cut the last time; null where that time was not told in balls. */
  readonly lastBallMass: Mass | null
  readonly lastBalls: number | null
  readonly lastLotId: string | null
}

interface Bench {
  readonly lotId: string
  readonly label: string
  readonly bodyId: string
  readonly bodyName: string
  readonly dryGrams: Decimal
  readonly wetGrams: Decimal
  /** When clay of it was thrown or joined on the last time. */
  readonly lastUsedAt: string | null
}

/** A form that can be thrown, with how it was thrown the last time. */
export type FormThrown = Written<Thrown>
/** Open clay on the bench. */
export type ClayOnBench = Written<Bench>

export interface ThrowingChoices {
  readonly forms: readonly FormThrown[]
  readonly clays: readonly ClayOnBench[]
}

/**
 * What there is to choose from before throwing: the forms, last thrown first, and the open clay on the
 * bench, last used first.
 *
 * Grain: one row a form; one row a lot of which something lies on the bench. Units: grams.
 * Refuses: `studio_not_found`.
 */
export function throwingChoices(db: Database, studioId: string): Promise<ThrowingChoices> {
  return inSnapshot(db, async (ledger) => {
    await findStudio(ledger, studioId)
    return { forms: await formsOf(ledger, studioId), clays: await claysOf(ledger, studioId) }
  })
}

type FormRow = FormThrown & Record<string, unknown>

/** Grain: one row a form. Of several clays in one throwing the first that is told in balls counts. */
async function formsOf(ledger: Transaction, studioId: string): Promise<FormThrown[]> {
  const rows = await ledger.execute<FormRow>(sql`
    select f.form_id as "formId", f.name, f.ball_grams::text as "ballGrams",
           ${isoText(sql`t.thrown_at`)} as "lastThrownAt",
           case when s.source is null then null else s.source -> 'ballMass' end as "lastBallMass",
           (s.source ->> 'balls')::integer as "lastBalls",
           coalesce(s.source, t.said -> 'from' -> 0) ->> 'lotId' as "lastLotId"
      from form f
      left join lateral (
        select r.thrown_at, e.said
          from run r
          join entry e on e.studio_id = r.studio_id and e.entry_id = r.made_by_entry_id
         where r.studio_id = f.studio_id and r.form_id = f.form_id and e.kind = 'throw'
           and not exists (select from entry b where b.studio_id = e.studio_id
                                                 and b.reverses_entry_id = e.entry_id)
         order by r.thrown_at desc, r.run_id desc limit 1) t on true
      left join lateral (
        select source from jsonb_array_elements(t.said -> 'from') with ordinality as one (source, place)
         where source ? 'balls' order by place limit 1) s on true
     where f.studio_id = ${studioId}
     order by t.thrown_at desc nulls last, f.name`)
  return [...rows]
}

type BenchRow = Omit<ClayOnBench, 'wetGrams'> & { waterGrams: string } & Record<string, unknown>

/** Grain: one row a lot. */
async function claysOf(ledger: Transaction, studioId: string): Promise<ClayOnBench[]> {
  const rows = await ledger.execute<BenchRow>(sql`
    select l.lot_id as "lotId", l.label, h.body_id as "bodyId", b.name as "bodyName",
           h.dry_grams::text as "dryGrams", h.water_grams::text as "waterGrams",
           ${isoText(sql`u.used_at`)} as "lastUsedAt"
      from holding h
      join lot l on l.studio_id = h.studio_id and l.lot_id = h.lot_id
      join body b on b.studio_id = h.studio_id and b.body_id = h.body_id
      left join lateral (
        select max(e.happened_at) as used_at
          from line n
          join entry e on e.studio_id = n.studio_id and e.entry_id = n.entry_id
         where n.studio_id = h.studio_id and n.holding_id = h.holding_id
           and e.kind in ('throw', 'join')) u on true
     where h.studio_id = ${studioId} and h.place = 'bench' and h.dry_grams > 0
     order by u.used_at desc nulls last, h.latest_at desc, l.lot_id`)
  return rows.map(({ waterGrams, ...row }) => {
    const dryGrams = decimal(row.dryGrams)
    return written({ ...row, dryGrams, wetGrams: dryGrams.plus(waterGrams) })
  })
}
