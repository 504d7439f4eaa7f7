import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { reclaimWorth } from '../../shared/reclaim-worth.ts'
import type { Cited } from './cited.ts'

interface Row extends Cited {
  readonly name: string
  readonly pricePerKilogram: string
  readonly kilograms: string
  readonly hours: string
  readonly perHour: string
  readonly printed: string
}

const BOOK = 'a potters’ handbook of our own, price a kilogram ÷ minutes a kilogram × 60'
/** Fifty pounds, which take two to three hours by hand. */
const FIFTY_POUNDS = '22.6796185'

const ROWS: readonly Row[] = [
  {
    name: 'porcelain by hand, slowly',
    pricePerKilogram: '1.76',
    kilograms: FIFTY_POUNDS,
    hours: '3',
    perHour: '13.305376',
    printed: '13',
    source: BOOK,
    standing: 'computed',
  },
  {
    name: 'porcelain by hand, fast',
    pricePerKilogram: '1.76',
    kilograms: FIFTY_POUNDS,
    hours: '2',
    perHour: '19.958064',
    printed: '20',
    source: BOOK,
    standing: 'computed',
  },
  {
    name: 'stoneware by hand, in two hours and a half',
    pricePerKilogram: '1.20',
    kilograms: FIFTY_POUNDS,
    hours: '2.5',
    perHour: '10.886217',
    printed: '11',
    source: BOOK,
    standing: 'computed',
  },
  {
    name: 'stoneware through the mill, at two minutes a kilogram',
    pricePerKilogram: '1.20',
    kilograms: '30',
    hours: '1',
    perHour: '36.000000',
    printed: '36',
    source: BOOK,
    standing: 'computed',
  },
]

describe('what an hour of reclaiming is worth', () => {
  // The dry clay in it stands for the kilograms as bought: its water takes itself out.
  test.each(['0', '0.22'])('at a water content of %s, as printed', (waterContent) => {
    for (const row of ROWS) {
      const dryIn = (kilograms: string) =>
        decimal(kilograms).times(1000).times(decimal(1).minus(waterContent))
      const found = reclaimWorth(
        {
          bodyName: row.name,
          way: 'by_hand',
          bought: { cost: decimal(row.pricePerKilogram), dryGrams: dryIn('1') },
          reclaimedDryGrams: dryIn(row.kilograms),
          hours: decimal(row.hours),
        },
        { hourlyFigure: null, moneyDigits: 2 },
      )
      expect([row.name, found.worthPerHour.toFixed(6)]).toEqual([row.name, row.perHour])
      expect(found.worthPerHour.toFixed(0)).toBe(row.printed)
    }
  })
})
