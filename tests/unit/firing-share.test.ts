import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { firingShares, loadWeights, SHARE_RULES } from '../../shared/firing-share.ts'
import type { LoadedPots } from '../../shared/firing-share.ts'
import { ledgerAmount, sum } from './arbitrary.ts'

interface Sizes {
  readonly name: string
  readonly pieces: number
  readonly grams: number
  readonly footprint?: number
  readonly height?: number
}
const pots = ({ name, pieces, grams, footprint, height }: Sizes): LoadedPots => ({
  name,
  pieces: decimal(pieces),
  dryGrams: decimal(grams),
  room:
    footprint === undefined || height === undefined
      ? null
      : {
          footprintSquareCentimetres: decimal(footprint),
          heightCentimetres: decimal(height),
        },
})
const MUGS = pots({ name: 'mug', pieces: 40, grams: 12_000, footprint: 108, height: 10 })
const PLATES = pots({ name: 'plate', pieces: 18, grams: 17_820, footprint: 729, height: 4 })
const JARS = pots({ name: 'jar', pieces: 6, grams: 6_000 })

const anyPots: fc.Arbitrary<LoadedPots> = fc
  .record({
    pieces: fc.integer({ min: 1, max: 200 }),
    grams: ledgerAmount(0, 40_000),
    footprint: ledgerAmount(1, 2_000),
    height: ledgerAmount(1, 60),
    isSized: fc.boolean(),
  })
  .map(({ pieces, grams, footprint, height, isSized }) => ({
    name: 'pot',
    pieces: decimal(pieces),
    dryGrams: grams,
    room: isSized ? { footprintSquareCentimetres: footprint, heightCentimetres: height } : null,
  }))
const anyLoad = fc.array(anyPots, { minLength: 1, maxLength: 12 })
const anyRule = fc.constantFrom(...SHARE_RULES)
const UNIT = decimal('0.000001')

describe('sharing a firing out', () => {
  test('by room: footprint by height by pieces, with the share of a piece', () => {
    const found = firingShares({ amount: decimal(10), rule: 'shelf_space', load: [MUGS, PLATES] })
    // 43.2 and 52.488 litres.
    expect(found.weights.map((one) => one.toFixed())).toEqual(['43.2', '52.488'])
    expect(found.shares.map(({ amount }) => amount.toFixed())).toEqual(['4.514673', '5.485327'])
    expect(found.shares[0]?.amountPerPiece.toFixed()).toBe('0.112867')
    expect(found.words).toBe('Shared by the room they take in the kiln.')
  })

  test('by weight and by the piece', () => {
    const byMass = firingShares({ amount: decimal(10), rule: 'mass', load: [MUGS, PLATES] })
    expect(byMass.shares.map(({ fraction }) => fraction.toFixed())).toEqual([
      '0.402414',
      '0.597586',
    ])
    const byCount = firingShares({ amount: decimal(58), rule: 'count', load: [MUGS, PLATES] })
    expect(byCount.shares.map(({ amount }) => amount.toFixed())).toEqual(['40', '18'])
  })

  test('where the room of one form is not known, the whole load goes by weight and says so', () => {
    const load = [MUGS, JARS, PLATES]
    const found = loadWeights('shelf_space', load)
    expect(found).toMatchObject({ asked: 'shelf_space', used: 'mass' })
    expect(found.weights).toEqual(loadWeights('mass', load).weights)
    expect(found.words).toBe(
      'Shared by their weight when loaded, because nobody has said the sizes of: jar.',
    )
  })

  test('a side of nothing is no size', () => {
    const flat = pots({ name: 'tile', pieces: 3, grams: 900, footprint: 100, height: 0 })
    expect(loadWeights('shelf_space', [MUGS, flat]).used).toBe('mass')
  })

  test('where nothing weighs anything either, by the piece', () => {
    const unweighed = pots({ name: 'bowl', pieces: 3, grams: 0 })
    const found = loadWeights('shelf_space', [unweighed])
    expect(found.used).toBe('count')
    expect(found.words).toBe(
      'Shared by the piece, because none of them was weighed, and nobody has said the sizes of: bowl.',
    )
    expect(loadWeights('mass', [unweighed]).words).toBe(
      'Shared by the piece, because none of them was weighed.',
    )
  })

  test('an empty kiln and pots without pieces are defects', () => {
    expect(() => loadWeights('count', [])).toThrow('something in the kiln')
    const none = pots({ name: 'mug', pieces: 0, grams: 1 })
    expect(() => loadWeights('count', [none])).toThrow('has pieces')
  })

  test('never loses a unit, under any rule', () => {
    fc.assert(
      fc.property(ledgerAmount(0, 5_000), anyRule, anyLoad, (amount, rule, load) => {
        const { shares } = firingShares({ amount, rule, load })
        expect(shares).toHaveLength(load.length)
        expect(sum(shares.map((share) => share.amount)).toFixed()).toBe(amount.toFixed())
      }),
    )
  })

  test('the order of the load moves no share by more than the last unit', () => {
    fc.assert(
      fc.property(ledgerAmount(0, 5_000), anyRule, anyLoad, (amount, rule, load) => {
        const there = firingShares({ amount, rule, load })
        const back = firingShares({ amount, rule, load: [...load].reverse() })
        expect(back.used).toBe(there.used)
        for (const [index, share] of [...back.shares].reverse().entries()) {
          const moved = share.amount.minus(there.shares[index]?.amount ?? 0).abs()
          expect(moved.lessThanOrEqualTo(UNIT)).toBe(true)
        }
      }),
    )
  })

  test('another pot in the same firing makes no other dearer by more than the last unit', () => {
    fc.assert(
      fc.property(
        ledgerAmount(0, 5_000),
        anyRule,
        fc.tuple(anyLoad, anyPots),
        (amount, rule, [load, more]) => {
          const fuller = firingShares({ amount, rule, load: [...load, more] })
          const before = firingShares({ amount, rule: fuller.used, load })
          // An unweighed load can change its rule when something is weighed: that is another sharing.
          fc.pre(before.used === fuller.used)
          for (const [index, share] of before.shares.entries()) {
            const dearer = (fuller.shares[index]?.amount ?? share.amount).minus(share.amount)
            expect(dearer.lessThanOrEqualTo(UNIT)).toBe(true)
          }
        },
      ),
    )
  })
})
