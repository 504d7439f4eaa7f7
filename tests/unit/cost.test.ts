import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { ALL_CLAY } from '../../shared/cost-layer.ts'
import { costLeaving, costLeftToSurvivors } from '../../shared/cost.ts'
import { ledgerAmount, sum } from './arbitrary.ts'
import { refusedWith } from './refused.ts'

describe('the cost that leaves with clay', () => {
  test('emptied in any number of steps, a holding keeps no cost', () => {
    fc.assert(
      fc.property(
        ledgerAmount(0, 10_000),
        fc.array(ledgerAmount(0, 5000), { minLength: 1, maxLength: 12 }),
        (cost, steps) => {
          let held = { dryGrams: sum(steps), cost }
          fc.pre(held.dryGrams.greaterThan(0))
          for (const step of steps) {
            const leaving = costLeaving(held, step)
            expect(leaving.isNegative() || leaving.greaterThan(held.cost)).toBe(false)
            held = { dryGrams: held.dryGrams.minus(step), cost: held.cost.minus(leaving) }
          }
          expect(held.dryGrams.isZero()).toBe(true)
          expect(held.cost.toFixed()).toBe('0')
        },
      ),
    )
  })

  test('is all of it when all the clay leaves', () => {
    const held = { dryGrams: decimal('3000.000001'), cost: decimal('7.123457') }
    expect(costLeaving(held, held.dryGrams).toFixed()).toBe('7.123457')
  })

  test('is nothing from an empty holding', () => {
    const held = { dryGrams: decimal(0), cost: decimal('0.000002') }
    expect(costLeaving(held, decimal(0)).toFixed()).toBe('0')
  })

  test('is refused for more clay than there is', () => {
    const held = { dryGrams: decimal(3200), cost: decimal(4) }
    expect(refusedWith(() => costLeaving(held, decimal(4000)))).toBe('clay_must_be_enough')
  })
})

describe('the cost of lost pieces', () => {
  test('comes to the survivors whole, by dry mass', () => {
    const survivors = [{ dryGrams: decimal(300) }, { dryGrams: decimal(100) }]
    const shares = costLeftToSurvivors(
      { cost: decimal('1.000001'), costLayers: ALL_CLAY },
      survivors,
    )
    expect(shares.map((share) => share.cost.toFixed())).toEqual(['0.750001', '0.25'])
  })

  test('has nobody to go to when none survives, which is a defect here', () => {
    expect(() => costLeftToSurvivors({ cost: decimal(1), costLayers: ALL_CLAY }, [])).toThrow(
      'there is a line',
    )
  })
})
