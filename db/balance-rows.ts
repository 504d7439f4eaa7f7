import { sql } from 'drizzle-orm'
import type { BalanceBook, BookedHolding, Tare } from '../shared/balance-book.ts'
import { decimal } from '../shared/decimal.ts'
import { doubtRead } from '../shared/doubt.ts'
import { monthAfter, type Month } from '../shared/month.ts'
import type { Place } from '../shared/place.ts'
import { entriesOf, STANDS, type BalanceAsked } from './balance-entries.ts'
import type { Transaction } from './connection.ts'
import { endOf, isoText, startOf } from './report-reading.ts'
import { findBody, type StudioFacts } from './studio.ts'

/** The books of one clay in one month, as a balance of the month reads them. Refuses: `body_not_found`. */
export async function balanceBook(ledger: Transaction, asked: BalanceAsked): Promise<BalanceBook> {
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
async function holdingsOf(ledger: Transaction, asked: BalanceAsked): Promise<BookedHolding[]> {
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
    openingDryDoubt: doubtRead(openingDoubt),
    place: place as Place,
    openingDryGrams: decimal(openingDryGrams),
    nowDryGrams: decimal(nowDryGrams),
  }))
}
