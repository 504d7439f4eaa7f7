import { sql, type SQL } from 'drizzle-orm'
import type { Database, Transaction } from '../connection.ts'
import { inSnapshot } from '../report-reading.ts'

/** One promise of the ledger that does not hold. */
export interface LedgerFault {
  readonly promise:
    | 'balance_must_equal_its_lines'
    | 'entry_must_balance'
    | 'doubt_must_balance'
    | 'reversal_must_mirror'
    | 'studio_must_sum_to_zero'
  readonly studioId: string
  readonly id: string
  readonly detail: string
}

/** What the lines of every studio together come to: each column is zero where the books are right. */
export interface LedgerTotals {
  readonly dryGrams: string
  readonly materialGrams: string
  readonly waterGrams: string
  readonly pieces: string
  readonly cost: string
}

export interface Reconciliation {
  readonly studios: number
  readonly holdings: number
  readonly entries: number
  readonly lines: number
  readonly totals: LedgerTotals
  readonly faults: readonly LedgerFault[]
}

const NOTHING: LedgerTotals = {
  ...{ dryGrams: '0', materialGrams: '0', waterGrams: '0', pieces: '0', cost: '0' },
}

/**
 * A second opinion on the whole ledger, from the lines alone: that every balance is the sum of its
 * lines, every entry sums to zero in its five columns, layer by layer of its cost and, source by source, in what makes
 * them unsure, every reversal is the mirror of what it takes
 * back, and that inside and outside together are nothing.
 */
export function reconcile(db: Database): Promise<Reconciliation> {
  return inSnapshot(db, async (ledger) => {
    const [counts] = await ledger.execute<Record<string, number>>(COUNTS)
    const [totals] = await ledger.execute<LedgerTotals & Record<string, unknown>>(TOTALS)
    const { studios = 0, holdings = 0, entries = 0, lines = 0 } = counts ?? {}
    return {
      studios,
      holdings,
      entries,
      lines,
      totals: { ...NOTHING, ...totals },
      faults: [
        ...(await faultsOf(ledger, 'balance_must_equal_its_lines', BALANCES)),
        ...(await faultsOf(ledger, 'entry_must_balance', ENTRIES)),
        ...(await faultsOf(ledger, 'doubt_must_balance', DOUBTS)),
        ...(await faultsOf(ledger, 'reversal_must_mirror', REVERSALS)),
        ...(await faultsOf(ledger, 'studio_must_sum_to_zero', STUDIOS)),
      ],
    }
  })
}

async function faultsOf(
  ledger: Transaction,
  promise: LedgerFault['promise'],
  query: SQL,
): Promise<LedgerFault[]> {
  const rows = await ledger.execute<{ studioId: string; id: string; detail: string }>(query)
  return rows.map((row) => ({ promise, ...row }))
}

/** Grain: one row. */
const COUNTS = sql`
  select (select count(*) from studio)::int as "studios",
         (select count(*) from holding)::int as "holdings",
         (select count(*) from entry)::int as "entries",
         (select count(*) from line)::int as "lines"`

/** Grain: one row. Cut to plain zeros, because 0.000000 is nothing too. */
const TOTALS = sql`
  select trim_scale(coalesce(sum(dry_grams), 0)) as "dryGrams",
         trim_scale(coalesce(sum(material_grams), 0)) as "materialGrams",
         trim_scale(coalesce(sum(water_grams), 0)) as "waterGrams",
         trim_scale(coalesce(sum(pieces), 0)) as "pieces",
         trim_scale(coalesce(sum(cost), 0)) as "cost"
    from line`

/** Grain: one row a holding whose balance, in any of its columns, is not what its lines sum to. */
const BALANCES = sql`
  select h.studio_id as "studioId", h.holding_id as "id",
         format('kept %s g dry clay, %s g of materials, %s g water, %s pieces, %s money (%s), unsure by %s, %s and %s; its lines sum to %s, %s, %s, %s, %s (%s), %s, %s and %s',
                h.dry_grams, h.material_grams, h.water_grams, h.pieces, h.cost, h.cost_layers, h.dry_doubt,
                h.material_doubt, h.cost_doubt,
                s.dry_grams, s.material_grams, s.water_grams, s.pieces, s.cost, s.cost_layers, s.dry_doubt,
                s.material_doubt, s.cost_doubt) as "detail"
    from holding h
   cross join lateral (
     select coalesce(sum(dry_grams), 0) as dry_grams, coalesce(sum(material_grams), 0) as material_grams,
            coalesce(sum(water_grams), 0) as water_grams,
            coalesce(sum(pieces), 0) as pieces, coalesce(sum(cost), 0) as cost,
            doubts_summed(array_agg(cost_layers)) as cost_layers,
            doubts_summed(array_agg(dry_doubt)) as dry_doubt,
            doubts_summed(array_agg(material_doubt)) as material_doubt,
            doubts_summed(array_agg(cost_doubt)) as cost_doubt
       from line l where l.studio_id = h.studio_id and l.holding_id = h.holding_id) s
   where case when h.is_inside
              then (h.dry_grams, h.material_grams, h.water_grams, h.pieces, h.cost, h.cost_layers, h.dry_doubt,
                    h.material_doubt, h.cost_doubt)
                   <> (s.dry_grams, s.material_grams, s.water_grams, s.pieces, s.cost, s.cost_layers, s.dry_doubt,
                       s.material_doubt, s.cost_doubt)
              else (h.dry_grams, h.material_grams, h.water_grams, h.pieces, h.cost, h.cost_layers, h.dry_doubt,
                    h.material_doubt, h.cost_doubt)
                   <> (0, 0, 0, 0, 0, '{}', '{}', '{}', '{}') end
   order by 1, 2`

/** Grain: one row an entry whose lines do not sum to zero. */
const ENTRIES = sql`
  select l.studio_id as "studioId", l.entry_id as "id",
         format('sums to %s g dry clay, %s g of materials, %s g water, %s pieces, %s money (%s)',
                sum(l.dry_grams), sum(l.material_grams), sum(l.water_grams), sum(l.pieces), sum(l.cost),
                doubts_summed(array_agg(l.cost_layers))) as "detail"
    from line l
   group by 1, 2
  having (sum(l.dry_grams), sum(l.material_grams), sum(l.water_grams), sum(l.pieces), sum(l.cost),
          doubts_summed(array_agg(l.cost_layers))) <> (0, 0, 0, 0, 0, '{}')
   order by 1, 2`

/**
 * Grain: one row an entry whose lines do not sum to nothing in what makes them unsure. What was kept
 * before sources were told apart stands on one line alone.
 */
const DOUBTS = sql`
  select l.studio_id as "studioId", l.entry_id as "id",
         format('sums to %s and %s of doubt', doubts_summed(array_agg(l.dry_doubt)),
                doubts_summed(array_agg(l.cost_doubt))) as "detail"
    from line l
   group by 1, 2
  having doubts_summed(array_agg(l.material_doubt)) <> '{}'
      or exists (select from jsonb_object_keys(doubts_summed(array_agg(l.dry_doubt))) as source
                  where source not like 'earlier|%')
      or doubts_summed(array_agg(l.cost_doubt)) <> '{}'
   order by 1, 2`

/** Grain: one row a reversal and holding at which it is not the mirror of what it takes back. */
const REVERSALS = sql`
  select m.studio_id as "studioId", m.reversal_id as "id",
         format('does not mirror at holding %s', m.holding_id) as "detail"
    from (select e.studio_id, e.entry_id as reversal_id, l.holding_id, l.dry_grams, l.material_grams,
                 l.water_grams, l.pieces, l.cost, l.cost_layers, l.dry_doubt, l.material_doubt, l.cost_doubt
            from entry e
            join line l on l.studio_id = e.studio_id
                       and l.entry_id in (e.entry_id, e.reverses_entry_id)
           where e.reverses_entry_id is not null) m
   group by m.studio_id, m.reversal_id, m.holding_id
  having (sum(m.dry_grams), sum(m.material_grams), sum(m.water_grams), sum(m.pieces), sum(m.cost)) <> (0, 0, 0, 0, 0)
      or (doubts_summed(array_agg(m.cost_layers)), doubts_summed(array_agg(m.dry_doubt)),
          doubts_summed(array_agg(m.material_doubt)), doubts_summed(array_agg(m.cost_doubt))) <> ('{}', '{}', '{}', '{}')
   order by 1, 2, m.holding_id`

/** Grain: one row a studio whose inside and outside together are not nothing. */
const STUDIOS = sql`
  select l.studio_id as "studioId", l.studio_id as "id",
         format('sums to %s g dry clay, %s g of materials, %s g water, %s pieces, %s money (%s)',
                sum(l.dry_grams), sum(l.material_grams), sum(l.water_grams), sum(l.pieces), sum(l.cost),
                doubts_summed(array_agg(l.cost_layers))) as "detail"
    from line l
   group by 1
  having (sum(l.dry_grams), sum(l.material_grams), sum(l.water_grams), sum(l.pieces), sum(l.cost),
          doubts_summed(array_agg(l.cost_layers))) <> (0, 0, 0, 0, 0, '{}')
   order by 1`
