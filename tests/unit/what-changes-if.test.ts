import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { ALL_LAYERS } from '../../shared/cost-layer.ts'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import {
  costIf,
  effectsOf,
  pricesThatKeepMargin,
  totalOf,
  type Change,
  type CostByLayer,
  type PieceCostByLayer,
} from '../../shared/what-changes-if.ts'
import { ledgerAmount } from './arbitrary.ts'

const layers = ([clay, glaze, fire, wear, packaging]: readonly string[]): CostByLayer => ({
  clay: decimal(clay ?? 0),
  glaze: decimal(glaze ?? 0),
  fire: decimal(fire ?? 0),
  wear: decimal(wear ?? 0),
  packaging: decimal(packaging ?? 0),
})

/** A mug: of a hundred that come to the kiln ten are lost. */
const MUG: PieceCostByLayer = {
  own: layers(['0.60', '0.20', '0.40', '0.08', '0.50']),
  ofLost: layers(['0.06', '0.01', '0.03', '0.01', '0']),
  yieldAfterBisque: decimal('0.9'),
  yieldBeforeBisque: decimal('0.8'),
}
const after = (change: Change) => costIf(MUG, change).total.toFixed()

describe('what a mug would cost', () => {
  test('as it costs now, where nothing changes', () => {
    expect(totalOf(MUG).toFixed()).toBe('1.89')
    expect(after({})).toBe('1.89')
    expect(costIf(MUG, {}).difference.toFixed()).toBe('0')
  })

  test('a price changes its own layer, in lost pots too', () => {
    expect(after({ priceRise: { clay: decimal('0.15') } })).toBe('1.989')
    expect(after({ priceRise: { fire: decimal('0.5'), packaging: decimal('-0.2') } })).toBe('2.005')
  })

  test('a better yield after bisque leaves fewer lost pots to each survivor', () => {
    // From 10/90 to 5/95: 9/19 of what the lost cost, each layer rounded for itself.
    expect(after({ yieldAfterBisqueRise: decimal('0.05') })).toBe('1.832106')
    expect(after({ yieldAfterBisqueRise: decimal('0.1') })).toBe('1.78')
  })

  test('where none was lost before, those lost cost as much as the others, unpacked', () => {
    const perfect = { ...MUG, ofLost: layers([]), yieldAfterBisque: decimal(1) }
    const worse = costIf(perfect, { yieldAfterBisqueRise: decimal('-0.2') })
    expect(worse.ofLost.clay.toFixed()).toBe('0.15')
    expect(worse.ofLost.packaging.toFixed()).toBe('0')
    expect(worse.difference.toFixed()).toBe('0.32')
  })

  test('a better yield before bisque costs no less, unless reclaim counts as nil', () => {
    const change = { yieldBeforeBisqueRise: decimal('0.08') }
    expect(after(change)).toBe('1.89')
    expect(after({ ...change, reclaim: 'at_nil' })).toBe('1.83')
  })

  test('a fuller kiln shares the firing among more', () => {
    expect(after({ kilnFill: { from: decimal('0.5'), to: decimal(1) } })).toBe('1.63')
  })

  test('each change alone and all together, with what they do to each other', () => {
    const { together, alone, interplay } = effectsOf(MUG, {
      priceRise: { clay: decimal('0.15'), fire: decimal('0.5') },
      yieldAfterBisqueRise: decimal('0.1'),
      kilnFill: { from: decimal('0.5'), to: decimal(1) },
    })
    expect(alone.map(({ words, after: { difference } }) => [words, difference.toFixed()])).toEqual([
      ['price of clay', '0.099'],
      ['price of energy', '0.215'],
      ['what comes through the kiln', '-0.11'],
      ['how full the kiln is', '-0.26'],
    ])
    expect(together.total.toFixed()).toBe('1.73')
    expect(interplay.toFixed()).toBe('-0.104')
  })

  test('a yield above all, or a price that falls below nothing, is a defect', () => {
    expect(() => after({ yieldAfterBisqueRise: decimal('0.2') })).toThrow('up to all')
    expect(() => after({ priceRise: { clay: decimal('-1.1') } })).toThrow('no price falls')
    expect(() => after({ kilnFill: { from: ZERO, to: decimal(1) } })).toThrow('has pots in it')
  })
})

describe('the price that keeps the margin', () => {
  test('by the same money, or by the same part', () => {
    const asked = { price: decimal(24), before: decimal('1.89'), after: decimal('1.989') }
    const found = pricesThatKeepMargin(asked, 2)
    expect([found.sameMoney.toFixed(), found.samePart?.toFixed()]).toEqual(['24.099', '25.257143'])
    expect(found.words).toBe(
      'Materials go from 1.89 to 1.99 a piece: sold at 24.00 now, it needs 24.10 to leave you the same money; for materials to stay the same part of it, 25.26.',
    )
  })

  test('is the price as it is, where nothing changes', () => {
    const asked = { price: decimal(24), before: decimal('1.89'), after: decimal('1.89') }
    const found = pricesThatKeepMargin(asked, 2)
    expect([found.sameMoney.toFixed(), found.samePart?.toFixed()]).toEqual(['24', '24'])
    expect(pricesThatKeepMargin({ ...asked, before: ZERO, after: ZERO }, 2).samePart).toBeNull()
  })
})

const money = ledgerAmount(0, 40)
const costs: fc.Arbitrary<CostByLayer> = fc.record({
  clay: money,
  glaze: money,
  fire: money,
  wear: money,
  packaging: money,
})
const thousandths = (min: number, max: number) =>
  fc.integer({ min, max }).map((some) => decimal(some).dividedBy(1000))
const mugs: fc.Arbitrary<PieceCostByLayer> = fc
  .record({
    own: costs,
    ofLost: costs,
    yieldAfterBisque: thousandths(100, 1000),
    yieldBeforeBisque: thousandths(100, 1000),
  })
  .map((mug) => ({
    ...mug,
    ofLost: mug.yieldAfterBisque.equals(1) ? layers([]) : { ...mug.ofLost, packaging: ZERO },
  }))
const reclaim = fc.constantFrom('by_mass' as const, 'at_nil' as const)

describe('whatever a piece costs', () => {
  test('no change is no change', () => {
    fc.assert(
      fc.property(mugs, reclaim, thousandths(1, 1000), (mug, rule, fill) => {
        const same: Change = {
          priceRise: Object.fromEntries(ALL_LAYERS.map((layer) => [layer, ZERO])),
          yieldAfterBisqueRise: ZERO,
          yieldBeforeBisqueRise: ZERO,
          kilnFill: { from: fill, to: fill },
          reclaim: rule,
        }
        expect(costIf(mug, same)).toEqual({
          own: mug.own,
          ofLost: mug.ofLost,
          total: totalOf(mug),
          difference: expect.anything(),
        })
        expect(costIf(mug, same).difference.toFixed()).toBe('0')
        expect(effectsOf(mug, same).interplay.toFixed()).toBe('0')
      }),
    )
  })

  test('a higher price never lowers it', () => {
    fc.assert(
      fc.property(
        mugs,
        fc.constantFrom(...ALL_LAYERS),
        thousandths(0, 3000),
        (mug, layer, rise) => {
          const { difference } = costIf(mug, { priceRise: { [layer]: rise } })
          expect(difference.greaterThanOrEqualTo(0)).toBe(true)
        },
      ),
    )
  })

  test('a better yield, or a fuller kiln, never raises it', () => {
    const part = thousandths(0, 1000)
    fc.assert(
      fc.property(fc.tuple(mugs, reclaim, part, part, thousandths(1, 1000)), (drawn) => {
        const [mug, rule, one, two, fill] = drawn
        const upTo = (now: Decimal, share: Decimal) => decimal(1).minus(now).times(share)
        const changes: Change[] = [
          { yieldAfterBisqueRise: upTo(mug.yieldAfterBisque, one) },
          { yieldBeforeBisqueRise: upTo(mug.yieldBeforeBisque, two) },
          { kilnFill: { from: fill, to: fill.plus(one) } },
        ]
        for (const change of [...changes, Object.assign({}, ...changes) as Change]) {
          const { difference } = costIf(mug, { ...change, reclaim: rule })
          expect(difference.lessThanOrEqualTo(0)).toBe(true)
        }
      }),
    )
  })
})
