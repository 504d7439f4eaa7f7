import { ALL_LAYERS, costIn, LAYER_WORDS, layersRead } from './cost-layer.ts'
import { decimal, type Decimal } from './decimal.ts'

/**
 * What a cost is made of, in the order in which a pot takes it on; nothing where all of it is clay.
 *
 * Units: money, exact. Source: the definition of the layers.
 */
export function costsByLayer(of: {
  readonly cost: string
  readonly costLayers: unknown
}): readonly { readonly words: string; readonly cost: Decimal }[] | undefined {
  const costLayers = layersRead(of.costLayers)
  if (costLayers.size === 0) return undefined
  const layered = { cost: decimal(of.cost), costLayers }
  return ALL_LAYERS.map((layer) => ({
    words: LAYER_WORDS[layer],
    cost: costIn(layered, layer),
  })).filter(({ cost }) => !cost.isZero())
}
