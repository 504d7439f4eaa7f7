import { Decimal, toLedgerScale, ZERO } from './decimal.ts'

/** The four columns that every entry conserves. */
export interface Quantities {
  readonly dryGrams: Decimal
  readonly waterGrams: Decimal
  /** Bags in the store, pots everywhere else. */
  readonly pieces: Decimal
  readonly cost: Decimal
}

/** What a holding holds: the four columns, and how unsure its dry mass is (variance, g²). */
export interface Held extends Quantities {
  readonly dryVariance: Decimal
}

export const CONSERVED = ['dryGrams', 'waterGrams', 'pieces', 'cost'] as const
export type Conserved = (typeof CONSERVED)[number]

export const NOTHING: Quantities = { dryGrams: ZERO, waterGrams: ZERO, pieces: ZERO, cost: ZERO }
export const NOTHING_HELD: Held = { ...NOTHING, dryVariance: ZERO }

/** Some of the four columns, the others being zero. Units: grams, pieces, money. */
export function quantities(some: Partial<Quantities>): Quantities {
  return { ...NOTHING, ...some }
}

/** The sum of each column. Units: as given; exact. */
export function sumOf(all: readonly Quantities[]): Quantities {
  return all.reduce(plus, NOTHING)
}

/** Two sets of quantities, column by column. Units: as given; exact. */
export function plus(one: Quantities, other: Quantities): Quantities {
  return {
    dryGrams: one.dryGrams.plus(other.dryGrams),
    waterGrams: one.waterGrams.plus(other.waterGrams),
    pieces: one.pieces.plus(other.pieces),
    cost: one.cost.plus(other.cost),
  }
}

/** What is held with something more, or less, of it. Units: as given; exact. */
export function heldAndMore(held: Held, more: Held): Held {
  return { ...plus(held, more), dryVariance: held.dryVariance.plus(more.dryVariance) }
}

/** True where neither amounts nor doubt are left. Units: none. */
export function isNothing(held: Held): boolean {
  return [...CONSERVED.map((column) => held[column]), held.dryVariance].every((one) => one.isZero())
}

/** The same quantities going the other way. Units: as given; exact. */
export function negated(some: Quantities): Quantities {
  return {
    dryGrams: some.dryGrams.negated(),
    waterGrams: some.waterGrams.negated(),
    pieces: some.pieces.negated(),
    cost: some.cost.negated(),
  }
}

/**
 * The part of an amount that goes with a part of a whole.
 *
 * Everything goes with everything, to the last digit; otherwise multiply first, divide once, round
 * once.
 *
 * Units: of `amount`, at ledger scale; `part` and `whole` share any unit.
 * Source: arithmetic.
 */
export function proportionalPart(share: {
  amount: Decimal
  part: Decimal
  whole: Decimal
}): Decimal {
  const { amount, part, whole } = share
  if (part.equals(whole)) return amount
  if (whole.isZero()) return ZERO
  return toLedgerScale(amount.times(part).dividedBy(whole))
}

/** Water content, wet basis, of what is held; undefined where there is nothing. Units: 0 to 1. */
export function waterContentWetBasisOf(held: Quantities): Decimal | undefined {
  const wetGrams = held.dryGrams.plus(held.waterGrams)
  return wetGrams.isZero() ? undefined : held.waterGrams.dividedBy(wetGrams)
}

/** Standard uncertainty of the dry mass held. Units: grams, ledger scale. */
export function dryUncertaintyGramsOf(held: Held): Decimal {
  return toLedgerScale(Decimal.max(held.dryVariance, 0).sqrt())
}

/** A whole number of things as the ledger counts them. Units: pieces. */
export function count(pieces: number): Decimal {
  return new Decimal(pieces)
}
