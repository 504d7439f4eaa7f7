import { present } from '../../shared/assert.ts'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { slabGramsAfter, USUAL_EQUILIBRIUM } from '../../shared/drying-load.ts'
import { DEMO_BATS } from './catalogue.ts'
import type { Hand } from './hand.ts'

/** A load of the demo on its bat, as it truly is: what a scale would show of it follows from this. */
export interface DemoSlab {
  readonly lotId: string
  readonly batId: string
  /** By what its own pace is fixed: ids differ from telling to telling. */
  readonly name: string
  /** As it was laid. */
  readonly dryGrams: Decimal
  readonly laidGrams: Decimal
}

/** Slurry is poured within a frame that is laid on the bat, to a notch in its side. */
export const SLAB_MILLIMETRES = '45'
/** It dries to a third of its water in two days, and the first hours take the most. */
const RATE_CONSTANT = 0.041
const EXPONENT = 0.85
/** The plaster drinks so much of what leaves; the rest goes into the air. */
const DRUNK_FRACTION = '0.4'

/** The slab that lies on a bat now and was laid there just before. */
export async function laidSlab(
  hand: Hand,
  laid: { lotId: string; batId: string },
): Promise<DemoSlab> {
  const { held } = await hand.holds({ place: 'plaster', lotId: laid.lotId })
  const name = `${laid.batId} on day ${String(hand.day)}`
  const laidGrams = held.dryGrams.plus(held.waterGrams)
  return { ...laid, name, dryGrams: held.dryGrams, laidGrams }
}

/** What the slab weighs so many hours after it was laid; each slab a little in its own way. */
export function slabAfter(hand: Hand, slab: DemoSlab, hours: number): Decimal {
  const pace = hand.wobbleOf(`pace of ${slab.name}`, 0.12).toNumber()
  const rateConstant = RATE_CONSTANT * pace
  const grams = slabGramsAfter(
    {
      dryGrams: slab.dryGrams.toNumber(),
      pouredGrams: slab.laidGrams.toNumber(),
      equilibriumWaterContentDryBasis: USUAL_EQUILIBRIUM.value,
      shape: { rateConstant, exponent: EXPONENT },
      offCurve: 0,
    },
    hours,
  )
  return decimal(grams.toFixed(1))
}

/** What the bat under it weighs by then. */
export function batAfter(hand: Hand, slab: DemoSlab, hours: number): Decimal {
  const bat = present(
    DEMO_BATS.find(({ batId }) => batId === slab.batId),
    'the demo pours on its own bats',
  )
  const left = slab.laidGrams.minus(slabAfter(hand, slab, hours))
  return decimal(bat.dryGrams).plus(left.times(DRUNK_FRACTION))
}
