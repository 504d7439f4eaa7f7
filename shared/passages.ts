import { Decimal, ZERO } from './decimal.ts'
import { shareOut } from './money.ts'

/** A line of an entry, and whether it is of what is asked about. */
export interface PassageLine {
  readonly holdingId: string
  readonly bodyId: string
  readonly isOwn: boolean
  readonly dryGrams: Decimal
  readonly cost: Decimal
}

/** What of an entry's clay one holding gave to what is asked about, or took from it. */
export interface EntryPassage {
  readonly holdingId: string
  readonly dryGrams: Decimal
  readonly cost: Decimal
  /** True where several gave to several and nobody knows which to which: a share by mass. */
  readonly isShare: boolean
}

type Way = 'in' | 'out'

/**
 * What the other holdings of an entry gave to those asked about, or took from them.
 *
 * Only lines of their own body count; in a blend, where bodies do not balance one by one, also those
 * of the bodies on the other side of it. All together pass as much as those asked about gained or gave,
 * each its share of that by its dry mass, and the cost by its cost. With one holding on either side
 * the share is exact.
 *
 * Shape: the lines of one entry, those of a reversal turned round; none where clay went the other way.
 * Units: grams, money, ledger scale; they sum to the own lines exactly.
 * Source: our choice; the largest remainder method for the last digit.
 */
export function passagesOfEntry(lines: readonly PassageLine[], way: Way): EntryPassage[] {
  const towards = (amount: Decimal) => (way === 'in' ? amount : amount.negated())
  const own = lines.filter(({ isOwn }) => isOwn)
  const ownGrams = towards(sumOf(own, 'dryGrams'))
  if (ownGrams.lessThanOrEqualTo(0)) return []
  const bodyIds = bodiesTogether(lines, own)
  const among = lines.filter(({ bodyId }) => bodyIds.has(bodyId))
  const others = among.filter((line) => !line.isOwn && towards(line.dryGrams).isNegative())
  if (others.length === 0) return []
  const grams = others.map(({ dryGrams }) => dryGrams.abs())
  const costs = others.map(({ cost }) => Decimal.max(towards(cost).negated(), ZERO))
  const areCosts = costs.some((cost) => !cost.isZero())
  const shares = shareOut(ownGrams, grams)
  const ownCost = shareOut(towards(sumOf(own, 'cost')), areCosts ? costs : grams)
  const isWhole = sumOf(others, 'dryGrams').abs().equals(ownGrams)
  return others.map(({ holdingId }, index) => ({
    holdingId,
    dryGrams: shares[index] ?? ZERO,
    cost: ownCost[index] ?? ZERO,
    isShare: others.length > 1 && !isWhole,
  }))
}

/** The own body, and where it does not balance by itself, those that it was blended with. */
function bodiesTogether(
  lines: readonly PassageLine[],
  own: readonly PassageLine[],
): ReadonlySet<string> {
  const ownIds = new Set(own.map(({ bodyId }) => bodyId))
  const excessOf = (bodyIds: ReadonlySet<string>) =>
    sumOf(
      lines.filter(({ bodyId }) => bodyIds.has(bodyId)),
      'dryGrams',
    )
  const excess = excessOf(ownIds)
  const opposite = lines.filter(({ bodyId }) =>
    excessOf(new Set([bodyId]))
      .times(excess)
      .isNegative(),
  )
  return new Set([...ownIds, ...opposite.map(({ bodyId }) => bodyId)])
}

function sumOf(lines: readonly PassageLine[], column: 'dryGrams' | 'cost'): Decimal {
  return lines.reduce((sum, line) => sum.plus(line[column]), ZERO)
}
