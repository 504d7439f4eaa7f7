import { sql, type SQL } from 'drizzle-orm'
import { layersRead } from '../shared/cost-layer.ts'
import { decimal } from '../shared/decimal.ts'
import type { MoneyMoved } from '../shared/money-accounted.ts'
import type { ActKind } from '../shared/month-world.ts'
import type { Place } from '../shared/place.ts'
import type { Transaction } from './connection.ts'
import { COUNTED_KIND, LINES_IN_CONTEXT } from './report-reading.ts'

/** Grain: one row a place and kind of entry: what they moved of money, layer by layer. */
export async function moneyMoved(
  ledger: Transaction,
  studioId: string,
  within: SQL = sql``,
): Promise<MoneyMoved[]> {
  const rows = await ledger.execute<{
    place: string
    kind: string
    cost: string
    costLayers: unknown
  }>(sql`
    select h.place as "place", ${COUNTED_KIND} as "kind", sum(l.cost) as "cost",
           doubts_summed(array_agg(l.cost_layers)) as "costLayers"
      from ${LINES_IN_CONTEXT}
     where l.studio_id = ${studioId} ${within}
     group by 1, 2`)
  return rows.map((row) => ({
    place: row.place as Place,
    kind: row.kind as ActKind,
    cost: decimal(row.cost),
    costLayers: layersRead(row.costLayers),
  }))
}
