import type { Mass } from '../../shared/units.ts'

/** A scale that shows the nearest of its divisions, and errs in no other way. */
export interface TrueScale {
  readonly scaleId: string
  readonly divisionGrams: number
  readonly capacityGrams: number
}

export const SCALES = {
  pocket: { scaleId: 'pocket', divisionGrams: 0.1, capacityGrams: 500 },
  fine: { scaleId: 'fine', divisionGrams: 1, capacityGrams: 5_000 },
  bench: { scaleId: 'bench', divisionGrams: 5, capacityGrams: 30_000 },
  floor: { scaleId: 'floor', divisionGrams: 20, capacityGrams: 150_000 },
} as const satisfies Record<string, TrueScale>

/** What the scale shows. Units: grams. */
export function shown({ divisionGrams }: TrueScale, grams: number): number {
  return Math.round(grams / divisionGrams) * divisionGrams
}

/** What the scale shows, as it is written down. */
export function read(scale: TrueScale, grams: number): Mass {
  return { value: shown(scale, grams).toFixed(scale.divisionGrams < 1 ? 1 : 0), unit: 'g' }
}
