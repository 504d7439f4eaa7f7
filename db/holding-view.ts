import { layersRead, layersWritten } from '../shared/cost-layer.ts'
import { decimal, ZERO } from '../shared/decimal.ts'
import { doubtRead } from '../shared/doubt.ts'
import { reasonsUnsure, type ReasonUnsure } from '../shared/doubt-source.ts'
import { stockFigures, type StockFigures } from '../shared/stock-figures.ts'
import { written, type Written } from '../shared/written.ts'
import { quantitiesOf } from './quantity-columns.ts'
import type { holding } from './schema.ts'
import { entriesTrail, trailTo, trailToAny } from './trail-links.ts'

/** A holding as it is shown: what it is, what it has, and where one can go from it. */
export interface HoldingView extends Written<StockFigures> {
  readonly holdingId: string
  readonly place: string
  readonly isInside: boolean
  readonly bodyId: string | null
  readonly materialId: string | null
  readonly lotId: string | null
  readonly runId: string | null
  readonly vesselId: string | null
  readonly grade: string | null
  /** Dry, of what is no clay. */
  readonly materialGrams: string
  /** What of the cost is not for clay, by what it is for. */
  readonly costLayers: Readonly<Record<string, string>>
  /** Why its dry mass is unsure, the weightiest reason first. */
  readonly unsureBecause: Written<readonly ReasonUnsure[]>
  readonly links: {
    readonly self: string
    readonly entries: string
    readonly body: string | null
    readonly material: string | null
    readonly lot: string | null
    readonly run: string | null
    readonly vessel: string | null
  }
}

/** The view of a row. One outside keeps no balance and shows none. */
export function viewHolding(row: typeof holding.$inferSelect): HoldingView {
  const { holdingId, place, isInside, bodyId, materialId, lotId, runId, vesselId, grade } = row
  return {
    ...{ holdingId, place, isInside, bodyId, materialId, lotId, runId, vesselId, grade },
    ...written(stockFigures(quantitiesOf(row), place === 'store' ? decimal(row.pieces) : ZERO)),
    materialGrams: decimal(row.materialGrams).toFixed(),
    costLayers: layersWritten(layersRead(row.costLayers)),
    unsureBecause: written(reasonsUnsure(doubtRead(row.dryDoubt))),
    links: {
      self: trailTo('holdings', holdingId),
      entries: entriesTrail({ holdingId }),
      body: trailToAny('bodies', bodyId),
      material: trailToAny('materials', materialId),
      lot: trailToAny('lots', lotId),
      run: trailToAny('runs', runId),
      vessel: trailToAny('vessels', vesselId),
    },
  }
}
