import { sql } from 'drizzle-orm'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import type { DryMassMethod } from '../../shared/dry-mass.ts'
import { cautionsOfEntry, DUST_LOG_WORDS, dustLogWords } from '../../shared/dust-log.ts'
import type { EntryKind } from '../../shared/entry-kind.ts'
import type { Month } from '../../shared/month.ts'
import { limitsFor, type Caution, type SilicaLimit } from '../../shared/silica.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { endOf, inSnapshot, isoText, startOf } from '../report-reading.ts'
import { findBody, findStudio } from '../studio.ts'
import { trailTo } from '../trail-links.ts'
import { studioFigure, testsOf } from '../water-figures.ts'

export interface DustAsked {
  readonly studioId: string
  readonly month: Month
}

/** An entry that raised dust, and what stood before its press. */
interface DustyEntry {
  readonly entryId: string
  readonly kind: EntryKind
  readonly happenedAt: string
  readonly recordedBy: string | null
  readonly note: string | null
  readonly bodyId: string
  readonly bodyName: string
  /** True: a later entry took it back. It is shown and does not count. */
  readonly isTakenBack: boolean
  readonly cautions: readonly Pick<Caution, 'why' | 'instead'>[]
  readonly trail: string
}

interface Report {
  readonly studioId: string
  readonly month: Month
  /** Those that stand. */
  readonly entriesThatStand: number
  readonly words: string
  /** What the log does not say. */
  readonly saysNothingOf: string
  readonly entries: readonly DustyEntry[]
  readonly limits: readonly SilicaLimit[]
  readonly deferTo: string
}

export type DustReport = Written<Report>

/**
 * The dust log of a month: every entry that raised dust, with the caution that goes before such work
 * and what to do instead.
 *
 * Shape: oldest first. Refuses: `studio_not_found`.
 */
export function dustReport(db: Database, { studioId, month }: DustAsked): Promise<DustReport> {
  return inSnapshot(db, async (ledger) => {
    const { jurisdiction, timeZone } = await findStudio(ledger, studioId)
    const rows = await rowsOf(ledger, { studioId, month, timeZone })
    const airDry = new Map<string, Decimal>()
    const entries: DustyEntry[] = []
    for (const row of rows) {
      const airDryWetBasis =
        airDry.get(row.bodyId) ?? (await airDryOf(ledger, studioId, row.bodyId))
      airDry.set(row.bodyId, airDryWetBasis)
      const cautions = cautionsOfEntry({ ...factsOf(row), airDryWetBasis, jurisdiction })
      if (cautions.length > 0) entries.push(dusty(row, cautions))
    }
    const together = oncePerEntry(entries)
    const entriesThatStand = together.filter(({ isTakenBack }) => !isTakenBack).length
    const { limits, deferTo } = limitsFor(jurisdiction)
    const report: Report = {
      ...{ studioId, month, entriesThatStand },
      words: dustLogWords(entriesThatStand),
      saysNothingOf: DUST_LOG_WORDS,
      entries: together,
      limits,
      deferTo,
    }
    return written(report)
  })
}

interface Row extends Record<string, unknown> {
  readonly entryId: string
  readonly kind: EntryKind
  readonly happenedAt: string
  readonly recordedBy: string | null
  readonly note: string | null
  readonly bodyId: string
  readonly bodyName: string
  readonly isTakenBack: boolean
  readonly dryAct: string | null
  readonly lossStage: string | null
  readonly dustThreshold: string | null
  readonly estimates: readonly EstimateRow[]
  readonly handled: readonly HandledRow[]
}

/** As the database puts rows into JSON: digits as text. */
interface EstimateRow {
  readonly of: string
  readonly method: DryMassMethod
  readonly dry: string
  readonly water: string
  readonly isRead: boolean
}

interface HandledRow {
  readonly dry: string
  readonly water: string
}

/**
 * Grain: one row an entry and a clay that it moved or read, of the kinds that may raise dust.
 *
 * The threshold is the one that the clay had when the entry was written down. What a clay was before it
 * was wetted again is the sum of what had moved it until then.
 */
function rowsOf(ledger: Transaction, asked: { studioId: string; month: Month; timeZone: string }) {
  const { studioId, month, timeZone } = asked
  return ledger.execute<Row>(sql`
    with e as (
      select * from entry
       where studio_id = ${studioId} and kind <> 'reverse'
         and happened_at >= ${startOf(month, timeZone)} and happened_at < ${endOf(month, timeZone)}),
    touched as (
      select l.entry_id, h.body_id from line l join e using (studio_id, entry_id)
        join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
       union
      select t.entry_id, h.body_id from estimate t join e using (studio_id, entry_id)
        join holding h on h.studio_id = t.studio_id and h.holding_id = t.holding_id
       union
      select d.entry_id, d.body_id from dry_test d join e using (studio_id, entry_id))
    select e.entry_id as "entryId", e.kind as "kind", ${isoText(sql`e.happened_at`)} as "happenedAt",
           e.recorded_by as "recordedBy", e.note as "note", b.body_id as "bodyId",
           b.name as "bodyName", e.said ->> 'dryAct' as "dryAct",
           exists (select from entry r where r.studio_id = e.studio_id
                      and r.reverses_entry_id = e.entry_id) as "isTakenBack",
           (select min(o.stage) from loss o
             where o.studio_id = e.studio_id and o.entry_id = e.entry_id) as "lossStage",
           (select c.facts ->> 'dust_threshold_wet_basis' from catalogue_history c
             where c.studio_id = e.studio_id and c.resource = 'body' and c.resource_id = b.body_id
               and (c.changed_at <= e.recorded_at or c.version_no = 1)
             order by c.version_no desc limit 1) as "dustThreshold",
           coalesce((select jsonb_agg(jsonb_build_object('of', t."of", 'method', t.method,
                              'dry', t.dry_grams::text, 'water', t.water_grams::text,
                              'isRead', t.weighing_no is not null) order by t.estimate_no)
                       from estimate t
                       join holding h on h.studio_id = t.studio_id and h.holding_id = t.holding_id
                      where t.studio_id = e.studio_id and t.entry_id = e.entry_id
                        and h.body_id = b.body_id), '[]') as "estimates",
           ${HANDLED} as "handled"
      from e
      join touched on touched.entry_id = e.entry_id
      join body b on b.studio_id = e.studio_id and b.body_id = touched.body_id
     order by e.happened_at, e.entry_id, b.body_id`)
}

/** Clay that left its place, told by its line; of clay that was wetted again, what stood there before. */
const HANDLED = sql.raw(`coalesce((
  select jsonb_agg(jsonb_build_object(
           'dry', case when e.kind = 'rewet' then before.dry else -l.dry_grams end::text,
           'water', case when e.kind = 'rewet' then before.water else -l.water_grams end::text))
    from line l
    join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id and h.is_inside
    left join lateral (
      select sum(p.dry_grams) as dry, sum(p.water_grams) as water
        from line p join entry q on q.studio_id = p.studio_id and q.entry_id = p.entry_id
       where e.kind = 'rewet' and p.studio_id = l.studio_id and p.holding_id = l.holding_id
         and (q.recorded_at, q.entry_id) < (e.recorded_at, e.entry_id)) before on true
   where l.studio_id = e.studio_id and l.entry_id = e.entry_id and h.body_id = b.body_id
     and ((e.kind = 'slake' and h.place = 'scrap' and l.dry_grams < 0)
       or (e.kind = 'discard' and l.dry_grams < 0) or e.kind = 'rewet')), '[]')`)

function factsOf(row: Row) {
  const { kind, dryAct, lossStage, dustThreshold, estimates, handled } = row
  const amounts = ({ dry, water }: HandledRow) => ({
    dryGrams: decimal(dry),
    waterGrams: decimal(water),
  })
  return {
    kind,
    dryAct: dryAct ?? undefined,
    lossStage: lossStage ?? undefined,
    estimates: estimates.map(({ of, method, isRead, ...rest }) => ({
      ...{ of, method, isRead },
      ...amounts(rest),
    })),
    handled: handled.map(amounts),
    dustThresholdWetBasis: dustThreshold === null ? undefined : decimal(dustThreshold),
  }
}

async function airDryOf(ledger: Transaction, studioId: string, bodyId: string): Promise<Decimal> {
  const body = await findBody(ledger, studioId, bodyId)
  const tests = await testsOf(ledger, { studioId, bodyId, state: 'air_dry' })
  return studioFigure(body, 'air_dry', tests).waterContentWetBasis
}

function dusty(row: Row, cautions: readonly Caution[]): DustyEntry {
  const { entryId, kind, happenedAt, recordedBy, note, bodyId, bodyName, isTakenBack } = row
  return {
    ...{ entryId, kind, happenedAt, recordedBy, note, bodyId, bodyName, isTakenBack },
    cautions: cautions.map(({ why, instead }) => ({ why, instead })),
    trail: trailTo('entries', entryId),
  }
}

/** An entry that is about two clays stands once, with the cautions of both and the first one's name. */
function oncePerEntry(entries: readonly DustyEntry[]): DustyEntry[] {
  const byEntry = new Map<string, DustyEntry>()
  for (const entry of entries) {
    const before = byEntry.get(entry.entryId)
    const told = before?.cautions.map(({ why }) => why) ?? []
    const more = entry.cautions.filter(({ why }) => !told.includes(why))
    byEntry.set(
      entry.entryId,
      before === undefined ? entry : { ...before, cautions: [...before.cautions, ...more] },
    )
  }
  return [...byEntry.values()]
}
