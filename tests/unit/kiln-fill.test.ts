import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import type { LoadedPots } from '../../shared/firing-share.ts'
import { emptyRoomCost, emptyRoomWords, kilnFill } from '../../shared/kiln-fill.ts'
import { ledgerAmount } from './arbitrary.ts'

/** Pots of one litre each. */
const litres = (pieces: number): LoadedPots => ({
  name: 'mug',
  pieces: decimal(pieces),
  dryGrams: decimal(300 * pieces),
  room: { footprintSquareCentimetres: decimal(100), heightCentimetres: decimal(10) },
})
const kiln = { volumeLitres: decimal(200) }

describe('how full a load was', () => {
  test('is its room over the usable room, ours where the kiln says nothing', () => {
    const found = kilnFill({ ...kiln, load: [litres(90)] })
    expect(found.fraction?.toFixed()).toBe('0.75')
    expect(found).toMatchObject({ standing: 'estimated', isHalfEmpty: false, isOverfull: false })
    expect(found.words).toBe('75 % full.')
  })

  test("a kiln's own usable room is taken before ours", () => {
    const found = kilnFill({ ...kiln, usableFraction: decimal('0.9'), load: [litres(90)] })
    expect(found.fraction?.toFixed()).toBe('0.5')
    expect(found.isHalfEmpty).toBe(true)
    expect(found.words).toBe('Half empty: 50 % full.')
  })

  test('what somebody says of the load is taken before its sizes', () => {
    const found = kilnFill({ ...kiln, saidFraction: decimal('0.9'), load: [litres(30)] })
    expect(found.fraction?.toFixed()).toBe('0.9')
    expect(found.reckonedFraction?.toFixed()).toBe('0.25')
    expect(found.isHalfEmpty).toBe(false)
  })

  test('more than the whole is reckoned as the whole, and says so', () => {
    const found = kilnFill({ ...kiln, load: [litres(135)] })
    expect(found.fraction?.toFixed()).toBe('1')
    expect(found.reckonedFraction?.toFixed()).toBe('1.125')
    expect(found).toMatchObject({ isOverfull: true, standing: 'assumed' })
    expect(found.words).toContain('need 112 % of the room')
    expect(found.words).toContain('Reckoned as full')
  })

  test('exactly at the threshold is not half empty', () => {
    expect(kilnFill({ ...kiln, load: [litres(72)] }).isHalfEmpty).toBe(false)
    expect(kilnFill({ ...kiln, load: [litres(71)] }).isHalfEmpty).toBe(true)
  })

  test('is not known where a size, the volume or the whole load is missing', () => {
    const unsized = { ...litres(3), room: null }
    for (const load of [[litres(3), unsized], []]) {
      const found = kilnFill({ ...kiln, load })
      expect(found.fraction).toBeNull()
      expect(found.words).toContain('not known')
    }
    expect(kilnFill({ volumeLitres: null, load: [litres(3)] }).fraction).toBeNull()
  })

  test('a load that is said to be more than all or none is a defect', () => {
    for (const said of ['0', '1.01']) {
      expect(() => kilnFill({ ...kiln, load: [], saidFraction: decimal(said) })).toThrow('at most')
    }
  })
})

describe('what the empty room cost', () => {
  test('a load of half a kiln pays twice', () => {
    const found = emptyRoomCost({
      cost: decimal(28),
      pieces: decimal(50),
      fillFraction: decimal('0.5'),
    })
    expect(found.costPerPiece.toFixed()).toBe('0.56')
    expect(found.costPerPieceIfFull.toFixed()).toBe('0.28')
    expect(found.emptyRoomCostPerPiece.toFixed()).toBe('0.28')
    expect(found.emptyRoomCost.toFixed()).toBe('14')
    expect(emptyRoomWords(found, (amount) => amount.toFixed(2))).toBe(
      '0.56 a piece. In a full kiln about 0.28. The empty room cost about 0.28 a piece.',
    )
  })

  test('a full kiln has no empty room', () => {
    const full = emptyRoomCost({
      cost: decimal(28),
      pieces: decimal(100),
      fillFraction: decimal(1),
    })
    expect(full.emptyRoomCost.toFixed()).toBe('0')
    expect(emptyRoomWords(full, (amount) => amount.toFixed(2))).toBe('A full kiln: 0.28 a piece.')
  })

  test('a fuller kiln never costs more a piece, nor has dearer empty room', () => {
    fc.assert(
      fc.property(
        ledgerAmount(0, 500),
        fc.integer({ min: 1, max: 300 }),
        fc.integer({ min: 0, max: 300 }),
        (cost, few, more) => {
          const of = (pieces: number) =>
            emptyRoomCost({
              cost,
              pieces: decimal(pieces),
              fillFraction: kilnFill({ ...kiln, load: [litres(pieces)] }).fraction ?? decimal(1),
            })
          const one = of(few)
          const fuller = of(few + more)
          expect(fuller.costPerPiece.lessThanOrEqualTo(one.costPerPiece)).toBe(true)
          expect(fuller.emptyRoomCost.lessThanOrEqualTo(one.emptyRoomCost)).toBe(true)
          expect(one.costPerPieceIfFull.lessThanOrEqualTo(one.costPerPiece)).toBe(true)
        },
      ),
    )
  })
})
