import type { AnyLayer } from './cost-layer.ts'
import { decimal, ONE, toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import type { CostStep, CostStepName } from './piece-cost.ts'
import { piecesLostFired } from './piece-cost-fired.ts'
import { cameTo, piecesLost, type PotFlows } from './run-flows.ts'
import type { PieceCostByLayer } from './what-changes-if.ts'

/**
 * What a sold piece cost by layer, its own and that of lost pots apart, with the yields of its runs.
 *
 * What the lost left in firing is parted into energy and wear as the rest of the piece is.
 *
 * Shape: layers of own and lost sum to the cost; yields above zero up to one, one where nothing is known.
 * Units: money a piece at ledger scale; fractions. Source: our choice.
 */
export function costBeforeChange(
  costed: {
    readonly costByLayer: Readonly<Record<AnyLayer, Decimal>>
    readonly steps: readonly Pick<CostStep, 'step' | 'costPerPiece'>[]
  },
  runs: PotFlows,
): PieceCostByLayer {
  const { costByLayer, steps } = costed
  const stepOf = (name: CostStepName) =>
    steps.find(({ step }) => step === name)?.costPerPiece ?? ZERO
  const lostFire = stepOf('lost_after_bisque_fire')
  const fired = costByLayer.fire.plus(costByLayer.wear)
  const energy = fired.isZero()
    ? lostFire
    : toLedgerScale(lostFire.times(costByLayer.fire).dividedBy(fired))
  const ofLost = {
    clay: stepOf('lost_after_bisque'),
    glaze: stepOf('lost_after_bisque_glaze'),
    fire: energy,
    wear: lostFire.minus(energy),
    packaging: ZERO,
  }
  const bisqued = cameTo(runs, { kinds: ['bisque'], places: ['bisque'] }).pieces
  const lostGreen = piecesLost(runs, ['wheel', 'leather_hard', 'drying'])
  return {
    own: {
      clay: costByLayer.clay.minus(ofLost.clay),
      glaze: costByLayer.glaze.minus(ofLost.glaze),
      fire: costByLayer.fire.minus(ofLost.fire),
      wear: costByLayer.wear.minus(ofLost.wear),
      packaging: costByLayer.packaging,
    },
    ofLost,
    yieldAfterBisque: share(bisqued.minus(piecesLostFired(runs)), bisqued),
    yieldBeforeBisque: share(bisqued, bisqued.plus(lostGreen)),
  }
}

function share(part: Decimal, whole: Decimal): Decimal {
  if (!whole.greaterThan(0) || !part.greaterThan(0)) return ONE
  const fraction = toLedgerScale(part.dividedBy(whole))
  return fraction.greaterThan(1) ? decimal(1) : fraction
}
