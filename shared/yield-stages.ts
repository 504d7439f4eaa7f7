import { LEDGER_SCALE, toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import { standardUncertaintyOfDoubt } from './doubt.ts'
import {
  dryOf,
  surely,
  unsureDifference,
  unsureQuotient,
  unsureSum,
  type Unsure,
} from './how-sure.ts'
import { roundedToSum } from './money.ts'
import type { ActKind } from './month-world.ts'
import type { Grade, PotPlace } from './place.ts'
import { cameTo, heldAt, wentFrom, type PotFlows } from './run-flows.ts'
import { begunWith, maybeNone, type MaybeNone } from './yield-mass.ts'
import { piecesByStage, stageYields, type StageYield } from './yield.ts'

export interface StageShare {
  readonly dryGrams: Decimal
  /** Of what was thrown, opened with and joined on; null where nothing was. */
  readonly fractionOfBegun: Decimal | null
  readonly dryUncertaintyGrams: Decimal
  /** Of the fraction: what makes both of its parts unsure alike has cancelled. */
  readonly fractionUncertainty: Decimal | null
}

/** What the clay that came into a stage became there. All but the first sum to the first. */
export const STAGE_PARTS = [
  'came',
  'passed',
  'takenOff',
  'lost',
  'lossOnIgnition',
  'unexplained',
  'waiting',
] as const
/** Of what passed, where it was graded. */
export const GRADED_PARTS = ['passedAsFirsts', 'passedAsSeconds'] as const

type StagePart = (typeof STAGE_PARTS)[number] | (typeof GRADED_PARTS)[number]
export type StageMass = Readonly<
  Record<Exclude<StagePart, 'unexplained'>, StageShare> & { unexplained: StageShare & MaybeNone }
>

/** A stage in pieces and in dry mass. */
export interface Stage extends StageYield {
  readonly mass: StageMass
}

type Grams = Readonly<Record<StagePart, Unsure>>

const NONE = surely(ZERO)

const STAGE_NAMES = ['making', 'bisque', 'glaze_firing', 'shop'] as const
type StageName = (typeof STAGE_NAMES)[number]

const PLACE_OF_STAGE: Readonly<Record<StageName, PotPlace>> = {
  making: 'greenware',
  bisque: 'bisque',
  glaze_firing: 'glazed',
  shop: 'finished',
}

/** The kinds of entry by which a stage is passed. */
const PASSED_BY: Readonly<Record<StageName, readonly ActKind[]>> = {
  making: ['bisque'],
  bisque: ['glaze_fire'],
  glaze_firing: ['grade'],
  shop: ['sell', 'give_away', 'keep'],
}

/**
 * Each stage of some pots in pieces and in dry mass: what came, passed, was lost, burnt off, waits.
 *
 * What passes a stage comes into the next: into the bisque fire as it went in, and what that fire took
 * stands in the next stage as loss on ignition, apart from what was lost. Turnings, slops and off-cuts
 * are taken off, and lost to nobody. Unexplained is what weighing and counting missed (plus) or found.
 * Fractions are of what the pots were begun with, as in `massByPart`.
 *
 * Shape: as `stageYields`, with the runs that the pots are of; came = passed + takenOff + lost + lossOnIgnition + unexplained + waiting.
 * Units: grams of dry clay, exact, after the fire of fired clay; fractions at six digits, summing too.
 * Source: mass balance; the largest remainder method for the last digit of the fractions.
 */
export function stagesOf(pots: PotFlows, runs: readonly PotFlows[] = [pots]): Stage[] {
  const making = gramsOf(pots, 'making')
  const bisque = gramsOf(pots, 'bisque')
  const glazeFiring = gramsOf(pots, 'glaze_firing')
  const grams = {
    making,
    bisque,
    glaze_firing: glazeFiring,
    shop: gramsOf(pots, 'shop'),
    whole: wayOf([making, bisque, glazeFiring]),
  }
  const begun = begunWith(pots)
  return stageYields(piecesByStage(pots), runs.map(piecesByStage)).map((stage) => ({
    ...stage,
    mass: withFractions(grams[stage.stage], begun),
  }))
}

function gramsOf(pots: PotFlows, stage: StageName): Grams {
  const at = PLACE_OF_STAGE[stage]
  const out = (kinds: readonly ActKind[], places: readonly PotPlace[] = [at]) =>
    dryOf(wentFrom(pots, { kinds, places }))
  const wasters = stage === 'glaze_firing' ? out(['grade'], ['glazed', 'finished']) : NONE
  const off = stage === 'making' ? dryOf(pots.joining.offCuts) : NONE
  const parts = {
    passed: unsureDifference(out(PASSED_BY[stage]), wasters),
    takenOff: unsureSum([out(['collect_slops', 'weigh_scrap', 'turn']), off]),
    lost: unsureSum([out(['lose', 'break_in_shop']), wasters]),
    lossOnIgnition: takenByFire(pots, stage),
    unexplained: out(['weigh_run', 'count', 'dry_test']),
    waiting: dryOf(heldAt(pots, at)),
  }
  return { came: cameInto(pots, stage), ...parts, ...gradesOf(pots, stage) }
}

/** What was begun or opened with there, or passed the stage before. */
function cameInto(pots: PotFlows, stage: StageName): Unsure {
  const at = PLACE_OF_STAGE[stage]
  const opened = dryOf(cameTo(pots, { kinds: ['open_books'], places: [at] }))
  if (stage === 'making') {
    const thrown = dryOf(cameTo(pots, { kinds: ['throw'], places: [at] }))
    return unsureSum([opened, thrown, dryOf(pots.joining.taken)])
  }
  const before = STAGE_NAMES[STAGE_NAMES.indexOf(stage) - 1] ?? 'making'
  const kinds = PASSED_BY[before]
  // The fire takes from the pots as they come out, after they went in whole.
  const passed =
    stage === 'shop'
      ? cameTo(pots, { kinds, places: [at] })
      : wentFrom(pots, { kinds, places: [PLACE_OF_STAGE[before]] })
  return unsureSum([opened, dryOf(passed)])
}

function takenByFire(pots: PotFlows, stage: StageName): Unsure {
  if (stage === 'bisque') {
    return dryOf(wentFrom(pots, { kinds: ['bisque'], places: ['greenware', 'bisque'] }))
  }
  if (stage !== 'glaze_firing') return NONE
  return dryOf(wentFrom(pots, { kinds: ['glaze_fire'], places: ['bisque', 'glazed'] }))
}

function gradesOf(pots: PotFlows, stage: StageName): Pick<Grams, (typeof GRADED_PARTS)[number]> {
  const ofGrade = (grade: Grade): Unsure => {
    const graded = { kinds: PASSED_BY[stage], places: ['finished'] as const, grade }
    if (stage === 'glaze_firing') return dryOf(cameTo(pots, graded))
    return stage === 'shop' ? dryOf(wentFrom(pots, graded)) : NONE
  }
  return { passedAsFirsts: ofGrade('first'), passedAsSeconds: ofGrade('second') }
}

/** Stages one after the other taken as one: what passes one comes into the next and counts once. */
function wayOf(stages: readonly Grams[]): Grams {
  const sum = (part: StagePart) => unsureSum(stages.map((stage) => stage[part]))
  const last = stages.at(-1)
  const passed = last?.passed ?? NONE
  return {
    came: unsureSum([unsureDifference(sum('came'), sum('passed')), passed]),
    passed,
    takenOff: sum('takenOff'),
    lost: sum('lost'),
    lossOnIgnition: sum('lossOnIgnition'),
    unexplained: sum('unexplained'),
    waiting: sum('waiting'),
    passedAsFirsts: last?.passedAsFirsts ?? NONE,
    passedAsSeconds: last?.passedAsSeconds ?? NONE,
  }
}

function withFractions(grams: Grams, begun: Unsure): StageMass {
  const ofBegun = ({ amount }: Unsure) => amount.dividedBy(begun.amount)
  const [, ...parts] = STAGE_PARTS
  const isBegun = !begun.amount.isZero()
  const rounded = isBegun
    ? roundedToSum(
        parts.map((part) => ofBegun(grams[part])),
        LEDGER_SCALE,
      )
    : []
  const share = (part: StagePart): [StagePart, StageShare] => {
    const index = (parts as readonly StagePart[]).indexOf(part)
    const fraction = isBegun ? (rounded[index] ?? toLedgerScale(ofBegun(grams[part]))) : null
    const unsure = isBegun ? unsureQuotient(grams[part], begun).doubt : undefined
    return [
      part,
      {
        dryGrams: grams[part].amount,
        fractionOfBegun: fraction,
        dryUncertaintyGrams: standardUncertaintyOfDoubt(grams[part].doubt),
        fractionUncertainty: unsure === undefined ? null : standardUncertaintyOfDoubt(unsure),
        ...(part === 'unexplained' ? maybeNone(grams[part]) : {}),
      },
    ]
  }
  return Object.fromEntries([...STAGE_PARTS, ...GRADED_PARTS].map(share)) as unknown as StageMass
}
