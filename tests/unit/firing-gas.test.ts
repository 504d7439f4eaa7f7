import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { gasBurnt } from '../../shared/firing-gas.ts'

describe('gas by weight', () => {
  const weighed = (before: number, after: number) =>
    gasBurnt({
      cylinderBeforeGrams: decimal(before),
      cylinderAfterGrams: decimal(after),
      divisionGrams: decimal(50),
    })

  test('is what the cylinder lost', () => {
    const found = weighed(31200, 24300)
    expect(found.burntGrams?.toFixed()).toBe('6900')
    expect(found).toMatchObject({ how: 'gas_weighed', standing: 'measured', whyNot: null })
    expect(found.words).toBe('6900 g of gas, about 96.9 kWh to compare.')
  })

  test('a cylinder that is heavier or as heavy afterwards tells a reason', () => {
    expect(weighed(20000, 24000)).toMatchObject({
      burntGrams: null,
      kilowattHours: null,
      whyNot: 'cylinder_grew_heavier',
    })
    expect(weighed(20000, 20000).whyNot).toBe('cylinder_kept_its_weight')
  })

  test('another gas has another content', () => {
    const found = gasBurnt(
      { burntGrams: decimal(1000), divisionGrams: decimal(10) },
      decimal('0.0137'),
    )
    expect(found.kilowattHours?.toFixed()).toBe('13.7')
  })

  test('a coarse scale is less sure of little gas', () => {
    const little = weighed(20100, 20000).relativeStandardUncertainty ?? decimal(0)
    expect(little.greaterThan(weighed(30000, 20000).relativeStandardUncertainty ?? 0)).toBe(true)
  })
})
