import { moistureFigure, type ClayState } from '../../shared/moisture.ts'
import type { Chance } from '../support/chance.ts'

/** A heap of clay as it truly is, known to nobody. Units: grams. */
export interface TrueClay {
  readonly dryGrams: number
  readonly waterGrams: number
}

/**
 * Whether batches differ beside what the handbook's figure is said to be unsure of, which is then that of
 * a studio's mean; or within it, which is then that of any batch.
 */
export type Batches = 'beside' | 'within'
const GRAIN = { usual: 2.6, spread: 0.05 }
const WATER_MIN = 0.01
const WATER_MAX = 0.97

export function wetOf({ dryGrams, waterGrams }: TrueClay): number {
  return dryGrams + waterGrams
}

export function clayOf(wetGrams: number, waterContent: number): TrueClay {
  return { dryGrams: wetGrams * (1 - waterContent), waterGrams: wetGrams * waterContent }
}

export function plus(one: TrueClay, other: TrueClay): TrueClay {
  return {
    dryGrams: one.dryGrams + other.dryGrams,
    waterGrams: one.waterGrams + other.waterGrams,
  }
}

/**
 * What is truly where in a studio. Heaps are of one wetness throughout, and nothing is lost unseen: not
 * on hands, not on the floor, not in the plaster.
 */
export class TrueStudio {
  readonly #chance: Chance
  readonly #heaps = new Map<string, TrueClay>()
  readonly #meanWater = new Map<string, number>()
  readonly #grain = new Map<string, number>()

  readonly #batches: Batches

  constructor(chance: Chance, batches: Batches) {
    this.#chance = chance
    this.#batches = batches
  }

  get heaps(): ReadonlyMap<string, TrueClay> {
    return this.#heaps
  }

  /**
   * The water in one batch: about the studio's own mean for that clay in that state, which lies about
   * the handbook's figure.
   */
  waterOfBatch(bodyId: string, state: ClayState): number {
    const usual = moistureFigure({ state, tests: [], bodyFigure: undefined })
    const mean = this.#drawn(this.#meanWater, `${bodyId} ${state}`, () => {
      const { standardUncertainty, sharedUncertainty } = usual
      const spread = this.#batches === 'beside' ? standardUncertainty : sharedUncertainty
      return usual.waterContentWetBasis.toNumber() + spread.toNumber() * this.#chance.normal()
    })
    const batch = mean + usual.betweenBatches.toNumber() * this.#chance.normal()
    return Math.min(WATER_MAX, Math.max(WATER_MIN, batch))
  }

  /** Units: g/mL. */
  grainDensityOf(bodyId: string): number {
    return this.#drawn(
      this.#grain,
      bodyId,
      () => GRAIN.usual + GRAIN.spread * this.#chance.normal(),
    )
  }

  at(place: string): TrueClay {
    return this.#heaps.get(place) ?? { dryGrams: 0, waterGrams: 0 }
  }

  put(place: string, clay: TrueClay): void {
    this.#heaps.set(place, plus(this.at(place), clay))
  }

  /** Takes a share of a heap, as wet as the heap. */
  takeShare(place: string, share: number): TrueClay {
    const { dryGrams, waterGrams } = this.at(place)
    this.#heaps.set(place, {
      dryGrams: dryGrams * (1 - share),
      waterGrams: waterGrams * (1 - share),
    })
    return { dryGrams: dryGrams * share, waterGrams: waterGrams * share }
  }

  takeWet(place: string, wetGrams: number): TrueClay {
    return this.takeShare(place, wetGrams / wetOf(this.at(place)))
  }

  /** Takes dry clay out of pots, in which water dries away by itself and is not followed. */
  takeDry(place: string, dryGrams: number): void {
    const { waterGrams, ...left } = this.at(place)
    this.#heaps.set(place, { dryGrams: left.dryGrams - dryGrams, waterGrams })
  }

  /** A heap dries, or is wetted, to a water content. */
  dryTo(place: string, waterContent: number): void {
    const { dryGrams } = this.at(place)
    this.#heaps.set(place, clayOf(dryGrams / (1 - waterContent), waterContent))
  }

  #drawn(known: Map<string, number>, name: string, draw: () => number): number {
    const value = known.get(name) ?? draw()
    known.set(name, value)
    return value
  }
}
