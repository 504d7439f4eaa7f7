import type { Decimal } from './decimal.ts'

/**
 * How many balls can be cut from so much clay.
 *
 * Units: grams wet, to whole balls. Source: the definition.
 */
export function ballsFrom(clay: {
  readonly wetGrams: Decimal
  readonly ballGrams: Decimal
}): number {
  const { wetGrams, ballGrams } = clay
  return ballGrams.greaterThan(0) ? wetGrams.dividedToIntegerBy(ballGrams).toNumber() : 0
}
