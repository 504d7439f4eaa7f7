import { sql } from 'drizzle-orm'
import { boardStage, type StageFound } from '../../shared/board-stage.ts'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database, Transaction } from '../connection.ts'
import { inSnapshot, isoText } from '../report-reading.ts'
import { findStudio } from '../studio.ts'
import { trailTo } from '../trail-links.ts'

interface Board extends StageFound {
  readonly runId: string
  readonly label: string
  readonly formId: string
  readonly formName: string
  readonly bodyId: string
  readonly bodyName: string
  readonly pieces: Decimal
  readonly dryGrams: Decimal
  readonly waterGrams: Decimal
  readonly thrownAt: string
  readonly workedAt: string
  readonly isTurned: boolean
  readonly trail: string
}

/** Unfired pots of one run, and what they wait for. */
export type BoardOfPots = Written<Board>

/**
 * What is on the boards now, the longest worked on first.
 *
 * Grain: one row a run of which unfired pots are here. Units: pieces, grams.
 * Refuses: `studio_not_found`.
 */
export function boardsReport(
  db: Database,
  asked: { readonly studioId: string; readonly now: Date },
): Promise<BoardOfPots[]> {
  return inSnapshot(db, async (ledger) => {
    await findStudio(ledger, asked.studioId)
    const rows = await rowsOf(ledger, asked.studioId)
    return rows.map((row) => written(boardOf(row, asked.now)))
  })
}

interface Row extends Record<string, unknown> {
  runId: string
  label: string
  formId: string
  formName: string
  bodyId: string
  bodyName: string
  pieces: string
  dryGrams: string
  waterGrams: string
  thrownAt: string
  workedAt: string
  isTurned: boolean
  isTurnedUsually: boolean
  weighedAt: string | null
}

function boardOf(row: Row, now: Date): Board {
  const { isTurnedUsually, weighedAt, ...shown } = row
  const dryGrams = decimal(row.dryGrams)
  const waterGrams = decimal(row.waterGrams)
  const wetGrams = dryGrams.plus(waterGrams)
  const found = boardStage({
    now,
    thrownAt: new Date(row.thrownAt),
    workedAt: new Date(row.workedAt),
    isTurned: row.isTurned,
    isTurnedUsually,
    weighed:
      weighedAt === null || wetGrams.isZero()
        ? null
        : { at: new Date(weighedAt), waterContentWetBasis: waterGrams.dividedBy(wetGrams) },
  })
  const pieces = decimal(row.pieces)
  return { ...shown, ...found, pieces, dryGrams, waterGrams, trail: trailTo('runs', row.runId) }
}

/** That an entry `e` stands. */
const STANDS = sql`not exists (select from entry b where b.studio_id = e.studio_id
                                                 and b.reverses_entry_id = e.entry_id)`

/** Grain: one row a run. A form that does not say whether it is turned is told by its runs. */
function rowsOf(ledger: Transaction, studioId: string) {
  return ledger.execute<Row>(sql`
    select r.run_id as "runId", r.label, f.form_id as "formId", f.name as "formName",
           b.body_id as "bodyId", b.name as "bodyName", h.pieces::text as pieces, h.dry_grams::text as "dryGrams",
           h.water_grams::text as "waterGrams", ${isoText(sql`r.thrown_at`)} as "thrownAt",
           ${isoText(sql`coalesce(k.worked_at, r.thrown_at)`)} as "workedAt",
           coalesce(k.is_turned, false) as "isTurned",
           coalesce(f.turned_off_fraction > 0, u.was_turned or not u.was_fired, true)
             as "isTurnedUsually",
           ${isoText(sql`w.weighed_at`)} as "weighedAt"
      from holding h
      join run r on r.studio_id = h.studio_id and r.run_id = h.run_id
      join form f on f.studio_id = r.studio_id and f.form_id = r.form_id
      join body b on b.studio_id = h.studio_id and b.body_id = h.body_id
      left join lateral (
        select max(e.happened_at) as worked_at, bool_or(e.kind = 'turn') as is_turned
          from line l
          join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
         where l.studio_id = h.studio_id and l.holding_id = h.holding_id
           and e.kind in ('throw', 'join', 'turn') and ${STANDS}) k on true
      left join lateral (
        select max(e.happened_at) as weighed_at
          from estimate t
          join entry e on e.studio_id = t.studio_id and e.entry_id = t.entry_id
         where t.studio_id = h.studio_id and t.holding_id = h.holding_id and e.kind = 'weigh_run'
           and e.happened_at >= coalesce(k.worked_at, r.thrown_at) and ${STANDS}) w on true
      left join lateral (
        select bool_or(e.kind = 'turn') as was_turned, bool_or(e.kind = 'bisque') as was_fired
          from run o
          join holding g on g.studio_id = o.studio_id and g.run_id = o.run_id
                        and g.place = 'greenware'
          join line l on l.studio_id = g.studio_id and l.holding_id = g.holding_id
          join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
         where o.studio_id = f.studio_id and o.form_id = f.form_id and ${STANDS}) u on true
     where h.studio_id = ${studioId} and h.place = 'greenware' and h.pieces > 0
     order by coalesce(k.worked_at, r.thrown_at), r.run_id`)
}
