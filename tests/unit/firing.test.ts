import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  firedGramsFrom,
  lossOnIgnitionFractionFrom,
  molarMassGramsPerMole,
  testBarShrinkage,
  totalLinearShrinkage,
  wetLengthForFired,
} from '../../shared/firing.ts'
import { ledgerAmount } from './arbitrary.ts'
import { refusedWith } from './refused.ts'

const loss = (dry: string, fired: string) => () =>
  lossOnIgnitionFractionFrom({ dryGrams: decimal(dry), firedGrams: decimal(fired) })

describe('loss on ignition', () => {
  test('found by weighing gives back the fired mass', () => {
    fc.assert(
      fc.property(ledgerAmount(1, 100_000), ledgerAmount(1, 100_000), (one, other) => {
        const [firedGrams, dryGrams] = one.lessThan(other) ? [one, other] : [other, one]
        const lossOnIgnitionFraction = lossOnIgnitionFractionFrom({ dryGrams, firedGrams })
        expect(firedGramsFrom({ dryGrams, lossOnIgnitionFraction }).toFixed()).toBe(
          firedGrams.toFixed(),
        )
      }),
    )
  })

  test('is refused when the fire would have added', () => {
    expect(refusedWith(loss('800', '801'))).toBe('parts_must_not_exceed_the_whole')
  })

  test('is refused when nothing was weighed', () => {
    expect(refusedWith(loss('0', '0'))).toBe('reading_must_be_above_zero')
    expect(refusedWith(loss('800', '0'))).toBe('reading_must_be_above_zero')
  })

  test('of everything is a defect', () => {
    expect(() =>
      firedGramsFrom({ dryGrams: decimal(1), lossOnIgnitionFraction: decimal(1) }),
    ).toThrow('the fire leaves something')
  })
})

describe('the molar mass of a formula', () => {
  test.each([
    ['H2O', '18.015'],
    ['CO2', '44.009'],
    ['Ca(OH)2', '74.092'],
    ['CaMg(CO3)2', '184.399'],
    ['CaSO4(H2O)0.5', '145.1415'],
    ['Al((OH)3)2', '129.024'],
  ])('of %s is %s g', (formula, grams) => {
    expect(molarMassGramsPerMole(formula).toFixed()).toBe(grams)
  })

  test.each(['', 'ca', 'Xx2', 'Ca(OH', 'Ca)2', 'H2 O', 'H-2'])('"%s" is no formula', (formula) => {
    expect(() => molarMassGramsPerMole(formula)).toThrow('Broken promise')
  })
})

describe('shrinkage', () => {
  test('a bar shrinks by what drying and firing make together', () => {
    const bar = testBarShrinkage({
      plasticMillimetres: decimal('100'),
      dryMillimetres: decimal('93.5'),
      firedMillimetres: decimal('87.9'),
    })
    const total = totalLinearShrinkage({
      dryingFractionOfWet: bar.drying,
      firingFractionOfDry: bar.firingOnDryLength,
    })
    expect(total.toFixed(50)).toBe(bar.total.toFixed(50))
  })

  test('a piece thrown larger fires to the wanted length', () => {
    const wet = wetLengthForFired({
      firedMillimetres: decimal(88),
      totalFractionOfWet: decimal('0.12'),
    })
    expect(wet.toFixed()).toBe('100')
  })
})
