import { sql } from 'drizzle-orm'
import { quantitiesOf } from './quantity-columns.ts'
import { decimal } from '../shared/decimal.ts'
import type { ActKind } from '../shared/month-world.ts'
import type { Month } from '../shared/month.ts'
import type { Grade, LossStage, PotPlace } from '../shared/place.ts'
import { negated, NOTHING } from '../shared/quantity.ts'
import type { Joining, RunFlows } from '../shared/run-flows.ts'
import type { Transaction } from './connection.ts'
import {
  COUNTED_KIND,
  endOf,
  LINES_IN_CONTEXT,
  startOf,
  SUMS_OF_LINES,
  type SumRow,
} from './report-reading.ts'

/** Which entries count: those of some months, both ends included. */
export interface MonthsAsked {
  readonly studioId: string
  readonly timeZone: string
  readonly from?: Month | undefined
  readonly to?: Month | undefined
}

/** A run with what happened to it, and what it is called. */
export interface NamedRunFlows extends RunFlows {
  readonly label: string
  readonly formName: string
  readonly bodyName: string
  readonly thrownMonth: Month
}

type RunRow = {
  runId: string
  formId: string
  bodyId: string
  label: string
  formName: string
  bodyName: string
  thrownMonth: string
}

/**
 * All that happened to each run of a studio, or of one form, oldest first.
 *
 * Entries that were taken back cancel out. Where months are asked, only what happened in them counts.
 */
export async function readRunFlows(
  ledger: Transaction,
  asked: MonthsAsked & { readonly formId?: string | undefined },
): Promise<NamedRunFlows[]> {
  const runs = await runsOf(ledger, asked)
  const movements = grouped(await movementsOf(ledger, asked))
  const losses = grouped(await lossesOf(ledger, asked))
  const joinings = new Map((await joiningsOf(ledger, asked)).map((one) => [one.runId, one]))
  return runs.map((run) => ({
    ...run,
    movements: (movements.get(run.runId) ?? []).map((row) => ({
      kind: row.kind as ActKind,
      place: row.place as PotPlace,
      grade: (row.grade ?? undefined) as Grade | undefined,
      ...quantitiesOf(row),
    })),
    joining: joinings.get(run.runId) ?? { taken: NOTHING, offCuts: NOTHING },
    losses: (losses.get(run.runId) ?? []).map((row) => ({
      stage: row.stage as LossStage,
      pieces: decimal(row.pieces),
      costLeft: decimal(row.costLeft),
    })),
  }))
}

/** Grain: one row a run. */
function runsOf(
  ledger: Transaction,
  { studioId, timeZone, formId }: MonthsAsked & { readonly formId?: string | undefined },
) {
  return ledger.execute<RunRow>(sql`
    select n.run_id as "runId", n.form_id as "formId", n.body_id as "bodyId", n.label as "label",
           f.name as "formName", b.name as "bodyName",
           to_char(n.thrown_at at time zone ${timeZone}, 'YYYY-MM') as "thrownMonth"
      from run n
      join form f on f.studio_id = n.studio_id and f.form_id = n.form_id
      join body b on b.studio_id = n.studio_id and b.body_id = n.body_id
     where n.studio_id = ${studioId} ${formId === undefined ? sql`` : sql`and n.form_id = ${formId}`}
     order by f.name, n.thrown_at, n.run_id`)
}

type MovementRow = SumRow & { runId: string; kind: string; place: string; grade: string | null }

/** Grain: one row a run, kind of entry, place and grade. */
function movementsOf(ledger: Transaction, asked: MonthsAsked) {
  return ledger.execute<MovementRow>(sql`
    select h.run_id as "runId", ${COUNTED_KIND} as "kind", h.place as "place", h.grade as "grade",
           ${SUMS_OF_LINES}
      from ${LINES_IN_CONTEXT}
     where l.studio_id = ${asked.studioId} and h.run_id is not null ${within(asked)}
     group by 1, 2, 3, 4`)
}

/** Grain: one row a run and stage. */
function lossesOf(ledger: Transaction, asked: MonthsAsked) {
  return ledger.execute<{ runId: string; stage: string; pieces: string; costLeft: string }>(sql`
    select o.run_id as "runId", o.stage as "stage",
           sum(case when e.reverses_entry_id is null then o.pieces else -o.pieces end) as "pieces",
           sum(case when e.reverses_entry_id is null then o.cost_left else -o.cost_left end) as "costLeft"
      from loss o
      join entry e on e.studio_id = o.studio_id
                  and o.entry_id in (e.entry_id, e.reverses_entry_id)
     where o.studio_id = ${asked.studioId} ${within(asked)}
     group by 1, 2`)
}

/**
 * Grain: one row a run: clay that left the bench to be joined on, and what came to scrap of it.
 *
 * The pots' own line shows only the difference of the two.
 */
async function joiningsOf(
  ledger: Transaction,
  asked: MonthsAsked,
): Promise<({ runId: string } & Joining)[]> {
  const rows = await ledger.execute<SumRow & { runId: string; place: string }>(sql`
    select n.run_id as "runId", h.place as "place", ${SUMS_OF_LINES}
      from ${LINES_IN_CONTEXT}
      join (select distinct p.entry_id, g.run_id
              from line p join holding g on g.studio_id = p.studio_id and g.holding_id = p.holding_id
             where p.studio_id = ${asked.studioId} and g.run_id is not null) n
        on n.entry_id = l.entry_id
     where l.studio_id = ${asked.studioId} and ${COUNTED_KIND} = 'join'
       and h.place in ('bench', 'scrap') ${within(asked)}
     group by 1, 2`)
  const runIds = [...new Set(rows.map((row) => row.runId))]
  const at = (runId: string, place: string) => {
    const row = rows.find((one) => one.runId === runId && one.place === place)
    return row === undefined ? NOTHING : quantitiesOf(row)
  }
  return runIds.map((runId) => ({
    runId,
    taken: negated(at(runId, 'bench')),
    offCuts: at(runId, 'scrap'),
  }))
}

function within({ from, to, timeZone }: MonthsAsked) {
  return sql`${from === undefined ? sql`` : sql`and e.happened_at >= ${startOf(from, timeZone)}`}
             ${to === undefined ? sql`` : sql`and e.happened_at < ${endOf(to, timeZone)}`}`
}

function grouped<Row extends { runId: string }>(rows: readonly Row[]): Map<string, Row[]> {
  const groups = new Map<string, Row[]>()
  for (const row of rows) groups.set(row.runId, [...(groups.get(row.runId) ?? []), row])
  return groups
}
