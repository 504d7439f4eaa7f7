import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { moneyAccount, type MoneyMoved } from '../../shared/money-accounted.ts'
import type { CostLayer } from '../../shared/cost-layer.ts'
import type { ActKind } from '../../shared/month-world.ts'
import type { Place } from '../../shared/place.ts'
import { written } from '../../shared/written.ts'

/** What a place gained by entries of a kind: the cost, and what of it is no clay. */
function moved(
  [place, kind]: readonly [Place, ActKind],
  cost: string,
  layers: Partial<Record<CostLayer, string>> = {},
): MoneyMoved {
  const costLayers = new Map(
    Object.entries(layers).map(([layer, amount]) => [layer as CostLayer, decimal(amount)]),
  )
  return { place, kind, cost: decimal(cost), costLayers }
}

/**
 * Clay for 36, glaze powder for 10, a shelf for 20. A fire charges 6 of energy and 2 of wear. The shelf goes into the
 * kiln. Pots with 5 of clay, 1 of glaze and 3 of fire are sold; one that cost 2 of clay is lost.
 */
const BOOKS: readonly MoneyMoved[] = [
  moved(['supplier', 'receive_delivery'], '-36'),
  moved(['store', 'receive_delivery'], '36'),
  moved(['supplier', 'receive_materials'], '-30', { glaze: '-10', wear: '-20' }),
  moved(['materials', 'receive_materials'], '30', { glaze: '10', wear: '20' }),
  moved(['utility', 'bisque'], '-6', { fire: '-6' }),
  moved(['wear', 'bisque'], '-2', { wear: '-2' }),
  moved(['bisque', 'bisque'], '8', { fire: '6', wear: '2' }),
  moved(['materials', 'use_material'], '-20', { wear: '-20' }),
  moved(['wear', 'use_material'], '20', { wear: '20' }),
  moved(['finished', 'sell'], '-9', { glaze: '-1', fire: '-3' }),
  moved(['customer', 'sell'], '9', { glaze: '1', fire: '3' }),
  moved(['bisque', 'lose'], '-2'),
  moved(['waste', 'lose'], '2'),
]

describe('where every unit of money came from and where it is', () => {
  const account = written(moneyAccount(BOOKS))
  const row = (name: string) => account.rows.find((one) => one.row === name)?.money

  test('tells what came in by layer', () => {
    expect(row('supplier')).toMatchObject({ clay: '36', glaze: '10', wear: '20', total: '66' })
    expect(row('utility')).toMatchObject({ clay: '0', fire: '6', total: '6' })
    expect(row('wear')).toMatchObject({ wear: '2', total: '2' })
    expect(account.cameIn).toMatchObject({
      clay: '36',
      glaze: '10',
      fire: '6',
      wear: '22',
      total: '74',
    })
  })

  test('and where all of it is', () => {
    expect(row('stock')).toEqual({
      ...{ clay: '29', glaze: '9', fire: '3', wear: '2' },
      ...{ packaging: '0', total: '43' },
    })
    expect(row('sold')).toMatchObject({ clay: '5', glaze: '1', fire: '3', total: '9' })
    expect(row('put_into_kilns')).toMatchObject({ wear: '20', total: '20' })
    expect(row('waste')).toMatchObject({ clay: '2', total: '2' })
    expect(account.isNow).toEqual(account.cameIn)
    expect(account.missing).toMatchObject({ clay: '0', total: '0' })
  })

  test('leaves out what nobody asked for and holds nothing, and names what would be missing', () => {
    expect(row('idle')).toBeUndefined()
    expect(row('unexplained')).toMatchObject({ total: '0' })
    const lopsided = moneyAccount([moved(['supplier', 'receive_delivery'], '-5')])
    expect(written(lopsided).missing).toMatchObject({ clay: '5', total: '5' })
  })
})
