import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { reclaimWorth, type ReclaimWork } from '../../shared/reclaim-worth.ts'
import { ledgerAmount } from './arbitrary.ts'

const WORK: ReclaimWork = {
  bodyName: 'Stoneware',
  way: 'by_hand',
  bought: { cost: decimal('120'), dryGrams: decimal(80_000) },
  reclaimedDryGrams: decimal(18_000),
  hours: decimal('2.5'),
}
const told = (hourly: string | null) => ({
  hourlyFigure: hourly === null ? null : decimal(hourly),
  moneyDigits: 2,
})

describe('what an hour of reclaiming is worth', () => {
  test('is the price of as much dry clay, by the hours', () => {
    const found = reclaimWorth(WORK, told(null))
    expect(found.clayWorth.toFixed()).toBe('27')
    expect(found.worthPerHour.toFixed()).toBe('10.8')
    expect(found.verdict).toBe('nothing_to_compare_with')
    expect(found.words).toBe(
      'Stoneware by hand: 18.0 kg dry in 2.5 hours saved 27.00 of clay, 10.80 an hour. Say what your hour is worth to see whether it pays.',
    )
  })

  test('is compared with what the studio says of its hour', () => {
    const dear = reclaimWorth(WORK, told('18'))
    expect([dear.verdict, dear.hoursThatPay?.toFixed()]).toEqual(['does_not_pay', '1.5'])
    expect(dear.words).toContain(
      'With your hour at 18.00 it does not pay for itself: it would in 1.5 hours.',
    )
    const fair = reclaimWorth({ ...WORK, way: 'by_mill' }, told('10.80'))
    expect(fair.verdict).toBe('pays')
    expect(fair.words).toContain('Stoneware through the mill')
    expect(fair.words).toContain('With your hour at 10.80 it pays.')
  })

  test('rises with the price and the clay, and falls with the hours', () => {
    const positive = ledgerAmount(1, 1000)
    fc.assert(
      fc.property(fc.tuple(positive, positive, positive, positive), ([cost, clay, hours, more]) => {
        const at = (change: { cost?: typeof cost; clay?: typeof clay; hours?: typeof hours }) =>
          reclaimWorth(
            {
              ...WORK,
              bought: { cost: change.cost ?? cost, dryGrams: decimal(1000) },
              reclaimedDryGrams: change.clay ?? clay,
              hours: change.hours ?? hours,
            },
            told('15'),
          ).worthPerHour
        const now = at({})
        expect(at({ cost: cost.plus(more) }).greaterThanOrEqualTo(now)).toBe(true)
        expect(at({ clay: clay.plus(more) }).greaterThanOrEqualTo(now)).toBe(true)
        expect(at({ hours: hours.plus(more) }).lessThanOrEqualTo(now)).toBe(true)
      }),
    )
  })

  test('in no time, or of clay that was never bought, is a defect', () => {
    expect(() => reclaimWorth({ ...WORK, hours: decimal(0) }, told(null))).toThrow('time was spent')
    const gift = { cost: decimal(0), dryGrams: decimal(0) }
    expect(() => reclaimWorth({ ...WORK, bought: gift }, told(null))).toThrow('clay was bought')
  })
})
