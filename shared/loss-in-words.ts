import { decimal } from './decimal.ts'
import { LOSS_STAGES, type LossStage } from './place.ts'

/** What is known of pieces that were lost, as the books show it. */
export interface LossShown {
  readonly pieces: number
  readonly stage: string
  readonly costLeft: string
  readonly abnormalPieces: number
  readonly costAbnormal: string
  readonly usualWords: string | null
}

/**
 * Whether a loss is usual, and where what the pots had cost goes.
 *
 * Units: pieces. Source: our choice of words for what `splitLoss` found.
 */
export function lossInWords(loss: LossShown): string {
  const why = loss.usualWords === null ? '' : ` ${endedSentence(loss.usualWords)}`
  return `${whereCostGoes(loss)}${why}`
}

function whereCostGoes({ pieces, stage, costLeft, abnormalPieces }: LossShown): string {
  if (LOSS_STAGES[stage as LossStage] === 'greenware') {
    return 'Their clay goes back with what it cost.'
  }
  if (abnormalPieces >= pieces && pieces > 0) {
    return 'Lost for good: beyond what is usual. No pot bears what they cost.'
  }
  if (abnormalPieces > 0) {
    return `${String(abnormalPieces)} of ${String(pieces)} beyond what is usual: lost for good. What the others cost stays with the rest of their run.`
  }
  return decimal(costLeft).isZero()
    ? 'No others of their run bear what they cost: it is lost with them.'
    : 'What they cost stays with the others of their run.'
}

function endedSentence(words: string): string {
  return words.endsWith('.') ? words : `${words}.`
}
