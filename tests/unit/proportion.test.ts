import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  exactInterval,
  exactUpperLimit,
  jeffreysInterval,
  wilsonCorrectedInterval,
  wilsonInterval,
} from '../../shared/proportion.ts'

const METHODS = { wilsonInterval, wilsonCorrectedInterval, exactInterval, jeffreysInterval }
const counted = fc
  .integer({ min: 1, max: 400 })
  .chain((trials) => fc.record({ trials: fc.constant(trials), events: fc.nat(trials) }))

describe.each(Object.entries(METHODS))('%s', (_, interval) => {
  test('holds the share that was seen, and stays between none and all', () => {
    fc.assert(
      fc.property(counted, ({ events, trials }) => {
        const { from, to } = interval({ events, trials })
        expect(from).toBeGreaterThanOrEqual(0)
        expect(to).toBeLessThanOrEqual(1)
        expect(from).toBeLessThanOrEqual(events / trials)
        expect(to).toBeGreaterThanOrEqual(events / trials)
      }),
    )
  })

  test('mirrors itself when events and the others change places', () => {
    fc.assert(
      fc.property(counted, ({ events, trials }) => {
        const one = interval({ events, trials })
        const other = interval({ events: trials - events, trials })
        expect(one.from).toBeCloseTo(1 - other.to, 9)
        expect(one.to).toBeCloseTo(1 - other.from, 9)
      }),
    )
  })

  test('is wider where it shall be surer', () => {
    const usual = interval({ events: 7, trials: 40 })
    const surer = interval({ events: 7, trials: 40, confidence: 0.99 })
    expect(surer.from).toBeLessThan(usual.from)
    expect(surer.to).toBeGreaterThan(usual.to)
  })

  test('refuses what is no count and no confidence', () => {
    expect(() => interval({ events: 3, trials: 2 })).toThrow('no more events')
    expect(() => interval({ events: -1, trials: 2 })).toThrow('no more events')
    expect(() => interval({ events: 0, trials: 0 })).toThrow('of something')
    expect(() => interval({ events: NaN, trials: 2 })).toThrow('whole')
    expect(() => interval({ events: 1, trials: Infinity })).toThrow('whole')
    expect(() => interval({ events: 1, trials: 2, confidence: 1 })).toThrow('certainty')
  })
})

test('the exact interval is wider than the score interval', () => {
  const exact = exactInterval({ events: 4, trials: 30 })
  const score = wilsonInterval({ events: 4, trials: 30 })
  expect(exact.to - exact.from).toBeGreaterThan(score.to - score.from)
})

test('a one-sided limit is the upper end of a two-sided interval with twice the doubt', () => {
  const twoSided = exactInterval({ events: 3, trials: 25, confidence: 0.9 })
  expect(exactUpperLimit({ events: 3, trials: 25, confidence: 0.95 })).toBeCloseTo(twoSided.to, 12)
})
