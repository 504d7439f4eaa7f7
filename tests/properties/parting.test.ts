import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, Decimal, toLedgerScale } from '../../shared/decimal.ts'
import {
  dryGramsInWetMass,
  partByMeasure,
  partByShare,
  type Parting,
} from '../../shared/parting.ts'
import { negated, NOTHING, plus, type Held, type Quantities } from '../../shared/quantity.ts'
import { heldClay, ledgerAmount } from '../support/arbitraries.ts'

/** Fractions of what is left each time, all of it among them. */
const shares = fc.array(
  fc.oneof(fc.integer({ min: 0, max: 1_000_000 }), fc.constantFrom(0, 1, 999_999, 1_000_000)),
  { minLength: 1, maxLength: 30 },
)

type PartedBy = (held: Held, dryGrams: Decimal) => Parting

const WAYS: readonly { name: string; partedBy: PartedBy }[] = [
  { name: 'a share', partedBy: (held, dryGrams) => partByShare(held, { dryGrams }) },
  {
    name: 'a share by a doubtful reading',
    partedBy: (held, dryGrams) =>
      partByShare(held, { dryGrams, readingUncertaintyGrams: decimal('1.443376') }),
  },
  {
    name: 'a measured amount',
    partedBy: (held, dryGrams) =>
      partByMeasure(held, { dryGrams, standardUncertaintyGrams: decimal('2.041241') }),
  },
]

/** What is left of a holding when something leaves it. */
function left(held: Held, parting: Parting): Held {
  const dryVariance = held.dryVariance.plus(parting.varianceAtSource)
  return { ...plus(held, negated(parting.leaves)), dryVariance }
}

function amounts(some: Quantities): string[] {
  return [some.dryGrams, some.waterGrams, some.cost].map((amount) => amount.toFixed())
}

describe.each(WAYS)('taken away as $name', ({ partedBy }) => {
  test('in any number of parts, all clay takes all water and all cost along, to the last digit', () => {
    fc.assert(
      fc.property(heldClay, shares, (whole, fractions) => {
        let held = whole
        let gone = NOTHING
        for (const millionths of [...fractions, 1_000_000]) {
          if (held.dryGrams.isZero()) break
          const dryGrams = toLedgerScale(held.dryGrams.times(millionths).dividedBy(1_000_000))
          const parting = partedBy(held, dryGrams)
          gone = plus(gone, parting.leaves)
          held = left(held, parting)
        }
        expect(amounts(held)).toEqual(['0', '0', '0'])
        expect(held.dryVariance.toFixed()).toBe('0')
        expect(amounts(gone)).toEqual(amounts(whole))
      }),
      { numRuns: 300 },
    )
  })

  test('nothing that leaves, and nothing that stays, is below zero or finer than the ledger', () => {
    fc.assert(
      fc.property(heldClay, fc.integer({ min: 0, max: 1_000_000 }), (held, millionths) => {
        const dryGrams = toLedgerScale(held.dryGrams.times(millionths).dividedBy(1_000_000))
        const parting = partedBy(held, dryGrams)
        const stays = left(held, parting)
        for (const some of [parting.leaves, stays]) {
          for (const amount of [some.dryGrams, some.waterGrams, some.cost]) {
            expect(amount.isNegative() && !amount.isZero()).toBe(false)
            expect(amount.decimalPlaces()).toBeLessThanOrEqual(6)
          }
        }
        expect(stays.dryVariance.greaterThanOrEqualTo(0)).toBe(true)
        expect(stays.dryVariance.decimalPlaces()).toBeLessThanOrEqual(12)
      }),
      { numRuns: 300 },
    )
  })

  test('of a holding that has no clay, all its water goes with nothing', () => {
    const held: Held = { ...NOTHING, waterGrams: decimal('12.5'), dryVariance: decimal(0) }
    expect(amounts(partedBy(held, decimal(0)).leaves)).toEqual(['0', '12.5', '0'])
  })
})

describe('the dry clay in a wet mass', () => {
  test('is all of it in all of the wet mass, and never more than there is in less', () => {
    fc.assert(
      fc.property(heldClay, ledgerAmount(2_000_000), (held, asked) => {
        const wetGrams = held.dryGrams.plus(held.waterGrams)
        expect(dryGramsInWetMass(held, wetGrams).toFixed()).toBe(held.dryGrams.toFixed())
        const part = Decimal.min(asked, wetGrams)
        const dryGrams = dryGramsInWetMass(held, part)
        expect(dryGrams.lessThanOrEqualTo(held.dryGrams)).toBe(true)
        expect(dryGrams.lessThanOrEqualTo(part)).toBe(true)
      }),
      { numRuns: 300 },
    )
  })
})
