import { sql } from 'drizzle-orm'
import { decimal, ZERO } from '../shared/decimal.ts'
import { NO_DOUBT } from '../shared/doubt.ts'
import type { UnexplainedPart } from '../shared/month-report.ts'
import type { ActKind, MonthMovement } from '../shared/month-world.ts'
import type { Month } from '../shared/month.ts'
import type { Place, PlaceInside } from '../shared/place.ts'
import type { Transaction } from './connection.ts'
import { quantitiesOf } from './quantity-columns.ts'
import {
  COUNTED_KIND,
  endOf,
  LINES_IN_CONTEXT,
  MOVES_SOMETHING,
  startOf,
  SUMS_OF_LINES,
  type SumRow,
} from './report-reading.ts'
import type { StudioFacts } from './studio.ts'

/** Of a clay, or of materials where no body is named: those count in the money of all together. */
export type OfBody<T> = T & { readonly bodyId: string | null }

type MovementRow = SumRow & { bodyId: string | null; place: string; kind: string | null }

/** Grain: one row a body, place and kind of entry in the month; one a body and place for all before. */
export async function movementsOf(
  ledger: Transaction,
  { studioId, timeZone }: StudioFacts,
  month: Month,
): Promise<OfBody<MonthMovement>[]> {
  const rows = await ledger.execute<MovementRow>(sql`
    select h.body_id as "bodyId", h.place as "place",
           case when e.happened_at >= ${startOf(month, timeZone)} then ${COUNTED_KIND} end as "kind",
           ${SUMS_OF_LINES}
      from ${LINES_IN_CONTEXT}
     where l.studio_id = ${studioId} and e.happened_at < ${endOf(month, timeZone)}
     group by 1, 2, 3`)
  return rows.map((row) => ({
    bodyId: row.bodyId,
    place: row.place as Place,
    kind: (row.kind ?? undefined) as ActKind | undefined,
    ...onSheet(row),
  }))
}

/** A sheet has clay, its water and pieces; of materials it has the money alone. */
function onSheet(row: SumRow & { bodyId: string | null }) {
  const some = quantitiesOf(row)
  return row.bodyId === null
    ? { ...some, dryGrams: ZERO, waterGrams: ZERO, pieces: ZERO, dryDoubt: NO_DOUBT }
    : some
}

/**
 * Grain: one row a body, kind of entry and place that gained from `unexplained` or lost to it.
 *
 * An act sets one place right at a time. Where an entry touches others besides, its kind tells which.
 */
export async function unexplainedOf(
  ledger: Transaction,
  { studioId, timeZone }: StudioFacts,
  month: Month,
): Promise<OfBody<UnexplainedPart>[]> {
  const rows = await ledger.execute<
    SumRow & { bodyId: string | null; place: string; kind: string }
  >(sql`
    select "bodyId", "kind",
           case "kind" when 'weigh_scrap' then 'scrap' when 'read_slurry' then 'basin'
                       when 'lose' then 'greenware'
                       else coalesce(touched, case when "bodyId" is null then 'materials' else 'bench' end)
           end as "place",
           sum(-dry) as "dryGrams", sum(-material) as "materialGrams", sum(-water) as "waterGrams",
           sum(-pcs) as "pieces", sum(-money) as "cost",
           doubts_negated(doubts_summed(array_agg(cost_layers))) as "costLayers",
           doubts_negated(doubts_summed(array_agg(dry_doubt))) as "dryDoubt",
           doubts_negated(doubts_summed(array_agg(material_doubt))) as "materialDoubt",
           doubts_negated(doubts_summed(array_agg(cost_doubt))) as "costDoubt"
      from (select h.body_id as "bodyId", ${COUNTED_KIND} as "kind", l.dry_grams as dry,
                   l.water_grams as water, l.pieces as pcs, l.cost as money,
                   l.material_grams as material, l.cost_layers, l.material_doubt,
                   l.dry_doubt, l.cost_doubt,
                   (select min(i.place) from line o
                      join holding i on i.studio_id = o.studio_id and i.holding_id = o.holding_id
                     where o.studio_id = l.studio_id and o.entry_id = l.entry_id
                       and i.is_inside and i.body_id is not distinct from h.body_id
                       and i.material_id is not distinct from h.material_id) as touched
              from ${LINES_IN_CONTEXT}
             where l.studio_id = ${studioId} and h.place = 'unexplained'
               and e.happened_at >= ${startOf(month, timeZone)}
               and e.happened_at < ${endOf(month, timeZone)}
               and ${MOVES_SOMETHING}) as found
     group by 1, 2, 3`)
  return rows.map((row) => ({
    bodyId: row.bodyId,
    place: row.place as PlaceInside,
    kind: row.kind as ActKind,
    ...onSheet(row),
  }))
}

/** Grain: one row a body: the prices of what was delivered in the month, less what was taken back. */
export async function deliveriesOf(
  ledger: Transaction,
  { studioId, timeZone }: StudioFacts,
  month: Month,
) {
  const rows = await ledger.execute<{ bodyId: string; goods: string; freight: string }>(sql`
    select d.body_id as "bodyId",
           sum(case when e.reverses_entry_id is null then d.goods_price else -d.goods_price end) as "goods",
           sum(case when e.reverses_entry_id is null then d.freight else -d.freight end) as "freight"
      from lot d
      join entry e on e.studio_id = d.studio_id
                  and d.made_by_entry_id in (e.entry_id, e.reverses_entry_id)
     where d.studio_id = ${studioId} and d.kind = 'delivery'
       and e.happened_at >= ${startOf(month, timeZone)} and e.happened_at < ${endOf(month, timeZone)}
     group by 1
     order by 1`)
  return rows.map((row) => ({
    bodyId: row.bodyId,
    goods: decimal(row.goods),
    freight: decimal(row.freight),
  }))
}
