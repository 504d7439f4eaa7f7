import { sql, type SQL } from 'drizzle-orm'
import { layersRead } from '../../shared/cost-layer.ts'
import { decimal } from '../../shared/decimal.ts'
import { moneyAccount, type MoneyAccount, type MoneyMoved } from '../../shared/money-accounted.ts'
import type { ActKind } from '../../shared/month-world.ts'
import type { Place } from '../../shared/place.ts'
import type { Database, Transaction } from '../connection.ts'
import { COUNTED_KIND, inSnapshot, LINES_IN_CONTEXT } from '../report-reading.ts'

/** Where a studio's money came from and where it is. */
export interface StudioMoney {
  readonly studioId: string
  readonly studioName: string
  readonly currency: string
  readonly account: MoneyAccount
}

/**
 * The money of every studio from the lines alone: what came in, and that all of it is in stock, out of the door or
 * lost by name.
 */
export function moneyOfStudios(db: Database): Promise<StudioMoney[]> {
  return inSnapshot(db, async (ledger) => {
    const studios = await ledger.execute<{ studioId: string; name: string; currency: string }>(
      sql`select studio_id as "studioId", name, currency from studio order by studio_id`,
    )
    const all: StudioMoney[] = []
    for (const { studioId, name, currency } of studios) {
      const account = moneyAccount(await moneyMoved(ledger, studioId))
      all.push({ studioId, studioName: name, currency, account })
    }
    return all
  })
}

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
