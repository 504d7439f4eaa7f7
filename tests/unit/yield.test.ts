import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import type { ActKind } from '../../shared/month-world.ts'
import type { PotPlace } from '../../shared/place.ts'
import { NOTHING, quantities } from '../../shared/quantity.ts'
import type { PotFlows } from '../../shared/run-flows.ts'
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
    expect(yieldOf(pots, 'making')?.words).toBe('3 of 4')
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
