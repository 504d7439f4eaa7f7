import { and, asc, eq, gt, sql } from 'drizzle-orm'
import type { Place } from '../../shared/place.ts'
import { present } from '../../shared/assert.ts'
import type { Database, Transaction } from '../connection.ts'
import { refuseUnknown, refuseUnknownHolding } from '../entry-filters.ts'
import { viewHolding, type HoldingView } from '../holding-view.ts'
import { momentKey, olderThan, pageFrom, type Page, type PageAsked } from '../page-keys.ts'
import { readPassages, type Passage } from '../passages.ts'
import { inSnapshot, isoText, MOVES_SOMETHING } from '../report-reading.ts'
import { holding } from '../schema.ts'
import { findStudio } from '../studio.ts'
import { trailTo } from '../trail-links.ts'

export interface HoldingsAsked {
  readonly studioId: string
  readonly place?: Place | undefined
  readonly bodyId?: string | undefined
  readonly materialId?: string | undefined
  readonly vesselId?: string | undefined
  readonly lotId?: string | undefined
  readonly runId?: string | undefined
  /** True: only inside, and only where something is. */
  readonly nonEmpty: boolean
  readonly page: PageAsked
}

/** What stood in a holding: before an entry, or after it. */
export interface Standing {
  readonly dryGrams: string
  readonly waterGrams: string
  readonly pieces: string
  readonly cost: string
}

export interface HoldingLine {
  readonly entryId: string
  readonly kind: string
  readonly countsAs: string
  readonly happenedAt: string
  readonly before: Standing
  readonly change: Standing
  readonly after: Standing
  readonly trail: string
}

export interface HoldingTraced extends HoldingView {
  /** What gave clay to it; empty for the world outside, which takes from everywhere. */
  readonly cameFrom: readonly Passage[]
  readonly lines: Page<HoldingLine>
}

/** Grain: one row a holding. Refuses: `studio_not_found`, and what a filter names and is not there. */
export function listHoldings(db: Database, asked: HoldingsAsked): Promise<Page<HoldingView>> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, page, nonEmpty, place, bodyId, vesselId, lotId, runId } = asked
    const { materialId } = asked
    await findStudio(ledger, studioId)
    await refuseUnknown(ledger, studioId, { bodyId, materialId, vesselId, lotId, runId })
    const same = { place, bodyId, materialId, vesselId, lotId, runId }
    const rows = await ledger
      .select()
      .from(holding)
      .where(
        and(
          eq(holding.studioId, studioId),
          nonEmpty ? HOLDS_SOMETHING : undefined,
          page.after === undefined ? undefined : gt(holding.holdingId, page.after),
          ...Object.entries(same).map(([column, value]) =>
            value === undefined ? undefined : eq(holding[column as keyof typeof same], value),
          ),
        ),
      )
      .orderBy(asc(holding.holdingId))
      .limit(page.limit + 1)
    return pageFrom(rows, page, { key: (row) => row.holdingId, item: viewHolding })
  })
}

const HOLDS_SOMETHING = sql`(${holding.isInside} and (${holding.dryGrams} <> 0 or ${holding.materialGrams} <> 0
  or ${holding.waterGrams} <> 0 or ${holding.pieces} <> 0 or ${holding.cost} <> 0))`

/**
 * One holding, and what moved it, newest first, with what stood in it before and after.
 *
 * Entries stand in the order in which they happened; one that was written down late stands where it
 * belongs, and what stood after it is told as it is known now.
 * Refuses: `studio_not_found`, `holding_not_found`.
 */
export function traceHolding(
  db: Database,
  asked: { studioId: string; holdingId: string; page: PageAsked },
): Promise<HoldingTraced> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, holdingId } = asked
    await findStudio(ledger, studioId)
    await refuseUnknownHolding(ledger, studioId, holdingId)
    const [row] = await ledger
      .select()
      .from(holding)
      .where(and(eq(holding.studioId, studioId), eq(holding.holdingId, holdingId)))
    const view = viewHolding(present(row, 'a holding that is known is found'))
    const isOwn = sql`h.holding_id = ${holdingId}`
    return {
      ...view,
      cameFrom: view.isInside ? await readPassages(ledger, { studioId, isOwn, way: 'in' }) : [],
      lines: await linesOf(ledger, asked),
    }
  })
}

type LineRow = Record<string, string>

/** Grain: one row an entry that moved the holding. */
async function linesOf(
  ledger: Transaction,
  asked: { studioId: string; holdingId: string; page: PageAsked },
): Promise<Page<HoldingLine>> {
  const { studioId, holdingId, page } = asked
  const columns = { moment: sql`e.happened_at`, id: sql`e.entry_id` }
  const rows = await ledger.execute<LineRow>(sql`
    with e as (
      select e.*, coalesce(r.kind, e.kind) as counts_as, l.dry_grams, l.water_grams, l.pieces, l.cost,
             sum(l.dry_grams) over so_far as dry_after, sum(l.water_grams) over so_far as water_after,
             sum(l.pieces) over so_far as pieces_after, sum(l.cost) over so_far as cost_after
        from line l
        join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
        left join entry r on r.studio_id = e.studio_id and r.entry_id = e.reverses_entry_id
       where l.studio_id = ${studioId} and l.holding_id = ${holdingId}
         and ${MOVES_SOMETHING}
      window so_far as (order by e.happened_at, e.entry_id))
    select entry_id as "entryId", kind as "kind", counts_as as "countsAs",
           ${isoText(sql`happened_at`)} as "happenedAt",
           ${momentKey(sql`happened_at`)} || '|' || entry_id as "key",
           dry_grams as "dry", water_grams as "water", pieces as "pieces", cost as "cost",
           dry_after as "dryAfter", water_after as "waterAfter", pieces_after as "piecesAfter",
           cost_after as "costAfter", dry_after - dry_grams as "dryBefore",
           water_after - water_grams as "waterBefore", pieces_after - pieces as "piecesBefore",
           cost_after - cost as "costBefore"
      from e
     where true ${olderThan(page.after, columns)}
     order by e.happened_at desc, e.entry_id desc
     limit ${page.limit + 1}`)
  return pageFrom(rows, page, { key: (row) => row['key'] ?? '', item: lineOf })
}

function lineOf(row: LineRow): HoldingLine {
  const text = (name: string) => present(row[name], `a line has its ${name}`)
  const standing = (when: '' | 'Before' | 'After'): Standing => ({
    dryGrams: text(`dry${when}`),
    waterGrams: text(`water${when}`),
    pieces: text(`pieces${when}`),
    cost: text(`cost${when}`),
  })
  return {
    entryId: text('entryId'),
    kind: text('kind'),
    countsAs: text('countsAs'),
    happenedAt: text('happenedAt'),
    before: standing('Before'),
    change: standing(''),
    after: standing('After'),
    trail: trailTo('entries', text('entryId')),
  }
}
