import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import type { ActKind } from '../../shared/month-world.ts'
import type { PotPlace } from '../../shared/place.ts'
import { NOTHING, quantities } from '../../shared/quantity.ts'
import { scoreInterval, wilsonInterval } from '../../shared/proportion.ts'
import { runsTogether, type PotFlows } from '../../shared/run-flows.ts'
import { NOT_YET_KNOWN, piecesByStage, stageYields } from '../../shared/yield.ts'

function run(
  moves: readonly [ActKind, PotPlace, number][],
  losses: PotFlows['losses'] = [],
): PotFlows {
  return {
    movements: moves.map(([kind, place, pieces]) => ({
      kind,
      place,
      grade: undefined,
      ...quantities({ pieces: decimal(pieces) }),
    })),
    joining: { taken: NOTHING, offCuts: NOTHING },
    losses,
  }
}

const yieldOf = (pots: PotFlows, stage: string) =>
  stageYields(piecesByStage(pots)).find((one) => one.stage === stage)

describe('the yield of a stage', () => {
  test('is not yet known while none has passed and some wait, even after a loss', () => {
    const pots = run(
      [
        ['throw', 'greenware', 10],
        ['lose', 'greenware', -1],
      ],
      [{ stage: 'wheel', pieces: decimal(1), costLeft: decimal(0) }],
    )
    const making = yieldOf(pots, 'making')
    expect([making?.yieldFraction, making?.words]).toEqual([null, NOT_YET_KNOWN])
    expect(making?.waiting.toFixed()).toBe('9')
  })

  test('leaves those that wait out of the count', () => {
    const pots = run(
      [
        ['throw', 'greenware', 10],
        ['lose', 'greenware', -1],
        ['bisque', 'greenware', -3],
        ['bisque', 'bisque', 3],
      ],
      [{ stage: 'drying', pieces: decimal(1), costLeft: decimal(0) }],
    )
    expect(yieldOf(pots, 'making')?.yieldFraction?.toFixed()).toBe('0.75')
    expect(yieldOf(pots, 'making')?.words).toBe(
      '3 of 4; 6 still wait, and as losses are told first the share may rise',
    )
    expect(yieldOf(pots, 'bisque')?.words).toBe(NOT_YET_KNOWN)
  })

  test('is nothing where all were lost', () => {
    const pots = run(
      [
        ['throw', 'greenware', 2],
        ['lose', 'greenware', -2],
      ],
      [{ stage: 'leather_hard', pieces: decimal(2), costLeft: decimal(0) }],
    )
    expect(yieldOf(pots, 'making')?.yieldFraction?.toFixed()).toBe('0')
  })

  test('has an interval that does not close where nothing was lost yet', () => {
    const pots = run([
      ['throw', 'greenware', 10],
      ['bisque', 'greenware', -10],
      ['bisque', 'bisque', 10],
    ])
    // Wilson: 10 / (10 + 1.96²) at the lower end.
    expect(yieldOf(pots, 'making')?.interval95?.from.toFixed()).toBe('0.722467')
    expect(yieldOf(pots, 'making')?.interval95?.to.toFixed()).toBe('1')
  })

  test('a loss that was taken back cancels out', () => {
    const pots = run(
      [['throw', 'greenware', 2]],
      [
        { stage: 'wheel', pieces: decimal(1), costLeft: decimal(0) },
        { stage: 'wheel', pieces: decimal(-1), costLeft: decimal(0) },
      ],
    )
    expect(piecesByStage(pots).lostAtWheel.toFixed()).toBe('0')
  })
})

describe('the interval of a stage', () => {
  /** A run of twenty, so many of which are lost while drying. */
  const runLosing = (lost: number) =>
    run(
      [
        ['throw', 'greenware', 20],
        ['lose', 'greenware', -lost],
        ['bisque', 'greenware', lost - 20],
        ['bisque', 'bisque', 20 - lost],
      ],
      [{ stage: 'drying', pieces: decimal(lost), costLeft: decimal(0) }],
    )
  const makingOf = (losses: readonly number[]) => {
    const runs = losses.map(runLosing)
    const [making] = stageYields(
      piecesByStage(runsTogether(runs)),
      runs.map((one) => piecesByStage(one)),
    )
    const { from, to } = making?.interval95 ?? { from: decimal(0), to: decimal(0) }
    return { ...making, from: from.toNumber(), to: to.toNumber() }
  }
  const alone = wilsonInterval({ events: 90, trials: 100 })

  test('is as wide as that of independent pieces where runs differ by chance only', () => {
    const even = makingOf([2, 1, 3, 2, 2])
    expect([even.from, even.to].map((one) => one.toFixed(5))).toEqual(
      [alone.from, alone.to].map((one) => one.toFixed(5)),
    )
    expect(even.intervalBasis).toBe('widened_as_runs_vary')
  })

  test('is wider where the losses came in one run', () => {
    // By hand: 1.8 pieces squared to a run's mean; (4 x 2² + 8²) / 1.8 = 44.44 over four degrees: 11.11.
    const clumped = makingOf([0, 0, 0, 0, 10])
    const reach = Math.sqrt(80 / 1.8 / 4) * 2.776445
    const wide = scoreInterval({ events: 90, trials: 100 }, reach)
    expect(clumped.from).toBeCloseTo(wide.from, 5)
    expect(clumped.to).toBeCloseTo(wide.to, 5)
    expect(clumped.to - clumped.from).toBeGreaterThan(3 * (alone.to - alone.from))
    expect(clumped.yieldFraction?.toFixed()).toBe('0.9')
  })

  test('says where there are too few runs to tell', () => {
    const few = makingOf([0, 0, 10])
    const ofThree = wilsonInterval({ events: 50, trials: 60 })
    expect(few.intervalBasis).toBe('pieces_taken_as_independent')
    expect(few.from).toBeCloseTo(ofThree.from, 5)
  })
})
