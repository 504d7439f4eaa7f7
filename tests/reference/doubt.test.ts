import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  doubtBy,
  doubtOfDifference,
  doubtOfSum,
  standardUncertaintyOfDoubt,
} from '../../shared/doubt.ts'
import type { Cited } from './cited.ts'

/**
 * Ten resistors of 1000 ohm, each compared with the same standard of 100 milliohm standard uncertainty,
 * joined in series. What the comparisons leave open is negligible.
 */
describe('ten resistors of one standard, the example of GUM 5.2.2', () => {
  const cited: Cited = { source: 'GUM, JCGM 100:2008, 5.2.2, EXAMPLE', standing: 'from memory' }
  const resistors = Array.from({ length: 10 }, () => doubtBy('standard', decimal('0.1')))

  test(`are unsure by 1 ohm together (${cited.standing}: ${cited.source})`, () => {
    expect(standardUncertaintyOfDoubt(doubtOfSum(resistors)).toFixed()).toBe('1')
  })

  test('would be by 0.32 ohm if they were taken as independent, and are not', () => {
    const apart = resistors.map((_, at) => doubtBy(`standard ${at}`, decimal('0.1')))
    expect(standardUncertaintyOfDoubt(doubtOfSum(apart)).toFixed(2)).toBe('0.32')
  })

  test('do not differ from each other by anything that the standard leaves open', () => {
    const [one, other] = resistors as [(typeof resistors)[0], (typeof resistors)[0]]
    expect(doubtOfDifference(one, other).size).toBe(0)
  })
})
