import { assert } from './assert.ts'
import { ONE, ZERO, decimal, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { hasRoom, roomLitres } from './firing-share.ts'
import type { LoadedPots } from './firing-share.ts'
import type { Standing } from './moisture.ts'
import { percentWords } from './percent.ts'

/**
 * The part of a kiln's volume that pots can take; shelves, props and gaps have the rest.
 *
 * Units: a fraction. Source: our choice, to be said for each kiln: a hundred mugs of about a litre
 * fill a kiln of 198 litres, which leaves some 0.5 to 0.6 of it to pots.
 */
export const USABLE_FRACTION_OF_KILN = decimal('0.6')

/** Below this a load counts as half empty. Units: a fraction of the usable room. Source: our choice. */
export const HALF_EMPTY_BELOW = decimal('0.6')

/** How full a load was. */
export interface KilnFill {
  /** From 0 (excluded) to 1; null where it is not known. */
  readonly fraction: Decimal | null
  /** What the sizes of the forms come to, also above 1; null where a size or the volume is not known. */
  readonly reckonedFraction: Decimal | null
  readonly standing: Standing
  /** The sizes come to more than the whole, and nobody said otherwise. */
  readonly isOverfull: boolean
  readonly isHalfEmpty: boolean
  readonly words: string
}

export interface LoadInKiln {
  readonly load: readonly LoadedPots[]
  readonly volumeLitres: Decimal | null
  /** As said of this kiln; ours where nothing is said. */
  readonly usableFraction?: Decimal | null
  /** As a person says of this load, 0 (excluded) to 1. */
  readonly saidFraction?: Decimal | null
}

/**
 * How full a load was: as somebody said, or else its room over the kiln's usable room.
 *
 * What comes to more than the whole is reckoned as the whole, and the words say so.
 *
 * Shape: a said fraction above 0 and at most 1. Units: fractions at ledger scale.
 * Source: our choice; a person who looked into the kiln knows better than sizes do.
 */
export function kilnFill(loaded: LoadInKiln): KilnFill {
  const reckonedFraction = reckonedFill(loaded)
  const said = loaded.saidFraction ?? null
  if (said !== null) {
    assert(
      said.greaterThan(0) && said.lessThanOrEqualTo(1),
      'a load is more than none, at most all',
    )
    return fillOf({ fraction: said, reckonedFraction, standing: 'estimated' })
  }
  if (reckonedFraction === null || reckonedFraction.isZero()) {
    return {
      ...{ fraction: null, reckonedFraction, standing: 'assumed' },
      ...{ isOverfull: false, isHalfEmpty: false },
      words: 'How full the kiln was is not known. Say it, or the sizes of the forms.',
    }
  }
  if (reckonedFraction.greaterThan(1)) {
    return {
      ...{ fraction: ONE, reckonedFraction, standing: 'assumed' },
      ...{ isOverfull: true, isHalfEmpty: false },
      words: `By their sizes these pots need ${percentWords(reckonedFraction, 0)} of the room in the kiln. Pots were stacked, or a size is off. Reckoned as full.`,
    }
  }
  return fillOf({ fraction: reckonedFraction, reckonedFraction, standing: 'estimated' })
}

/** What empty room in a kiln cost. */
export interface EmptyRoomCost {
  readonly costPerPiece: Decimal
  readonly costPerPieceIfFull: Decimal
  readonly emptyRoomCostPerPiece: Decimal
  /** Of the whole load. */
  readonly emptyRoomCost: Decimal
}

/**
 * What the same firing would have cost a piece in a full kiln, and what the empty room cost.
 *
 * Taken is that a full kiln needs the same energy. It needs somewhat more, because more clay must get
 * hot, so the saving is a little less than this says.
 *
 * Shape: pieces above zero, a fraction above 0 and at most 1.
 * Units: money at ledger scale; the first less the second is the third exactly.
 * Source: our choice, as above.
 */
export function emptyRoomCost(firing: {
  readonly cost: Decimal
  readonly pieces: Decimal
  readonly fillFraction: Decimal
}): EmptyRoomCost {
  const { cost, pieces, fillFraction } = firing
  assert(pieces.greaterThan(0), 'there is something in the kiln')
  assert(
    fillFraction.greaterThan(0) && fillFraction.lessThanOrEqualTo(1),
    'a load is more than none, at most all',
  )
  const costPerPiece = toLedgerScale(cost.dividedBy(pieces))
  const costPerPieceIfFull = toLedgerScale(cost.times(fillFraction).dividedBy(pieces))
  return {
    costPerPiece,
    costPerPieceIfFull,
    emptyRoomCostPerPiece: costPerPiece.minus(costPerPieceIfFull),
    emptyRoomCost: toLedgerScale(cost.times(ONE.minus(fillFraction))),
  }
}

/**
 * The same as a potter reads it.
 *
 * Shape: `money` writes an amount as the studio does. Units: as `emptyRoomCost`.
 * Source: our choice of words.
 */
export function emptyRoomWords(
  { costPerPiece, costPerPieceIfFull, emptyRoomCostPerPiece }: EmptyRoomCost,
  money: (amount: Decimal) => string,
): string {
  if (emptyRoomCostPerPiece.isZero()) return `A full kiln: ${money(costPerPiece)} a piece.`
  return `${money(costPerPiece)} a piece. In a full kiln about ${money(costPerPieceIfFull)}. The empty room cost about ${money(emptyRoomCostPerPiece)} a piece.`
}

/**
 * The energy in each kilogram of fired ware.
 *
 * Units: kilowatt-hours a kilogram, 60 digits. Source: the definition.
 */
export function kilowattHoursPerFiredKilogram(fired: {
  readonly kilowattHours: Decimal
  readonly firedGrams: Decimal
}): Decimal {
  assert(fired.firedGrams.greaterThan(0), 'fired ware weighs something')
  return fired.kilowattHours.times(1_000).dividedBy(fired.firedGrams)
}

/**
 * The energy for each litre of the kiln, full or not.
 *
 * Units: kilowatt-hours a litre, 60 digits. Source: the definition.
 */
export function kilowattHoursPerKilnLitre(fired: {
  readonly kilowattHours: Decimal
  readonly volumeLitres: Decimal
}): Decimal {
  assert(fired.volumeLitres.greaterThan(0), 'a kiln has room')
  return fired.kilowattHours.dividedBy(fired.volumeLitres)
}

function reckonedFill({ load, volumeLitres, usableFraction }: LoadInKiln): Decimal | null {
  if (volumeLitres === null) return null
  const usable = usableFraction ?? USABLE_FRACTION_OF_KILN
  assert(volumeLitres.greaterThan(0), 'a kiln has room')
  assert(usable.greaterThan(0) && usable.lessThanOrEqualTo(1), 'pots can take a part of the kiln')
  let litres = ZERO
  for (const { pieces, room } of load) {
    if (!hasRoom(room)) return null
    litres = litres.plus(roomLitres({ pieces, room }))
  }
  return toLedgerScale(litres.dividedBy(volumeLitres.times(usable)))
}

function fillOf(fill: {
  readonly fraction: Decimal
  readonly reckonedFraction: Decimal | null
  readonly standing: Standing
}): KilnFill {
  const isHalfEmpty = fill.fraction.lessThan(HALF_EMPTY_BELOW)
  const shown = percentWords(fill.fraction, 0)
  return {
    ...fill,
    isOverfull: false,
    isHalfEmpty,
    words: isHalfEmpty ? `Half empty: ${shown} full.` : `${shown} full.`,
  }
}
