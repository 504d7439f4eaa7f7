import { and, asc, eq, sql } from 'drizzle-orm'
import type { Month } from '../../shared/month.ts'
import { massByPart, type MassByPart } from '../../shared/yield-mass.ts'
import { stagesOf, type Stage } from '../../shared/yield-stages.ts'
import { piecesByStage, type PiecesByStage } from '../../shared/yield.ts'
import { written, type Written } from '../../shared/written.ts'
import { present } from '../../shared/assert.ts'
import type { Database, Transaction } from '../connection.ts'
import { refuseUnknown } from '../entry-filters.ts'
import { viewHolding, type HoldingView } from '../holding-view.ts'
import { momentKey, olderThan, pageFrom, type Page, type PageAsked } from '../page-keys.ts'
import { readPassages, type Passage } from '../passages.ts'
import { endOf, inSnapshot, isoText, startOf } from '../report-reading.ts'
import { readRunFlows } from '../run-flows.ts'
import { holding } from '../schema.ts'
import { findRun, findStudio } from '../studio.ts'
import { entriesTrail, holdingsTrail, trailTo } from '../trail-links.ts'

export interface RunListed {
  readonly runId: string
  readonly formId: string
  readonly formName: string
  readonly bodyId: string
  readonly label: string
  readonly thrownAt: string
  readonly maker: string | null
  readonly madeByEntryId: string
  /** Pieces of it that are still in the studio. */
  readonly piecesHere: string
  readonly links: {
    readonly self: string
    readonly madeBy: string
    readonly body: string
    readonly form: string
    readonly holdings: string
    readonly entries: string
  }
}

interface RunFigures {
  readonly pieces: PiecesByStage
  readonly stages: readonly Stage[]
  readonly mass: MassByPart
}

export interface RunTraced extends RunListed, Written<RunFigures> {
  /** Pieces and mass at each place where some are. */
  readonly isNow: readonly HoldingView[]
  /** The lots and vessels that its clay came from, less what was cut off again at once. */
  readonly cameFrom: readonly Passage[]
  readonly losses: readonly RunLoss[]
}

export interface RunLoss {
  readonly entryId: string
  readonly happenedAt: string
  readonly pieces: number
  readonly stage: string
  readonly cause: string
  readonly costLeft: string
  readonly isTakenBack: boolean
  readonly trail: string
}

export interface RunsAsked {
  readonly studioId: string
  readonly formId?: string | undefined
  readonly bodyId?: string | undefined
  /** The month in which it was thrown. */
  readonly month?: Month | undefined
  readonly page: PageAsked
}

/** Runs, the newest first. Refuses: `studio_not_found`, `form_not_found`, `body_not_found`. */
export function listRuns(db: Database, asked: RunsAsked): Promise<Page<RunListed>> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, formId, bodyId, month, page } = asked
    const { timeZone } = await findStudio(ledger, studioId)
    await refuseUnknown(ledger, studioId, { formId, bodyId })
    const narrowed = sql`
      ${formId === undefined ? sql`` : sql`and n.form_id = ${formId}`}
      ${bodyId === undefined ? sql`` : sql`and n.body_id = ${bodyId}`}
      ${month === undefined ? sql`` : sql`and n.thrown_at >= ${startOf(month, timeZone)} and n.thrown_at < ${endOf(month, timeZone)}`}
      ${olderThan(page.after, { moment: sql`n.thrown_at`, id: sql`n.run_id` })}`
    const rows = await rowsOf(ledger, { studioId, narrowed, limit: page.limit + 1 })
    return pageFrom(rows, page, { key: (row) => row.key, item: viewRun })
  })
}

/**
 * A run: its pieces and clay at each place, what was lost, and what became of it all.
 *
 * Refuses: `studio_not_found`, `run_not_found`.
 */
export function traceRun(
  db: Database,
  { studioId, runId }: { studioId: string; runId: string },
): Promise<RunTraced> {
  return inSnapshot(db, async (ledger) => {
    const { timeZone } = await findStudio(ledger, studioId)
    const { formId } = await findRun(ledger, studioId, runId)
    const narrowed = sql`and n.run_id = ${runId}`
    const [row] = await rowsOf(ledger, { studioId, narrowed, limit: 1 })
    const flows = await readRunFlows(ledger, { studioId, timeZone, formId })
    const own = present(
      flows.find((run) => run.runId === runId),
      'a run that is known has its flows',
    )
    const figures: RunFigures = {
      pieces: piecesByStage(own),
      stages: stagesOf(own),
      mass: massByPart(own),
    }
    return {
      ...viewRun(present(row, 'a run that is known is listed')),
      ...written(figures),
      isNow: await isNowAt(ledger, studioId, runId),
      cameFrom: await readPassages(ledger, {
        studioId,
        isOwn: sql`h.run_id = ${runId}`,
        way: 'in',
      }),
      losses: await lossesOf(ledger, studioId, runId),
    }
  })
}

type RunRow = Omit<RunListed, 'links'> & { key: string } & Record<string, unknown>

/** Grain: one row a run. */
function rowsOf(
  ledger: Transaction,
  asked: { studioId: string; narrowed: ReturnType<typeof sql>; limit: number },
) {
  return ledger.execute<RunRow>(sql`
    select n.run_id as "runId", n.form_id as "formId", f.name as "formName", n.body_id as "bodyId",
           n.label as "label", ${isoText(sql`n.thrown_at`)} as "thrownAt", n.maker as "maker",
           n.made_by_entry_id as "madeByEntryId",
           (select coalesce(sum(h.pieces), 0) from holding h
             where h.studio_id = n.studio_id and h.run_id = n.run_id) as "piecesHere",
           ${momentKey(sql`n.thrown_at`)} || '|' || n.run_id as "key"
      from run n
      join form f on f.studio_id = n.studio_id and f.form_id = n.form_id
     where n.studio_id = ${asked.studioId} ${asked.narrowed}
     order by n.thrown_at desc, n.run_id desc
     limit ${asked.limit}`)
}

function viewRun({ key: _key, ...row }: RunRow): RunListed {
  const { runId } = row
  return {
    ...row,
    links: {
      self: trailTo('runs', runId),
      madeBy: trailTo('entries', row.madeByEntryId),
      body: trailTo('bodies', row.bodyId),
      form: trailTo('forms', row.formId),
      holdings: holdingsTrail({ runId, nonEmpty: 'false' }),
      entries: entriesTrail({ runId }),
    },
  }
}

/** Grain: one row a holding of the run that holds something. */
async function isNowAt(
  ledger: Transaction,
  studioId: string,
  runId: string,
): Promise<HoldingView[]> {
  const rows = await ledger
    .select()
    .from(holding)
    .where(
      and(
        eq(holding.studioId, studioId),
        eq(holding.runId, runId),
        sql`(${holding.pieces} <> 0 or ${holding.dryGrams} <> 0)`,
      ),
    )
    .orderBy(asc(holding.holdingId))
  return rows.map(viewHolding)
}

/** Grain: one row a loss, those that were taken back among them and marked. */
async function lossesOf(ledger: Transaction, studioId: string, runId: string): Promise<RunLoss[]> {
  const rows = await ledger.execute<Omit<RunLoss, 'trail'> & Record<string, unknown>>(sql`
    select o.entry_id as "entryId", ${isoText(sql`e.happened_at`)} as "happenedAt",
           o.pieces as "pieces", o.stage as "stage", o.cause as "cause", o.cost_left as "costLeft",
           exists (select from entry t where t.studio_id = o.studio_id
                                         and t.reverses_entry_id = o.entry_id) as "isTakenBack"
      from loss o
      join entry e on e.studio_id = o.studio_id and e.entry_id = o.entry_id
     where o.studio_id = ${studioId} and o.run_id = ${runId}
     order by e.happened_at, o.entry_id`)
  return rows.map((row) => ({ ...row, trail: trailTo('entries', row.entryId) }))
}
