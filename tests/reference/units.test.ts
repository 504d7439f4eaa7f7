import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { convertedExactly } from '../../shared/units.ts'
import type { ExactUnitName } from '../../shared/units.ts'
import type { Cited } from './cited.ts'

interface Conversion extends Cited {
  readonly from: ExactUnitName
  readonly to: ExactUnitName
  readonly exact: string
}

const gnu = { source: 'GNU units 2.22, definitions.units', standing: 'seen' } as const
const worked = { source: 'from the definitions above', standing: 'computed' } as const
const sp811 = { source: 'NIST SP 811, appendix B', standing: 'from memory' } as const

const EXACT: readonly Conversion[] = [
  { from: 'lb', to: 'kg', exact: '0.45359237', ...gnu },
  { from: 'oz', to: 'g', exact: '28.349523125', ...gnu },
  { from: 'grain', to: 'g', exact: '0.06479891', ...gnu },
  { from: 'stone', to: 'kg', exact: '6.35029318', ...worked },
  { from: 'hundredweight_uk', to: 'kg', exact: '50.80234544', ...worked },
  { from: 'hundredweight_us', to: 'kg', exact: '45.359237', ...worked },
  { from: 'ton_short', to: 'kg', exact: '907.18474', ...worked },
  { from: 'ton_long', to: 'kg', exact: '1016.0469088', ...worked },
  { from: 'inch', to: 'millimetre', exact: '25.4', ...gnu },
  { from: 'cubic_foot', to: 'l', exact: '28.316846592', ...gnu },
  { from: 'us_gallon', to: 'l', exact: '3.785411784', ...gnu },
  { from: 'us_quart', to: 'ml', exact: '946.352946', ...gnu },
  { from: 'us_pint', to: 'ml', exact: '473.176473', ...gnu },
  { from: 'us_cup', to: 'ml', exact: '236.5882365', ...gnu },
  { from: 'us_fluid_ounce', to: 'ml', exact: '29.5735295625', ...gnu },
  { from: 'imperial_gallon', to: 'l', exact: '4.54609', ...gnu },
  { from: 'imperial_quart', to: 'ml', exact: '1136.5225', ...gnu },
  { from: 'imperial_pint', to: 'ml', exact: '568.26125', ...gnu },
  { from: 'imperial_fluid_ounce', to: 'ml', exact: '28.4130625', ...gnu },
  { from: 'kilowatt_hour', to: 'joule', exact: '3600000', ...worked },
  { from: 'btu', to: 'joule', exact: '1055.05585262', ...sp811 },
  { from: 'therm_ec', to: 'joule', exact: '105505585.262', ...sp811 },
  { from: 'therm_us', to: 'joule', exact: '105480400', ...sp811 },
]

const ENDLESS: readonly Conversion[] = [
  { from: 'imperial_gallon', to: 'us_gallon', exact: '1.200949925504855', ...worked },
  { from: 'kilowatt_hour', to: 'btu', exact: '3412.141633127942', ...worked },
  { from: 'btu', to: 'kilowatt_hour', exact: '0.0002930710701722222', ...worked },
]

describe('a unit that is exact by definition', () => {
  test.each(EXACT)('one $from is $exact $to ($standing: $source)', ({ from, to, exact }) => {
    expect(convertedExactly(decimal(1), from, to).toFixed()).toBe(exact)
  })

  test.each(ENDLESS)(
    'one $from is about $exact $to ($standing: $source)',
    ({ from, to, exact }) => {
      const digits = exact.split('.')[1]?.length ?? 0
      expect(convertedExactly(decimal(1), from, to).toFixed(digits)).toBe(exact)
    },
  )

  test('an imperial quart is two pints and a gallon eight, and so for the others (seen: GNU units)', () => {
    for (const kind of ['imperial', 'us'] as const) {
      const gallon = convertedExactly(decimal(1), `${kind}_gallon`, `${kind}_pint`)
      const quart = convertedExactly(decimal(1), `${kind}_quart`, `${kind}_pint`)
      expect([gallon.toFixed(), quart.toFixed()]).toEqual(['8', '2'])
    }
  })

  test('a pound in the cubic foot is 16.01846337396014 kg/m³ (computed)', () => {
    const kilograms = convertedExactly(decimal(1), 'lb', 'kg')
    const cubicMetres = convertedExactly(decimal(1), 'cubic_foot', 'l').dividedBy(1000)
    expect(kilograms.dividedBy(cubicMetres).toFixed(14)).toBe('16.01846337396014')
  })

  test('a BTU is the heat of a pound by five ninths of a degree (computed; definition from memory)', () => {
    const kilograms = convertedExactly(decimal(1), 'lb', 'kg')
    const joules = kilograms.times('4186.8').times(5).dividedBy(9)
    expect(joules.toFixed(20)).toBe(convertedExactly(decimal(1), 'btu', 'joule').toFixed(20))
  })
})
