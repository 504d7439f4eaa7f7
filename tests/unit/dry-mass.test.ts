import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { doubtBy } from '../../shared/doubt.ts'
import { dryMassFromWet, dryMassKnown } from '../../shared/dry-mass.ts'
import { fractionBelowOne, ledgerAmount } from './arbitrary.ts'
import { refusedWith } from './refused.ts'

const bagOfClay = {
  netGrams: decimal(12_500),
  netDoubt: doubtBy('reading', decimal(3)),
  waterContentWetBasis: decimal('0.2'),
  waterDoubt: doubtBy('moisture', decimal('0.02')),
  method: 'default_for_state',
  standing: 'assumed',
} as const

describe('dry clay in a wet mass', () => {
  test('dry clay and water add up to what was weighed, for every mass and water content', () => {
    fc.assert(
      fc.property(
        ledgerAmount(0, 1_000_000),
        fractionBelowOne,
        (netGrams, waterContentWetBasis) => {
          const found = dryMassFromWet({ ...bagOfClay, netGrams, waterContentWetBasis })
          expect(found.dryGrams.plus(found.waterGrams).toFixed()).toBe(netGrams.toFixed())
          expect(found.dryGrams.isNegative() || found.waterGrams.isNegative()).toBe(false)
          expect(found.dryGrams.decimalPlaces()).toBeLessThanOrEqual(6)
        },
      ),
    )
  })

  test('adds the doubts of scale and water in quadrature', () => {
    // The root of (0.8 x 3)^2 + (12 500 x 0.02)^2.
    const found = dryMassFromWet(bagOfClay)
    expect(found.dryGrams.toFixed()).toBe('10000')
    expect(found.standardUncertaintyGrams.toFixed()).toBe('250.01152')
  })

  test('counts a source once that speaks of mass and of water', () => {
    // 0.8 x 3 less 12 500 x 0.02: the fuller jug is heavier and was taken to be wetter.
    const jug = doubtBy('jug', decimal('0.02'))
    const found = dryMassFromWet({
      ...bagOfClay,
      netDoubt: doubtBy('jug', decimal(3)),
      waterDoubt: jug,
    })
    expect(found.standardUncertaintyGrams.toFixed()).toBe('247.6')
  })

  test('keeps how it was come by', () => {
    expect(dryMassFromWet(bagOfClay)).toMatchObject({
      method: 'default_for_state',
      standing: 'assumed',
    })
  })

  test('is a defect for a water content above one', () => {
    expect(() => dryMassFromWet({ ...bagOfClay, waterContentWetBasis: decimal(2) })).toThrow(
      'a water content is a fraction',
    )
  })
})

describe('a load of known dry clay, weighed again', () => {
  const load = {
    knownDryGrams: decimal(4000),
    knownDoubt: doubtBy('moisture', decimal(60)),
    netGrams: decimal('5250.5'),
  }

  test('shows its water by difference and leaves the clay as it was', () => {
    const found = dryMassKnown(load)
    expect(found.dryGrams.toFixed()).toBe('4000')
    expect(found.waterGrams.toFixed()).toBe('1250.5')
    expect(found.standardUncertaintyGrams.toFixed()).toBe('60')
    expect(found).toMatchObject({ method: 'known_dry_weighed_again', standing: 'estimated' })
  })

  test('may weigh as little as its clay', () => {
    expect(dryMassKnown({ ...load, netGrams: decimal(4000) }).waterGrams.isZero()).toBe(true)
  })

  test('is refused when it weighs less than its clay', () => {
    expect(refusedWith(() => dryMassKnown({ ...load, netGrams: decimal(3999) }))).toBe(
      'reading_must_not_be_below_known_dry',
    )
  })
})
