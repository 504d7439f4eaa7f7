import { present } from '../../shared/assert.ts'
import type { Month } from '../../shared/month.ts'
import { isAlive, runsTogether, type PotFlows } from '../../shared/run-flows.ts'
import { isOneOff, stageEstimates, type StageEstimate } from '../../shared/yield-leaning.ts'
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

interface FormFigures extends Figures {
  readonly formId: string
  readonly formName: string
  readonly runs: number
}

interface FormYield extends Omit<FormFigures, 'stages'> {
  /** What each stage showed, and what to reckon with where that is of few pieces. */
  readonly stages: readonly (Stage & { readonly estimate: StageEstimate })[]
}

/** Runs of several forms taken as one. */
interface YieldTogether extends Figures {
  readonly forms: number
  readonly runs: number
  readonly words: string
}

interface OneOffsTogether extends YieldTogether {
  /** Where each of them is shown. */
  readonly runTrails: readonly string[]
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
  /** Runs of one piece, which are in their forms' figures too; null without any, or with a form named. */
  readonly oneOffs: OneOffsTogether | null
  /** Everything once; null without any, or with a form named. */
  readonly allForms: YieldTogether | null
}

export type YieldReport = Written<Report>

/**
 * How many pieces of each form came through each stage, and where their clay went.
 *
 * Follows the batch: a run belongs to the month in which it was thrown, whenever its pots were fired
 * and sold. With a form named, its runs are told one by one too. A form with few pieces leans on all
 * forms in the same months, whichever is named.
 *
 * Units: pieces, grams of dry clay, fractions. Refuses: `studio_not_found`, `form_not_found`.
 */
export function yieldReport(db: Database, asked: YieldAsked): Promise<YieldReport> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, formId, from, to } = asked
    const { timeZone } = await findStudio(ledger, studioId)
    if (formId !== undefined) await findForm(ledger, studioId, formId)
    const all = await readRunFlows(ledger, { studioId, timeZone })
    const runs = all.filter((run) => isAlive(run) && isThrownWithin(run, asked))
    const forms = withEstimates(formsOf(runs))
    const named = runs.filter((run) => run.formId === formId)
    const report: Report = {
      studioId,
      from: from ?? null,
      to: to ?? null,
      forms: formId === undefined ? forms : forms.filter((form) => form.formId === formId),
      runs: named.map(runYield),
      oneOffs: formId === undefined ? oneOffsOf(runs) : null,
      allForms: formId === undefined ? allFormsOf(runs) : null,
    }
    return written(report)
  })
}

function isThrownWithin({ thrownMonth }: NamedRunFlows, { from, to }: YieldAsked): boolean {
  return (from === undefined || thrownMonth >= from) && (to === undefined || thrownMonth <= to)
}

function formsOf(runs: readonly NamedRunFlows[]): FormFigures[] {
  const formIds = [...new Set(runs.map((run) => run.formId))]
  return formIds.map((formId) => {
    const ofForm = runs.filter((run) => run.formId === formId)
    return {
      formId,
      formName: ofForm[0]?.formName ?? formId,
      runs: ofForm.length,
      ...figuresOf(ofForm),
      trail: entriesTrail({ formId }),
    }
  })
}

/** Each stage is judged beside the same stage of all forms. */
function withEstimates(forms: readonly FormFigures[]): FormYield[] {
  const byStage = (forms[0]?.stages ?? []).map((_, at) =>
    stageEstimates(
      forms.map(({ formId, stages }) => ({
        formId,
        stage: present(stages[at], 'all forms have the same stages'),
      })),
    ),
  )
  return forms.map((form, index) => ({
    ...form,
    stages: form.stages.map((stage, at) => ({
      ...stage,
      estimate: present(byStage[at]?.[index], 'each form has its estimate'),
    })),
  }))
}

function oneOffsOf(runs: readonly NamedRunFlows[]): OneOffsTogether | null {
  const oneOffs = runs.filter((run) => isOneOff(piecesByStage(run)))
  if (oneOffs.length === 0) return null
  return {
    ...together(oneOffs),
    words: 'Runs of one piece, taken together because one alone says next to nothing.',
    runTrails: oneOffs.map(({ runId }) => trailTo('runs', runId)),
  }
}

function allFormsOf(runs: readonly NamedRunFlows[]): YieldTogether | null {
  if (runs.length === 0) return null
  return { ...together(runs), words: 'Every run of every form once, one-offs among them.' }
}

function together(runs: readonly NamedRunFlows[]): Omit<YieldTogether, 'words'> {
  return {
    forms: new Set(runs.map(({ formId }) => formId)).size,
    runs: runs.length,
    ...figuresOf(runs),
    trail: '/v1/runs',
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
    ...figuresOf([run]),
    trail: trailTo('runs', runId),
  }
}

function figuresOf(runs: readonly PotFlows[]) {
  const pots = runsTogether(runs)
  return { pieces: piecesByStage(pots), stages: stagesOf(pots, runs), mass: massByPart(pots) }
}
