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
import { POT_PLACES } from './place.ts'
import { cameTo, piecesLost, wentFrom, type PotFlows } from './run-flows.ts'

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
  readonly soldCost: Unsure
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
  lost_after_bisque: 'share of what was lost after bisque',
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
}

/**
 * What a sold piece cost in clay, step by step from the price of the bag.
 *
 * Each run gives an average: its begun pieces share what was thrown, joined on and taken off again;
 * then what is left of that is shared by the pieces that came through to bisque; then each survivor
 * takes its part of what the later lost left. A run counts by the pieces sold of it. The last step is
 * what the books really moved with the sold pieces less all that, so that the steps add up.
 *
 * Shape: at least one piece sold. Units: money a sold piece, ledger scale; printed in the currency's
 * digits so that the printed steps add up too.
 * Source: our choice; the cost of normal spoilage goes to the good units (Horngren, Cost Accounting
 * 14e, ch. 18, from memory).
 */
export function pieceCost(runs: readonly RunSold[], moneyDigits: number): PieceCost | null {
  const pieces = runs.reduce((sum, run) => sum.plus(run.soldPieces), ZERO)
  if (pieces.lessThanOrEqualTo(0)) return null
  const cost = unsurePer(unsureSum(runs.map((run) => run.soldCost)), pieces)
  const costPerPiece = toLedgerScale(cost.amount)
  const names = Object.keys(COST_STEPS) as CostStepName[]
  const ofRuns = runs.map((run) => ({ run, steps: stepsOf(run) }))
  const known = names
    .filter((name) => name !== 'between_pieces')
    .map((name) => {
      const money = ofRuns.map(({ run, steps }) => unsureTimes(steps[name], run.soldPieces))
      const each = unsurePer(unsureSum(money), pieces)
      return { ...each, amount: toLedgerScale(each.amount) }
    })
  const rest = unsureDifference({ ...cost, amount: costPerPiece }, unsureSum(known))
  const unsure = [...known, rest]
  const all = unsure.map(({ amount }) => amount)
  const shown = roundedToSum(all, moneyDigits)
  return {
    steps: names.map((step, index) => ({
      step,
      words: COST_STEPS[step],
      costPerPiece: all[index] ?? ZERO,
      costPerPieceShown: printedAmount(shown[index] ?? ZERO, moneyDigits),
      sure: howSure(unsure[index] ?? surely(ZERO)),
    })),
    costPerPiece,
    sure: howSure(cost),
    costPerPieceShown: printedAmount(
      shown.reduce((sum, amount) => sum.plus(amount), ZERO),
      moneyDigits,
    ),
  }
}

const MINUS_ONE = decimal(-1)

type StepsOfRun = Readonly<Record<Exclude<CostStepName, 'between_pieces'>, Unsure>>

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
  return {
    clay_at_bag_price: goods,
    freight,
    other_clay: unsureDifference(each(costOf(thrown)), unsureSum([goods, freight])),
    pots_from_before: each(costOf(opened)),
    joined_on: each(costOf(made.joining.taken)),
    slops_back: unsureTimes(each(slops), MINUS_ONE),
    turned_off_back: unsureTimes(each(turnedOff), MINUS_ONE),
    lost_before_bisque: unsureDifference(sharedBy(inBisque, throughBisque), each(inPots)),
    lost_after_bisque: sharedBy(
      asUnsureAs(inBisque, costLeftOf(made)),
      throughBisque.minus(piecesLostFired(made)),
    ),
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

function costLeftOf(made: PotFlows): Decimal {
  return made.losses.reduce((sum, { costLeft }) => sum.plus(costLeft), ZERO)
}

const FIRED_STAGES = ['bisque_firing', 'glazing', 'glaze_firing', 'handling'] as const

function piecesLostFired(made: PotFlows): Decimal {
  return piecesLost(made, FIRED_STAGES)
}

function sharedBy(money: Unsure, pieces: Decimal): Unsure {
  return pieces.greaterThan(0) ? unsurePer(money, pieces) : surely(ZERO)
}

/** Pieces and cost that left by some kind of entry. Units: pieces, money; exact. */
export function partedWith(pots: PotFlows, kind: 'sell' | 'give_away' | 'keep' | 'break_in_shop') {
  const { pieces, cost, costDoubt } = wentFrom(pots, { kinds: [kind], places: POT_PLACES })
  return { pieces, cost, costDoubt }
}

/** Money of one column a piece of another. Units: money, ledger scale; null without pieces. */
export function costPerPieceOf(cost: Decimal, pieces: Decimal): Decimal | null {
  return pieces.greaterThan(0) ? toLedgerScale(cost.dividedBy(pieces)) : null
}
