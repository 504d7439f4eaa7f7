import { sql } from 'drizzle-orm'
import { decimal } from '../shared/decimal.ts'
import { doubtRead } from '../shared/doubt.ts'
import type { Deliveries } from '../shared/piece-cost.ts'
import type { Transaction } from './connection.ts'
import { endOf, startOf } from './report-reading.ts'
import type { MonthsAsked } from './run-flows.ts'

/** Grain: one row a body: what its deliveries in some months cost and held, less those taken back. */
export async function deliveriesOf(
  ledger: Transaction,
  { studioId, timeZone, from, to }: MonthsAsked,
): Promise<Map<string, Deliveries>> {
  const rows = await ledger.execute<{
    bodyId: string
    goods: string
    freight: string
    dryGrams: string
    dryDoubt: unknown
  }>(sql`
    select d.body_id as "bodyId", sum(d.goods_price) as "goods", sum(d.freight) as "freight",
           sum(d.dry_grams_at_first) as "dryGrams",
           doubts_summed(array_agg(l.dry_doubt)) as "dryDoubt"
      from lot d
      join entry e on e.studio_id = d.studio_id and e.entry_id = d.made_by_entry_id
      join holding h on h.studio_id = d.studio_id and h.lot_id = d.lot_id and h.place = 'store'
      join line l on l.studio_id = h.studio_id and l.holding_id = h.holding_id
                 and l.entry_id = d.made_by_entry_id
     where d.studio_id = ${studioId} and d.kind = 'delivery'
       and not exists (select from entry t
                        where t.studio_id = e.studio_id and t.reverses_entry_id = e.entry_id)
       ${from === undefined ? sql`` : sql`and e.happened_at >= ${startOf(from, timeZone)}`}
       ${to === undefined ? sql`` : sql`and e.happened_at < ${endOf(to, timeZone)}`}
     group by 1`)
  return new Map(
    rows.map((row): [string, Deliveries] => [
      row.bodyId,
      {
        goods: decimal(row.goods),
        freight: decimal(row.freight),
        dryGrams: decimal(row.dryGrams),
        dryDoubt: doubtRead(row.dryDoubt),
      },
    ]),
  )
}
