import { costIn, layersOfSum, type AnyLayer, type CostLayers } from './cost-layer.ts'
import { decimal, toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import { doubtTimes, type Doubt } from './doubt.ts'
import {
  costOf,
  dryOf,
  howSure,
  surely,
  unsureDifference,
  unsurePer,
  unsureQuotient,
  unsureSum,
  unsureTimes,
  type HowSure,
  type Unsure,
} from './how-sure.ts'
import { printedAmount, roundedToSum } from './money.ts'
import { eachColumn } from './money-accounted.ts'
import {
  gradedApart,
  leftByLost,
  piecesLostFired,
  sharedBy,
  takenOnEach,
} from './piece-cost-fired.ts'
import { POT_PLACES, type Grade } from './place.ts'
import { cameTo, wentFrom, type PotFlows } from './run-flows.ts'

/** What the deliveries of a clay came to, up to some day. */
export interface Deliveries {
  readonly goods: Decimal
  readonly freight: Decimal
  readonly dryGrams: Decimal
  readonly dryDoubt: Doubt
}

/** A run as it was made, and the part of it that was sold in the time that is asked about. */
export interface RunSold {
  readonly made: PotFlows
  readonly soldPieces: Decimal
  readonly soldByGrade: Readonly<Record<Grade, Decimal>>
  readonly soldCost: Unsure
  /** What of that was paid for glaze, fire and wear. */
  readonly soldLayers: CostLayers
  /** Null where none of its clay was ever delivered, as of a blend. */
  readonly deliveries: Deliveries | null
}

export const COST_STEPS = {
  clay_at_bag_price:
    'clay at the price of the bag, averaged over all its deliveries up to the end of the time asked for',
  freight: 'freight, averaged alike',
  other_clay: 'clay that cost otherwise: reclaimed, blended, weighed again, from before the books',
  pots_from_before: 'pots that were here before the books began',
  joined_on: 'handles and the like, joined on',
  slops_back: 'slops and off-cuts, back to the bucket',
  turned_off_back: 'turned off, back to the bucket',
  lost_before_bisque: 'lost before bisque: their clay goes back, at another mass than the rest',
  glaze: 'glaze',
  firing_energy: 'firing energy',
  kiln_wear: 'elements and kiln furniture',
  lost_after_bisque: 'share of what was lost after bisque, in clay',
  lost_after_bisque_glaze: 'share of what was lost after bisque, in glaze',
  lost_after_bisque_fire: 'share of what was lost after bisque, in firing',
  seconds_rule: 'more on firsts or less on seconds, by the studio’s rule',
  packaging: 'packaging',
  between_pieces: 'differences between pieces, weighings and counts',
} as const
export type CostStepName = keyof typeof COST_STEPS

export interface CostStep {
  readonly step: CostStepName
  readonly words: string
  readonly costPerPiece: Decimal
  /** As it is printed, in the currency's digits. */
  readonly costPerPieceShown: string
  readonly sure: HowSure
}

export interface PieceCost {
  readonly steps: readonly CostStep[]
  readonly costPerPiece: Decimal
  readonly sure: HowSure
  /** As it is printed, in the currency's digits. */
  readonly costPerPieceShown: string
  /** The layers sum to the cost, exactly and as printed. */
  readonly costByLayer: Readonly<Record<AnyLayer, Decimal>>
  readonly costByLayerShown: Readonly<Record<AnyLayer, string>>
}

/** What the sold pieces were packed in. */
export interface Packed {
  readonly cost: Unsure
  readonly costLayers: CostLayers
}

/**
 * What a sold piece cost, step by step from the price of the bag.
 *
 * Each run gives an average: its begun pieces share what was thrown, joined on and taken off again;
 * then what is left of that is shared by the pieces that came through to bisque; then each survivor
 * takes its part of what the later lost left. What was glazed and fired shares glaze, energy and wear
 * likewise. A run counts by the pieces sold of it. The last step is what the books really moved with the
 * sold pieces, their packaging among it, less all that, so that the steps add up. Labour is in none of it.
 *
 * Shape: at least one piece sold. Units: money a sold piece, ledger scale; printed in the currency's
 * digits so that the printed steps add up too.
 * Source: our choice; the cost of normal spoilage goes to the good units (Horngren, Cost Accounting
 * 14e, ch. 18, from memory).
 */
export function pieceCost(
  runs: readonly RunSold[],
  packed: Packed,
  moneyDigits: number,
): PieceCost | null {
  const pieces = runs.reduce((sum, run) => sum.plus(run.soldPieces), ZERO)
  if (pieces.lessThanOrEqualTo(0)) return null
  const moved = unsureSum([...runs.map((run) => run.soldCost), packed.cost])
  const costPerPiece = toLedgerScale(moved.amount.dividedBy(pieces))
  const cost = { ...unsurePer(moved, pieces), amount: costPerPiece }
  const unsure = unsureSteps(runs, { packed, pieces, cost })
  const all = unsure.map(({ amount }) => amount)
  const shown = roundedToSum(all, moneyDigits)
  const layers = layersOfSum([packed.costLayers, ...runs.map((run) => run.soldLayers)])
  return {
    steps: STEP_NAMES.map((step, index) => ({
      step,
      words: COST_STEPS[step],
      costPerPiece: all[index] ?? ZERO,
      costPerPieceShown: printedAmount(shown[index] ?? ZERO, moneyDigits),
      sure: howSure(unsure[index] ?? surely(ZERO)),
    })),
    costPerPiece,
    sure: howSure(unsurePer(moved, pieces)),
    costPerPieceShown: printedAmount(
      shown.reduce((sum, amount) => sum.plus(amount), ZERO),
      moneyDigits,
    ),
    ...byLayer({ costPerPiece, layers, pieces }, moneyDigits),
  }
}

const STEP_NAMES = Object.keys(COST_STEPS) as CostStepName[]

/** The steps in their order, each rounded once; the last is what is left between them and the whole. */
function unsureSteps(
  runs: readonly RunSold[],
  { packed, pieces, cost }: { packed: Packed; pieces: Decimal; cost: Unsure },
): Unsure[] {
  const ofRuns = runs.map((run) => ({ run, steps: stepsOf(run) }))
  const apart = runs.map((run) => surely(gradedApart(run.made, run.soldByGrade)))
  const known = STEP_NAMES.flatMap((name): Unsure[] => {
    if (name === 'between_pieces') return []
    const money =
      name === 'packaging'
        ? [packed.cost]
        : name === 'seconds_rule'
          ? apart
          : ofRuns.map(({ run, steps }) => unsureTimes(steps[name], run.soldPieces))
    const each = unsurePer(unsureSum(money), pieces)
    return [{ ...each, amount: toLedgerScale(each.amount) }]
  })
  return [...known, unsureDifference(cost, unsureSum(known))]
}

/** Each layer a piece; clay is what the others leave. */
function byLayer(
  of: { costPerPiece: Decimal; layers: CostLayers; pieces: Decimal },
  moneyDigits: number,
): Pick<PieceCost, 'costByLayer' | 'costByLayerShown'> {
  const costLayers = new Map(
    [...of.layers].map(([layer, cost]) => [layer, toLedgerScale(cost.dividedBy(of.pieces))]),
  )
  const { total: _total, ...costByLayer } = eachColumn((column) =>
    column === 'total' ? ZERO : costIn({ cost: of.costPerPiece, costLayers }, column),
  )
  const names = Object.keys(costByLayer) as AnyLayer[]
  const shown = roundedToSum(
    names.map((name) => costByLayer[name]),
    moneyDigits,
  )
  return {
    costByLayer,
    costByLayerShown: Object.fromEntries(
      names.map((name, index) => [name, printedAmount(shown[index] ?? ZERO, moneyDigits)]),
    ) as Record<AnyLayer, string>,
  }
}

const MINUS_ONE = decimal(-1)

type StepsOfRun = Readonly<
  Record<Exclude<CostStepName, 'between_pieces' | 'packaging' | 'seconds_rule'>, Unsure>
>

/** The averages of one run, unrounded. */
function stepsOf({ made, deliveries }: RunSold): StepsOfRun {
  const thrown = cameTo(made, { kinds: ['throw'] })
  const opened = cameTo(made, { kinds: ['open_books'] })
  const begun = thrown.pieces.plus(opened.pieces)
  const each = (money: Unsure) => sharedBy(money, begun)
  const price = (paid: 'goods' | 'freight') => each(clayAt(dryOf(thrown), deliveries, paid))
  const slops = unsureSum([
    costOf(wentFrom(made, { kinds: ['collect_slops', 'weigh_scrap'] })),
    costOf(made.joining.offCuts),
  ])
  const turnedOff = costOf(wentFrom(made, { kinds: ['turn'] }))
  const spent = unsureSum([costOf(thrown), costOf(opened), costOf(made.joining.taken)])
  const inPots = unsureDifference(spent, unsureSum([slops, turnedOff]))
  const lostGreen = wentFrom(made, { kinds: ['lose'], places: ['greenware'] })
  const inBisque = unsureDifference(inPots, costOf(lostGreen))
  const throughBisque = begun.minus(lostGreen.pieces)
  const [goods, freight] = [price('goods'), price('freight')]
  const survivors = throughBisque.minus(piecesLostFired(made))
  const clayEach = sharedBy(inBisque, throughBisque)
  const left = leftByLost(made, clayEach.amount)
  const takenOn = takenOnEach(made)
  return {
    clay_at_bag_price: goods,
    freight,
    other_clay: unsureDifference(each(costOf(thrown)), unsureSum([goods, freight])),
    pots_from_before: each(costOf(opened)),
    joined_on: each(costOf(made.joining.taken)),
    slops_back: unsureTimes(each(slops), MINUS_ONE),
    turned_off_back: unsureTimes(each(turnedOff), MINUS_ONE),
    lost_before_bisque: unsureDifference(clayEach, each(inPots)),
    glaze: takenOn.glaze,
    firing_energy: takenOn.firingEnergy,
    kiln_wear: takenOn.kilnWear,
    lost_after_bisque: sharedBy(asUnsureAs(inBisque, left.clay), survivors),
    lost_after_bisque_glaze: sharedBy(asUnsureAs(takenOn.glaze, left.glaze), survivors),
    lost_after_bisque_fire: sharedBy(surely(left.fire), survivors),
  }
}

/** What the lost left was written down as money: it is as unsure as the pots that it was a part of. */
function asUnsureAs(whole: Unsure, amount: Decimal): Unsure {
  if (whole.amount.isZero()) return surely(amount)
  return { amount, doubt: doubtTimes(whole.doubt, amount.dividedBy(whole.amount)) }
}

/** So much clay at what the deliveries cost a gram: both of one water content, perhaps, which cancels. */
function clayAt(dry: Unsure, deliveries: Deliveries | null, paid: 'goods' | 'freight'): Unsure {
  if (deliveries === null || deliveries.dryGrams.isZero()) return surely(ZERO)
  const delivered = { amount: deliveries.dryGrams, doubt: deliveries.dryDoubt }
  return unsureTimes(unsureQuotient(dry, delivered), deliveries[paid])
}

/** What left by some kind of entry. Units: pieces, grams, money; exact. */
export function partedWith(pots: PotFlows, kind: 'sell' | 'give_away' | 'keep' | 'break_in_shop') {
  return wentFrom(pots, { kinds: [kind], places: POT_PLACES })
}

/** Money of one column a piece of another. Units: money, ledger scale; null without pieces. */
export function costPerPieceOf(cost: Decimal, pieces: Decimal): Decimal | null {
  return pieces.greaterThan(0) ? toLedgerScale(cost.dividedBy(pieces)) : null
}
