import { decimal, type Decimal } from './decimal.ts'
import { percentWords } from './percent.ts'

/** What one powder is of a batch, by its recipe and as it was weighed: fractions of the dry mass. */
export interface PowderShare {
  readonly name: string
  readonly wanted: Decimal
  readonly was: Decimal
}

/** What is nearer than a part in two hundred of the batch is how scales and hands are. Our choice. */
const SAME_WITHIN = decimal('0.005')

/**
 * How a batch differs from its recipe, a sentence a powder; nothing where it does not.
 *
 * Shape: fractions between 0 and 1. Units: none. Source: our choice.
 */
export function batchDiffersWords(shares: readonly PowderShare[]): string[] {
  return shares.flatMap(({ name, wanted, was }) => {
    if (wanted.isZero())
      return [`${name} is not in the recipe; it is ${percentWords(was)} of this batch.`]
    if (was.isZero()) return [`${name} was left out; the recipe has ${percentWords(wanted)} of it.`]
    if (was.minus(wanted).abs().lessThanOrEqualTo(SAME_WITHIN)) return []
    return [
      `${name} is ${percentWords(was)} of this batch; the recipe has ${percentWords(wanted)}.`,
    ]
  })
}
