import { sql } from 'drizzle-orm'
import { decimal, ZERO } from '../shared/decimal.ts'
import { shareOut } from '../shared/money.ts'
import type { ReclaimAct } from '../shared/reclaim-told.ts'
import type { ReclaimWay } from '../shared/reclaim-worth.ts'
import type { Transaction } from './connection.ts'
import { endOf, isoText, startOf } from './report-reading.ts'
import type { MonthsAsked } from './run-flows.ts'

/** Acts that make clay of scrap again, in the order of the work. */
export const RECLAIM_KINDS = [
  'weigh_scrap',
  'slake',
  'decant',
  'pour',
  'move_load',
  'lift',
  'wedge',
] as const
export type ReclaimKind = (typeof RECLAIM_KINDS)[number]

export interface ReclaimEntry extends ReclaimAct {
  readonly entryId: string
  readonly kind: ReclaimKind
  readonly happenedAt: string
}

interface Row extends Record<string, unknown> {
  readonly entryId: string
  readonly kind: ReclaimKind
  readonly happenedAt: string
  readonly way: ReclaimWay | null
  readonly minutes: string | null
  readonly saidBodyId: string | null
  readonly clays: readonly Clay[]
}

/** What an act moved of one clay, as the database puts it into JSON: digits as text. */
interface Clay {
  readonly bodyId: string
  /** At the place where such an act is at work. */
  readonly worked: string
  readonly reclaimed: string
}

/**
 * The acts of reclaim in some months that stand, each as far as it was about one clay.
 *
 * Clay comes back where a load is lifted, and where scrap is wedged in. Wedging counts where it takes
 * scrap, or clay that was lifted, or says its way. What was lifted and then wedged went the way that was
 * said at the wedging. Minutes of an act about several clays are shared by dry mass.
 *
 * Shape: oldest first. Units: dry grams, minutes.
 */
export async function reclaimEntries(
  ledger: Transaction,
  asked: MonthsAsked,
): Promise<ReclaimEntry[]> {
  return (await rowsOf(ledger, asked)).flatMap(entriesOf)
}

function entriesOf(row: Row): ReclaimEntry[] {
  const { entryId, kind, happenedAt, way, minutes, saidBodyId } = row
  const told = { entryId, kind, happenedAt, way }
  const all = minutes === null ? null : decimal(minutes)
  const clays = claysOf(row)
  if (clays.length === 0) {
    return saidBodyId === null
      ? []
      : [{ ...told, bodyId: saidBodyId, minutes: all, reclaimedDryGrams: ZERO }]
  }
  const shares = shareOut(
    all ?? ZERO,
    clays.map(({ worked }) => worked),
  )
  return clays.map(({ bodyId, reclaimed }, index) => ({
    ...{ ...told, bodyId, reclaimedDryGrams: reclaimed },
    minutes: all === null ? null : (shares[index] ?? ZERO),
  }))
}

/** Wedging is about each clay it takes; any other act is about the one that it is at work on. */
function claysOf({ kind, clays }: Row) {
  const all = clays.map(({ bodyId, worked, reclaimed }) => ({
    ...{ bodyId, worked: decimal(worked), reclaimed: decimal(reclaimed) },
  }))
  if (kind === 'wedge') {
    const taken = all.filter(({ worked }) => worked.greaterThan(0))
    if (taken.length > 0) return taken
  }
  return all.sort((one, other) => other.worked.comparedTo(one.worked)).slice(0, 1)
}

/** Grain: one row an act; of each clay that it moved, how much it was at work on and how much came back. */
function rowsOf(ledger: Transaction, { studioId, timeZone, from, to }: MonthsAsked) {
  return ledger.execute<Row>(sql`
    with e as (
      select * from entry e
       where e.studio_id = ${studioId} and e.kind in ${RECLAIM_KINDS}
         ${from === undefined ? sql`` : sql`and e.happened_at >= ${startOf(from, timeZone)}`}
         ${to === undefined ? sql`` : sql`and e.happened_at < ${endOf(to, timeZone)}`}
         and ${STANDS('e')})
    select e.entry_id as "entryId", e.kind as "kind", ${isoText(sql`e.happened_at`)} as "happenedAt",
           coalesce(${WAY_AT_WEDGING}, e.said ->> 'way') as "way", e.said ->> 'minutes' as "minutes",
           e.said ->> 'bodyId' as "saidBodyId",
           coalesce((select jsonb_agg(c.clay order by c.body_id) from (${CLAYS}) c), '[]') as "clays"
      from e
     where e.kind <> 'wedge' or e.said ? 'way' or exists (${TAKEN_TO_WEDGE})
     order by e.happened_at, e.entry_id`)
}

/** That nothing took back the entry of that name. */
function STANDS(entry: 'e' | 'w') {
  return sql.raw(`not exists (select from entry t
      where t.studio_id = ${entry}.studio_id and t.reverses_entry_id = ${entry}.entry_id)`)
}

/** Of a line's holding `h` and its lot `k`: scrap, or clay that was lifted. */
const OF_RECLAIM = `(h.place = 'scrap' or (h.place = 'bench' and k.kind = 'reclaimed'))`

const LINES = `line l
      join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id and h.is_inside
      left join lot k on k.studio_id = h.studio_id and k.lot_id = h.lot_id
     where l.studio_id = e.studio_id and l.entry_id = e.entry_id`

const TAKEN_TO_WEDGE = sql.raw(`select from ${LINES} and l.dry_grams < 0 and ${OF_RECLAIM}`)

/** The way that was said last when clay of a lift was wedged. */
const WAY_AT_WEDGING = sql`(
  select w.said ->> 'way'
    from lot k
    join holding h on h.studio_id = k.studio_id and h.lot_id = k.lot_id and h.place = 'bench'
    join line l on l.studio_id = h.studio_id and l.holding_id = h.holding_id and l.dry_grams < 0
    join entry w on w.studio_id = l.studio_id and w.entry_id = l.entry_id
   where e.kind = 'lift' and k.studio_id = e.studio_id and k.made_by_entry_id = e.entry_id
     and w.kind = 'wedge' and w.said ? 'way' and ${STANDS('w')}
   order by w.happened_at desc, w.entry_id desc limit 1)`

const CLAYS = sql.raw(`
  select h.body_id, jsonb_build_object(
           'bodyId', h.body_id,
           'worked', coalesce(abs(sum(l.dry_grams) filter (where case e.kind
                when 'weigh_scrap' then h.place = 'scrap'
                when 'slake' then h.place = 'basin'
                when 'decant' then h.place = 'basin'
                when 'wedge' then l.dry_grams < 0 and ${OF_RECLAIM}
                when 'lift' then h.place = 'bench'
                else h.place = 'plaster' and l.dry_grams > 0 end)), 0)::text,
           'reclaimed', coalesce(abs(sum(l.dry_grams) filter (where case e.kind
                when 'lift' then h.place = 'bench'
                when 'wedge' then l.dry_grams < 0 and h.place = 'scrap'
                else false end)), 0)::text) as clay
    from ${LINES}
   group by h.body_id`)
