import { present } from '../../shared/assert.ts'
import { decimalOfNumber, toLedgerScale, type Decimal } from '../../shared/decimal.ts'
import {
  turningSeries,
  type SeriesChart,
  type SeriesPoint,
  type SeriesSignal,
  type TurningSeries,
} from '../../shared/turning-series.ts'
import { waterWords } from '../../shared/turned-off.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database } from '../connection.ts'
import { kilnLosses, type KilnLosses } from '../kiln-losses.ts'
import { makersOfForm, type MakersOfForm } from '../makers-of-form.ts'
import { inSnapshot } from '../report-reading.ts'
import { findForm, findStudio } from '../studio.ts'
import { entriesTrail, trailTo } from '../trail-links.ts'
import { readTurnedRuns, type TurnedRunFlows } from '../turnings.ts'

interface FormListed {
  readonly formId: string
  readonly formName: string
  readonly runs: number
  readonly turnedRuns: number
  /** Null before there are enough runs for one. */
  readonly habitFraction: Decimal | null
  readonly latestFraction: Decimal | null
  readonly latestRunId: string | null
  readonly lately: TurningSeries['lately']
  readonly isSignal: boolean
  readonly words: string
  readonly trail: string
}

interface Overview {
  readonly studioId: string
  readonly forms: readonly FormListed[]
  readonly kilnLosses: KilnLosses
}

export type TurningOverview = Written<Overview>

interface Point {
  readonly runId: string
  readonly label: string
  readonly thrownAt: string
  readonly turnedOffFraction: Decimal
  /** Of the ratio: what makes the turnings and the pots unsure alike has cancelled. */
  readonly standardUncertainty: Decimal
  readonly beforeDryGrams: Decimal
  readonly turnedOffDryGrams: Decimal
  /** False where all of its turnings are reckoned with the figure as it is known now. */
  readonly hasOwnWater: boolean
  /** How far it differs from the run before it. */
  readonly movingRangeFraction: Decimal | null
  readonly isJump: boolean
  readonly signals: readonly string[]
  /** As they went into the bisque fire. */
  readonly dryGramsAPiece: Decimal | null
  readonly firedPieces: number | null
  readonly lostPieces: number | null
  readonly trail: string
}

interface FormTurning {
  readonly studioId: string
  readonly formId: string
  readonly formName: string
  readonly lately: TurningSeries['lately']
  readonly words: string
  /** With which water the turnings were reckoned. */
  readonly waterWords: string
  readonly chart: {
    readonly centreFraction: Decimal
    readonly upperLimitFraction: Decimal
    readonly lowerLimitFraction: Decimal
    readonly meanMovingRangeFraction: Decimal
    readonly movingRangeLimitFraction: Decimal
    readonly habitRuns: number
    readonly words: string
  } | null
  readonly points: readonly Point[]
  readonly signals: readonly (SeriesSignal & { readonly trail: string })[]
  readonly notTurnedRuns: number
  /** Turned, but the books held less before than came off. */
  readonly untoldRuns: number
  readonly kilnLosses: KilnLosses
  /** Only where the studio compares makers; there is no word of them otherwise. */
  readonly makers?: MakersOfForm
  readonly trail: string
}

export type TurningReport = Written<FormTurning>

/**
 * Which forms are turned otherwise than their habit, and whether thin pots are lost in the kiln.
 *
 * Units: fractions of the dry clay before turning. Refuses: `studio_not_found`, `form_not_found`.
 */
export function turningOverview(
  db: Database,
  asked: { readonly studioId: string; readonly formId?: string | undefined },
): Promise<TurningOverview> {
  return inSnapshot(db, async (ledger) => {
    const { studioId, formId } = asked
    const { timeZone } = await findStudio(ledger, studioId)
    if (formId !== undefined) await findForm(ledger, studioId, formId)
    const runs = await readTurnedRuns(ledger, { studioId, timeZone, formId })
    const names = new Map(runs.map(({ flows }) => [flows.formId, flows.formName]))
    const forms = [...names]
      .sort(([, one], [, other]) => one.localeCompare(other, 'en'))
      .map(([id]) => formListed(runs.filter(({ flows }) => flows.formId === id)))
    return written<Overview>({ studioId, forms, kilnLosses: kilnLosses(runs) })
  })
}

/**
 * The turning of one form run by run on its chart, with its signals and its losses in the kiln.
 *
 * Makers are compared only where the studio has switched that on.
 *
 * Units: fractions of the dry clay before turning. Refuses: `studio_not_found`, `form_not_found`.
 */
export function turningReport(
  db: Database,
  { studioId, formId }: { readonly studioId: string; readonly formId: string },
): Promise<TurningReport> {
  return inSnapshot(db, async (ledger) => {
    const { timeZone, comparesMakers } = await findStudio(ledger, studioId)
    const { name: formName } = await findForm(ledger, studioId, formId)
    const runs = await readTurnedRuns(ledger, { studioId, timeZone, formId })
    const { lately, words, chart, points, signals } = seriesOf(runs)
    return written<FormTurning>({
      studioId,
      formId,
      formName,
      lately,
      words,
      waterWords: waterWords(
        runs.flatMap(({ share, turning }) => (share === null ? [] : (turning ?? []))),
      ),
      chart: chart && shownChart(chart),
      points: points.map((point) => shownPoint(point, runs)),
      signals: signals.map((signal) => ({ ...signal, trail: trailTo('runs', signal.lastRunId) })),
      notTurnedRuns: runs.filter(({ turning }) => turning === null).length,
      untoldRuns: runs.filter(({ turning, share }) => turning !== null && share === null).length,
      kilnLosses: kilnLosses(runs),
      ...(comparesMakers ? { makers: makersOfForm(runs) } : {}),
      trail: entriesTrail({ formId, kind: 'turn' }),
    })
  })
}

function seriesOf(runs: readonly TurnedRunFlows[]): TurningSeries {
  return turningSeries(
    runs.flatMap(({ runId, flows: { label }, share }) =>
      share === null
        ? []
        : [{ runId, label, turnedOffFraction: share.turnedOffFraction.toNumber() }],
    ),
  )
}

function formListed(runs: readonly TurnedRunFlows[]): FormListed {
  const { formId, formName } = (runs[0] as TurnedRunFlows).flows
  const { chart, lately, words } = seriesOf(runs)
  const turned = runs.filter(({ share }) => share !== null)
  const latest = turned.at(-1)
  return {
    formId,
    formName,
    runs: runs.length,
    turnedRuns: turned.length,
    habitFraction: chart && decimalOfNumber(chart.centre),
    latestFraction: latest?.share?.turnedOffFraction ?? null,
    latestRunId: latest?.runId ?? null,
    lately,
    isSignal: lately === 'thinner' || lately === 'thicker',
    words,
    trail: `/v1/reports/turning/${encodeURIComponent(formId)}`,
  }
}

function shownChart(chart: SeriesChart): NonNullable<FormTurning['chart']> {
  return {
    centreFraction: decimalOfNumber(chart.centre),
    upperLimitFraction: decimalOfNumber(chart.upperLimit),
    lowerLimitFraction: decimalOfNumber(chart.lowerLimit),
    meanMovingRangeFraction: decimalOfNumber(chart.meanMovingRange),
    movingRangeLimitFraction: decimalOfNumber(chart.movingRangeLimit),
    habitRuns: chart.habitRuns,
    words: chart.words,
  }
}

function shownPoint(point: SeriesPoint, runs: readonly TurnedRunFlows[]): Point {
  const { runId, movingRange, isJump, signals } = point
  const run = present(
    runs.find((one) => one.runId === runId),
    'a point is of a run',
  )
  const { flows, thrownAt, outcome, dryGramsAPiece } = run
  const turning = present(run.turning ?? undefined, 'that was turned')
  const share = present(run.share ?? undefined, 'and of which the books tell from what')
  return {
    runId,
    label: flows.label,
    thrownAt,
    ...share,
    beforeDryGrams: turning.before.amount,
    turnedOffDryGrams: turning.turnedOff.amount,
    hasOwnWater: turning.hasOwnWater,
    movingRangeFraction: movingRange === null ? null : decimalOfNumber(movingRange),
    isJump,
    signals,
    dryGramsAPiece: dryGramsAPiece && toLedgerScale(dryGramsAPiece),
    firedPieces: outcome?.firedPieces ?? null,
    lostPieces: outcome?.lostPieces ?? null,
    trail: entriesTrail({ runId, kind: 'turn' }),
  }
}
