import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { passagesOfEntry, type PassageLine } from '../../shared/passages.ts'
import { sum } from './arbitrary.ts'

const line = (
  holdingId: string,
  dryGrams: string,
  more: Partial<PassageLine> = {},
): PassageLine => ({
  ...{ holdingId, bodyId: 'buff', isOwn: holdingId === 'own', cost: decimal(0) },
  dryGrams: decimal(dryGrams),
  ...more,
})

const told = (lines: readonly PassageLine[], way: 'in' | 'out' = 'in') =>
  passagesOfEntry(lines, way).map(({ holdingId, dryGrams, isShare }) => [
    ...[holdingId, dryGrams.toFixed(), isShare],
  ])

const micro = fc.integer({ min: 1, max: 2_000_000_000 }).map((n) => decimal(n).dividedBy(1_000_000))

describe('what passed in an entry', () => {
  test('is no more than what is asked about gained, of one source exactly', () => {
    const pour = [line('basin', '-500'), line('own', '300'), line('other bat', '200')]
    expect(told(pour)).toEqual([['basin', '300', false]])
    expect(told(pour, 'out')).toEqual([])
  })

  test('leaves a clay alone that balances by itself', () => {
    const white = { bodyId: 'white' }
    const lines = [line('supplier', '-8'), line('own', '8')]
    const both = [...lines, line('their supplier', '-4', white), line('their bags', '4', white)]
    expect(told(both)).toEqual([['supplier', '8', false]])
  })

  test('takes the clays of a blend, and not one that is beside it', () => {
    const lines = [
      line('own', '30', { bodyId: 'pepper' }),
      line('buff clay', '-20'),
      line('white clay', '-10', { bodyId: 'white' }),
      line('red lot', '-5', { bodyId: 'red' }),
      line('red pots', '5', { bodyId: 'red' }),
    ]
    expect(told(lines)).toEqual([
      ['buff clay', '20', false],
      ['white clay', '10', false],
    ])
  })

  test('is a share, called one, where two gave to two', () => {
    const lines = [line('a', '-30'), line('b', '-10'), line('own', '20'), line('scrap', '20')]
    expect(told(lines)).toEqual([
      ['a', '15', true],
      ['b', '5', true],
    ])
  })

  test('sums to what the own lines moved, to the last digit, in clay and in cost', () => {
    const giver = fc.record({ dry: micro, cost: micro })
    fc.assert(
      fc.property(
        fc.array(giver, { minLength: 1, maxLength: 5 }),
        fc.integer({ min: 1, max: 1_000_000 }),
        (givers, part) => {
          const gave = (name: 'dry' | 'cost') => sum(givers.map((one) => one[name]))
          const own = (name: 'dry' | 'cost') =>
            gave(name).times(part).dividedBy(1_000_000).toDecimalPlaces(6)
          fc.pre(own('dry').greaterThan(0))
          const lines = [
            ...givers.map(({ dry, cost }, index) =>
              line(`from ${String(index)}`, dry.negated().toFixed(), { cost: cost.negated() }),
            ),
            line('own', own('dry').toFixed(), { cost: own('cost') }),
            line('rest', gave('dry').minus(own('dry')).toFixed(), {
              cost: gave('cost').minus(own('cost')),
            }),
          ]
          const passed = passagesOfEntry(lines, 'in')
          expect(sum(passed.map((one) => one.dryGrams)).toFixed()).toBe(own('dry').toFixed())
          expect(sum(passed.map((one) => one.cost)).toFixed()).toBe(own('cost').toFixed())
        },
      ),
    )
  })
})
