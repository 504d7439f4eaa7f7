import { describe, expect, test } from 'vitest'
import { monthFinding } from '../../shared/month-finding.ts'
import { namingTable } from '../support/naming-table.ts'
import { simulatedMonth, withBadReading } from '../support/simulate-month.ts'

const MINUTE = 60_000
const stated = (times: number) => ({ times, noise: 'stated' as const })

/**
 * What these tests hold to is what 200 months showed, with room for chance. Where the pots are weighed
 * before and after they are turned, a weigh-in wrong by three times its uncertainty was named first in
 * 73 of 100 months; who knows beforehand how large the mistake is, and that there is one, gets to 79.
 * By ten times: 98. With everything weighed twice, by three times: 95.
 */
describe('a bad weigh-in in a made-up month', () => {
  test(
    'is named first if the other readings could see it',
    () => {
      const { rows, falseAlarms, meanChiSquare } = namingTable({
        ...{ habit: 'before_and_after', months: 30 },
        sizes: [stated(3), stated(10)],
      })
      const [three, ten] = rows
      expect(three?.first).toBeGreaterThan(0.5)
      expect(three?.firstOfVisible).toBeGreaterThan(0.8)
      expect(ten?.first).toBeGreaterThan(0.9)
      expect(falseAlarms).toBeLessThanOrEqual(0.15)
      expect(Math.abs(meanChiSquare - 1)).toBeLessThan(0.15)
    },
    MINUTE,
  )

  test(
    'of three times its noise is named first in four of five where all is weighed twice',
    () => {
      const { rows } = namingTable({ habit: 'all_twice', months: 10, sizes: [stated(3)] })
      expect(rows[0]?.first).toBeGreaterThan(0.8)
    },
    MINUTE,
  )

  /**
   * 200 months, told by the real translation: first in 56 of 100 when wrong by three times its own
   * uncertainty, in 92 when by ten times; 4 of 100 honest months gave an alarm.
   */
  test(
    'is named first where it could be seen, in a studio that works as the worked day does',
    () => {
      const { rows, falseAlarms, meanChiSquare } = namingTable({
        ...{ habit: 'as_the_worked_day', months: 40 },
        sizes: [stated(3), stated(10)],
      })
      const [three, ten] = rows
      expect(three?.first).toBeGreaterThan(0.4)
      expect(three?.firstOfVisible).toBeGreaterThan(0.85)
      expect(ten?.first).toBeGreaterThan(0.8)
      expect(falseAlarms).toBeLessThanOrEqual(0.15)
      expect(Math.abs(meanChiSquare - 1)).toBeLessThan(0.1)
    },
    MINUTE,
  )

  test('leaves the flows as they truly were, once it is found', () => {
    const { description, trueDryGrams } = simulatedMonth(7, 'before_and_after')
    const bad = { id: 'turned pots of run 2.1', grams: 1_500 }
    const { found, readings } = monthFinding(withBadReading(description, bad))
    expect(found.map(({ id }) => id)).toEqual([bad.id])
    expect(Math.abs((found[0]?.size.toNumber() ?? NaN) - bad.grams)).toBeLessThan(200)
    for (const { id, reconciledDryGrams, standardUncertaintyGrams } of readings) {
      const off = (reconciledDryGrams?.toNumber() ?? NaN) - (trueDryGrams.get(id) ?? NaN)
      const unsure = standardUncertaintyGrams?.toNumber() ?? NaN
      expect(Math.abs(off)).toBeLessThan(4.5 * unsure)
    }
  })

  test('is the same again with the same seed', () => {
    expect(simulatedMonth(3, 'once')).toEqual(simulatedMonth(3, 'once'))
    expect(simulatedMonth(3, 'once')).not.toEqual(simulatedMonth(4, 'once'))
  })
})
