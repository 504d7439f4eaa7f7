import { assert } from './assert.ts'
import { LEDGER_SCALE, ZERO, type Decimal } from './decimal.ts'
import { shareOut } from './money.ts'

/** A run that was glazed together with others. */
export interface RunGlazed {
  readonly runId: string
  readonly pieces: Decimal
  /** What a piece of its form usually takes; undefined where nobody knows. */
  readonly usualDryGramsPerPiece: Decimal | undefined
  /** Of the pots themselves, without glaze. */
  readonly potsDryGrams: Decimal
}

/** How glaze was shared out over runs. */
export type GlazeSharedBy = 'usual_grams' | 'usual_grams_and_pots' | 'pots' | 'pieces'

export interface GlazeShares {
  readonly by: GlazeSharedBy
  readonly shares: readonly { readonly runId: string; readonly dryGrams: Decimal }[]
  readonly words: string
}

const SHARED_WORDS: Readonly<Record<GlazeSharedBy, string>> = {
  usual_grams: 'Shared by what a piece of each form usually takes.',
  usual_grams_and_pots:
    'Shared by what a piece of each form usually takes; where that is not known, by the weight of the pots.',
  pots: 'Shared by the weight of the pots.',
  pieces: 'Shared by the number of pots.',
}

/**
 * How the glaze of several runs that were glazed together lands on each, to the last unit.
 *
 * By the usual grams of each form times its pieces. A form of which nobody knows takes as much for the
 * weight of its pots as the known ones do for theirs; where none is known, the weight of the pots alone
 * decides, and where there is none either, their number.
 *
 * Shape: one run or more; a share a run, in their order.
 * Units: grams of dry glaze at ledger scale; the shares sum to `dryGrams` exactly.
 * Source: as `shareOut`; the weights are our choice.
 */
export function glazeShares(dryGrams: Decimal, runs: readonly RunGlazed[]): GlazeShares {
  assert(runs.length > 0, 'there is a run to take the glaze')
  const { by, weights } = weightsOf(runs)
  const shares = shareOut(dryGrams, weights, LEDGER_SCALE)
  return {
    by,
    shares: runs.map(({ runId }, index) => ({ runId, dryGrams: shares[index] ?? ZERO })),
    words: SHARED_WORDS[by],
  }
}

function weightsOf(runs: readonly RunGlazed[]): {
  by: GlazeSharedBy
  weights: readonly Decimal[]
} {
  const known = runs.filter((run) => usualOf(run).greaterThan(0))
  if (known.length === runs.length) return { by: 'usual_grams', weights: runs.map(usualOf) }
  const potsOf = ({ potsDryGrams }: RunGlazed) => potsDryGrams
  const knownPots = sumOf(known.map(potsOf))
  if (knownPots.greaterThan(0)) {
    const perPotsGram = sumOf(known.map(usualOf)).dividedBy(knownPots)
    const weights = runs.map((run) =>
      usualOf(run).greaterThan(0) ? usualOf(run) : potsOf(run).times(perPotsGram),
    )
    return { by: 'usual_grams_and_pots', weights }
  }
  return sumOf(runs.map(potsOf)).greaterThan(0)
    ? { by: 'pots', weights: runs.map(potsOf) }
    : { by: 'pieces', weights: runs.map(({ pieces }) => pieces) }
}

/** What a run usually takes; nothing where that is not known. */
function usualOf({ usualDryGramsPerPiece, pieces }: RunGlazed): Decimal {
  return usualDryGramsPerPiece?.times(pieces) ?? ZERO
}

function sumOf(amounts: readonly Decimal[]): Decimal {
  return amounts.reduce((sum, amount) => sum.plus(amount), ZERO)
}
