import { and, asc, eq, gt, sql } from 'drizzle-orm'
import type { Database } from '../connection.ts'
import { refuseUnknown } from '../entry-filters.ts'
import { viewHolding, type HoldingView } from '../holding-view.ts'
import { pageFrom, type Page, type PageAsked } from '../page-keys.ts'
import { readPassages, type Passage } from '../passages.ts'
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

export interface LotTraced extends LotListed {
  /** Where its clay is now as this lot. */
  readonly isNow: readonly HoldingView[]
  readonly cameFrom: readonly Passage[]
  readonly wentTo: readonly Passage[]
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
 * An entry that brings clay from several places to several others does not say which went where; each
 * place is then told with its share of what the lot itself gained or gave, and marked as a share.
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
    const own = { studioId, isOwn: sql`h.lot_id = ${lotId}` }
    return {
      ...viewLot(found),
      isNow: holdings.map(viewHolding),
      cameFrom: await readPassages(ledger, { ...own, way: 'in' }),
      wentTo: await readPassages(ledger, { ...own, way: 'out' }),
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
