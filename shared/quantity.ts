import { ALL_CLAY, layersNegated, layersOfSum, type CostLayers } from './cost-layer.ts'
import { Decimal, toLedgerScale, ZERO } from './decimal.ts'
import {
  doubtNegated,
  doubtOfSum,
  NO_DOUBT,
  standardUncertaintyOfDoubt,
  type Doubt,
} from './doubt.ts'

/** The five columns that every entry conserves, of what the cost is, and what makes three of them unsure. */
export interface Quantities {
  /** Dry clay, and nothing else. */
  readonly dryGrams: Decimal
  /** The dry mass of what is no clay: powders, glaze in its bucket or on pots, gas. */
  readonly materialGrams: Decimal
  readonly waterGrams: Decimal
  /** Bags in the store, boxes and shelves among the materials, pots everywhere else. */
  readonly pieces: Decimal
  readonly cost: Decimal
  /** What of the cost is not for clay, conserved layer by layer. */
  readonly costLayers: CostLayers
  /** Of the dry clay, in grams. */
  readonly dryDoubt: Doubt
  /** Of the materials, in grams. */
  readonly materialDoubt: Doubt
  /** Of the cost, in money: it follows the dry mass and is as doubtful as that. */
  readonly costDoubt: Doubt
}

/** What a holding holds. */
export type Held = Quantities

export const CONSERVED = ['dryGrams', 'materialGrams', 'waterGrams', 'pieces', 'cost'] as const

export const NOTHING: Quantities = {
  dryGrams: ZERO,
  materialGrams: ZERO,
  waterGrams: ZERO,
  pieces: ZERO,
  cost: ZERO,
  costLayers: ALL_CLAY,
  dryDoubt: NO_DOUBT,
  materialDoubt: NO_DOUBT,
  costDoubt: NO_DOUBT,
}
export const NOTHING_HELD: Held = NOTHING

/** Some of the columns, the others being nothing. Units: grams, pieces, money. */
export function quantities(some: Partial<Quantities>): Quantities {
  return { ...NOTHING, ...some }
}

/** Some columns of amounts, of which the dry mass and the cost are doubtful. */
export type Columns<Name extends string> = Readonly<Record<Name, Decimal>> &
  Pick<Quantities, 'dryDoubt' | 'costDoubt'>

/** The sum of each named column, and its doubt source by source. Units: as given; exact. Source: arithmetic. */
export function sumOfColumns<Name extends string>(
  names: readonly Name[],
  all: readonly Columns<Name>[],
): Columns<Name> {
  return {
    ...eachColumn(names, (name) => all.reduce((total, one) => total.plus(one[name]), ZERO)),
    dryDoubt: doubtOfSum(all.map((one) => one.dryDoubt)),
    costDoubt: doubtOfSum(all.map((one) => one.costDoubt)),
  }
}

/** The same columns going the other way. Units: as given; exact. Source: arithmetic. */
export function negatedColumns<Name extends string>(
  names: readonly Name[],
  some: Columns<Name>,
): Columns<Name> {
  return {
    ...eachColumn(names, (name) => some[name].negated()),
    dryDoubt: doubtNegated(some.dryDoubt),
    costDoubt: doubtNegated(some.costDoubt),
  }
}

function eachColumn<Name extends string>(
  names: readonly Name[],
  amountOf: (name: Name) => Decimal,
): Readonly<Record<Name, Decimal>> {
  return Object.fromEntries(names.map((name) => [name, amountOf(name)])) as Record<Name, Decimal>
}

/** The sum of each column, layer by layer and doubt source by source. Units: as given; exact. */
export function sumOf(all: readonly Quantities[]): Quantities {
  return {
    ...sumOfColumns(CONSERVED, all),
    costLayers: layersOfSum(all.map((one) => one.costLayers)),
    materialDoubt: doubtOfSum(all.map((one) => one.materialDoubt)),
  }
}

/** Two sets of quantities, column by column. Units: as given; exact. */
export function plus(one: Quantities, other: Quantities): Quantities {
  return sumOf([one, other])
}

/** True where neither amounts nor doubt are left. Units: none. */
export function isNothing(held: Held): boolean {
  const { costLayers, dryDoubt, materialDoubt, costDoubt } = held
  const isPlain = [costLayers, dryDoubt, materialDoubt, costDoubt].every(({ size }) => size === 0)
  return isPlain && CONSERVED.every((column) => held[column].isZero())
}

/** The same quantities going the other way. Units: as given; exact. */
export function negated(some: Quantities): Quantities {
  return {
    ...negatedColumns(CONSERVED, some),
    costLayers: layersNegated(some.costLayers),
    materialDoubt: doubtNegated(some.materialDoubt),
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
export function waterContentWetBasisOf(
  held: Pick<Quantities, 'dryGrams' | 'waterGrams'>,
): Decimal | undefined {
  const wetGrams = held.dryGrams.plus(held.waterGrams)
  return wetGrams.isZero() ? undefined : held.waterGrams.dividedBy(wetGrams)
}

/** Standard uncertainty of the dry mass held. Units: grams, ledger scale. */
export function dryUncertaintyGramsOf(held: Held): Decimal {
  return standardUncertaintyOfDoubt(held.dryDoubt)
}

/** A whole number of things as the ledger counts them. Units: pieces. */
export function count(pieces: number): Decimal {
  return new Decimal(pieces)
}
