import { Decimal, toLedgerScale, ZERO } from './decimal.ts'
import { howSure } from './how-sure.ts'
import { waterContentWetBasisOf, type Held } from './quantity.ts'

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
  readonly costUncertainty: Decimal
  readonly costInterval95: { readonly costFrom: Decimal; readonly costTo: Decimal }
}

/**
 * The figures of a stock list for what is held; `bags` of its pieces are bags, the others pots.
 *
 * Units: grams, money; a water content from 0 to 1 at six digits; the intervals hold the true dry mass
 * and cost 19 times in 20 where the errors are normal, and are not taken below zero.
 * Source: JCGM 100:2008, 6.2.1 and table G.1 (coverage factor 1.96).
 */
export function stockFigures(held: Held, bags: Decimal): StockFigures {
  const { dryGrams, waterGrams, pieces, cost } = held
  const dry = howSure({ amount: dryGrams, doubt: held.dryDoubt })
  const money = howSure({ amount: cost, doubt: held.costDoubt })
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
    standardUncertaintyGrams: dry.standardUncertainty,
    interval95: {
      dryGramsFrom: Decimal.max(dry.interval95.from, ZERO),
      dryGramsTo: dry.interval95.to,
    },
    costUncertainty: money.standardUncertainty,
    costInterval95: {
      costFrom: Decimal.max(money.interval95.from, ZERO),
      costTo: money.interval95.to,
    },
  }
}
