import { sql } from 'drizzle-orm'
import { layersRead } from '../shared/cost-layer.ts'
import { decimal } from '../shared/decimal.ts'
import { doubtRead } from '../shared/doubt.ts'
import type { Packed } from '../shared/piece-cost.ts'
import type { Transaction } from './connection.ts'
import { COUNTED_KIND, endOf, LINES_IN_CONTEXT, startOf } from './report-reading.ts'
import type { MonthsAsked } from './run-flows.ts'

/** Grain: one row a form: what its sold pieces were packed in, less what was taken back. */
export async function packedOf(
  ledger: Transaction,
  { studioId, timeZone, from, to }: MonthsAsked,
): Promise<Map<string, Packed>> {
  const rows = await ledger.execute<{
    formId: string
    cost: string
    costLayers: unknown
    costDoubt: unknown
  }>(sql`
    select s.form_id as "formId", sum(l.cost) as "cost",
           doubts_summed(array_agg(l.cost_layers)) as "costLayers",
           doubts_summed(array_agg(l.cost_doubt)) as "costDoubt"
      from ${LINES_IN_CONTEXT}
      join sale s on s.studio_id = e.studio_id and s.entry_id = coalesce(r.entry_id, e.entry_id)
     where l.studio_id = ${studioId} and ${COUNTED_KIND} = 'sell'
       and h.place = 'customer' and h.material_id is not null
       ${from === undefined ? sql`` : sql`and e.happened_at >= ${startOf(from, timeZone)}`}
       ${to === undefined ? sql`` : sql`and e.happened_at < ${endOf(to, timeZone)}`}
     group by 1`)
  return new Map(
    rows.map((row): [string, Packed] => [
      row.formId,
      {
        cost: { amount: decimal(row.cost), doubt: doubtRead(row.costDoubt) },
        costLayers: layersRead(row.costLayers),
      },
    ]),
  )
}
