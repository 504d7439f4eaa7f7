import { toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import { roundedToSum } from './money.ts'
import { POT_PLACES } from './place.ts'
import { cameTo, piecesLost, wentFrom, type PotFlows } from './run-flows.ts'

/** What the deliveries of a clay came to, up to some day. */
export interface Deliveries {
  readonly goods: Decimal
  readonly freight: Decimal
  readonly dryGrams: Decimal
}

/** A run as it was made, and the part of it that was sold in the time that is asked about. */
export interface RunSold {
  readonly made: PotFlows
  readonly soldPieces: Decimal
  readonly soldCost: Decimal
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
}

export interface PieceCost {
  readonly steps: readonly CostStep[]
  readonly costPerPiece: Decimal
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
  const cost = runs.reduce((sum, run) => sum.plus(run.soldCost), ZERO)
  const costPerPiece = toLedgerScale(cost.dividedBy(pieces))
  const names = Object.keys(COST_STEPS) as CostStepName[]
  const ofRuns = runs.map((run) => ({ run, steps: stepsOf(run) }))
  const known = names
    .filter((name) => name !== 'between_pieces')
    .map((name) => {
      const money = ofRuns.reduce(
        (sum, { run, steps }) => sum.plus(steps[name].times(run.soldPieces)),
        ZERO,
      )
      return toLedgerScale(money.dividedBy(pieces))
    })
  const rest = known.reduce((left, amount) => left.minus(amount), costPerPiece)
  const all = [...known, rest]
  const shown = roundedToSum(all, moneyDigits)
  return {
    steps: names.map((step, index) => ({
      step,
      words: COST_STEPS[step],
      costPerPiece: all[index] ?? ZERO,
      costPerPieceShown: (shown[index] ?? ZERO).toFixed(moneyDigits),
    })),
    costPerPiece,
    costPerPieceShown: shown.reduce((sum, amount) => sum.plus(amount), ZERO).toFixed(moneyDigits),
  }
}

type StepsOfRun = Readonly<Record<Exclude<CostStepName, 'between_pieces'>, Decimal>>

/** The averages of one run, unrounded. */
function stepsOf({ made, deliveries }: RunSold): StepsOfRun {
  const thrown = cameTo(made, { kinds: ['throw'] })
  const opened = cameTo(made, { kinds: ['open_books'] })
  const begun = thrown.pieces.plus(opened.pieces)
  const each = (money: Decimal) => sharedBy(money, begun)
  const price = (paid: 'goods' | 'freight') => each(clayAt(thrown.dryGrams, deliveries, paid))
  const slops = wentFrom(made, { kinds: ['collect_slops', 'weigh_scrap'] }).cost.plus(
    made.joining.offCuts.cost,
  )
  const turnedOff = wentFrom(made, { kinds: ['turn'] }).cost
  const spent = thrown.cost.plus(opened.cost).plus(made.joining.taken.cost)
  const inPots = spent.minus(slops).minus(turnedOff)
  const lostGreen = wentFrom(made, { kinds: ['lose'], places: ['greenware'] })
  const throughBisque = begun.minus(lostGreen.pieces)
  const [goods, freight] = [price('goods'), price('freight')]
  return {
    clay_at_bag_price: goods,
    freight,
    other_clay: each(thrown.cost).minus(goods).minus(freight),
    pots_from_before: each(opened.cost),
    joined_on: each(made.joining.taken.cost),
    slops_back: each(slops).negated(),
    turned_off_back: each(turnedOff).negated(),
    lost_before_bisque: sharedBy(inPots.minus(lostGreen.cost), throughBisque).minus(each(inPots)),
    lost_after_bisque: sharedBy(costLeftOf(made), throughBisque.minus(piecesLostFired(made))),
  }
}

function clayAt(dryGrams: Decimal, deliveries: Deliveries | null, paid: 'goods' | 'freight') {
  if (deliveries === null || deliveries.dryGrams.isZero()) return ZERO
  return dryGrams.times(deliveries[paid]).dividedBy(deliveries.dryGrams)
}

function costLeftOf(made: PotFlows): Decimal {
  return made.losses.reduce((sum, { costLeft }) => sum.plus(costLeft), ZERO)
}

const FIRED_STAGES = ['bisque_firing', 'glazing', 'glaze_firing', 'handling'] as const

function piecesLostFired(made: PotFlows): Decimal {
  return piecesLost(made, FIRED_STAGES)
}

function sharedBy(money: Decimal, pieces: Decimal): Decimal {
  return pieces.greaterThan(0) ? money.dividedBy(pieces) : ZERO
}

/** Pieces and cost that left by some kind of entry. Units: pieces, money; exact. */
export function partedWith(pots: PotFlows, kind: 'sell' | 'give_away' | 'keep' | 'break_in_shop') {
  const { pieces, cost } = wentFrom(pots, { kinds: [kind], places: POT_PLACES })
  return { pieces, cost }
}

/** Money of one column a piece of another. Units: money, ledger scale; null without pieces. */
export function costPerPieceOf(cost: Decimal, pieces: Decimal): Decimal | null {
  return pieces.greaterThan(0) ? toLedgerScale(cost.dividedBy(pieces)) : null
}
