import { sql } from 'drizzle-orm'
import { RESERVE_WEEKS, WEEKS_LOOKED_BACK, weeksOfClay } from '../../shared/clay-left.ts'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { inSnapshot, isoText } from '../report-reading.ts'
import { findStudio } from '../studio.ts'
import { holdingsTrail, trailTo } from '../trail-links.ts'

/** Clay or pots that nobody counted for so long are due. Our choice: once a month. */
const COUNT_DUE_DAYS = 30

/** Pots of one run at one place, waiting for somebody. */
interface PotsWaiting {
  readonly runId: string
  readonly label: string
  readonly formName: string
  readonly place: 'greenware' | 'bisque' | 'glazed'
  readonly pieces: Decimal
  readonly isTurned: boolean
  readonly thrownAt: string
  readonly latestAt: string
  readonly trail: string
}

/** Something that was not weighed or counted for long. */
interface CountDue {
  readonly holdingId: string
  readonly place: string
  readonly name: string
  readonly countedAt: string | null
  readonly trail: string
}

/** A clay that is bought, and for how long it lasts. */
interface ClayLeft {
  readonly bodyId: string
  readonly name: string
  readonly usableDryGrams: Decimal
  readonly onPlasterDryGrams: Decimal
  readonly thrownDryGrams: Decimal
  /** Null where nothing was thrown of it lately. */
  readonly weeks: Decimal | null
  readonly isDue: boolean
  readonly trail: string
}

interface Report {
  readonly studioId: string
  readonly at: string
  readonly pots: readonly PotsWaiting[]
  readonly countsDue: readonly CountDue[]
  readonly clays: readonly ClayLeft[]
}

export type WaitingReport = Written<Report>

/**
 * What waits for somebody: pots at their stages, what was not counted for a month, clay that runs low.
 *
 * Grain: one row a run and place, one a holding, one a clay. Units: pieces, grams, weeks.
 * Refuses: `studio_not_found`.
 */
export function waitingReport(
  db: Database,
  asked: { readonly studioId: string; readonly now: Date },
): Promise<WaitingReport> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, now } = asked
    await findStudio(ledger, studioId)
    const report: Report = {
      studioId,
      at: now.toISOString(),
      pots: await potsOf(ledger, studioId),
      countsDue: await countsOf(ledger, asked),
      clays: await claysOf(ledger, asked),
    }
    return written(report)
  })
}

type PotsRow = Omit<PotsWaiting, 'pieces' | 'trail'> & { pieces: string } & Record<string, unknown>

async function potsOf(ledger: Transaction, studioId: string): Promise<PotsWaiting[]> {
  const rows = await ledger.execute<PotsRow>(sql`
    select r.run_id as "runId", r.label, f.name as "formName", h.place, h.pieces::text as pieces,
           ${isoText(sql`r.thrown_at`)} as "thrownAt", ${isoText(sql`h.latest_at`)} as "latestAt",
           exists (select from line l
                     join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
                    where l.studio_id = h.studio_id and l.holding_id = h.holding_id
                      and e.kind = 'turn' and not exists (
                        select from entry b where b.studio_id = e.studio_id
                           and b.reverses_entry_id = e.entry_id)) as "isTurned"
      from holding h
      join run r on r.studio_id = h.studio_id and r.run_id = h.run_id
      join form f on f.studio_id = r.studio_id and f.form_id = r.form_id
     where h.studio_id = ${studioId} and h.place in ('greenware', 'bisque', 'glazed') and h.pieces > 0
     order by r.thrown_at, r.run_id`)
  return rows.map((row) => ({
    ...row,
    pieces: decimal(row.pieces),
    trail: trailTo('runs', row.runId),
  }))
}

async function countsOf(
  ledger: Transaction,
  { studioId, now }: { studioId: string; now: Date },
): Promise<CountDue[]> {
  const rows = await ledger.execute<Omit<CountDue, 'trail'> & Record<string, unknown>>(sql`
    select h.holding_id as "holdingId", h.place,
           coalesce(v.name, l.label, r.label, b.name) as name,
           ${isoText(sql`c.counted_at`)} as "countedAt"
      from holding h
      join body b on b.studio_id = h.studio_id and b.body_id = h.body_id
      left join vessel v on v.studio_id = h.studio_id and v.vessel_id = h.vessel_id
      left join lot l on l.studio_id = h.studio_id and l.lot_id = h.lot_id
      left join run r on r.studio_id = h.studio_id and r.run_id = h.run_id
      left join lateral (
        select max(e.happened_at) as counted_at
          from entry e
          left join estimate t on t.studio_id = e.studio_id and t.entry_id = e.entry_id
          left join line n on n.studio_id = e.studio_id and n.entry_id = e.entry_id
         where e.studio_id = h.studio_id
           and (t.holding_id = h.holding_id or n.holding_id = h.holding_id)
           and e.kind in ('count', 'weigh_scrap', 'read_slurry', 'open_books', 'receive_delivery',
                          'open_bag', 'wedge', 'lift')) c on true
     where h.studio_id = ${studioId} and h.dry_grams > 0
       and h.place in ('store', 'bench', 'scrap', 'basin')
       and (c.counted_at is null
            or c.counted_at < ${now.toISOString()}::timestamptz - make_interval(days => ${COUNT_DUE_DAYS}))
     order by c.counted_at nulls first, name`)
  return rows.map((row) => ({ ...row, trail: trailTo('holdings', row.holdingId) }))
}

interface ClayRow extends Record<string, unknown> {
  bodyId: string
  name: string
  usable: string
  onPlaster: string
  thrown: string
}

async function claysOf(
  ledger: Transaction,
  { studioId, now }: { studioId: string; now: Date },
): Promise<ClayLeft[]> {
  const rows = await ledger.execute<ClayRow>(sql`
    select b.body_id as "bodyId", b.name,
           coalesce(sum(h.dry_grams) filter (where h.place in ('store', 'bench')), 0)::text as usable,
           coalesce(sum(h.dry_grams) filter (where h.place = 'plaster'), 0)::text as "onPlaster",
           coalesce((
             select sum(-l.dry_grams)
               from line l
               join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
               left join entry r on r.studio_id = e.studio_id
                                and r.entry_id = e.reverses_entry_id
               join holding o on o.studio_id = l.studio_id and o.holding_id = l.holding_id
              where l.studio_id = b.studio_id and o.body_id = b.body_id and o.place = 'bench'
                and coalesce(r.kind, e.kind) in ('throw', 'join')
                and e.happened_at > ${now.toISOString()}::timestamptz
                                    - make_interval(weeks => ${WEEKS_LOOKED_BACK})), 0)::text as thrown
      from body b
      left join holding h on h.studio_id = b.studio_id and h.body_id = b.body_id and h.is_inside
     where b.studio_id = ${studioId} and not b.is_blend
     group by b.studio_id, b.body_id, b.name
     order by b.name`)
  return rows.map(clayLeft)
}

function clayLeft({ bodyId, name, usable, onPlaster, thrown }: ClayRow): ClayLeft {
  const usableDryGrams = decimal(usable)
  const thrownDryGrams = decimal(thrown)
  const weeks = weeksOfClay({ usableDryGrams, thrownDryGrams })
  return {
    bodyId,
    name,
    usableDryGrams,
    onPlasterDryGrams: decimal(onPlaster),
    thrownDryGrams,
    weeks: weeks?.toDecimalPlaces(1) ?? null,
    isDue: weeks?.lessThan(RESERVE_WEEKS) ?? false,
    trail: holdingsTrail({ bodyId }),
  }
}
