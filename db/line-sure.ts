import { doubtRead, standardUncertaintyOfDoubt } from '../shared/doubt.ts'

/** How sure what a line moves is. */
export interface LineSure {
  readonly dryUncertaintyGrams: string
  readonly costUncertainty: string
}

/** One standard uncertainty of a line's dry clay and of its cost. Units: grams, money. */
export function lineSure(kept: { dryDoubt: unknown; costDoubt: unknown }): LineSure {
  return {
    dryUncertaintyGrams: standardUncertaintyOfDoubt(doubtRead(kept.dryDoubt)).toFixed(),
    costUncertainty: standardUncertaintyOfDoubt(doubtRead(kept.costDoubt)).toFixed(),
  }
}
