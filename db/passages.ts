import { sql, type SQL } from 'drizzle-orm'
import { decimal, ZERO, type Decimal } from '../shared/decimal.ts'
import { passagesOfEntry, type EntryPassage, type PassageLine } from '../shared/passages.ts'
import { written, type Written } from '../shared/written.ts'
import type { Transaction } from './connection.ts'
import { COUNTED_KIND, LINES_IN_CONTEXT } from './report-reading.ts'
import { trailTo, trailToAny } from './trail-links.ts'

interface Counted {
  readonly kind: string
  readonly holdingId: string
  readonly place: string
  readonly lotId: string | null
  readonly runId: string | null
  readonly vesselId: string | null
  readonly entries: number
  readonly dryGrams: Decimal
  readonly cost: Decimal
  /** True where an entry among them does not say which went where, and a share is told. */
  readonly isShare: boolean
  readonly links: {
    readonly holding: string
    readonly lot: string | null
    readonly run: string | null
    readonly vessel: string | null
  }
  readonly trail: string
}

/** Clay that came from one holding, or went to it, by one kind of entry, over all entries. */
export type Passage = Written<Counted>

/** Whose clay is followed, and which way; `isOwn` is a condition on holding `h`. */
export interface PassagesAsked {
  readonly studioId: string
  readonly isOwn: SQL
  readonly way: 'in' | 'out'
}

/**
 * Grain: one row a kind of entry and holding on the other side.
 *
 * A reversal goes the other way and is taken off what it takes back.
 */
export async function readPassages(ledger: Transaction, asked: PassagesAsked): Promise<Passage[]> {
  const entries = grouped(await linesOf(ledger, asked))
  const passages = new Map<string, Counted>()
  for (const rows of entries.values()) {
    for (const passed of passagesOfEntry(rows.map(lineOf), asked.way)) {
      const row = rows.find(({ holdingId }) => holdingId === passed.holdingId) as LineRow
      const key = `${row.kind}|${row.holdingId}`
      passages.set(key, counted(passages.get(key) ?? begun(row), passed, row.isReversal))
    }
  }
  const found = [...passages].sort(([one], [other]) => (one < other ? -1 : 1))
  return found.map(([, passage]) => written(passage)).filter(({ dryGrams }) => dryGrams !== '0')
}

interface LineRow extends Record<string, unknown> {
  readonly entryId: string
  readonly kind: string
  readonly isReversal: boolean
  readonly isOwn: boolean
  readonly holdingId: string
  readonly place: string
  readonly bodyId: string
  readonly lotId: string | null
  readonly runId: string | null
  readonly vesselId: string | null
  readonly dryGrams: string
  readonly cost: string
}

/** Grain: one row a line with clay or cost, of each entry that moved what is asked about. */
function linesOf(ledger: Transaction, { studioId, isOwn }: PassagesAsked) {
  return ledger.execute<LineRow>(sql`
    with own as (
      select distinct l.entry_id
        from line l join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
       where l.studio_id = ${studioId} and ${isOwn})
    select l.entry_id as "entryId", ${COUNTED_KIND} as "kind",
           e.reverses_entry_id is not null as "isReversal", (${isOwn}) is true as "isOwn",
           h.holding_id as "holdingId", h.place as "place", h.body_id as "bodyId",
           h.lot_id as "lotId", h.run_id as "runId", h.vessel_id as "vesselId",
           l.dry_grams as "dryGrams", l.cost as "cost"
      from own
      join ${LINES_IN_CONTEXT} on l.entry_id = own.entry_id
     where l.studio_id = ${studioId} and (l.dry_grams <> 0 or l.cost <> 0)
     order by l.entry_id, h.holding_id`)
}

function grouped(rows: readonly LineRow[]): Map<string, LineRow[]> {
  const entries = new Map<string, LineRow[]>()
  for (const row of rows) {
    const same = entries.get(row.entryId)
    if (same === undefined) entries.set(row.entryId, [row])
    else same.push(row)
  }
  return entries
}

function lineOf(row: LineRow): PassageLine {
  const turned = (amount: string) => (row.isReversal ? decimal(amount).negated() : decimal(amount))
  return {
    holdingId: row.holdingId,
    bodyId: row.bodyId,
    isOwn: row.isOwn,
    dryGrams: turned(row.dryGrams),
    cost: turned(row.cost),
  }
}

function begun({ kind, holdingId, place, lotId, runId, vesselId }: LineRow): Counted {
  return {
    ...{ kind, holdingId, place, lotId, runId, vesselId },
    ...{ entries: 0, dryGrams: ZERO, cost: ZERO, isShare: false },
    links: {
      holding: trailTo('holdings', holdingId),
      lot: trailToAny('lots', lotId),
      run: trailToAny('runs', runId),
      vessel: trailToAny('vessels', vesselId),
    },
    trail: trailTo('holdings', holdingId),
  }
}

function counted(before: Counted, passed: EntryPassage, isReversal: boolean): Counted {
  const turned = (amount: Decimal) => (isReversal ? amount.negated() : amount)
  return {
    ...before,
    entries: before.entries + 1,
    dryGrams: before.dryGrams.plus(turned(passed.dryGrams)),
    cost: before.cost.plus(turned(passed.cost)),
    isShare: before.isShare || passed.isShare,
  }
}
