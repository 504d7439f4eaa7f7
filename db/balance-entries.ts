import { sql } from 'drizzle-orm'
import type {
  BookedEntry,
  BookedEstimate,
  BookedLine,
  BookedWeighing,
} from '../shared/balance-book.ts'
import { dayInWords, timeInWords } from '../shared/day-words.ts'
import { decimal } from '../shared/decimal.ts'
import { doubtRead } from '../shared/doubt.ts'
import type { DryMassMethod } from '../shared/dry-mass.ts'
import type { ClayState, Standing } from '../shared/moisture.ts'
import type { ActKind } from '../shared/month-world.ts'
import type { Month } from '../shared/month.ts'
import type { Transaction } from './connection.ts'
import { endOf, isoText, MOVES_SOMETHING, startOf } from './report-reading.ts'
import type { StudioFacts } from './studio.ts'

export interface BalanceAsked {
  readonly studio: StudioFacts
  readonly month: Month
  readonly bodyId: string
}

/** An entry that was taken back counts for nothing, and neither does what took it back. */
export const STANDS = sql.raw(
  `e.kind <> 'reverse' and not exists (select from entry r
     where r.studio_id = e.studio_id and r.reverses_entry_id = e.entry_id)`,
)

interface OfEntry extends Record<string, unknown> {
  readonly entryId: string
}

/** Grain: one row an entry of the month that stands and touches the body, oldest first. */
export async function entriesOf(ledger: Transaction, asked: BalanceAsked): Promise<BookedEntry[]> {
  const { studio, month, bodyId } = asked
  const rows = await ledger.execute<OfEntry & { kind: string; happenedAt: string; said: unknown }>(
    sql`
    select e.entry_id as "entryId", e.kind, e.said,
           ${isoText(sql`e.happened_at`)} as "happenedAt"
      from entry e
     where e.studio_id = ${studio.studioId} and ${STANDS}
       and e.happened_at >= ${startOf(month, studio.timeZone)}
       and e.happened_at < ${endOf(month, studio.timeZone)}
       and e.entry_id in (
         select l.entry_id from line l
           join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
          where l.studio_id = ${studio.studioId} and h.body_id = ${bodyId}
         union
         select s.entry_id from estimate s
           join holding h on h.studio_id = s.studio_id and h.holding_id = s.holding_id
          where s.studio_id = ${studio.studioId} and h.body_id = ${bodyId})
     order by e.happened_at, e.recorded_at, e.entry_id`,
  )
  const ids = rows.map(({ entryId }) => entryId)
  const at = { ledger, studioId: studio.studioId, ids }
  const [lines, estimates, weighings] = [
    byEntry(await linesOf(at)),
    byEntry(await estimatesOf(at)),
    byEntry(await weighingsOf(at)),
  ]
  return rows.map(({ entryId, kind, happenedAt, said }) => ({
    entryId,
    kind: kind as ActKind,
    said,
    day: dayInWords(new Date(happenedAt), studio.timeZone),
    time: timeInWords(new Date(happenedAt), studio.timeZone),
    ...whatWasSaid(said),
    lines: lines.get(entryId) ?? [],
    estimates: estimates.get(entryId) ?? [],
    weighings: weighings.get(entryId) ?? [],
  }))
}

interface Of {
  readonly ledger: Transaction
  readonly studioId: string
  readonly ids: readonly string[]
}

/** The entries whose rows are wanted, as SQL; none of them where there are none. */
function among(ids: readonly string[]) {
  const texts = sql.join(
    ids.map((id) => sql`${id}`),
    sql`, `,
  )
  return ids.length === 0 ? sql`false` : sql`entry_id in (${texts})`
}

async function linesOf({ ledger, studioId, ids }: Of): Promise<(OfEntry & BookedLine)[]> {
  const rows = await ledger.execute<
    OfEntry & { holdingId: string; dryGrams: string; dryDoubt: unknown; pieces: string }
  >(sql`
    select entry_id as "entryId", holding_id as "holdingId", dry_grams as "dryGrams",
           dry_doubt as "dryDoubt", pieces
      from line l
     where studio_id = ${studioId} and ${among(ids)} and ${MOVES_SOMETHING}
     order by entry_id, line_no`)
  return rows.map((row) => ({
    ...row,
    dryGrams: decimal(row.dryGrams),
    dryDoubt: doubtRead(row.dryDoubt),
    pieces: decimal(row.pieces),
  }))
}

type EstimateRow = OfEntry &
  Record<
    'holdingId' | 'of' | 'dryGrams' | 'waterGrams' | 'method' | 'standing' | 'unsure',
    string
  > & { estimateNo: number; weighingNo: number | null }

async function estimatesOf({ ledger, studioId, ids }: Of): Promise<(OfEntry & BookedEstimate)[]> {
  const rows = await ledger.execute<EstimateRow>(sql`
    select entry_id as "entryId", estimate_no as "estimateNo", holding_id as "holdingId", "of",
           dry_grams as "dryGrams", water_grams as "waterGrams", method, standing,
           standard_uncertainty_grams as "unsure", weighing_no as "weighingNo"
      from estimate where studio_id = ${studioId} and ${among(ids)} order by entry_id, estimate_no`)
  return rows.map(({ unsure, ...row }) => ({
    ...row,
    method: row.method as DryMassMethod,
    standing: row.standing as Standing,
    dryGrams: decimal(row.dryGrams),
    waterGrams: decimal(row.waterGrams),
    standardUncertaintyGrams: decimal(unsure),
  }))
}

type WeighingRow = OfEntry &
  Record<'purpose' | 'kind' | 'netGrams' | 'tareGrams' | 'unsure', string> & {
    weighingNo: number
    vesselId: string | null
    asRead: { net?: BookedWeighing['read']; gross?: BookedWeighing['read'] }
  }

async function weighingsOf({ ledger, studioId, ids }: Of): Promise<(OfEntry & BookedWeighing)[]> {
  const rows = await ledger.execute<WeighingRow>(sql`
    select entry_id as "entryId", weighing_no as "weighingNo", purpose, kind,
           net_grams as "netGrams", tare_grams as "tareGrams", vessel_id as "vesselId",
           standard_uncertainty_grams as "unsure", as_read as "asRead"
      from weighing where studio_id = ${studioId} and ${among(ids)} order by entry_id, weighing_no`)
  return rows.map(({ unsure, asRead, ...row }) => ({
    ...row,
    netGrams: decimal(row.netGrams),
    tareGrams: decimal(row.tareGrams),
    standardUncertaintyGrams: decimal(unsure),
    read: asRead.gross ?? asRead.net ?? { value: row.netGrams, unit: 'g' },
  }))
}

function byEntry<Row extends OfEntry>(rows: readonly Row[]): Map<string, Row[]> {
  const all = new Map<string, Row[]>()
  for (const row of rows) all.set(row.entryId, [...(all.get(row.entryId) ?? []), row])
  return all
}

/** The parts of a request that tell which clay is meant and in what state it was. */
interface Said {
  readonly state?: string
  readonly stage?: string
  readonly pieces?: number
  readonly from?: readonly { lotId?: string; balls?: number }[]
  readonly items?: readonly { bags?: number }[]
  readonly clays?: readonly { bags?: number }[]
  readonly loads?: readonly { batId?: string }[]
}

function whatWasSaid(
  said: unknown,
): Pick<BookedEntry, 'state' | 'stage' | 'fromLotIds' | 'counts' | 'batIds'> {
  const { state, stage, pieces, from = [], items = [], clays = [], loads = [] } = said as Said
  const bags = [...items, ...clays].map((one) => one.bags ?? null)
  const balls = from.map((one) => one.balls ?? null)
  return {
    state: (state ?? null) as ClayState | null,
    stage: stage ?? null,
    fromLotIds: from.map((one) => one.lotId ?? ''),
    counts: balls.length > 0 ? balls : bags.length > 0 ? bags : [pieces ?? null],
    batIds: loads.flatMap((one) => one.batId ?? []),
  }
}
