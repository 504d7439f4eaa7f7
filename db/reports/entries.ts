import { sql } from 'drizzle-orm'
import type { Database, Transaction } from '../connection.ts'
import { conditionsOf, refuseUnknown, type EntryFilters } from '../entry-filters.ts'
import type { EntryView } from '../entry-shown.ts'
import { viewEntry } from '../entry-view.ts'
import { lineSure, type LineSure } from '../line-sure.ts'
import { momentKey, olderThan, pageFrom, type Page, type PageAsked } from '../page-keys.ts'
import { inSnapshot, isoText, MOVES_SOMETHING } from '../report-reading.ts'
import { findStudio } from '../studio.ts'
import { trailTo, trailToAny } from '../trail-links.ts'

export interface EntriesAsked extends EntryFilters {
  readonly studioId: string
  readonly page: PageAsked
}

/** An entry in a list: what it was and what it moved. */
export interface EntryListed {
  readonly entryId: string
  readonly kind: string
  /** The kind it counts as in reports: a reversal counts as what it takes back. */
  readonly countsAs: string
  readonly happenedAt: string
  readonly recordedAt: string
  readonly recordedBy: string | null
  readonly note: string | null
  readonly reversesEntryId: string | null
  readonly reversedByEntryId: string | null
  readonly lines: readonly LineListed[]
  readonly links: {
    readonly self: string
    readonly reverses: string | null
    readonly reversedBy: string | null
  }
}

export interface LineListed extends LineSure {
  readonly holdingId: string
  readonly place: string
  readonly bodyId: string | null
  readonly materialId: string | null
  readonly lotId: string | null
  readonly runId: string | null
  readonly vesselId: string | null
  readonly dryGrams: string
  readonly materialGrams: string
  readonly waterGrams: string
  readonly pieces: string
  readonly cost: string
  readonly costLayers: unknown
  readonly trail: string
}

/** An entry with all that hangs on it and where one can go from it. */
export interface EntryTraced extends EntryView {
  readonly links: {
    readonly self: string
    readonly reverses: string | null
    readonly reversedBy: string | null
    readonly holdings: readonly string[]
    readonly lots: readonly string[]
    readonly runs: readonly string[]
    readonly madeLots: readonly string[]
    readonly madeRuns: readonly string[]
  }
}

/**
 * The entries that fit, newest first.
 *
 * Refuses: `studio_not_found`, and `body_not_found` or its sisters for what a filter names.
 */
export function listEntries(db: Database, asked: EntriesAsked): Promise<Page<EntryListed>> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, page } = asked
    const { timeZone } = await findStudio(ledger, studioId)
    await refuseUnknown(ledger, studioId, asked)
    const rows = await rowsOf(ledger, asked, timeZone)
    const lines = await linesOf(ledger, studioId, rows.slice(0, page.limit))
    return pageFrom(rows, page, {
      key: (row) => row.key,
      item: ({ key: _key, ...row }): EntryListed => ({
        ...row,
        lines: lines.get(row.entryId) ?? [],
        links: linksOf(row),
      }),
    })
  })
}

/** One entry and where one can go from it. Refuses: `studio_not_found`, `entry_not_found`. */
export function traceEntry(
  db: Database,
  { studioId, entryId }: { studioId: string; entryId: string },
): Promise<EntryTraced> {
  return inSnapshot(db, async (ledger) => {
    await findStudio(ledger, studioId)
    const view = await viewEntry(ledger, studioId, entryId)
    const named = (ids: readonly (string | null)[]) =>
      [...new Set(ids)].filter((id): id is string => id !== null)
    return {
      ...view,
      links: {
        ...linksOf(view),
        holdings: named(view.lines.map((line) => line.holdingId)).map((id) =>
          trailTo('holdings', id),
        ),
        lots: named(view.lines.map((line) => line.lotId)).map((id) => trailTo('lots', id)),
        runs: named(view.lines.map((line) => line.runId)).map((id) => trailTo('runs', id)),
        ...(await madeBy(ledger, studioId, entryId)),
      },
    }
  })
}

type Row = Omit<EntryListed, 'lines' | 'links'> & { key: string } & Record<string, unknown>

/** Grain: one row an entry. */
function rowsOf(ledger: Transaction, asked: EntriesAsked, timeZone: string) {
  const { studioId, page } = asked
  const columns = { moment: sql`e.happened_at`, id: sql`e.entry_id` }
  return ledger.execute<Row>(sql`
    select e.entry_id as "entryId", e.kind as "kind", coalesce(r.kind, e.kind) as "countsAs",
           ${isoText(sql`e.happened_at`)} as "happenedAt",
           ${isoText(sql`e.recorded_at`)} as "recordedAt",
           e.recorded_by as "recordedBy", e.note as "note",
           e.reverses_entry_id as "reversesEntryId", t.entry_id as "reversedByEntryId",
           ${momentKey(columns.moment)} || '|' || e.entry_id as "key"
      from entry e
      left join entry r on r.studio_id = e.studio_id and r.entry_id = e.reverses_entry_id
      left join entry t on t.studio_id = e.studio_id and t.reverses_entry_id = e.entry_id
     where e.studio_id = ${studioId} ${conditionsOf(asked, timeZone)}
       ${olderThan(page.after, columns)}
     order by e.happened_at desc, e.entry_id desc
     limit ${page.limit + 1}`)
}

type LineRow = Omit<LineListed, 'trail' | keyof LineSure> & {
  entryId: string
  dryDoubt: unknown
  costDoubt: unknown
}

/** Grain: one row a line of the entries on the page that moves something. */
async function linesOf(
  ledger: Transaction,
  studioId: string,
  rows: readonly Row[],
): Promise<Map<string, LineListed[]>> {
  const lines = new Map<string, LineListed[]>()
  if (rows.length === 0) return lines
  const found = await ledger.execute<LineRow & Record<string, unknown>>(sql`
    select l.entry_id as "entryId", l.holding_id as "holdingId", h.place as "place",
           h.body_id as "bodyId", h.material_id as "materialId", h.lot_id as "lotId", h.run_id as "runId",
           h.vessel_id as "vesselId", l.dry_grams as "dryGrams",
           l.material_grams as "materialGrams", l.water_grams as "waterGrams", l.pieces as "pieces",
           l.cost as "cost", l.cost_layers as "costLayers", l.dry_doubt as "dryDoubt",
           l.cost_doubt as "costDoubt"
      from line l
      join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
     where l.studio_id = ${studioId} and l.entry_id in ${rows.map((row) => row.entryId)}
       and ${MOVES_SOMETHING}
     order by l.entry_id, l.line_no`)
  for (const { entryId, dryDoubt, costDoubt, ...line } of found) {
    const traced: LineListed = {
      ...line,
      ...lineSure({ dryDoubt, costDoubt }),
      trail: trailTo('holdings', line.holdingId),
    }
    lines.set(entryId, [...(lines.get(entryId) ?? []), traced])
  }
  return lines
}

/** Grain: one row a lot or run that the entry made. */
async function madeBy(ledger: Transaction, studioId: string, entryId: string) {
  const rows = await ledger.execute<{ resource: 'lots' | 'runs'; id: string }>(sql`
    select 'lots' as "resource", lot_id as "id" from lot
     where studio_id = ${studioId} and made_by_entry_id = ${entryId}
    union all
    select 'runs', run_id from run
     where studio_id = ${studioId} and made_by_entry_id = ${entryId}
     order by 1, 2`)
  const made = (resource: 'lots' | 'runs') =>
    rows.filter((row) => row.resource === resource).map((row) => trailTo(resource, row.id))
  return { madeLots: made('lots'), madeRuns: made('runs') }
}

function linksOf(entry: {
  entryId: string
  reversesEntryId: string | null
  reversedByEntryId: string | null
}) {
  return {
    self: trailTo('entries', entry.entryId),
    reverses: trailToAny('entries', entry.reversesEntryId),
    reversedBy: trailToAny('entries', entry.reversedByEntryId),
  }
}
