import { and, asc, eq, gt, sql } from 'drizzle-orm'
import type { Database, Transaction } from '../connection.ts'
import { refuseUnknown } from '../entry-filters.ts'
import { viewHolding, type HoldingView } from '../holding-view.ts'
import { pageFrom, type Page, type PageAsked } from '../page-keys.ts'
import { inSnapshot } from '../report-reading.ts'
import { holding, lot } from '../schema.ts'
import { findLot, findStudio } from '../studio.ts'
import { entriesTrail, holdingsTrail, trailTo, trailToAny } from '../trail-links.ts'

type LotRow = typeof lot.$inferSelect

export interface LotListed {
  readonly lotId: string
  readonly kind: string
  readonly bodyId: string
  readonly label: string
  readonly madeByEntryId: string
  readonly batId: string | null
  readonly bags: number | null
  readonly goodsPrice: string | null
  readonly freight: string | null
  readonly dryGramsAtFirst: string | null
  readonly links: {
    readonly self: string
    readonly madeBy: string
    readonly body: string
    readonly bat: string | null
    readonly holdings: string
    readonly entries: string
  }
}

/** Clay that came into a lot from one holding, or went from it to one, over all entries. */
export interface LotPassage {
  readonly kind: string
  readonly holdingId: string
  readonly place: string
  readonly lotId: string | null
  readonly runId: string | null
  readonly vesselId: string | null
  readonly entries: number
  readonly dryGrams: string
  readonly cost: string
  readonly trail: string
}

export interface LotTraced extends LotListed {
  /** Where its clay is now as this lot. */
  readonly isNow: readonly HoldingView[]
  readonly cameFrom: readonly LotPassage[]
  readonly wentTo: readonly LotPassage[]
}

/** Grain: one row a lot. Refuses: `studio_not_found`, `body_not_found`. */
export function listLots(
  db: Database,
  asked: {
    studioId: string
    bodyId?: string | undefined
    kind?: LotRow['kind'] | undefined
    page: PageAsked
  },
): Promise<Page<LotListed>> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, bodyId, kind, page } = asked
    await findStudio(ledger, studioId)
    await refuseUnknown(ledger, studioId, { bodyId })
    const rows = await ledger
      .select()
      .from(lot)
      .where(
        and(
          eq(lot.studioId, studioId),
          bodyId === undefined ? undefined : eq(lot.bodyId, bodyId),
          kind === undefined ? undefined : eq(lot.kind, kind),
          page.after === undefined ? undefined : gt(lot.lotId, page.after),
        ),
      )
      .orderBy(asc(lot.lotId))
      .limit(page.limit + 1)
    return pageFrom(rows, page, { key: (row) => row.lotId, item: viewLot })
  })
}

/**
 * A lot with where its clay is, came from and went to.
 *
 * An entry that brings clay from two places to two others does not say which went where; each place
 * is told with all that it gave to, or took from, such entries.
 * Refuses: `studio_not_found`, `lot_not_found`.
 */
export function traceLot(
  db: Database,
  { studioId, lotId }: { studioId: string; lotId: string },
): Promise<LotTraced> {
  return inSnapshot(db, async (ledger) => {
    await findStudio(ledger, studioId)
    const found = await findLot(ledger, studioId, lotId)
    const holdings = await ledger
      .select()
      .from(holding)
      .where(
        and(
          eq(holding.studioId, studioId),
          eq(holding.lotId, lotId),
          sql`(${holding.dryGrams} <> 0 or ${holding.waterGrams} <> 0 or ${holding.pieces} <> 0)`,
        ),
      )
      .orderBy(asc(holding.holdingId))
    return {
      ...viewLot(found),
      isNow: holdings.map(viewHolding),
      cameFrom: await passagesOf(ledger, { studioId, lotId, way: 'in' }),
      wentTo: await passagesOf(ledger, { studioId, lotId, way: 'out' }),
    }
  })
}

function viewLot({ studioId: _studio, ...row }: LotRow): LotListed {
  const { lotId } = row
  return {
    ...row,
    links: {
      self: trailTo('lots', lotId),
      madeBy: trailTo('entries', row.madeByEntryId),
      body: trailTo('bodies', row.bodyId),
      bat: trailToAny('bats', row.batId),
      holdings: holdingsTrail({ lotId, nonEmpty: 'false' }),
      entries: entriesTrail({ lotId }),
    },
  }
}

type PassageRow = Omit<LotPassage, 'trail'> & Record<string, unknown>

/** Grain: one row a kind of entry and holding on the other side of the lot's own. */
async function passagesOf(
  ledger: Transaction,
  asked: { studioId: string; lotId: string; way: 'in' | 'out' },
): Promise<LotPassage[]> {
  const { studioId, lotId, way } = asked
  // Out of the lot into a place, the place gains; into the lot from a place, the place gives.
  const sign = way === 'out' ? sql`1` : sql`-1`
  const rows = await ledger.execute<PassageRow>(sql`
    with own as (
      select l.entry_id, sum(l.dry_grams) as dry_grams
        from line l join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
       where l.studio_id = ${studioId} and h.lot_id = ${lotId}
       group by 1)
    select coalesce(r.kind, e.kind) as "kind", h.holding_id as "holdingId", h.place as "place",
           h.lot_id as "lotId", h.run_id as "runId", h.vessel_id as "vesselId",
           count(*)::int as "entries", sum(l.dry_grams * ${sign}) as "dryGrams",
           sum(l.cost * ${sign}) as "cost"
      from own
      join line l on l.studio_id = ${studioId} and l.entry_id = own.entry_id
      join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
      left join entry r on r.studio_id = e.studio_id and r.entry_id = e.reverses_entry_id
      join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
     where h.lot_id is distinct from ${lotId} and l.dry_grams <> 0
       -- A reversal goes the other way and is taken off what it takes back.
       and own.dry_grams * ${sign} * (case when e.reverses_entry_id is null then 1 else -1 end) < 0
       and l.dry_grams * ${sign} * (case when e.reverses_entry_id is null then 1 else -1 end) > 0
     group by 1, 2, 3, 4, 5, 6
    having sum(l.dry_grams) <> 0
     order by 1, 2`)
  return rows.map((row) => ({ ...row, trail: trailTo('holdings', row.holdingId) }))
}
