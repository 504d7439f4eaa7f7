import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  ALL_CLAY,
  ALL_LAYERS,
  clayOf,
  costIn,
  costOfLayer,
  eachLayer,
  layersOfSum,
  layersRead,
  layersWritten,
  shareOutLayers,
  type LayeredCost,
} from '../../shared/cost-layer.ts'
import { costLeaving, costLeftToSurvivors } from '../../shared/cost.ts'
import { decimal, toLedgerScale, ZERO, type Decimal } from '../../shared/decimal.ts'
import { doubtBy, doubtWritten } from '../../shared/doubt.ts'
import {
  asIfClay,
  countedPart,
  materialByMeasure,
  materialByShare,
  materialFound,
  partByMeasure,
  partByShare,
  surplusFound,
} from '../../shared/parting.ts'
import {
  negated,
  NOTHING,
  plus,
  proportionalPart,
  type Held,
  type Quantities,
} from '../../shared/quantity.ts'
import { heldClay, ledgerAmount } from '../support/arbitraries.ts'

const RUNS = { numRuns: 300 }
const dryDoubt = doubtBy('reading|1', decimal('2.041241'))
const fractions = fc.array(
  fc.oneof(fc.integer({ min: 0, max: 1_000_000 }), fc.constantFrom(0, 1, 999_999, 1_000_000)),
  { minLength: 1, maxLength: 12 },
)

/** A powder on the shelf: no clay in it, nor in what it cost. */
const heldPowder = heldClay.map((held): Held => {
  const { costLayers } = held
  const cost = held.cost.minus(clayOf(held))
  return { ...asIfClay(held), dryGrams: ZERO, dryDoubt: NOTHING.dryDoubt, cost, costLayers }
})
/** Boxes on the shelf: they weigh nothing in the books. */
const heldBoxes = fc
  .tuple(fc.integer({ min: 1, max: 5000 }), ledgerAmount(10_000))
  .map(([pieces, cost]): Held => {
    return { ...NOTHING, pieces: decimal(pieces), ...costOfLayer('packaging', cost) }
  })

interface Way {
  readonly name: string
  readonly held: fc.Arbitrary<Held>
  readonly of: 'dryGrams' | 'materialGrams' | 'pieces'
  readonly parted: (held: Held, taken: { dryGrams: Decimal }) => Quantities
}

const WAYS: readonly Way[] = [
  { name: 'a share of clay', held: heldClay, of: 'dryGrams', parted: partByShare },
  {
    ...{ name: 'a measured amount of clay', held: heldClay, of: 'dryGrams' },
    parted: (held, { dryGrams }) => partByMeasure(held, { dryGrams, dryDoubt }),
  },
  { name: 'a share of a powder', held: heldPowder, of: 'materialGrams', parted: materialByShare },
  {
    ...{ name: 'a measured amount of a powder', held: heldPowder, of: 'materialGrams' },
    parted: (held, { dryGrams }) => materialByMeasure(held, { dryGrams, dryDoubt }),
  },
  {
    ...{ name: 'a count of boxes', held: heldBoxes, of: 'pieces' },
    parted: (held, { dryGrams }) => countedPart(held, dryGrams),
  },
]

const layersOf = (cost: LayeredCost) => ALL_LAYERS.map((layer) => costIn(cost, layer).toFixed())
const partOf = (whole: Decimal, millionths: number) =>
  toLedgerScale(whole.times(millionths).dividedBy(1_000_000))
const partOfCount = (whole: Decimal, millionths: number) =>
  whole.times(millionths).dividedBy(1_000_000).floor()

/** No layer is below zero, none finer than the ledger, and none kept that is nothing. */
function isSound(cost: LayeredCost): boolean {
  const amounts = ALL_LAYERS.map((layer) => costIn(cost, layer))
  const fits = amounts.every((one) => one.decimalPlaces() <= 6 && one.greaterThanOrEqualTo(0))
  return fits && [...cost.costLayers.values()].every((one) => !one.isZero())
}

describe.each(WAYS)('$name', ({ held: kind, of, parted }) => {
  const share = of === 'pieces' ? partOfCount : partOf

  test('in any number of parts takes each layer along, to the last unit', () => {
    fc.assert(
      fc.property(kind, fractions, (whole, shares) => {
        let held: Held = whole
        let gone: Held = NOTHING
        for (const millionths of [...shares, 1_000_000]) {
          if (held[of].isZero()) break
          const leaving = parted(held, { dryGrams: share(held[of], millionths) })
          gone = plus(gone, leaving)
          held = plus(held, negated(leaving))
          expect([isSound(leaving), isSound(held)]).toEqual([true, true])
        }
        if (!held[of].isZero()) return
        expect(layersOf(gone)).toEqual(layersOf(whole))
        expect(layersOf(held)).toEqual(['0', '0', '0', '0', '0'])
        expect(held.costLayers.size).toBe(0)
        expect(gone.materialGrams.toFixed()).toBe(whole.materialGrams.toFixed())
        expect(held.materialGrams.toFixed()).toBe('0')
      }),
      RUNS,
    )
  })

  test('takes all of every layer where it takes all', () => {
    fc.assert(
      fc.property(kind, (whole) => {
        if (whole[of].isZero()) return
        expect(layersOf(parted(whole, { dryGrams: whole[of] }))).toEqual(layersOf(whole))
      }),
      RUNS,
    )
  })

  test('takes of each layer what it takes of the whole, each rounded once', () => {
    fc.assert(
      fc.property(kind, fc.integer({ min: 1, max: 999_999 }), (whole, millionths) => {
        const part = share(whole[of], millionths)
        if (part.isZero()) return
        const leaving = parted(whole, { dryGrams: part })
        for (const layer of ALL_LAYERS) {
          const amount = costIn(whole, layer)
          const expected = proportionalPart({ amount, part, whole: whole[of] })
          expect(costIn(leaving, layer).toFixed()).toBe(expected.toFixed())
        }
      }),
      RUNS,
    )
  })
})

describe('clay whose cost is for clay alone', () => {
  const plainClay = heldClay.map((held): Held => ({ ...held, costLayers: ALL_CLAY }))

  test('costs as it did before there were layers, to the last unit', () => {
    fc.assert(
      fc.property(plainClay, fc.integer({ min: 0, max: 1_000_000 }), (held, millionths) => {
        const dryGrams = partOf(held.dryGrams, millionths)
        const leaving = partByShare(held, { dryGrams })
        expect(leaving.cost.toFixed()).toBe(costLeaving(held, dryGrams).toFixed())
        expect(leaving.costLayers.size).toBe(0)
      }),
      RUNS,
    )
  })
})

describe('what is found beyond the books', () => {
  test('comes at what each layer of the holding cost a gram, of clay and of powder alike', () => {
    fc.assert(
      fc.property(heldClay, ledgerAmount(1_000), (held, more) => {
        const found = surplusFound(held, { dryGrams: held.dryGrams.plus(more), dryDoubt })
        const share = { part: more, whole: held.dryGrams }
        for (const layer of ALL_LAYERS) {
          const expected = proportionalPart({ amount: costIn(held, layer), ...share })
          expect(costIn(found, layer).toFixed()).toBe(expected.toFixed())
        }
        const powder = materialFound(asIfClay(held), {
          ...{ dryGrams: held.dryGrams.plus(more), dryDoubt },
        })
        expect(layersOf(powder)).toEqual(layersOf(found))
        expect(powder.materialGrams.toFixed()).toBe(more.toFixed())
        expect(doubtWritten(powder.materialDoubt)).toEqual(doubtWritten(found.dryDoubt))
      }),
      RUNS,
    )
  })

  test('costs nothing where there was nothing to cost', () => {
    const found = materialFound(NOTHING, { dryGrams: decimal(5), dryDoubt })
    expect(layersOf(found)).toEqual(['0', '0', '0', '0', '0'])
    expect(found.materialGrams.toFixed()).toBe('5')
  })
})

describe('a cost that is shared out over what survives', () => {
  const weights = fc.array(ledgerAmount(1_000), { minLength: 1, maxLength: 9 })

  test('is shared layer by layer, and the shares of each sum to it', () => {
    fc.assert(
      fc.property(heldClay, weights, (held, all) => {
        const shares = shareOutLayers(held, all)
        const cost = shares.reduce((sum, one) => sum.plus(one.cost), ZERO)
        const costLayers = layersOfSum(shares.map((one) => one.costLayers))
        expect(layersOf({ cost, costLayers })).toEqual(layersOf(held))
        expect(shares.every(isSound)).toBe(true)
        const survivors = all.map((dryGrams) => ({ dryGrams }))
        expect(costLeftToSurvivors(held, survivors).map(layersOf)).toEqual(shares.map(layersOf))
      }),
      RUNS,
    )
  })
})

describe('layers', () => {
  test('are kept and read again to the last digit', () => {
    fc.assert(
      fc.property(heldClay, ({ costLayers }) => {
        const again = layersRead(JSON.parse(JSON.stringify(layersWritten(costLayers))))
        expect(layersWritten(again)).toEqual(layersWritten(costLayers))
      }),
      RUNS,
    )
  })

  test('with clay make up the cost, whatever is done to each', () => {
    fc.assert(
      fc.property(heldClay, fc.integer({ min: 1, max: 99 }), (held, parts) => {
        const some = eachLayer(held, (whole) => toLedgerScale(whole.dividedBy(parts)))
        const sum = ALL_LAYERS.reduce((all, layer) => all.plus(costIn(some, layer)), ZERO)
        expect(sum.toFixed()).toBe(some.cost.toFixed())
        expect(isSound(some)).toBe(true)
      }),
      RUNS,
    )
  })

  test('cancel with the same going the other way, and leave no trace', () => {
    fc.assert(
      fc.property(heldClay, (held) => {
        const nothing = plus(held, negated(held))
        expect(nothing.costLayers.size).toBe(0)
        expect(nothing.cost.toFixed()).toBe('0')
        expect(doubtWritten(nothing.materialDoubt)).toEqual({})
      }),
      RUNS,
    )
  })
})
