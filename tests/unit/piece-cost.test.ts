import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { costOfLayer } from '../../shared/cost-layer.ts'
import { present } from '../../shared/assert.ts'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { doubtBy } from '../../shared/doubt.ts'
import { pieceCost, type RunSold } from '../../shared/piece-cost.ts'
import { NOTHING, quantities } from '../../shared/quantity.ts'
import { sum } from './arbitrary.ts'

const money = fc
  .integer({ min: 0, max: 90_000_000 })
  .map((units) => decimal(units).dividedBy(1_000_000))

const packed = (cost: Decimal) => ({
  cost: { amount: cost, doubt: doubtBy('reading', decimal(0)) },
  costLayers: costOfLayer('packaging', cost).costLayers,
})

/** A run that may be anything: the steps must add up even where its averages tell little. */
const anyRun: fc.Arbitrary<RunSold & { packed: Decimal }> = fc
  .record({
    thrown: fc.integer({ min: 0, max: 40 }),
    lost: fc.integer({ min: 0, max: 10 }),
    sold: fc.integer({ min: 1, max: 20 }),
    thrownCost: money,
    turnedCost: money,
    lostCost: money,
    costLeft: money,
    soldCost: money,
    seconds: fc.integer({ min: 0, max: 5 }),
    glaze: money,
    fire: money,
    packed: money,
    goods: money,
  })
  .map((any) => ({
    made: {
      movements: [
        {
          ...{ kind: 'throw' as const, place: 'greenware' as const, grade: undefined },
          ...quantities({
            dryGrams: decimal(any.thrown * 320),
            pieces: decimal(any.thrown),
            cost: any.thrownCost,
          }),
        },
        {
          ...{ kind: 'turn' as const, place: 'greenware' as const, grade: undefined },
          ...quantities({ dryGrams: decimal(-50), cost: any.turnedCost.negated() }),
        },
        {
          ...{ kind: 'lose' as const, place: 'greenware' as const, grade: undefined },
          ...quantities({ pieces: decimal(-any.lost), cost: any.lostCost.negated() }),
        },
        {
          ...{ kind: 'glaze' as const, place: 'bisque' as const, grade: undefined },
          ...quantities({ materialGrams: decimal(40), ...costOfLayer('glaze', any.glaze) }),
        },
        {
          ...{ kind: 'glaze_fire' as const, place: 'glazed' as const, grade: undefined },
          ...quantities({ pieces: decimal(any.thrown), ...costOfLayer('fire', any.fire) }),
        },
      ],
      joining: { taken: NOTHING, offCuts: NOTHING },
      losses: [{ stage: 'bisque_firing', pieces: decimal(1), costLeft: any.costLeft }],
    },
    soldPieces: decimal(any.sold),
    soldByGrade: { first: decimal(any.sold), second: decimal(any.seconds) },
    soldLayers: costOfLayer('fire', any.soldCost.dividedBy(2).toDecimalPlaces(6)).costLayers,
    packed: any.packed,
    soldCost: { amount: any.soldCost, doubt: doubtBy('reading', decimal('0.3')) },
    deliveries: {
      ...{ goods: any.goods, freight: decimal(4), dryGrams: decimal(16_000) },
      dryDoubt: doubtBy('moisture', decimal(300)),
    },
  }))

describe('the cost of a sold piece', () => {
  test('is the sum of its steps, exactly and as printed, whatever the runs were', () => {
    fc.assert(
      fc.property(fc.array(anyRun, { minLength: 1, maxLength: 4 }), (runs) => {
        const costed = present(
          pieceCost(runs, packed(sum(runs.map((run) => run.packed))), 2) ?? undefined,
          'something was sold',
        )
        const { steps } = costed
        expect(sum(steps.map((step) => step.costPerPiece)).toFixed()).toBe(
          costed.costPerPiece.toFixed(),
        )
        expect(sum(steps.map((step) => decimal(step.costPerPieceShown))).toFixed(2)).toBe(
          costed.costPerPieceShown,
        )
        expect(sum(Object.values(costed.costByLayer)).toFixed()).toBe(costed.costPerPiece.toFixed())
        const shown = Object.values(costed.costByLayerShown)
        expect(sum(shown.map((one) => decimal(one))).toFixed(2)).toBe(costed.costPerPieceShown)
      }),
    )
  })

  test('is none where nothing was sold', () => {
    expect(pieceCost([], packed(decimal(0)), 2)).toBeNull()
  })
})
