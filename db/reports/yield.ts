import type { Month } from '../../shared/month.ts'
import { runsTogether, type PotFlows } from '../../shared/run-flows.ts'
import { massByPart, type MassByPart } from '../../shared/yield-mass.ts'
import { stagesOf, type Stage } from '../../shared/yield-stages.ts'
import { piecesByStage, type PiecesByStage } from '../../shared/yield.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database } from '../connection.ts'
import { inSnapshot } from '../report-reading.ts'
import { readRunFlows, type NamedRunFlows } from '../run-flows.ts'
import { findForm, findStudio } from '../studio.ts'
import { entriesTrail, trailTo } from '../trail-links.ts'

export interface YieldAsked {
  readonly studioId: string
  /** Named: its runs one by one, beside the form as a whole. */
  readonly formId?: string | undefined
  /** The months in which the runs were thrown, both ends included. */
  readonly from?: Month | undefined
  readonly to?: Month | undefined
}

interface Figures {
  readonly pieces: PiecesByStage
  readonly stages: readonly Stage[]
  readonly mass: MassByPart
  readonly trail: string
}

interface FormYield extends Figures {
  readonly formId: string
  readonly formName: string
  readonly runs: number
}

interface RunYield extends Figures {
  readonly runId: string
  readonly label: string
  readonly formId: string
  readonly formName: string
  readonly bodyId: string
  readonly thrownMonth: Month
}

interface Report {
  readonly studioId: string
  readonly from: Month | null
  readonly to: Month | null
  readonly forms: readonly FormYield[]
  readonly runs: readonly RunYield[]
}

export type YieldReport = Written<Report>

/**
 * How many pieces of each form came through each stage, and where their clay went.
 *
 * Follows the batch: a run belongs to the month in which it was thrown, whenever its pots were fired
 * and sold. With a form named, its runs are told one by one too.
 *
 * Units: pieces, grams of dry clay, fractions. Refuses: `studio_not_found`, `form_not_found`.
 */
export function yieldReport(db: Database, asked: YieldAsked): Promise<YieldReport> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, formId, from, to } = asked
    const { timeZone } = await findStudio(ledger, studioId)
    if (formId !== undefined) await findForm(ledger, studioId, formId)
    const all = await readRunFlows(ledger, { studioId, timeZone, formId })
    const runs = all.filter((run) => isAlive(run) && isThrownWithin(run, asked))
    const formIds = [...new Set(runs.map((run) => run.formId))]
    const report: Report = {
      studioId,
      from: from ?? null,
      to: to ?? null,
      forms: formIds.map((id) => formYield(runs.filter((run) => run.formId === id))),
      runs: formId === undefined ? [] : runs.map(runYield),
    }
    return written(report)
  })
}

/** A run whose throwing was taken back has nothing to tell. */
function isAlive(run: PotFlows): boolean {
  return run.movements.some((moved) => !moved.pieces.isZero() || !moved.dryGrams.isZero())
}

function isThrownWithin({ thrownMonth }: NamedRunFlows, { from, to }: YieldAsked): boolean {
  return (from === undefined || thrownMonth >= from) && (to === undefined || thrownMonth <= to)
}

function formYield(runs: readonly NamedRunFlows[]): FormYield {
  const { formId, formName } = runs[0] as NamedRunFlows
  return {
    formId,
    formName,
    runs: runs.length,
    ...figuresOf(runsTogether(runs)),
    trail: entriesTrail({ formId }),
  }
}

function runYield(run: NamedRunFlows): RunYield {
  const { runId, label, formId, formName, bodyId, thrownMonth } = run
  return {
    runId,
    label,
    formId,
    formName,
    bodyId,
    thrownMonth,
    ...figuresOf(run),
    trail: trailTo('runs', runId),
  }
}

function figuresOf(pots: PotFlows) {
  return { pieces: piecesByStage(pots), stages: stagesOf(pots), mass: massByPart(pots) }
}
