import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  costOfSplitLoss,
  normalSpoilageOfGood,
  spoilageByWeightedAverage,
  splitLoss,
} from '../../shared/spoilage.ts'
import { ledgerAmount, sum } from './arbitrary.ts'

const pieces = fc.integer({ min: 0, max: 300 }).map((whole) => decimal(whole))
const shown = (split: { normalPieces: unknown; abnormalPieces: unknown }) =>
  `${String(split.normalPieces)} ${String(split.abnormalPieces)}`

describe('a loss split by its allowance', () => {
  test('what was lost before has used up its part', () => {
    const split = (allowance: number, lostBefore: number, lostNow: number) =>
      shown(
        splitLoss({
          allowance: decimal(allowance),
          lostBefore: decimal(lostBefore),
          lostNow: decimal(lostNow),
        }),
      )
    expect(split(4, 0, 3)).toBe('3 0')
    expect(split(4, 3, 3)).toBe('1 2')
    expect(split(4, 9, 3)).toBe('0 3')
    expect(split(0, 0, 1)).toBe('0 1')
  })

  test('in however many losses, no more are normal than are allowed, and none is forgotten', () => {
    fc.assert(
      fc.property(pieces, fc.array(pieces, { maxLength: 8 }), (allowance, losses) => {
        let lostBefore = decimal(0)
        let normal = decimal(0)
        for (const lostNow of losses) {
          const split = splitLoss({ allowance, lostBefore, lostNow })
          expect(split.normalPieces.plus(split.abnormalPieces).toFixed()).toBe(lostNow.toFixed())
          normal = normal.plus(split.normalPieces)
          lostBefore = lostBefore.plus(lostNow)
        }
        const expected = lostBefore.lessThan(allowance) ? lostBefore : allowance
        expect(normal.toFixed()).toBe(expected.toFixed())
      }),
    )
  })

  test('costs each layer by pieces, to the last unit', () => {
    fc.assert(
      fc.property(
        fc.array(ledgerAmount(0, 100), { minLength: 1, maxLength: 5 }),
        pieces,
        pieces,
        (amounts, normalPieces, abnormalPieces) => {
          fc.pre(normalPieces.plus(abnormalPieces).greaterThan(0))
          const { normal, abnormal } = costOfSplitLoss(amounts, { normalPieces, abnormalPieces })
          for (const [index, amount] of amounts.entries()) {
            expect(normal[index]!.plus(abnormal[index]!).toFixed()).toBe(amount.toFixed())
            if (normalPieces.isZero()) expect(normal[index]!.isZero()).toBe(true)
            if (abnormalPieces.isZero()) expect(abnormal[index]!.isZero()).toBe(true)
          }
        },
      ),
    )
    const split = { normalPieces: decimal(1), abnormalPieces: decimal(2) }
    const one = costOfSplitLoss([decimal('1'), decimal('0.000001')], split)
    expect(one.normal.map(String)).toEqual(['0.333333', '0'])
    expect(one.abnormal.map(String)).toEqual(['0.666667', '0.000001'])
  })

  test('of no pots is a defect', () => {
    const none = { normalPieces: decimal(0), abnormalPieces: decimal(0) }
    expect(() => costOfSplitLoss([decimal(1)], none)).toThrow('some piece was lost')
  })
})

describe('spoilage by the weighted average', () => {
  test('the parts make up each cost to the last unit, whatever the units', () => {
    const units = fc.record({
      good: pieces,
      normallySpoiled: pieces,
      abnormallySpoiled: pieces,
      inProcess: pieces,
    })
    const pool = fc.record({ cost: ledgerAmount(0, 5000), equivalentUnits: units })
    fc.assert(
      fc.property(fc.array(pool, { minLength: 1, maxLength: 4 }), (pools) => {
        const found = spoilageByWeightedAverage(pools)
        const parts = [found.goodWithNormal, found.abnormalSpoilage, found.inProcess]
        expect(sum(parts).toFixed()).toBe(sum(pools.map(({ cost }) => cost)).toFixed())
        expect(found.goodBeforeSpoilage.plus(found.normalSpoilage).toFixed()).toBe(
          found.goodWithNormal.toFixed(),
        )
      }),
    )
  })

  test('fewer spoiled than the norm are all normal', () => {
    const counted = { goodUnits: decimal(200), normalFractionOfGood: decimal('0.1') }
    expect(shown(normalSpoilageOfGood({ ...counted, spoiledUnits: decimal(15) }))).toBe('15 0')
    expect(shown(normalSpoilageOfGood({ ...counted, spoiledUnits: decimal(25) }))).toBe('20 5')
  })
})
