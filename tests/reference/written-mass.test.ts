import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { massOfTypedPounds } from '../../shared/typed-pounds.ts'
import { gramsFrom } from '../../shared/units.ts'
import { writtenMass } from '../../shared/written-mass.ts'
import type { Cited } from './cited.ts'

interface Ball extends Cited {
  readonly pounds?: string
  readonly ounces?: string
  readonly kilograms: string
}

const pound = {
  source: 'the international pound of 1959, 453.59237 g',
  standing: 'computed',
} as const
const chart = {
  source: 'handbook, section 1: a widely copied chart of ball sizes in pounds and kilograms',
  standing: 'second-hand',
} as const
const packs = {
  source: 'handbook, section 3: bags and boxes of clay in pounds and kilograms',
  standing: 'second-hand',
} as const

/** Each as it is published, and so to as many digits. */
const SIZES: readonly Ball[] = [
  { pounds: '1', ounces: '0', kilograms: '0.45359237', ...pound },
  { ounces: '1', kilograms: '0.028349523', ...pound },
  { ounces: '14', kilograms: '0.40', ...chart },
  { pounds: '2', ounces: '3', kilograms: '1.0', ...chart },
  { pounds: '3', kilograms: '1.36', ...chart },
  { pounds: '4', kilograms: '1.8', ...chart },
  { pounds: '1', ounces: '6', kilograms: '0.62', ...chart },
  { pounds: '5', ounces: '12', kilograms: '2.6', ...chart },
  { pounds: '1.5', kilograms: '0.68', ...chart },
  { pounds: '25', kilograms: '11.34', ...packs },
  { pounds: '50', kilograms: '22.68', ...packs },
]

describe('pounds and ounces, in kilograms as published', () => {
  test.each(SIZES)(
    '$pounds lb $ounces oz is $kilograms kg ($standing: $source)',
    ({ pounds = '', ounces = '', kilograms }) => {
      const typed = massOfTypedPounds({ pounds, ounces })
      const grams = typed && 'mass' in typed ? gramsFrom(typed.mass) : decimal(NaN)
      const digits = kilograms.split('.')[1]?.length ?? 0
      expect(grams.dividedBy(1000).toFixed(digits)).toBe(kilograms)
    },
  )

  test.each([
    { grams: '11340', words: '25 lb 0.0 oz', ...packs },
    { grams: '22680', words: '50 lb 0.0 oz', ...packs },
    { grams: '12500', words: '27 lb 8.9 oz', ...pound },
  ])('$grams g is $words ($standing: $source)', ({ grams, words }) => {
    expect(writtenMass(decimal(grams), 'pounds_ounces')).toBe(words)
  })
})
