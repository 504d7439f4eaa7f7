import { describe, expect, test } from 'vitest'
import { individualsChart } from '../../shared/individuals-chart.ts'
import { turningThinner } from '../../shared/turning-drift.ts'

const usual = [0.18, 0.2, 0.19, 0.17, 0.2, 0.18, 0.19, 0.21, 0.17, 0.19]
const runsOf = (shares: readonly number[]) =>
  shares.map((turnedOffFraction, index) => ({
    label: `run ${index + 1}`,
    turnedOffFraction,
  }))

describe('the chart of single values', () => {
  test('has a signal for one that lies beyond the limits', () => {
    const { signals } = individualsChart([...usual, 0.35], usual.length)
    expect(signals).toEqual([
      { kind: 'beyond_limits', direction: 'up', firstIndex: 10, lastIndex: 10 },
    ])
  })

  test('has a signal for eight on one side, and none for seven', () => {
    const above = (count: number) =>
      Array.from({ length: count }, (_, index) => (index % 2 === 0 ? 0.2 : 0.205))
    const signalsOf = (count: number) =>
      individualsChart([...usual, 0.17, ...above(count)], usual.length).signals
    expect(signalsOf(7)).toEqual([])
    expect(signalsOf(8)).toEqual([
      { kind: 'eight_on_one_side', direction: 'up', firstIndex: 11, lastIndex: 18 },
    ])
  })

  test('has a signal for six in one direction, and none for five', () => {
    const falling = [0.201, 0.198, 0.195, 0.192, 0.189, 0.186]
    const signalsOf = (count: number) =>
      individualsChart([...usual, 0.17, ...falling.slice(0, count)], usual.length).signals
    expect(signalsOf(5)).toEqual([])
    expect(signalsOf(6)).toEqual([
      { kind: 'six_in_one_direction', direction: 'down', firstIndex: 11, lastIndex: 16 },
    ])
  })

  test('has no signal in values that are all the same', () => {
    const chart = individualsChart([3, 3, 3, 3, 3, 3, 3, 3, 3])
    expect(chart).toEqual({
      ...{ mean: 3, meanMovingRange: 0, upperLimit: 3, lowerLimit: 3 },
      signals: [],
    })
  })

  test('refuses what is not finite, and a usual that is not there', () => {
    expect(() => individualsChart([1, NaN])).toThrow('finite')
    expect(() => individualsChart([1])).toThrow('two values')
    expect(() => individualsChart([1, 2], 3)).toThrow('two values')
  })
})

describe('turning', () => {
  test('is not judged before there are eight runs', () => {
    const drift = turningThinner(runsOf(usual.slice(0, 7)))
    expect(drift.lately).toBe('not_yet_known')
    expect(drift.words).toBe('Not yet known: 7 of the 8 runs that it takes to see a drift.')
  })

  test('is as usual where chance explains what varies', () => {
    const drift = turningThinner(runsOf([...usual, ...usual]))
    expect(drift.lately).toBe('as_usual')
    expect(drift.usualCount).toBe(12)
    expect(drift.words).toMatch(/^Turned as usual: 18\.\d % comes off/)
  })

  test('is thinner where eight runs in a row had more turned off', () => {
    const lately = [0.2, 0.205, 0.2, 0.21, 0.2, 0.205, 0.21, 0.2]
    const drift = turningThinner(runsOf([...usual, ...lately]))
    expect(drift.lately).toBe('thinner')
    expect(drift.words).toBe(
      'You turn thinner lately. run 10 to run 18: 9 runs in a row, more was turned off than usual (20.2 %; usual is 18.8 %).',
    )
  })

  test('is thicker where one run had far less turned off, and that is said of this run', () => {
    const drift = turningThinner(runsOf([...usual, 0.05]))
    expect(drift.lately).toBe('thicker')
    expect(drift.signal?.kind).toBe('beyond_limits')
    expect(drift.words).toContain('run 11: less was turned off than chance explains (5.0 %;')
  })

  test('is as usual again once the signal lies behind', () => {
    expect(turningThinner(runsOf([...usual, 0.35, ...usual])).lately).toBe('as_usual')
  })

  test('refuses a share that is none', () => {
    expect(() => turningThinner(runsOf([...usual, 1.2]))).toThrow('fraction')
    expect(() => turningThinner(runsOf([...usual, NaN]))).toThrow('fraction')
  })
})
