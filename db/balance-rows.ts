import { sql } from 'drizzle-orm'
import type {
  BalanceBook,
  BookedEntry,
  BookedEstimate,
  BookedHolding,
  BookedLine,
  BookedWeighing,
  Tare,
} from '../shared/balance-book.ts'
import { dayInWords } from '../shared/day-words.ts'
import { decimal } from '../shared/decimal.ts'
import { doubtOnly, doubtRead, standardUncertaintyOfDoubt, type Doubt } from '../shared/doubt.ts'
import { isOfWater } from '../shared/doubt-source.ts'
import type { DryMassMethod } from '../shared/dry-mass.ts'
import type { ClayState, Standing } from '../shared/moisture.ts'
import type { ActKind } from '../shared/month-world.ts'
import { monthAfter, type Month } from '../shared/month.ts'
import type { Place } from '../shared/place.ts'
import type { Transaction } from './connection.ts'
import { endOf, isoText, startOf } from './report-reading.ts'
import { findBody, type StudioFacts } from './studio.ts'

interface Asked {
  readonly studio: StudioFacts
  readonly month: Month
  readonly bodyId: string
}

/** An entry that was taken back counts for nothing, and neither does what took it back. */
const STANDS = sql.raw(
  `e.kind <> 'reverse' and not exists (select from entry r
     where r.studio_id = e.studio_id and r.reverses_entry_id = e.entry_id)`,
)

/** The books of one clay in one month, as a balance of the month reads them. Refuses: `body_not_found`. */
export async function balanceBook(ledger: Transaction, asked: Asked): Promise<BalanceBook> {
  const { studio, bodyId } = asked
  const body = await findBody(ledger, studio.studioId, bodyId)
  const closedUpTo = await lastClosedMonth(ledger, studio.studioId)
  return {
    bodyId,
    lossOnIgnitionFraction: body.lossOnIgnitionFraction,
    holdings: await holdingsOf(ledger, asked),
    entries: await entriesOf(ledger, asked),
    vessels: await tares(ledger, { studioId: studio.studioId, of: 'vessel' }),
    bats: await tares(ledger, { studioId: studio.studioId, of: 'bat' }),
    isClosed: closedUpTo !== null && closedUpTo >= asked.month,
    openFrom: closedUpTo === null ? null : await beginning(ledger, studio, monthAfter(closedUpTo)),
  }
}

async function lastClosedMonth(ledger: Transaction, studioId: string): Promise<string | null> {
  const [row] = await ledger.execute<{ month: string | null }>(
    sql`select max(month) as "month" from month_closing where studio_id = ${studioId}`,
  )
  return row?.month ?? null
}

async function beginning(ledger: Transaction, { timeZone }: StudioFacts, month: Month) {
  const [row] = await ledger.execute<{ from: string }>(
    sql`select ${isoText(startOf(month, timeZone))} as "from"`,
  )
  return row?.from ?? null
}

async function tares(
  ledger: Transaction,
  { studioId, of }: { studioId: string; of: 'vessel' | 'bat' },
): Promise<Tare[]> {
  const rows = await ledger.execute<{ id: string; name: string; grams: string }>(
    of === 'vessel'
      ? sql`select vessel_id as "id", name, tare_grams as "grams" from vessel
             where studio_id = ${studioId} and tare_grams > 0 order by vessel_id`
      : sql`select bat_id as "id", name, dry_grams as "grams" from bat
             where studio_id = ${studioId} and dry_grams > 0 order by bat_id`,
  )
  return rows.map(({ id, name, grams }) => ({ id, name, grams: decimal(grams) }))
}

type HoldingRow = Record<
  'holdingId' | 'place' | 'bodyId' | 'name' | 'openingDryGrams' | 'nowDryGrams',
  string
> & { openingDoubt: unknown } & Record<'lotId' | 'runId' | 'vesselId', string | null>

/** Grain: one row a holding inside that held clay of the body when the month began, or that it touches. */
async function holdingsOf(ledger: Transaction, asked: Asked): Promise<BookedHolding[]> {
  const { studio, month, bodyId } = asked
  const from = startOf(month, studio.timeZone)
  const rows = await ledger.execute<HoldingRow>(sql`
    with opening as (
      select l.holding_id, sum(l.dry_grams) as dry, doubts_summed(array_agg(l.dry_doubt)) as doubt
        from line l join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
        join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
       where l.studio_id = ${studio.studioId} and h.body_id = ${bodyId} and h.is_inside
         and e.happened_at < ${from} and ${STANDS}
       group by 1),
    touched as (
      select distinct l.holding_id from line l
        join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
       where l.studio_id = ${studio.studioId} and e.happened_at >= ${from}
         and e.happened_at < ${endOf(month, studio.timeZone)} and ${STANDS}
      union
      select distinct s.holding_id from estimate s
        join entry e on e.studio_id = s.studio_id and e.entry_id = s.entry_id
       where s.studio_id = ${studio.studioId} and e.happened_at >= ${from}
         and e.happened_at < ${endOf(month, studio.timeZone)} and ${STANDS})
    select h.holding_id as "holdingId", h.place, h.body_id as "bodyId", h.lot_id as "lotId",
           h.run_id as "runId", h.vessel_id as "vesselId",
           coalesce(r.label, b.name, t.label, v.name, h.place) as "name",
           coalesce(o.dry, 0) as "openingDryGrams", coalesce(o.doubt, '{}') as "openingDoubt",
           h.dry_grams as "nowDryGrams"
      from holding h
      left join opening o on o.holding_id = h.holding_id
      left join run r on r.studio_id = h.studio_id and r.run_id = h.run_id
      left join lot t on t.studio_id = h.studio_id and t.lot_id = h.lot_id
      left join bat b on b.studio_id = t.studio_id and b.bat_id = t.bat_id
      left join vessel v on v.studio_id = h.studio_id and v.vessel_id = h.vessel_id
     where h.studio_id = ${studio.studioId} and h.is_inside
       and (o.dry <> 0 or h.holding_id in (select holding_id from touched))
     order by h.holding_id`)
  return rows.map(({ openingDryGrams, openingDoubt, nowDryGrams, place, ...row }) => ({
    ...row,
    ...openingSure(doubtRead(openingDoubt)),
    place: place as Place,
    openingDryGrams: decimal(openingDryGrams),
    nowDryGrams: decimal(nowDryGrams),
  }))
}

function openingSure(doubt: Doubt) {
  const ofMass = doubtOnly(doubt, (source) => !isOfWater(source))
  return {
    openingUncertaintyGrams: standardUncertaintyOfDoubt(doubt),
    openingMassUncertaintyGrams: standardUncertaintyOfDoubt(ofMass),
  }
}

interface OfEntry extends Record<string, unknown> {
  readonly entryId: string
}

/** Grain: one row an entry of the month that stands and touches the body, oldest first. */
async function entriesOf(ledger: Transaction, asked: Asked): Promise<BookedEntry[]> {
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
    OfEntry & { holdingId: string; dryGrams: string; pieces: string }
  >(sql`
    select entry_id as "entryId", holding_id as "holdingId", dry_grams as "dryGrams", pieces
      from line where studio_id = ${studioId} and ${among(ids)} order by entry_id, line_no`)
  return rows.map((row) => ({
    ...row,
    dryGrams: decimal(row.dryGrams),
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
