import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { doubtBy, NO_DOUBT } from '../../shared/doubt.ts'
import { turnedOffShare } from '../../shared/turned-off.ts'
import { turningSeries } from '../../shared/turning-series.ts'

const usual = [0.18, 0.2, 0.19, 0.17, 0.2, 0.18, 0.19, 0.21, 0.17, 0.19]
const seriesOf = (shares: readonly number[]) =>
  turningSeries(
    shares.map((turnedOffFraction, index) => ({
      ...{ runId: `r${index + 1}`, label: `run ${index + 1}`, turnedOffFraction },
    })),
  )

describe('what was turned off a run', () => {
  const turning = (turnedOff: string, before: string) =>
    turnedOffShare({
      turnedOff: { amount: decimal(turnedOff), doubt: doubtBy('reading|t', decimal('32')) },
      before: { amount: decimal(before), doubt: NO_DOUBT },
      hasOwnWater: false,
    })

  test('is dry turnings over dry pots, as unsure as the turnings were', () => {
    const share = turning('1216', '6400')
    expect(share?.turnedOffFraction.toFixed()).toBe('0.19')
    expect(share?.standardUncertainty.toFixed()).toBe('0.005')
  })

  test('is as unsure as the ratio: the pots count too, and what is wrong of both alike cancels', () => {
    const unsure = (amount: string, source: string, share: string) => ({
      amount: decimal(amount),
      doubt: doubtBy(source, decimal(amount).times(share)),
    })
    const of = (source: string) =>
      turnedOffShare({
        turnedOff: unsure('1216', 'said|t', '0.03'),
        before: unsure('6400', source, '0.04'),
        hasOwnWater: false,
      })?.standardUncertainty.toNumber()
    expect(of('said|p')).toBeCloseTo(0.19 * Math.hypot(0.03, 0.04), 6)
    expect(of('said|t')).toBeCloseTo(0.19 * 0.01, 6)
  })

  test('is not known where less was there than came off', () => {
    expect(turning('1216', '0')).toBeNull()
    expect(turning('1216', '1216')).toBeNull()
    expect(turning('-1', '100')).toBeNull()
  })
})

describe('the chart of a form', () => {
  test('is not drawn before there are eight runs, but says how far they lie apart', () => {
    const series = seriesOf(usual.slice(0, 3))
    expect(series.chart).toBeNull()
    expect(series.points.map(({ movingRange }) => movingRange?.toFixed(2) ?? null)).toEqual([
      ...[null, '0.02', '0.01'],
    ])
    expect(series.points.every(({ isJump }) => !isJump)).toBe(true)
  })

  test('says what its habit is drawn from', () => {
    expect(seriesOf(usual).chart?.words).toContain('all 10 runs show')
    expect(seriesOf([...usual, ...usual]).chart?.words).toBe(
      'The habit is what the 12 runs before the last 8 showed.',
    )
  })

  test('says of runs that had less turned off that their walls are thicker', () => {
    const lately = [0.15, 0.16, 0.15, 0.155, 0.15, 0.16, 0.15, 0.155]
    const { lately: found, signals } = seriesOf([...usual, ...lately])
    expect(found).toBe('thicker')
    expect(signals.map(({ direction, runs, isNow }) => [direction, runs, isNow])).toEqual([
      ['thicker', 8, true],
    ])
    expect(signals[0]?.words).toBe(
      'The last 8 runs, run 11 to run 18: 15.4 % was turned off where the habit is 18.8 %, all 8 on that side; the walls or feet are thicker now.',
    )
  })

  test('keeps what lies behind, and says that it was so then', () => {
    const { lately, signals, points } = seriesOf([...usual, 0.35, ...usual])
    expect(lately).toBe('as_usual')
    expect(signals).toMatchObject([
      { kind: 'beyond_limits', firstRunId: 'r11', lastRunId: 'r11', isNow: false },
    ])
    expect(signals[0]?.words).toMatch(
      /^run 11: 35\.0 % was turned off where the habit is .*; the walls or feet were thinner\.$/,
    )
    expect(points.filter(({ isJump }) => isJump).map(({ runId }) => runId)).toEqual(['r11', 'r12'])
    expect(points[10]?.signals).toEqual(['beyond_limits'])
    expect(points[9]?.signals).toEqual([])
  })

  test('says of a steady rise from where to where it went', () => {
    const { signals } = seriesOf([...usual, 0.17, 0.18, 0.185, 0.19, 0.2, 0.21])
    expect(signals.find(({ kind }) => kind === 'six_in_one_direction')?.words).toContain(
      'more was turned off each time, from 17.0 % to 21.0 %',
    )
  })

  test('draws no limit that a share cannot reach', () => {
    const { chart } = seriesOf([0, 0.02, 0.3, 0.01, 0.9, 0.02, 0.99, 0, 1])
    expect([chart?.lowerLimit, chart?.upperLimit]).toEqual([0, 1])
  })
})
