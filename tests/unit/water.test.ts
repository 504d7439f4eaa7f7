import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  dryBasisFromWetBasis,
  waterContentOfSample,
  waterContentWetBasisFrom,
  wetBasisFromDryBasis,
} from '../../shared/water.ts'
import { fractionBelowOne, ledgerAmount } from './arbitrary.ts'
import { refusedWith } from './refused.ts'

const sample = (tin: string, wet: string, dry: string) => () =>
  waterContentOfSample({
    tinGrams: decimal(tin),
    wetWithTinGrams: decimal(wet),
    dryWithTinGrams: decimal(dry),
  })

describe('a dried sample', () => {
  test('water and dry clay add up to the wet sample, and both bases tell of them', () => {
    fc.assert(
      fc.property(
        ledgerAmount(0, 100),
        ledgerAmount(1, 100),
        ledgerAmount(0, 100),
        (tin, dry, water) => {
          const dryWithTinGrams = tin.plus(dry)
          const wetWithTinGrams = dryWithTinGrams.plus(water)
          const found = waterContentOfSample({ tinGrams: tin, wetWithTinGrams, dryWithTinGrams })
          expect(found.dryGrams.toFixed()).toBe(dry.toFixed())
          expect(found.waterGrams.toFixed()).toBe(water.toFixed())
          expect(found.waterContentWetBasis.lessThan(1)).toBe(true)
          const back = dryBasisFromWetBasis(found.waterContentWetBasis)
          expect(back.minus(found.waterContentDryBasis).abs().lessThan('1e-50')).toBe(true)
        },
      ),
    )
  })

  test('a sample that dries heavier is refused', () => {
    expect(refusedWith(sample('10', '50', '51'))).toBe('sample_must_not_dry_heavier')
  })

  test('a sample lighter than its tin is refused', () => {
    expect(refusedWith(sample('10', '9', '8'))).toBe('reading_must_be_above_zero')
    expect(refusedWith(sample('10', '12', '10'))).toBe('reading_must_be_above_zero')
  })

  test('a sample that loses nothing was dry', () => {
    expect(sample('10', '30', '30')().waterContentWetBasis.isZero()).toBe(true)
  })
})

describe('the two bases', () => {
  test('a content goes to the other basis and comes back', () => {
    fc.assert(
      fc.property(fractionBelowOne, (wetBasis) => {
        const back = wetBasisFromDryBasis(dryBasisFromWetBasis(wetBasis))
        expect(back.minus(wetBasis).abs().lessThan('1e-50')).toBe(true)
      }),
    )
  })

  test('a stated content is taken on the basis it was stated on', () => {
    expect(waterContentWetBasisFrom(decimal('0.2'), 'wet').toFixed()).toBe('0.2')
    expect(waterContentWetBasisFrom(decimal('0.25'), 'dry').toFixed()).toBe('0.2')
    expect(waterContentWetBasisFrom(decimal('3'), 'dry').toFixed()).toBe('0.75')
  })

  test.each([
    { content: '1', basis: 'wet' },
    { content: '20', basis: 'wet' },
    { content: '-0.1', basis: 'wet' },
    { content: '-0.1', basis: 'dry' },
    { content: '1e70', basis: 'dry' },
  ] as const)('a content of $content on the $basis basis is refused', ({ content, basis }) => {
    expect(refusedWith(() => waterContentWetBasisFrom(decimal(content), basis))).toBe(
      'water_content_must_be_below_one',
    )
  })
})
