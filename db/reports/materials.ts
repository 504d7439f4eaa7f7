import { sql } from 'drizzle-orm'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import type { KeptBy } from '../../shared/material.ts'
import {
  costPerUnit,
  isReorderReached,
  nextPriceStep,
  pricePaid,
  type PriceStep,
} from '../../shared/material-stock.ts'
import { standardUncertaintyOfDoubt } from '../../shared/doubt.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { quantitiesOf } from '../quantity-columns.ts'
import { inSnapshot, type SumRow } from '../report-reading.ts'
import { findStudio } from '../studio.ts'
import { holdingsTrail } from '../trail-links.ts'

interface LastDelivery {
  readonly happenedAt: string
  /** A kilogram as supplied, or a piece, freight among it. */
  readonly pricePerUnit: Decimal | null
}

interface MaterialRow {
  readonly materialId: string
  readonly name: string
  readonly kind: string
  readonly keptBy: KeptBy
  /** 'materials', the shelf, or 'glaze_bucket'. */
  readonly place: string
  readonly dryGrams: Decimal
  readonly dryUncertaintyGrams: Decimal
  readonly waterGrams: Decimal
  readonly pieces: Decimal
  readonly cost: Decimal
  /** A kilogram dry, or a piece. */
  readonly costPerUnit: Decimal | null
  readonly reorderPoint: Decimal | null
  /** Null where no point is said. */
  readonly isReorderReached: boolean | null
  readonly lastDelivery: LastDelivery | null
  readonly nextPriceStep: PriceStep | null
  readonly hazards: readonly Readonly<Record<string, unknown>>[]
  readonly trail: string
}

interface Report {
  readonly studioId: string
  readonly currency: string
  readonly materials: readonly MaterialRow[]
  readonly cost: Decimal
}

export type MaterialsReport = Written<Report>

/**
 * What is on the shelf and in buckets beside clay: how much, what it cost, and what to order.
 *
 * Units: grams, pieces, money. Refuses: `studio_not_found`.
 */
export function materialsReport(db: Database, studioId: string): Promise<MaterialsReport> {
  return inSnapshot(db, async (ledger) => {
    const { currency } = await findStudio(ledger, studioId)
    const materials = (await materialRows(ledger, studioId)).map(materialOf)
    const cost = materials.reduce((sum, one) => sum.plus(one.cost), ZERO)
    const report: Report = { studioId, currency, materials, cost }
    return written(report)
  })
}

type Row = SumRow & {
  materialId: string
  name: string
  kind: string
  keptBy: KeptBy
  place: string
  reorderPoint: string | null
  priceSteps: readonly { atLeast: string; pricePerUnit: string }[]
  hazards: readonly Readonly<Record<string, unknown>>[]
  deliveredAt: string | null
  delivered: string | null
  paid: string | null
}

/** Grain: one row a material and place; a material that is nowhere stands on the shelf with nothing. */
function materialRows(ledger: Transaction, studioId: string): Promise<readonly Row[]> {
  return ledger.execute<Row>(sql`
    select m.material_id as "materialId", m.name as "name", m.kind as "kind", m.kept_by as "keptBy",
           coalesce(h.place, case m.kind when 'glaze' then 'glaze_bucket' else 'materials' end) as "place",
           m.reorder_point as "reorderPoint", m.price_steps as "priceSteps", m.hazards as "hazards",
           d."deliveredAt", d."delivered", d."paid",
           0 as "dryGrams", coalesce(sum(h.material_grams), 0) as "materialGrams",
           coalesce(sum(h.water_grams), 0) as "waterGrams", coalesce(sum(h.pieces), 0) as "pieces",
           coalesce(sum(h.cost), 0) as "cost",
           doubts_summed(array_agg(h.cost_layers)) as "costLayers", '{}'::jsonb as "dryDoubt",
           doubts_summed(array_agg(h.material_doubt)) as "materialDoubt",
           doubts_summed(array_agg(h.cost_doubt)) as "costDoubt"
      from material m
      left join holding h on h.studio_id = m.studio_id and h.material_id = m.material_id and h.is_inside
      left join lateral (
        select to_char(e.happened_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as "deliveredAt",
               coalesce(t.pieces, t.wet_grams) as "delivered", t.goods_price + t.freight as "paid"
          from material_delivery t
          join entry e on e.studio_id = t.studio_id and e.entry_id = t.entry_id
         where t.studio_id = m.studio_id and t.material_id = m.material_id
           and not exists (select from entry b
                            where b.studio_id = e.studio_id and b.reverses_entry_id = e.entry_id)
         order by e.happened_at desc, e.entry_id desc limit 1) d on true
     where m.studio_id = ${studioId}
     group by 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11
     order by m.kind, m.name, 5`)
}

function materialOf(row: Row): MaterialRow {
  const { materialId, name, kind, keptBy, place, hazards } = row
  const held = quantitiesOf(row)
  const { materialGrams, waterGrams, pieces, cost } = held
  const reorderPoint = row.reorderPoint === null ? null : decimal(row.reorderPoint)
  const bought = decimal(row.delivered ?? '0')
  const steps = row.priceSteps.map(({ atLeast, pricePerUnit }) => ({
    atLeast: decimal(atLeast),
    pricePerUnit: decimal(pricePerUnit),
  }))
  return {
    ...{ materialId, name, kind, keptBy, place, hazards, waterGrams, pieces, cost, reorderPoint },
    dryGrams: materialGrams,
    dryUncertaintyGrams: standardUncertaintyOfDoubt(held.materialDoubt),
    costPerUnit: costPerUnit(held, keptBy),
    isReorderReached: isReorderReached(held, { keptBy, reorderPoint }),
    lastDelivery: lastDeliveryOf(row, bought),
    nextPriceStep: nextPriceStep(steps, bought, keptBy),
    trail: holdingsTrail({ place }),
  }
}

function lastDeliveryOf({ deliveredAt, paid, keptBy }: Row, amount: Decimal): LastDelivery | null {
  if (deliveredAt === null) return null
  return {
    happenedAt: deliveredAt,
    pricePerUnit: pricePaid({ amount, paid: decimal(paid ?? '0') }, keptBy),
  }
}
