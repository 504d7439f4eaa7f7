import type { RefusalCode } from '../shared/refusal.ts'
import type { ProblemKind } from './problem-kind.ts'

type EstimateCode = Extract<
  RefusalCode,
  'parameters_must_be_identifiable' | 'fit_must_converge' | 'curve_must_be_knowable'
>

/** What is said where the readings do not carry the answer that was asked of them. */
export const ESTIMATE_REFUSAL_KINDS: Readonly<Record<EstimateCode, ProblemKind>> = {
  parameters_must_be_identifiable: {
    status: 409,
    title: 'The readings do not tell that apart',
    whatHappened: 'Several answers fit the readings alike, so that none of them can be given.',
    whatToDo: 'Take more readings, spread over a longer time.',
  },
  fit_must_converge: {
    status: 409,
    title: 'No curve fits the readings',
    whatHappened: 'The readings lie on no curve of the kind that was looked for.',
    whatToDo: 'Read them again and look for one that is out of line.',
  },
  curve_must_be_knowable: {
    status: 409,
    title: 'That cannot be known yet',
    whatHappened: 'A time could only be invented: the readings and past loads do not carry one.',
    whatToDo: 'Weigh the slab alone once more, later, and ask again.',
  },
}
