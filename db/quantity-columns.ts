import { layersRead } from '../shared/cost-layer.ts'
import { decimal } from '../shared/decimal.ts'
import { doubtRead } from '../shared/doubt.ts'
import type { Quantities } from '../shared/quantity.ts'

/** The conserved columns and their doubts as the database writes them. */
export interface QuantityColumns {
  readonly dryGrams: string
  readonly materialGrams: string
  readonly waterGrams: string
  readonly pieces: string
  readonly cost: string
  readonly costLayers: unknown
  readonly dryDoubt: unknown
  readonly materialDoubt: unknown
  readonly costDoubt: unknown
}

/** The conserved columns of a row as decimals, with what makes them unsure. Units: grams, pieces, money. */
export function quantitiesOf(row: QuantityColumns): Quantities {
  return {
    dryGrams: decimal(row.dryGrams),
    materialGrams: decimal(row.materialGrams),
    waterGrams: decimal(row.waterGrams),
    pieces: decimal(row.pieces),
    cost: decimal(row.cost),
    costLayers: layersRead(row.costLayers),
    dryDoubt: doubtRead(row.dryDoubt),
    materialDoubt: doubtRead(row.materialDoubt),
    costDoubt: doubtRead(row.costDoubt),
  }
}
