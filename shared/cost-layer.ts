import { Decimal, ZERO } from './decimal.ts'
import { shareOut } from './money.ts'

/** What a cost was paid for beside clay. What of a cost is in none of these is clay. */
export const COST_LAYERS = ['glaze', 'fire', 'wear', 'packaging'] as const
export type CostLayer = (typeof COST_LAYERS)[number]

/** Every layer of a cost, clay first, in the order in which a pot takes them on. */
export const ALL_LAYERS = ['clay', ...COST_LAYERS] as const
export type AnyLayer = (typeof ALL_LAYERS)[number]

/** What each layer is, in a potter's words. */
export const LAYER_WORDS: Readonly<Record<AnyLayer, string>> = {
  clay: 'clay',
  glaze: 'glaze',
  fire: 'firing energy',
  wear: 'elements and kiln furniture',
  packaging: 'packaging',
}

/** By layer, how much of a cost was paid for it: those that are nothing are left out. */
export type CostLayers = ReadonlyMap<CostLayer, Decimal>

export const ALL_CLAY: CostLayers = new Map()

export interface LayeredCost {
  readonly cost: Decimal
  readonly costLayers: CostLayers
}

/** A cost that was paid for one layer alone. Units: money. */
export function costOfLayer(layer: CostLayer, cost: Decimal): LayeredCost {
  return { cost, costLayers: cost.isZero() ? ALL_CLAY : new Map([[layer, cost]]) }
}

/** The sum, layer by layer; what cancels is gone. Units: money; exact. Source: arithmetic. */
export function layersOfSum(all: Iterable<CostLayers>): CostLayers {
  const sum = new Map<CostLayer, Decimal>()
  for (const layers of all) {
    for (const [layer, more] of layers) {
      const both = (sum.get(layer) ?? ZERO).plus(more)
      if (both.isZero()) sum.delete(layer)
      else sum.set(layer, both)
    }
  }
  return sum
}

/** The same layers going the other way. Units: money; exact. Source: arithmetic. */
export function layersNegated(layers: CostLayers): CostLayers {
  return new Map([...layers].map(([layer, cost]) => [layer, cost.negated()]))
}

/** What of a cost is clay: all that no other layer claims. Units: money; exact. */
export function clayOf({ cost, costLayers }: LayeredCost): Decimal {
  return [...costLayers.values()].reduce((left, other) => left.minus(other), cost)
}

/** How much of a cost is of one layer, clay among them. Units: money; exact. */
export function costIn(of: LayeredCost, layer: AnyLayer): Decimal {
  return layer === 'clay' ? clayOf(of) : (of.costLayers.get(layer) ?? ZERO)
}

/**
 * A cost of which each layer was worked out by itself, clay among them: the cost is their sum, so that no
 * rounding comes between a cost and its layers.
 *
 * Units: money, ledger scale. Source: arithmetic.
 */
export function eachLayer(of: LayeredCost, amountOf: (whole: Decimal) => Decimal): LayeredCost {
  const others = [...of.costLayers].map(([layer, whole]) => [layer, amountOf(whole)] as const)
  const costLayers = new Map(others.filter(([, amount]) => !amount.isZero()))
  const cost = others.reduce((sum, [, amount]) => sum.plus(amount), amountOf(clayOf(of)))
  return { cost, costLayers }
}

/**
 * A cost shared out by weight, each of its layers to the last unit.
 *
 * Shape: one share for each weight, in their order; at least one weight.
 * Units: money, ledger scale; the shares of each layer sum to it exactly. Source: as `shareOut`.
 */
export function shareOutLayers(of: LayeredCost, weights: readonly Decimal[]): LayeredCost[] {
  const clay = shareOut(clayOf(of), weights)
  const others = [...of.costLayers].map(
    ([layer, whole]) => [layer, shareOut(whole, weights)] as const,
  )
  return weights.map((_, index) => {
    const parts = others.map(([layer, shares]) => [layer, shares[index] ?? ZERO] as const)
    return {
      cost: parts.reduce((sum, [, part]) => sum.plus(part), clay[index] ?? ZERO),
      costLayers: new Map(parts.filter(([, part]) => !part.isZero())),
    }
  })
}

/** Layers as they are kept: by layer, plain digits. Units: money. Source: our choice. */
export function layersWritten(layers: CostLayers): Record<string, string> {
  return Object.fromEntries([...layers].map(([layer, cost]) => [layer, cost.toFixed()]))
}

/** Layers that were kept. Units: money. Source: as `layersWritten`. */
export function layersRead(kept: unknown): CostLayers {
  const entries = Object.entries((kept ?? {}) as Record<string, string>)
  return entries.length === 0
    ? ALL_CLAY
    : new Map(entries.map(([layer, cost]) => [layer as CostLayer, new Decimal(cost)]))
}
