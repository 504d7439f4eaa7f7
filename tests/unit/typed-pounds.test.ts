import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { massOfTypedPounds } from '../../shared/typed-pounds.ts'
import { gramsFrom } from '../../shared/units.ts'
import { writtenMass } from '../../shared/written-mass.ts'

const typed = (pounds: string, ounces: string) => massOfTypedPounds({ pounds, ounces })

describe('pounds and ounces as they were typed', () => {
  test.each([
    ['27', '7.5', { value: '439.5', unit: 'oz' }],
    ['27', '7.50', { value: '439.50', unit: 'oz' }],
    [' 27 ', '7,5', { value: '439.5', unit: 'oz' }],
    ['5', '12', { value: '92', unit: 'oz' }],
    ['0', '18.5', { value: '18.5', unit: 'oz' }],
    ['', '18.50', { value: '18.50', unit: 'oz' }],
    ['25', '', { value: '25', unit: 'lb' }],
    ['5.25', '', { value: '5.25', unit: 'lb' }],
  ])('%s lb %s oz', (pounds, ounces, mass) => {
    expect(typed(pounds, ounces)).toEqual({ mass })
  })

  test('nothing in either box is nothing', () => {
    expect(typed('', ' ')).toBeUndefined()
  })

  test('what is no number goes on alone, for the form of an act to refuse', () => {
    expect(typed('five', '')).toEqual({ mass: { value: 'five', unit: 'lb' } })
    expect(typed('', '-3')).toEqual({ mass: { value: '-3', unit: 'oz' } })
  })

  test.each([
    ['5.5', '3', 'Beside ounces, pounds are whole. 5.5 lb alone needs no ounces.'],
    ['5', '16', 'Sixteen ounces are a pound. Beside pounds there are fewer than 16.'],
    ['five', '3', 'Pounds and ounces are numbers, such as 5 lb 12.5 oz.'],
    ['5', '-3', 'Pounds and ounces are numbers, such as 5 lb 12.5 oz.'],
  ])('%s lb %s oz is refused', (pounds, ounces, fault) => {
    expect(typed(pounds, ounces)).toEqual({ fault })
  })

  test('pounds with a point may have been ounces, and are said both ways', () => {
    expect(typed('5.12', '')).toEqual({
      mass: { value: '5.12', unit: 'lb' },
      caution: '5.12 lb is 5 lb 1.9 oz. For 5 lb 12 oz, write the ounces in their own box.',
    })
    expect(typed('5,5', '')).toMatchObject({ caution: expect.stringContaining('For 5 lb 5 oz') })
    expect(typed('5.08', '')).toMatchObject({ caution: expect.stringContaining('For 5 lb 8 oz') })
    for (const pounds of ['5', '5.0', '5.16', '5.125']) {
      expect(typed(pounds, '')).not.toHaveProperty('caution')
    }
  })

  test('whole pounds and tenths of ounces come back as they were typed', () => {
    fc.assert(
      fc.property(fc.nat({ max: 200 }), fc.nat({ max: 159 }), (whole, tenths) => {
        const ounces = (tenths / 10).toFixed(1)
        const found = typed(String(whole), ounces)
        const grams = found && 'mass' in found ? gramsFrom(found.mass) : undefined
        const words = whole === 0 ? `${ounces} oz` : `${String(whole)} lb ${ounces} oz`
        expect(grams && writtenMass(grams, 'pounds_ounces')).toBe(words)
      }),
      { numRuns: 300, seed: 1959 },
    )
  })
})
