import { decimal, Decimal, toLedgerScale, ZERO } from './decimal.ts'
import { dryUncertaintyGramsOf, waterContentWetBasisOf, type Held } from './quantity.ts'

/** What a stock list says of a holding, or of several together. */
export interface StockFigures {
  readonly wetGrams: Decimal
  readonly dryGrams: Decimal
  readonly waterGrams: Decimal
  /** Null where nothing is there. */
  readonly waterContentWetBasis: Decimal | null
  readonly pieces: Decimal
  readonly bags: Decimal
  readonly pots: Decimal
  readonly cost: Decimal
  readonly standardUncertaintyGrams: Decimal
  readonly interval95: { readonly dryGramsFrom: Decimal; readonly dryGramsTo: Decimal }
}

/** Two-sided, 95 % of a normal distribution. */
const COVERAGE_FACTOR = decimal('1.96')

/**
 * The figures of a stock list for what is held; `bags` of its pieces are bags, the others pots.
 *
 * Units: grams, money; a water content from 0 to 1 at six digits; the interval holds the true dry mass
 * 19 times in 20 where the errors are normal, and is not taken below zero.
 * Source: JCGM 100:2008, 6.2.1 and table G.1 (coverage factor 1.96).
 */
export function stockFigures(held: Held, bags: Decimal): StockFigures {
  const { dryGrams, waterGrams, pieces, cost } = held
  const standardUncertaintyGrams = dryUncertaintyGramsOf(held)
  const half = toLedgerScale(standardUncertaintyGrams.times(COVERAGE_FACTOR))
  const waterContent = waterContentWetBasisOf(held)
  return {
    wetGrams: dryGrams.plus(waterGrams),
    dryGrams,
    waterGrams,
    waterContentWetBasis: waterContent === undefined ? null : toLedgerScale(waterContent),
    pieces,
    bags,
    pots: pieces.minus(bags),
    cost,
    standardUncertaintyGrams,
    interval95: {
      dryGramsFrom: Decimal.max(dryGrams.minus(half), ZERO),
      dryGramsTo: dryGrams.plus(half),
    },
  }
}
