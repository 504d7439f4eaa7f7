import { decimal, decimalOfNumber, type Decimal } from './decimal.ts'
import { leanedShares, type LeanedShare } from './leaning.ts'
import { mayRiseWords, type PiecesByStage, type StageYield } from './yield.ts'

/** With fewer pieces than this decided on at a stage, a form leans on all forms. */
export const FEW_PIECES_BELOW = 30

export type EstimateBasis =
  'own_pieces' | 'leans_on_all_forms' | 'nothing_to_lean_on' | 'not_yet_known'

/** What to reckon with at a stage of a form. */
export interface StageEstimate {
  readonly basis: EstimateBasis
  readonly yieldFraction: Decimal | null
  readonly interval95: { readonly from: Decimal; readonly to: Decimal } | null
  /** How much of the estimate is the form's own pieces, from 0 to 1; the rest is all forms. */
  readonly ownWeightFraction: Decimal
  /** Of what it leans on, the form itself among them; none where it leans on nothing. */
  readonly forms: number
  readonly pieces: number
  readonly words: string
}

/** The same stage of one form. */
export interface StageOfForm {
  readonly formId: string
  readonly stage: Pick<
    StageYield,
    'stage' | 'passed' | 'lost' | 'waiting' | 'yieldFraction' | 'interval95'
  >
}

/**
 * What to reckon with for each form at one stage: forms with few pieces lean on all forms.
 *
 * A form of which thirty pieces or more were decided on stands on its own, with the score interval. One
 * with fewer is mixed with what all forms show, as `leanedShares`, and says so; forms that were made once
 * only count among all; mixing takes the pieces of a run for independent. Where nothing tells how forms differ, each is left with its own interval.
 *
 * Shape: a row a form, in the order given. Units: fractions at six digits, pieces.
 * Source: as `leanedShares` and `wilsonInterval`; thirty is our choice, because the score interval of
 * thirty pieces is about as wide as what forms differ by.
 */
export function stageEstimates(forms: readonly StageOfForm[]): StageEstimate[] {
  const counts = forms.map(({ formId, stage }) => {
    const isDecided = stage.yieldFraction !== null
    const events = isDecided ? stage.passed.toNumber() : 0
    return { formId, events, trials: isDecided ? events + stage.lost.toNumber() : 0 }
  })
  const { spread, forms: leaned } = leanedShares(counts)
  const telling = counts.filter(({ trials }) => trials > 0)
  const all = {
    forms: telling.length,
    pieces: telling.reduce((sum, { trials }) => sum + trials, 0),
  }
  return forms.map(({ stage }, index): StageEstimate => {
    const { events, trials } = counts[index] ?? { events: 0, trials: 0 }
    const share = leaned[index]
    if (trials >= FEW_PIECES_BELOW || spread === null || share === undefined) {
      return standing(stage, { events, trials })
    }
    return leaning(share, { events, trials, all, mayRise: mayRiseWords(stage) })
  })
}

function standing(
  stage: StageOfForm['stage'],
  { events, trials }: { events: number; trials: number },
): StageEstimate {
  const { yieldFraction, interval95 } = stage
  const isEnough = trials >= FEW_PIECES_BELOW
  const basis = isEnough ? 'own_pieces' : trials > 0 ? 'nothing_to_lean_on' : 'not_yet_known'
  const mayRise = mayRiseWords(stage)
  const words = {
    own_pieces: `${events} of ${trials}: enough pieces to stand on its own${mayRise}`,
    nothing_to_lean_on: `${events} of ${trials}: few pieces, and all forms together do not tell yet how forms differ here${mayRise}`,
    not_yet_known: 'not yet known',
  }[basis]
  const ownWeightFraction = decimal(trials > 0 ? 1 : 0)
  return { basis, yieldFraction, interval95, ownWeightFraction, forms: 0, pieces: 0, words }
}

function leaning(
  { share, interval95, ownWeight }: LeanedShare,
  told: {
    events: number
    trials: number
    all: { forms: number; pieces: number }
    mayRise: string
  },
): StageEstimate {
  const { events, trials, all, mayRise } = told
  const own = Math.round(100 * ownWeight)
  const whole = `all ${all.forms} forms (${all.pieces} pieces)`
  const words =
    trials === 0
      ? `no piece of its own decided on yet: this is what ${whole} show together`
      : `${events} of ${trials}: few pieces, so it leans on ${whole}; its own count ${own} %, all forms ${100 - own} %${mayRise}`
  return {
    basis: 'leans_on_all_forms',
    yieldFraction: share === null ? null : decimalOfNumber(share),
    interval95: interval95 && {
      from: decimalOfNumber(interval95.from),
      to: decimalOfNumber(interval95.to),
    },
    ownWeightFraction: decimalOfNumber(ownWeight),
    ...all,
    words,
  }
}

/**
 * True of a run of one piece: a one-off, which alone says next to nothing of what comes through.
 *
 * Units: pieces. Source: the definition: begun at the wheel, or here before the books began.
 */
export function isOneOff({ thrown, openedWith }: PiecesByStage): boolean {
  return thrown.plus(openedWith).equals(1)
}
