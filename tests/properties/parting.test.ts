import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, Decimal, toLedgerScale } from '../../shared/decimal.ts'
import { doubtBy, doubtOfSum, doubtWritten } from '../../shared/doubt.ts'
import {
  dryGramsInWetMass,
  partByMeasure,
  partByShare,
  surplusFound,
} from '../../shared/parting.ts'
import { negated, NOTHING, plus, type Held, type Quantities } from '../../shared/quantity.ts'
import { heldClay, ledgerAmount } from '../support/arbitraries.ts'

/** Fractions of what is left each time, all of it among them. */
const shares = fc.array(
  fc.oneof(fc.integer({ min: 0, max: 1_000_000 }), fc.constantFrom(0, 1, 999_999, 1_000_000)),
  { minLength: 1, maxLength: 30 },
)

type PartedBy = (held: Held, dryGrams: Decimal) => Quantities

const WAYS: readonly { name: string; partedBy: PartedBy; leavesItsDoubt: boolean }[] = [
  {
    name: 'a share',
    partedBy: (held, dryGrams) => partByShare(held, { dryGrams }),
    leavesItsDoubt: false,
  },
  {
    name: 'a share by a doubtful reading',
    partedBy: (held, dryGrams) =>
      partByShare(held, { dryGrams, readingDoubt: doubtBy('reading|1', decimal('1.443376')) }),
    leavesItsDoubt: false,
  },
  {
    name: 'a measured amount',
    partedBy: (held, dryGrams) =>
      partByMeasure(held, { dryGrams, dryDoubt: doubtBy('reading|1', decimal('2.041241')) }),
    leavesItsDoubt: true,
  },
]

/** What is left of a holding when something leaves it. */
function left(held: Held, leaving: Quantities): Held {
  return plus(held, negated(leaving))
}

const doubts = (some: Quantities) => [doubtWritten(some.dryDoubt), doubtWritten(some.costDoubt)]

function amounts(some: Quantities): string[] {
  return [some.dryGrams, some.waterGrams, some.cost].map((amount) => amount.toFixed())
}

describe.each(WAYS)('taken away as $name', ({ partedBy, leavesItsDoubt }) => {
  test('in any number of parts, all clay takes all water and all cost along, to the last digit', () => {
    fc.assert(
      fc.property(heldClay, shares, (whole, fractions) => {
        let held = whole
        let gone = NOTHING
        for (const millionths of [...fractions, 1_000_000]) {
          if (held.dryGrams.isZero()) break
          const dryGrams = toLedgerScale(held.dryGrams.times(millionths).dividedBy(1_000_000))
          const parting = partedBy(held, dryGrams)
          gone = plus(gone, parting)
          held = left(held, parting)
        }
        expect(amounts(held)).toEqual(['0', '0', '0'])
        if (!leavesItsDoubt) expect(doubts(held)).toEqual([{}, {}])
        expect(doubts(plus(held, gone))).toEqual(doubts(whole))
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
        for (const some of [parting, stays]) {
          for (const amount of [some.dryGrams, some.waterGrams, some.cost]) {
            expect(amount.isNegative() && !amount.isZero()).toBe(false)
            expect(amount.decimalPlaces()).toBeLessThanOrEqual(6)
          }
        }
        const kept = [stays.dryDoubt, stays.costDoubt, parting.dryDoubt, parting.costDoubt]
        for (const one of doubtOfSum(kept).values()) {
          expect(one.decimalPlaces()).toBeLessThanOrEqual(6)
        }
      }),
      { numRuns: 300 },
    )
  })

  test('of a holding that has no clay, all its water goes with nothing', () => {
    const held: Held = { ...NOTHING, waterGrams: decimal('12.5') }
    expect(amounts(partedBy(held, decimal(0)))).toEqual(['0', '12.5', '0'])
  })
})

describe('a holding that is measured as a whole', () => {
  test('is then as unsure as the measurement, whatever it was before', () => {
    fc.assert(
      fc.property(heldClay, ledgerAmount(1_000), (held, more) => {
        const measured = {
          dryGrams: held.dryGrams.plus(more),
          dryDoubt: doubtBy('reading|1', decimal('2.041241')),
        }
        const after = plus(held, { ...NOTHING, ...surplusFound(held, measured) })
        expect(after.dryGrams.toFixed()).toBe(measured.dryGrams.toFixed())
        expect(doubtWritten(after.dryDoubt)).toEqual({ 'reading|1': '2.041241' })
      }),
    )
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
