import { assert } from './assert.ts'
import { Decimal, toLedgerScale, ZERO } from './decimal.ts'

/**
 * What makes an amount unsure: for each independent source, by how much the amount would be higher if
 * the source were higher by one of its own standard uncertainties, with its sign.
 *
 * Clay is moved, never made, and so is its doubt: what one holding would have more if a water content
 * were lower, another would have less. Whatever comes of one source therefore adds up to nothing over
 * an entry, and amounts that share a source are off together, wherever they went.
 */
export type Doubt = ReadonlyMap<string, Decimal>

export const NO_DOUBT: Doubt = new Map()

/** The doubt that one source leaves. Units: of the amount, ledger scale. Source: the definition. */
export function doubtBy(source: string, contribution: Decimal): Doubt {
  assert(contribution.isFinite(), 'a doubt is a finite number')
  const kept = toLedgerScale(contribution)
  return kept.isZero() ? NO_DOUBT : new Map([[source, kept]])
}

/**
 * Doubts of amounts that are added up: contributions of one source meet with their signs.
 *
 * Units: of the amounts; exact. Source: JCGM 100:2008, 5.2.2 (the law of propagation for a sum).
 */
export function doubtOfSum(doubts: Iterable<Doubt>): Doubt {
  const sum = new Map<string, Decimal>()
  for (const doubt of doubts) {
    for (const [source, more] of doubt) {
      const both = (sum.get(source) ?? ZERO).plus(more)
      if (both.isZero()) sum.delete(source)
      else sum.set(source, both)
    }
  }
  return sum
}

/** The doubt of an amount less another. Units: of the amounts; exact. Source: as `doubtOfSum`. */
export function doubtOfDifference(one: Doubt, other: Doubt): Doubt {
  return doubtOfSum([one, doubtNegated(other)])
}

/** The doubt of an amount that goes the other way. Units: as given; exact. Source: arithmetic. */
export function doubtNegated(doubt: Doubt): Doubt {
  return new Map([...doubt].map(([source, contribution]) => [source, contribution.negated()]))
}

/** The doubt of an amount times a number. Units: of the product, ledger scale. Source: arithmetic. */
export function doubtTimes(doubt: Doubt, factor: Decimal): Doubt {
  return mapped(doubt, (contribution) => contribution.times(factor))
}

/**
 * The doubt of a share of an amount that is known as a whole only.
 *
 * One doubtful water content makes all of its clay doubtful together, so a third of the clay takes a
 * third of each contribution; the whole takes all, to the last digit.
 *
 * Units: of the amount, ledger scale; `part` and `whole` share any unit. Source: as `doubtOfSum`.
 */
export function doubtOfPart(doubt: Doubt, share: { part: Decimal; whole: Decimal }): Doubt {
  const { part, whole } = share
  if (part.equals(whole)) return doubt
  if (whole.isZero()) return NO_DOUBT
  return mapped(doubt, (contribution) => contribution.times(part).dividedBy(whole))
}

/** Some sources of a doubt, by their names. Units: as given. Source: the definition. */
export function doubtOnly(doubt: Doubt, isWanted: (source: string) => boolean): Doubt {
  return new Map([...doubt].filter(([source]) => isWanted(source)))
}

/**
 * The standard uncertainty that all sources leave together.
 *
 * Units: of the amount, ledger scale. Source: JCGM 100:2008, 5.1.2: independent sources in quadrature.
 */
export function standardUncertaintyOfDoubt(doubt: Doubt): Decimal {
  let sum = ZERO
  for (const contribution of doubt.values()) sum = sum.plus(contribution.pow(2))
  return toLedgerScale(sum.sqrt())
}

/** A doubt as it is kept: by source, its contribution in plain digits. Units: as given. Source: our choice. */
export function doubtWritten(doubt: Doubt): Record<string, string> {
  return Object.fromEntries([...doubt].map(([source, one]) => [source, one.toFixed()]))
}

/** A doubt that was kept. Units: as given. Source: as `doubtWritten`. */
export function doubtRead(kept: unknown): Doubt {
  const entries = Object.entries((kept ?? {}) as Record<string, string>)
  return entries.length === 0
    ? NO_DOUBT
    : new Map(entries.map(([source, one]) => [source, new Decimal(one)]))
}

function mapped(doubt: Doubt, change: (contribution: Decimal) => Decimal): Doubt {
  const changed = new Map<string, Decimal>()
  for (const [source, contribution] of doubt) {
    const kept = toLedgerScale(change(contribution))
    if (!kept.isZero()) changed.set(source, kept)
  }
  return changed
}
