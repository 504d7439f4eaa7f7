import { describe, expect, test } from 'vitest'
import { normalPoints, weightedQuantiles } from '../../shared/quasi-random.ts'
import { normalQuantile } from '../../shared/statistics.ts'

const even = (values: readonly number[]) => values.map((value) => ({ value, weight: 1 }))

describe('points that stand for normal quantities', () => {
  const points = normalPoints(600, 6)

  test('have the quantiles of one to a twentieth or so, in every direction', () => {
    for (const axis of [0, 1, 2, 3, 4, 5]) {
      const values = points.map((point) => point[axis] ?? Number.NaN)
      const [low = 0, middle = 0, high = 0] = weightedQuantiles(even(values), [0.05, 0.5, 0.95])
      expect(Math.abs(low - normalQuantile(0.05))).toBeLessThan(0.06)
      expect(Math.abs(middle)).toBeLessThan(0.03)
      expect(Math.abs(high - normalQuantile(0.95))).toBeLessThan(0.06)
    }
  })

  test('do not go together in any two directions', () => {
    for (const one of [0, 1, 2, 3, 4, 5]) {
      for (const other of [0, 1, 2, 3, 4, 5].filter((axis) => axis !== one)) {
        const along = points.reduce((sum, point) => {
          return sum + (point[one] ?? 0) * (point[other] ?? 0)
        }, 0)
        expect(Math.abs(along / points.length)).toBeLessThan(0.06)
      }
    }
  })

  test('are the same on every call', () => {
    expect(normalPoints(5, 2)).toEqual(normalPoints(600, 2).slice(0, 5))
  })

  test('beyond six directions are a defect', () => {
    expect(() => normalPoints(5, 7)).toThrow('each dimension')
  })
})

describe('weighted quantiles', () => {
  test('lie between their neighbours and never outside of the values', () => {
    expect(weightedQuantiles(even([3, 1, 2]), [0, 0.5, 1])).toEqual([1, 2, 3])
    expect(weightedQuantiles(even([10, 20]), [0.5])).toEqual([15])
    expect(weightedQuantiles(even([7]), [0.05, 0.95])).toEqual([7, 7])
  })

  test('do not see what weighs nothing', () => {
    const points = [
      { value: 1, weight: 1 },
      { value: 5, weight: 0 },
      { value: 2, weight: 3 },
    ]
    expect(weightedQuantiles(points, [0.99])).toEqual([2])
  })

  test('go as far as never', () => {
    const points = even([1, 2, 3, Number.POSITIVE_INFINITY])
    expect(weightedQuantiles(points, [0.5, 0.95])).toEqual([2.5, Number.POSITIVE_INFINITY])
  })

  test('of nothing are a defect', () => {
    expect(() => weightedQuantiles([], [0.5])).toThrow('some weight')
  })
})
