import { describe, expect, test } from 'vitest'
import { clayCostRows } from '../../shared/clay-cost-rows.ts'
import { decimal, ZERO } from '../../shared/decimal.ts'
import { reclaimTold, untoldMinutesWords, type ReclaimAct } from '../../shared/reclaim-told.ts'

const act = (told: Partial<ReclaimAct>): ReclaimAct => ({
  ...{ bodyId: 'buff', way: null, minutes: null, reclaimedDryGrams: ZERO },
  ...told,
})

describe('minutes of reclaim', () => {
  test('of no way are shared by dry clay, to the last bit', () => {
    const [buff] = reclaimTold([
      act({ minutes: decimal(10) }),
      act({ way: 'by_hand', minutes: decimal(5), reclaimedDryGrams: decimal(1000) }),
      act({ way: 'by_mill', reclaimedDryGrams: decimal(2000) }),
    ])
    expect(buff?.ways.map(({ way, minutes }) => [way, minutes.toFixed()])).toEqual([
      ['by_hand', '8.333333'],
      ['by_mill', '6.666667'],
    ])
    expect(buff?.minutes.toFixed()).toBe('15')
    expect(buff).toMatchObject({ acts: 3, actsUntold: 1 })
  })

  test('stand where no way is said while no clay came back', () => {
    const [buff] = reclaimTold([act({ minutes: decimal(10) })])
    expect(buff?.ways).toMatchObject([{ way: null, acts: 0 }])
    expect(buff?.ways[0]?.minutes.toFixed()).toBe('10')
    expect(reclaimTold([])).toEqual([])
  })

  test('that nobody told are said in words', () => {
    expect(untoldMinutesWords({ acts: 0, actsUntold: 0 })).toMatch(/^Nothing was done/)
    expect(untoldMinutesWords({ acts: 1, actsUntold: 0 })).toBe('Its minutes were told.')
    expect(untoldMinutesWords({ acts: 3, actsUntold: 0 })).toContain('3 times in all')
    expect(untoldMinutesWords({ acts: 3, actsUntold: 2 })).toContain('told once out of 3')
    expect(untoldMinutesWords({ acts: 3, actsUntold: 3 })).toMatch(/^No minutes were told/)
  })
})

test('what is lost goes by its name under both rules', () => {
  const both = (byMass: number, atNil: number) => ({
    byMass: decimal(byMass),
    atNil: decimal(atNil),
  })
  const rows = clayCostRows({
    ...{ cameIn: both(10, 10), inStock: both(6, 4), sold: both(3, 3) },
    lost: new Map([
      ['waste', both(1, 1)],
      ['lost_green', both(0, 2)],
    ]),
  })
  expect(rows.map(({ row, words, moreAtNil }) => [row, words, moreAtNil.toFixed()])).toEqual([
    ['came_in', 'clay that came in', '0'],
    ['in_stock', 'is in stock', '-2'],
    ['sold', 'went out of the door with pots', '0'],
    ['lost_green', 'lost: whole runs that went back to the bucket before they were fired', '2'],
    ['lost_waste', 'lost: waste', '0'],
  ])
})
