import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  labelUncertaintyGrams,
  netOfReading,
  readingUncertaintyGrams,
} from '../../shared/reading.ts'
import { refusedWith } from './refused.ts'

const scale = { divisionGrams: decimal(5), capacityGrams: decimal(10_000) }
const read = (gross: string, tare: string) => () =>
  netOfReading({ grossGrams: decimal(gross), tareGrams: decimal(tare), scale })

describe('a net mass', () => {
  test('is the gross without the tare, to the digit', () => {
    expect(read('4325.5', '412.25')().toFixed()).toBe('3913.25')
  })

  test('may be weighed up to the capacity of the scale', () => {
    expect(read('10000', '0')().toFixed()).toBe('10000')
  })

  test('needs no scale', () => {
    expect(netOfReading({ grossGrams: decimal(3), tareGrams: decimal(1) }).toFixed()).toBe('2')
  })

  test('is refused when the full vessel weighs less than the empty one', () => {
    expect(refusedWith(read('400', '412'))).toBe('gross_must_not_be_below_tare')
  })

  test('is refused when the vessel is empty', () => {
    expect(refusedWith(read('412', '412'))).toBe('reading_must_be_above_zero')
  })

  test('is refused above what the scale carries, vessel and all', () => {
    expect(refusedWith(read('10000.1', '412'))).toBe('reading_must_be_within_scale_capacity')
  })
})

describe('the uncertainty of a reading', () => {
  test('is larger by the root of two for a net mass', () => {
    const one = readingUncertaintyGrams({ divisionGrams: decimal(5), readings: 1 })
    const two = readingUncertaintyGrams({ divisionGrams: decimal(5), readings: 2 })
    expect(two.dividedBy(one).pow(2).toFixed(20)).toBe(decimal(2).toFixed(20))
  })

  test('of a label is one per cent to either side, spread evenly', () => {
    expect(labelUncertaintyGrams(decimal(12_500)).toFixed(4)).toBe('72.1688')
  })
})
