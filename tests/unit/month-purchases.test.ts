import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { printedAmount } from '../../shared/money.ts'
import { purchasesShown } from '../../shared/month-purchases.ts'
import { sum } from './arbitrary.ts'

const money = fc
  .integer({ min: -5_000_000, max: 90_000_000 })
  .map((units) => decimal(units).dividedBy(1_000_000))
const paid = fc.record({ goods: money, freight: money })

describe('what was paid, as printed', () => {
  test('adds up over the clays and over goods and freight, in every currency', () => {
    fc.assert(
      fc.property(fc.array(paid, { maxLength: 6 }), fc.constantFrom(0, 2, 3), (all, digits) => {
        const { together, each } = purchasesShown(all, digits)
        for (const column of ['goods', 'freight', 'total'] as const) {
          const parts = each.map((one) => decimal(one[column]))
          if (each.length > 0) expect(printedAmount(sum(parts), digits)).toBe(together[column])
        }
        for (const { goods, freight, total } of [together, ...each]) {
          expect(printedAmount(decimal(goods).plus(freight), digits)).toBe(total)
        }
        const exact = sum(all.flatMap((one) => [one.goods, one.freight]))
        expect(together.total).toBe(printedAmount(exact, digits))
      }),
    )
  })

  test('has no minus before nothing', () => {
    const nearly = { goods: decimal('-0.004'), freight: decimal('0.001') }
    const nothing = { goods: '0.00', freight: '0.00', total: '0.00' }
    expect(purchasesShown([nearly], 2)).toEqual({ together: nothing, each: [nothing] })
  })

  test('gives a penny of freight to one of two clays that share it', () => {
    const clay = { goods: decimal(20), freight: decimal('0.005') }
    const { together, each } = purchasesShown([clay, clay], 2)
    expect(together).toEqual({ goods: '40.00', freight: '0.01', total: '40.01' })
    expect(each.map((one) => one.freight)).toEqual(['0.01', '0.00'])
  })
})
