import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { waterDensityGramsPerMillilitre } from '../../shared/slurry.ts'
import { convertedExactly } from '../../shared/units.ts'

const perCubicMetre = (celsius: string) =>
  waterDensityGramsPerMillilitre(decimal(celsius)).times(1000)

describe('the density of water', () => {
  const tanaka = 'Tanaka et al., Metrologia 38 (2001), formula of the CIPM'
  const kell = 'Kell 1975'
  const TABLE = [
    { celsius: '0', expected: '999.8428', kell: '999.8395' },
    { celsius: '4', expected: '999.9749', kell: '999.9720' },
    { celsius: '10', expected: '999.7027', kell: '999.6996' },
    { celsius: '15', expected: '999.1026', kell: '999.0996' },
    { celsius: '20', expected: '998.2067', kell: '998.2041' },
    { celsius: '25', expected: '997.0470', kell: '997.0449' },
    { celsius: '30', expected: '995.6488', kell: '995.6473' },
    { celsius: '40', expected: '992.2152', kell: '992.2158' },
  ].map((row) => ({ ...row, source: `${tanaka}; ${kell}`, standing: 'second-hand' as const }))

  test.each(TABLE)('at $celsius degrees is $expected kg/m³ ($standing: $source)', (row) => {
    expect(perCubicMetre(row.celsius).toFixed(4)).toBe(row.expected)
  })

  test.each(TABLE)('at $celsius degrees is near the older $kell kg/m³ ($standing)', (row) => {
    // The two differ by up to 0.0033: another temperature scale, another isotopic composition.
    expect(perCubicMetre(row.celsius).minus(row.kell).abs().lessThan('0.004')).toBe(true)
  })

  test('at 20 degrees is not the 997.9355 of the copies with two digits swapped (computed)', () => {
    expect(perCubicMetre('20').minus('997.9355').abs().greaterThan('0.2')).toBe(true)
  })

  test('is largest near four degrees (second-hand: Tanaka et al. 2001)', () => {
    const tenths = Array.from({ length: 401 }, (_, index) => decimal(index).dividedBy(10))
    const densest = tenths.reduce((best, celsius) =>
      waterDensityGramsPerMillilitre(celsius).greaterThan(waterDensityGramsPerMillilitre(best))
        ? celsius
        : best,
    )
    expect(densest.toFixed()).toBe('4')
  })

  test('makes a pint of water at 20 degrees 20.0089 oz, not 20 (computed)', () => {
    const millilitres = convertedExactly(decimal(1), 'imperial_pint', 'ml')
    const grams = millilitres.times(waterDensityGramsPerMillilitre(decimal(20)))
    expect(convertedExactly(grams, 'g', 'oz').toFixed(4)).toBe('20.0089')
  })
})
