import { sql } from 'drizzle-orm'
import { decimal, ONE, ZERO, type Decimal } from '../shared/decimal.ts'
import {
  allowanceOfRun,
  lossFindingWords,
  wentAsUsual,
  type EarlierRun,
  type FiredPieces,
} from '../shared/loss-allowance.ts'
import { LOSS_STAGES, type LossStage } from '../shared/place.ts'
import { splitLoss, type SplitLoss } from '../shared/spoilage.ts'
import type { Book } from './book.ts'

/** A loss, parted into what usually happens and what is beyond it, and why so. */
export interface JudgedLoss extends SplitLoss {
  readonly words: string
}

/** Losses in and after the fire that an allowance speaks of: a shelf that falls among them. */
const JUDGED_STAGES = (Object.keys(LOSS_STAGES) as LossStage[]).filter(
  (stage) => LOSS_STAGES[stage] !== 'greenware',
)

/**
 * How many of the pieces that are lost now are usual for their form, by all that this studio fired
 * before, and how many are beyond it.
 *
 * Units: pieces.
 */
export async function judgeLoss(
  book: Book,
  lost: { runId: string; pieces: Decimal },
): Promise<JudgedLoss> {
  const runs = await firedRuns(book, lost.runId)
  const own = runs.find((run) => run.isRun) ?? NO_RUN
  const earlier = runs.filter((run) => run.isOfForm && !run.isRun)
  const others = runs.filter((run) => !run.isOfForm)
  const all = own.lost.plus(lost.pieces)
  const pieces = own.entered.greaterThan(all) ? own.entered : all
  const allowance = allowanceOfRun({
    pieces: pieces.lessThan(1) ? ONE : pieces,
    earlier,
    otherForms: together(others),
  })
  const split = splitLoss({
    allowance: allowance.allowedPieces,
    lostBefore: own.lost,
    lostNow: lost.pieces,
  })
  const words = lossFindingWords(allowance, { ...split, lostBefore: own.lost })
  return { ...split, words }
}

interface FiredRun extends Required<EarlierRun> {
  readonly isRun: boolean
  readonly isOfForm: boolean
}

const NO_RUN: FiredRun = {
  ...{ isRun: true, isOfForm: true },
  ...{ entered: ZERO, lost: ZERO, abnormal: ZERO },
}

/** Of other forms too, a run with a loss beyond the usual tells nothing of what is usual. */
function together(runs: readonly FiredRun[]): FiredPieces {
  return runs.filter(wentAsUsual).reduce(
    (sum, { entered, lost }) => ({
      entered: sum.entered.plus(entered),
      lost: sum.lost.plus(lost),
    }),
    { entered: ZERO, lost: ZERO },
  )
}

type Row = {
  isRun: boolean
  isOfForm: boolean
  entered: string
  lost: string
  abnormal: string
}

/**
 * Grain: one row a run of the studio that came to a fire: its pieces, those lost in and after it, and of
 * these those beyond the usual. Of the run itself all up to now, of others what was before; entries that
 * were taken back do not count. Bisque that the books began with comes to a fire too; finished pots that
 * they began with are pieces of their own run, and no history for others: what was lost of those nobody
 * told.
 */
async function firedRuns(book: Book, runId: string): Promise<FiredRun[]> {
  const studioId = book.studioId
  const at = sql`${book.facts.happenedAt.toISOString()}::timestamptz`
  const rows = await book.ledger.execute<Row>(sql`
    with counted as (
      select e.studio_id, e.entry_id, e.kind, e.happened_at
        from entry e
       where e.studio_id = ${studioId} and e.happened_at <= ${at}
         and e.kind in ('bisque', 'open_books', 'lose', 'grade')
         and e.entry_id <> ${book.facts.entryId}
         and not exists (select from entry t
                          where t.studio_id = e.studio_id and t.reverses_entry_id = e.entry_id)),
    fired as (
      select h.run_id, sum(l.pieces) as pieces
        from counted e
        join line l on l.studio_id = e.studio_id and l.entry_id = e.entry_id
        join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
       where (e.kind = 'bisque' and h.place = 'bisque'
              or e.kind = 'open_books' and h.place in ('bisque', 'glazed')
              or e.kind = 'open_books' and h.place = 'finished' and h.run_id = ${runId})
         and (e.happened_at < ${at} or h.run_id = ${runId})
       group by 1),
    lost as (
      select o.run_id, sum(o.pieces) as pieces, sum(o.abnormal_pieces) as abnormal
        from counted e
        join loss o on o.studio_id = e.studio_id and o.entry_id = e.entry_id
       where o.stage in ${JUDGED_STAGES} and (e.happened_at < ${at} or o.run_id = ${runId})
       group by 1)
    select n.run_id = ${runId} as "isRun",
           n.form_id = (select form_id from run
                         where studio_id = ${studioId} and run_id = ${runId}) as "isOfForm",
           fired.pieces::text as "entered",
           least(coalesce(lost.pieces, 0), fired.pieces)::text as "lost",
           least(coalesce(lost.abnormal, 0), fired.pieces)::text as "abnormal"
      from fired
      join run n on n.studio_id = ${studioId} and n.run_id = fired.run_id
      left join lost on lost.run_id = fired.run_id
     where fired.pieces > 0`)
  return rows.map((row) => ({
    isRun: row.isRun,
    isOfForm: row.isOfForm,
    entered: decimal(row.entered),
    lost: decimal(row.lost),
    abnormal: decimal(row.abnormal),
  }))
}
