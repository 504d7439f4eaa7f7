import type { ReadingSaid } from '../../db/readings.ts'
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

/** What clay is weighed in, and on which scale it was tared. */
export const WEIGHED_IN = {
  pan: { vesselId: 'pan', tareGrams: 600, scale: SCALES.bench },
  jug: { vesselId: 'jug', tareGrams: 250, scale: SCALES.fine },
  'basin-1': { vesselId: 'basin-1', tareGrams: 2_000, scale: SCALES.floor },
} as const
export type WeighedIn = keyof typeof WEIGHED_IN

/** What the scale shows, as it is written down. */
export function shown(scale: TrueScale, grams: number): Mass {
  const { divisionGrams } = scale
  const nearest = Math.round(grams / divisionGrams) * divisionGrams
  return { value: nearest.toFixed(divisionGrams < 1 ? 1 : 0), unit: 'g' }
}

/** Clay on a tared scale. */
export function netReading(scale: TrueScale, grams: number): ReadingSaid {
  return { net: shown(scale, grams), scaleId: scale.scaleId }
}

/** Clay in a vessel whose true tare lies anywhere within a division about the one that is known. */
export function grossReading(inside: WeighedIn, clayAndVesselGrams: number): ReadingSaid {
  const { vesselId, scale } = WEIGHED_IN[inside]
  return {
    gross: shown(scale, clayAndVesselGrams),
    inVesselId: vesselId,
    scaleId: scale.scaleId,
  }
}
