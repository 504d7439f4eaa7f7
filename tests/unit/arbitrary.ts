import fc from 'fast-check'
import { decimal } from '../../shared/decimal.ts'
import type { Decimal } from '../../shared/decimal.ts'

/** Decimals at ledger scale between two whole numbers, both included. */
export function ledgerAmount(min: number, max: number): fc.Arbitrary<Decimal> {
  return fc
    .bigInt({ min: BigInt(min) * 1_000_000n, max: BigInt(max) * 1_000_000n })
    .map((millionths) => decimal(millionths.toString()).dividedBy(1_000_000))
}

/** Fractions with six digits, from zero up to but without one. */
export const fractionBelowOne: fc.Arbitrary<Decimal> = fc
  .integer({ min: 0, max: 999_999 })
  .map((millionths) => decimal(millionths).dividedBy(1_000_000))

export function sum(amounts: readonly Decimal[]): Decimal {
  return amounts.reduce((total, amount) => total.plus(amount), decimal(0))
}
