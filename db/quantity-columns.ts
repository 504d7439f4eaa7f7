import { decimal } from '../shared/decimal.ts'
import { doubtRead } from '../shared/doubt.ts'
import type { Quantities } from '../shared/quantity.ts'

/** The conserved columns and their doubts as the database writes them. */
export interface QuantityColumns {
  readonly dryGrams: string
  readonly waterGrams: string
  readonly pieces: string
  readonly cost: string
  readonly dryDoubt: unknown
  readonly costDoubt: unknown
}

/** The conserved columns of a row as decimals, with what makes them unsure. Units: grams, pieces, money. */
export function quantitiesOf(row: QuantityColumns): Quantities {
  return {
    dryGrams: decimal(row.dryGrams),
    waterGrams: decimal(row.waterGrams),
    pieces: decimal(row.pieces),
    cost: decimal(row.cost),
    dryDoubt: doubtRead(row.dryDoubt),
    costDoubt: doubtRead(row.costDoubt),
  }
}
