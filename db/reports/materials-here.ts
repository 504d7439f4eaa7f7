import { sql } from 'drizzle-orm'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { howSure, type HowSure } from '../../shared/how-sure.ts'
import type { KeptBy, MaterialKind } from '../../shared/material.ts'
import { isReorderReached } from '../../shared/material-stock.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database } from '../connection.ts'
import { quantitiesOf } from '../quantity-columns.ts'
import { inSnapshot, type SumRow } from '../report-reading.ts'
import { findStudio } from '../studio.ts'
import { trailToAny } from '../trail-links.ts'

interface MaterialHere {
  readonly materialId: string
  readonly name: string
  readonly kind: MaterialKind
  readonly keptBy: KeptBy
  /** Its holding on the shelf; null where it never lay there. */
  readonly holdingId: string | null
  readonly dryGrams: Decimal
  /** How sure the dry mass is. */
  readonly sure: HowSure
  /** As it lies there, with its water. */
  readonly wetGrams: Decimal
  readonly pieces: Decimal
  readonly cost: Decimal
  /** Order when so much is left: dry grams, or pieces. */
  readonly reorderPoint: Decimal | null
  readonly isToReorder: boolean
  readonly trail: string | null
}

export type MaterialsHere = Written<readonly MaterialHere[]>

type Row = SumRow & {
  materialId: string
  name: string
  kind: MaterialKind
  keptBy: KeptBy
  reorderPoint: string | null
  holdingId: string | null
}

/**
 * What a studio keeps beside clay and how much of it lies on the shelf; glaze in buckets is not among it.
 *
 * Grain: one row a material of the catalogue, kind by kind and by name. Units: grams, pieces, money.
 * Refuses: `studio_not_found`.
 */
export function materialsHere(db: Database, studioId: string): Promise<MaterialsHere> {
  return inSnapshot(db, async (ledger) => {
    await findStudio(ledger, studioId)
    const rows = await ledger.execute<Row>(sql`
      select m.material_id as "materialId", m.name as "name", m.kind as "kind",
             m.kept_by as "keptBy", m.reorder_point as "reorderPoint",
             h.holding_id as "holdingId", coalesce(h.dry_grams, 0) as "dryGrams",
             coalesce(h.material_grams, 0) as "materialGrams",
             coalesce(h.water_grams, 0) as "waterGrams", coalesce(h.pieces, 0) as "pieces",
             coalesce(h.cost, 0) as "cost", coalesce(h.cost_layers, '{}') as "costLayers",
             coalesce(h.dry_doubt, '{}') as "dryDoubt",
             coalesce(h.material_doubt, '{}') as "materialDoubt",
             coalesce(h.cost_doubt, '{}') as "costDoubt"
        from material m
        left join holding h on h.studio_id = m.studio_id and h.material_id = m.material_id
                           and h.place = 'materials'
       where m.studio_id = ${studioId}
       order by m.kind, m.name`)
    return written(rows.map(rowOf))
  })
}

function rowOf(row: Row): MaterialHere {
  const { materialId, name, kind, keptBy, holdingId } = row
  const held = quantitiesOf(row)
  const { materialGrams: dryGrams, waterGrams, pieces, cost } = held
  const reorderPoint = row.reorderPoint === null ? null : decimal(row.reorderPoint)
  return {
    ...{ materialId, name, kind, keptBy, holdingId, dryGrams, pieces, cost, reorderPoint },
    sure: howSure({ amount: dryGrams, doubt: held.materialDoubt }),
    wetGrams: dryGrams.plus(waterGrams),
    isToReorder: isReorderReached(held, { keptBy, reorderPoint }) === true,
    trail: trailToAny('holdings', holdingId),
  }
}
