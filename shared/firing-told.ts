import type { Decimal } from './decimal.ts'
import { toLedgerScale } from './decimal.ts'
import {
  emptyRoomCost,
  emptyRoomWords,
  kilowattHoursPerFiredKilogram,
  kilowattHoursPerKilnLitre,
  type EmptyRoomCost,
} from './kiln-fill.ts'
import { printedAmount } from './money.ts'

/** A firing as it was told. */
export interface FiringTold {
  readonly energyCost: Decimal
  readonly wearCost: Decimal
  readonly pieces: Decimal
  readonly fullFraction: Decimal | null
  readonly kilowattHours: Decimal | null
  readonly firedGrams: Decimal
  readonly volumeLitres: Decimal | null
}

export interface FiringRead {
  /** Energy and wear. */
  readonly cost: Decimal
  readonly costPerPiece: Decimal | null
  /** What it would have been in a full kiln; null where nobody knows how full it was. */
  readonly emptyRoom: EmptyRoomCost | null
  readonly kilowattHoursPerKilogram: Decimal | null
  readonly kilowattHoursPerLitre: Decimal | null
  readonly words: string
}

/**
 * What a firing cost a piece, what its empty room cost, and how much energy each kilogram and litre took.
 *
 * Units: money at ledger scale; kilowatt-hours a kilogram fired and a litre of kiln, ledger scale.
 * Source: as the formulas of `kiln-fill.ts`.
 */
export function firingRead(told: FiringTold, moneyDigits: number): FiringRead {
  const { pieces, fullFraction, kilowattHours, firedGrams, volumeLitres } = told
  const cost = told.energyCost.plus(told.wearCost)
  const isLoaded = pieces.greaterThan(0)
  const emptyRoom =
    isLoaded && fullFraction !== null && fullFraction.lessThanOrEqualTo(1)
      ? emptyRoomCost({ cost, pieces, fillFraction: fullFraction })
      : null
  const money = (amount: Decimal) => printedAmount(amount, moneyDigits)
  return {
    cost,
    costPerPiece: isLoaded ? toLedgerScale(cost.dividedBy(pieces)) : null,
    emptyRoom,
    kilowattHoursPerKilogram:
      kilowattHours === null || !firedGrams.greaterThan(0)
        ? null
        : toLedgerScale(kilowattHoursPerFiredKilogram({ kilowattHours, firedGrams })),
    kilowattHoursPerLitre:
      kilowattHours === null || volumeLitres === null
        ? null
        : toLedgerScale(kilowattHoursPerKilnLitre({ kilowattHours, volumeLitres })),
    words: firingWords({ cost, isLoaded, emptyRoom }, money),
  }
}

function firingWords(
  {
    cost,
    isLoaded,
    emptyRoom,
  }: { cost: Decimal; isLoaded: boolean; emptyRoom: EmptyRoomCost | null },
  money: (amount: Decimal) => string,
): string {
  if (!isLoaded) return `Nothing was in the kiln: ${money(cost)} is on no pot.`
  if (emptyRoom === null)
    return 'How full the kiln was is not known. Say it, or the sizes of the forms.'
  return emptyRoomWords(emptyRoom, money)
}
