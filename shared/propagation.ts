import { assert } from './assert.ts'
import type { Decimal } from './decimal.ts'
import { doubtOfSum, type Doubt } from './doubt.ts'

/** What makes something unsure that a figure is worked out from, and how much the figure moves with it. */
export interface Influence {
  readonly doubt: Doubt
  /** The partial derivative of the figure. */
  readonly slope: Decimal
}

/**
 * The doubt of a figure that is worked out from others, by the law of propagation.
 *
 * Contributions of one source meet with their signs before anything is squared, so that what was
 * measured together stays off together. Nothing is rounded on the way: who posts a doubt rounds it.
 *
 * Shape: the influences of one figure. Units: slopes in the figure's unit for one unit of what they
 * belong to; to the figure's unit by source, 60 digits.
 * Source: JCGM 100:2008, 5.2.2.
 */
export function doubtPropagated(influences: readonly Influence[]): Doubt {
  return doubtOfSum(
    influences.map(({ doubt, slope }) => {
      assert(slope.isFinite(), 'a figure moves by a finite number')
      return new Map([...doubt].map(([source, one]) => [source, one.times(slope)]))
    }),
  )
}
