import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ONE } from '../../shared/decimal.ts'
import { doubtOfSum, doubtRead, doubtWritten, NO_DOUBT } from '../../shared/doubt.ts'
import { dryMassFromWet } from '../../shared/dry-mass.ts'
import { NOTHING, quantities } from '../../shared/quantity.ts'
import { waterDoubtOf, wetDoubtOf } from '../../shared/water-doubt.ts'
import { aDoubt, heldClay } from '../support/arbitraries.ts'

const written = (doubt: ReturnType<typeof waterDoubtOf>) => doubtWritten(doubt)

describe('clay of a kilogram, a fifth of it water', () => {
  const held = quantities({
    dryGrams: decimal(800),
    waterGrams: decimal(200),
    dryDoubt: doubtRead({ 'moisture|x': '-30', 'reading|1': '4', 'merged_water|2': '10' }),
  })

  test('is as wet as less clay in the same mass makes it', () => {
    expect(written(waterDoubtOf(held))).toEqual({ 'moisture|x': '0.03', 'merged_water|2': '-0.01' })
  })

  test('weighs as much more as its dry clay is more, where water is not to blame', () => {
    // 4 g of clay came with 1 g of water.
    expect(written(wetDoubtOf(held))).toEqual({ 'reading|1': '5' })
  })
})

test('nothing is unsure of nothing, of water alone or of clay without water', () => {
  const odd = { dryDoubt: doubtRead({ 'moisture|x': '3', 'reading|1': '2' }) }
  for (const held of [NOTHING, { ...NOTHING, ...odd }]) {
    expect(waterDoubtOf(held)).toEqual(NO_DOUBT)
    expect(wetDoubtOf(held)).toEqual(NO_DOUBT)
  }
  const water = quantities({ waterGrams: decimal(10), ...odd })
  expect(written(waterDoubtOf(water))).toEqual({ 'moisture|x': '-0.3' })
  expect(wetDoubtOf(water)).toEqual(NO_DOUBT)
  const dry = quantities({ dryGrams: decimal(10), ...odd })
  expect(written(wetDoubtOf(dry))).toEqual({ 'reading|1': '2' })
})

test('its wet mass and its water content together make its dry clay as unsure as it was', () => {
  fc.assert(
    fc.property(heldClay, aDoubt, (clay, dryDoubt) => {
      const held = { ...clay, dryGrams: clay.dryGrams.plus(1), dryDoubt }
      const netGrams = held.dryGrams.plus(held.waterGrams)
      const again = dryMassFromWet({
        netGrams,
        netDoubt: wetDoubtOf(held),
        waterContentWetBasis: ONE.minus(held.dryGrams.dividedBy(netGrams)),
        waterDoubt: waterDoubtOf(held),
        method: 'lot_water_content',
        standing: 'estimated',
      })
      expect(again.dryGrams.toFixed()).toBe(held.dryGrams.toFixed())
      expect(doubtWritten(again.dryDoubt)).toEqual(doubtWritten(doubtOfSum([dryDoubt])))
    }),
  )
})
