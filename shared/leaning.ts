import {
  fittedSpread,
  groupPosterior,
  type FittedSpread,
  type GroupCount,
} from './beta-binomial.ts'
import { believedSpreads, mixedBelief, mixedQuantile, type MixedBelief } from './spread-belief.ts'
import { jeffreysInterval, type ShareInterval } from './proportion.ts'

/** How many of a form's pieces did what is asked about. */
export interface FormCount extends GroupCount {
  readonly formId: string
}

export interface LeanedShare {
  readonly formId: string
  /** Null where nothing at all is known. */
  readonly share: number | null
  readonly interval95: ShareInterval | null
  /** What is believed of the share, for an interval of any other confidence; null with the share. */
  readonly belief: MixedBelief | null
  /** How much of the share is the form's own pieces, from 0 to 1; the rest is all forms together. */
  readonly ownWeight: number
  readonly words: string
}

export interface LeanedShares {
  /** Null where there is nothing to lean on. */
  readonly spread: FittedSpread | null
  readonly forms: readonly LeanedShare[]
}

const FORMS_MIN = 3
const CONFIDENCE = 0.95

/**
 * The share of each form, forms with few pieces leaning on what all forms show.
 *
 * A form's own share is mixed with the mean of all, its own pieces weighing as their number against the
 * strength of the spread: where forms differ much, little is leant. All others together weigh no more
 * than they have pieces, so that forms which happen to agree are not taken for certainty. The
 * intervals allow for every spread that explains the counts: the likeliest alone would be far too sure
 * where forms are few.
 *
 * With fewer than three forms, or where the same happened to every piece, or where no form has two
 * pieces, there is nothing to lean on: each form speaks for itself.
 *
 * Shape: a row a form. Units: shares from 0 to 1.
 * Source: empirical Bayes, as `fittedSpread`; alone, as `jeffreysInterval`. Three forms and the limit of
 * weight are our choice, because two differ or not by chance, and no one can say more than he has seen.
 */
export function leanedShares(all: readonly FormCount[]): LeanedShares {
  const counted = all.filter(({ trials }) => trials > 0)
  const trials = counted.reduce((sum, form) => sum + form.trials, 0)
  const events = counted.reduce((sum, form) => sum + form.events, 0)
  const isTelling = counted.some((form) => form.trials > 1) && events > 0 && events < trials
  if (counted.length < FORMS_MIN || !isTelling) return { spread: null, forms: all.map(alone) }
  const spread = fittedSpread(counted)
  const spreads = believedSpreads(counted)
  return {
    spread,
    forms: all.map((form) => {
      const othersTrials = trials - form.trials
      const strength = Math.min(spread.strengthTrials ?? Infinity, othersTrials)
      const belief = mixedBelief(form, spreads)
      return leaning(form, { meanShare: spread.meanShare, strength }, belief)
    }),
  }
}

function leaning(
  form: FormCount,
  prior: { meanShare: number; strength: number },
  belief: MixedBelief,
): LeanedShare {
  const shape = groupPosterior(form, prior)
  const tail = (1 - CONFIDENCE) / 2
  const ownWeight = form.trials / (form.trials + prior.strength)
  return {
    formId: form.formId,
    share: shape.alpha / (shape.alpha + shape.beta),
    interval95: { from: mixedQuantile(belief, tail), to: mixedQuantile(belief, 1 - tail) },
    belief,
    ownWeight,
    words: leaningWords(form, ownWeight),
  }
}

function leaningWords({ events, trials }: FormCount, ownWeight: number): string {
  if (trials === 0) return 'no piece of its own yet: all forms together'
  const own = Math.round(100 * ownWeight)
  return `${events} of ${trials}; its own pieces count ${own} %, all forms ${100 - own} %`
}

function alone({ formId, events, trials }: FormCount): LeanedShare {
  if (trials === 0) {
    const unknown = { share: null, interval95: null, belief: null, ownWeight: 0 }
    return { formId, ...unknown, words: 'not yet known' }
  }
  return {
    formId,
    share: (events + 0.5) / (trials + 1),
    interval95: jeffreysInterval({ events, trials, confidence: CONFIDENCE }),
    belief: [{ alpha: events + 0.5, beta: trials - events + 0.5, weight: 1 }],
    ownWeight: 1,
    words: `${events} of ${trials}; nothing to lean on yet`,
  }
}
