import { decimal, toLedgerScale, type Decimal } from './decimal.ts'
import type { KeptBy } from './material.ts'

/** A step of a supplier's price list: from so much on, so much a kilogram as supplied, or a piece. */
export interface PriceStep {
  readonly atLeast: Decimal
  readonly pricePerUnit: Decimal
}

const GRAMS_A_KILOGRAM = decimal(1000)

/**
 * What a kilogram of dry material, or a piece, cost on average; null where nothing is there.
 *
 * Units: money a kilogram or a piece, ledger scale. Source: moving average, as the books keep it.
 */
export function costPerUnit(
  held: { readonly materialGrams: Decimal; readonly pieces: Decimal; readonly cost: Decimal },
  keptBy: KeptBy,
): Decimal | null {
  const units = keptBy === 'count' ? held.pieces : held.materialGrams.dividedBy(GRAMS_A_KILOGRAM)
  return units.greaterThan(0) ? toLedgerScale(held.cost.dividedBy(units)) : null
}

/**
 * Whether so little is left that it is time to order; null where no point is said.
 *
 * Units: dry grams, or pieces. Source: our choice: the point itself is reached.
 */
export function isReorderReached(
  held: { readonly materialGrams: Decimal; readonly pieces: Decimal },
  said: { readonly keptBy: KeptBy; readonly reorderPoint: Decimal | null },
): boolean | null {
  if (said.reorderPoint === null) return null
  const left = said.keptBy === 'count' ? held.pieces : held.materialGrams
  return left.lessThanOrEqualTo(said.reorderPoint)
}

/** What was paid for a kilogram as supplied, or a piece. Units: money, ledger scale; null of nothing. */
export function pricePaid(
  bought: { readonly amount: Decimal; readonly paid: Decimal },
  keptBy: KeptBy,
): Decimal | null {
  const units = keptBy === 'count' ? bought.amount : bought.amount.dividedBy(GRAMS_A_KILOGRAM)
  return units.greaterThan(0) ? toLedgerScale(bought.paid.dividedBy(units)) : null
}

/**
 * The first step of a price list that lies above what was bought last.
 *
 * Units: kilograms as supplied, or pieces; null where there is none. Source: our choice.
 */
export function nextPriceStep(
  steps: readonly PriceStep[],
  bought: Decimal,
  keptBy: KeptBy,
): PriceStep | null {
  const units = keptBy === 'count' ? bought : bought.dividedBy(GRAMS_A_KILOGRAM)
  const above = steps.filter(({ atLeast }) => atLeast.greaterThan(units))
  return above.sort((one, other) => one.atLeast.comparedTo(other.atLeast))[0] ?? null
}
