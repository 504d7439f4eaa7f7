import {
  COST_LAYERS,
  costOfLayer,
  layersOfSum,
  type CostLayer,
  type CostLayers,
} from '../../shared/cost-layer.ts'
import fc from 'fast-check'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { doubtBy, doubtOfSum, type Doubt } from '../../shared/doubt.ts'
import type { Held } from '../../shared/quantity.ts'

const FACES = 10_000
const THROWS = 24

/**
 * Chance that was drawn beforehand. What is chosen with it depends on what the studio holds at that
 * moment, and the same dice choose the same again. Zero stands for the simplest choice, so that a
 * failing case shrinks towards simple ones.
 */
export class Dice {
  readonly #faces: readonly number[]
  #thrown = 0

  constructor(faces: readonly number[]) {
    this.#faces = faces
  }

  /** A whole number from zero up to but without `sides`. */
  roll(sides: number): number {
    const face = this.#faces[this.#thrown % this.#faces.length] ?? 0
    this.#thrown += 1
    return face % sides
  }

  /** True once in so many throws, and never for the simplest choice. */
  isOnceIn(throws: number): boolean {
    return this.roll(throws) === throws - 1
  }

  pick<T>(from: readonly [T, ...T[]]): T {
    return from[this.roll(from.length)] ?? from[0]
  }

  /** One of what there is, or what is said for the case that there is nothing. */
  pickOr<T, Otherwise>(from: readonly T[], otherwise: Otherwise): T | Otherwise {
    return from[this.roll(Math.max(from.length, 1))] ?? otherwise
  }
}

/** What dice will show; fresh dice are made of it for every use. */
export const faces: fc.Arbitrary<readonly number[]> = fc.array(fc.nat(FACES - 1), {
  minLength: THROWS,
  maxLength: THROWS,
})

/** Decimals at ledger scale up to a whole number of grams or coins; often tiny, often round. */
export function ledgerAmount(max: number): fc.Arbitrary<Decimal> {
  const upTo = BigInt(max) * 1_000_000n
  return fc
    .oneof(
      fc.bigInt({ min: 0n, max: upTo }),
      fc.bigInt({ min: 0n, max: 9n }),
      fc.integer({ min: 0, max }).map((whole) => BigInt(whole) * 1_000_000n),
    )
    .map((millionths) => decimal(millionths.toString()).dividedBy(1_000_000))
}

/** What some sources make unsure, to either side. */
export const aDoubt: fc.Arbitrary<Doubt> = fc
  .dictionary(
    fc.constantFrom('moisture|turnings', 'batch|1', 'reading|1', 'tare|1'),
    ledgerAmount(100),
  )
  .map((found) => doubtOfSum(Object.entries(found).map(([source, one]) => doubtBy(source, one))))

/** What a cost may have been paid for beside clay. */
export const someLayers: fc.Arbitrary<CostLayers> = fc
  .dictionary(fc.constantFrom(...COST_LAYERS), ledgerAmount(1000), { maxKeys: 4 })
  .map((found) =>
    layersOfSum(
      Object.entries(found).map(
        ([layer, cost]) => costOfLayer(layer as CostLayer, cost).costLayers,
      ),
    ),
  )

/** A holding with clay in it, from a breath of dust to a pallet. */
export const heldClay: fc.Arbitrary<Held> = fc
  .record({
    dryGrams: ledgerAmount(1_000_000),
    materialGrams: ledgerAmount(10_000),
    waterGrams: ledgerAmount(1_000_000),
    pieces: fc.nat(1000).map(decimal),
    clay: ledgerAmount(100_000),
    costLayers: someLayers,
    dryDoubt: aDoubt,
    materialDoubt: aDoubt,
    costDoubt: aDoubt,
  })
  .filter((held) => held.dryGrams.greaterThan(0))
  .map(({ clay, ...held }) => ({
    ...held,
    cost: [...held.costLayers.values()].reduce((sum, one) => sum.plus(one), clay),
  }))
