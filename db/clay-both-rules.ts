import { sql } from 'drizzle-orm'
import { clayOf, layersRead } from '../shared/cost-layer.ts'
import { decimal } from '../shared/decimal.ts'
import {
  clayCostSum,
  clayCostUnderBothRules,
  type ClayCostMoved,
  type ClayEntry,
  type ClayLine,
} from '../shared/reclaim-at-nil.ts'
import type { Transaction } from './connection.ts'
import { endOf, startOf } from './report-reading.ts'
import type { MonthsAsked } from './run-flows.ts'

interface Row extends Record<string, unknown> {
  entryId: string
  reverses: string | null
  isWithin: boolean
  holding: string
  place: string
  dryGrams: string
  pieces: string
  cost: string
  costLayers: unknown
}

/**
 * The cost of clay of a studio under both rules for reclaim: in some months, and over all time.
 *
 * All entries are followed, as they were written; what happened in the months is a part of them.
 */
export async function clayUnderBothRules(
  ledger: Transaction,
  asked: MonthsAsked,
): Promise<{ period: ClayCostMoved; allTime: ClayCostMoved }> {
  const entries: (ClayEntry & { lines: ClayLine[]; isWithin: boolean })[] = []
  for (const row of await rowsOf(ledger, asked)) {
    const { entryId, reverses, isWithin, holding, place } = row
    if (entries.at(-1)?.id !== entryId) entries.push({ id: entryId, reverses, isWithin, lines: [] })
    entries.at(-1)?.lines.push({
      ...{ holding, place },
      dryGrams: decimal(row.dryGrams),
      pieces: decimal(row.pieces),
      clayCost: clayOf({ cost: decimal(row.cost), costLayers: layersRead(row.costLayers) }),
    })
  }
  const moves = clayCostUnderBothRules(entries)
  return {
    period: clayCostSum(moves.filter((_, index) => entries[index]?.isWithin)),
    allTime: clayCostSum(moves),
  }
}

/** Grain: one row a line that moves clay or money, in the order in which entries were written. */
function rowsOf(ledger: Transaction, { studioId, timeZone, from, to }: MonthsAsked) {
  const since = from === undefined ? sql`true` : sql`e.happened_at >= ${startOf(from, timeZone)}`
  const until = to === undefined ? sql`true` : sql`e.happened_at < ${endOf(to, timeZone)}`
  return ledger.execute<Row>(sql`
    select e.entry_id as "entryId", e.reverses_entry_id as "reverses",
           (${since} and ${until}) as "isWithin", l.holding_id as "holding", h.place as "place",
           l.dry_grams as "dryGrams", l.pieces as "pieces", l.cost as "cost",
           l.cost_layers as "costLayers"
      from line l
      join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
      join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
     where l.studio_id = ${studioId} and (l.dry_grams, l.cost) <> (0, 0)
     order by e.recorded_at, e.entry_id`)
}
