import { assert } from './assert.ts'
import { ZERO, decimal, toLedgerScale } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { shareOut } from './money.ts'

export const SHARE_RULES = ['shelf_space', 'mass', 'count'] as const
/** By what the cost of a firing is shared out over what was in the kiln. */
export type ShareRule = (typeof SHARE_RULES)[number]

export const SHARE_RULE_WORDS: Readonly<Record<ShareRule, string>> = {
  shelf_space: 'by the room they take in the kiln',
  mass: 'by their weight when loaded',
  count: 'by the piece',
}

/** The room that one piece of a form takes: the shelf under it, with the gap around, by its height. */
export interface PieceRoom {
  readonly footprintSquareCentimetres: Decimal
  readonly heightCentimetres: Decimal
}

/** Pots of one kind in a load. */
export interface LoadedPots {
  /** As a potter calls them, for the words only. */
  readonly name: string
  readonly pieces: Decimal
  /** Dry, at loading. */
  readonly dryGrams: Decimal
  /** Null where nobody has said how much room the form takes. */
  readonly room: PieceRoom | null
}

/** By what a load is shared out in fact, and how much each line counts. */
export interface LoadWeights {
  readonly asked: ShareRule
  readonly used: ShareRule
  /** One for each line of the load, in their order. */
  readonly weights: readonly Decimal[]
  readonly words: string
}

export interface FiringShare {
  /** What these pots carry, to the last unit of the ledger. */
  readonly amount: Decimal
  /** The same a piece, rounded for reading: times the pieces it may miss some units. */
  readonly amountPerPiece: Decimal
  /** Of the whole load, from 0 to 1. */
  readonly fraction: Decimal
}

export interface FiringShares extends LoadWeights {
  readonly shares: readonly FiringShare[]
}

const CUBIC_CENTIMETRES_A_LITRE = 1_000

/**
 * The room that pieces of a form take in a kiln.
 *
 * Units: square centimetres times centimetres times pieces, to litres, exact.
 * Source: common practice, no source: footprint times height, because a pot keeps its shelf to itself.
 */
export function roomLitres(pots: { readonly pieces: Decimal; readonly room: PieceRoom }): Decimal {
  const { footprintSquareCentimetres, heightCentimetres } = pots.room
  return footprintSquareCentimetres
    .times(heightCentimetres)
    .times(pots.pieces)
    .dividedBy(CUBIC_CENTIMETRES_A_LITRE)
}

/**
 * How much each line of a load counts under a rule, and under which rule in the end.
 *
 * Room and weight cannot be mixed in one load: where the room of any of its forms is not known, the
 * whole load goes by weight; where nothing weighs anything, by the piece. The words say so.
 *
 * Shape: one line or more, each with pieces; one weight for each, in their order.
 * Units: litres, grams or pieces, by the rule that was used.
 * Source: our choice of what stands in for what.
 */
export function loadWeights(asked: ShareRule, load: readonly LoadedPots[]): LoadWeights {
  assert(load.length > 0, 'there is something in the kiln')
  assert(
    load.every(({ pieces, dryGrams }) => pieces.greaterThan(0) && !dryGrams.isNegative()),
    'what is in the kiln has pieces and does not weigh less than nothing',
  )
  const unsized = load.filter(({ room }) => !hasRoom(room)).map(({ name }) => name)
  const nothingWeighs = load.every(({ dryGrams }) => dryGrams.isZero())
  const wanted = asked === 'shelf_space' && unsized.length > 0 ? 'mass' : asked
  const used = wanted === 'mass' && nothingWeighs ? 'count' : wanted
  const reasons = [
    ...(wanted !== used ? ['none of them was weighed'] : []),
    ...(wanted !== asked ? [`nobody has said the sizes of: ${listed(unsized)}`] : []),
  ]
  const because = reasons.length === 0 ? '.' : `, because ${reasons.join(', and ')}.`
  return {
    asked,
    used,
    weights: load.map((pots) => weightOf(used, pots)),
    words: `Shared ${SHARE_RULE_WORDS[used]}${because}`,
  }
}

/**
 * An amount of a firing, shared out over what was in the kiln: its money, its wear, its energy.
 *
 * Shape: one share for each line of the load, in their order; together they are the amount exactly.
 * Units: of the amount, ledger scale; fractions of the load at ledger scale.
 * Source: `shareOut`; the rule as in `loadWeights`.
 */
export function firingShares(firing: {
  readonly amount: Decimal
  readonly rule: ShareRule
  readonly load: readonly LoadedPots[]
}): FiringShares {
  const { amount, rule, load } = firing
  const weighted = loadWeights(rule, load)
  const total = weighted.weights.reduce((sum, weight) => sum.plus(weight), ZERO)
  const amounts = shareOut(amount, weighted.weights)
  const shares = load.map(({ pieces }, index) => {
    const share = amounts[index] ?? ZERO
    return {
      amount: share,
      amountPerPiece: toLedgerScale(share.dividedBy(pieces)),
      fraction: toLedgerScale((weighted.weights[index] ?? ZERO).dividedBy(total)),
    }
  })
  return { ...weighted, shares }
}

/** Whether the room of a piece is known. Units: none. Source: the definition; a side of nothing is no size. */
export function hasRoom(room: PieceRoom | null): room is PieceRoom {
  if (room === null) return false
  const { footprintSquareCentimetres, heightCentimetres } = room
  return footprintSquareCentimetres.greaterThan(0) && heightCentimetres.greaterThan(0)
}

function weightOf(rule: ShareRule, { pieces, dryGrams, room }: LoadedPots): Decimal {
  if (rule === 'count') return pieces
  if (rule === 'mass') return dryGrams
  return hasRoom(room) ? roomLitres({ pieces, room }) : decimal(0)
}

function listed(names: readonly string[]): string {
  return [...new Set(names)].join(', ')
}
