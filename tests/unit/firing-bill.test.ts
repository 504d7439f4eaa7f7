import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import type { Decimal } from '../../shared/decimal.ts'
import { firingBill } from '../../shared/firing-bill.ts'
import { ledgerAmount, sum } from './arbitrary.ts'

describe('the bill', () => {
  const bill = (energy: [Decimal, Decimal, Decimal], price: Decimal, gasCost = decimal(0)) =>
    firingBill({
      energy: {
        candlingKilowattHours: energy[0],
        firingKilowattHours: energy[1],
        idleKilowattHours: energy[2],
      },
      pricePerKilowattHour: price,
      gasCost,
    })

  test('candling and firing are of the load, gas comes on top, idle hours stand apart', () => {
    const found = bill([decimal(4), decimal(90), decimal(3)], decimal('0.28'), decimal('7.5'))
    expect(found.candlingCost.toFixed()).toBe('1.12')
    expect(found.firingCost.toFixed()).toBe('25.2')
    expect(found.loadCost.toFixed()).toBe('33.82')
    expect(found.idleCost.toFixed()).toBe('0.84')
  })

  test('what the load carries is the sum of its parts, rounded once', () => {
    fc.assert(
      fc.property(
        fc.tuple(ledgerAmount(0, 200), ledgerAmount(0, 200), ledgerAmount(0, 50)),
        ledgerAmount(0, 2),
        ledgerAmount(0, 100),
        (energy, price, gasCost) => {
          const found = bill(energy, price, gasCost)
          const electricity = energy[0].plus(energy[1]).times(price).toDecimalPlaces(6)
          expect(found.loadCost.toFixed()).toBe(electricity.plus(gasCost).toFixed())
          expect(sum([found.candlingCost, found.firingCost, found.gasCost]).toFixed()).toBe(
            found.loadCost.toFixed(),
          )
        },
      ),
    )
  })

  test('energy below nothing is a defect', () => {
    expect(() => bill([decimal(-1), decimal(1), decimal(0)], decimal(1))).toThrow('below zero')
    expect(() => bill([decimal(0), decimal(1), decimal(-1)], decimal(1))).toThrow('below zero')
  })
})
