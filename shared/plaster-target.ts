import { Decimal, decimal } from './decimal.ts'

/** How wet a slab shall be when it is lifted, and how wet it is when it has to be wetted again. */
export interface PlasterTarget {
  readonly readyWaterContentWetBasis: Decimal
  readonly tooDryWaterContentWetBasis: Decimal
}

/** Ready to wedge where nobody has said otherwise: midway in the 20 to 24 per cent of throwing balls. */
export const USUAL_READY = decimal('0.225')
/** Too dry where nobody has said otherwise: where balls end and soft leather-hard begins. */
export const USUAL_TOO_DRY = decimal('0.20')

/**
 * What a studio wants of a slab of one clay.
 *
 * What it said itself goes before what is usual. Where it said only one of the two, the other is the
 * usual one, or as far away from the first as is usual where that would turn the two about.
 *
 * Units: fractions of the wet mass.
 * Source: common practice, no source: balls for throwing hold 20 to 24 per cent, soft leather-hard clay
 * 18 to 20. Where in these ranges the usual figures lie is our choice; a hand tells better than both.
 */
export function plasterTarget(said: {
  readonly readyWaterContentWetBasis: Decimal | undefined
  readonly tooDryWaterContentWetBasis: Decimal | undefined
}): PlasterTarget {
  const { readyWaterContentWetBasis: ready, tooDryWaterContentWetBasis: tooDry } = said
  if (ready === undefined && tooDry === undefined) return targetOf(USUAL_READY, USUAL_TOO_DRY)
  if (ready === undefined && tooDry !== undefined) {
    return targetOf(USUAL_READY.greaterThan(tooDry) ? USUAL_READY : wetterThan(tooDry), tooDry)
  }
  const wanted = ready ?? USUAL_READY
  if (tooDry !== undefined) return targetOf(wanted, tooDry)
  return targetOf(wanted, USUAL_TOO_DRY.lessThan(wanted) ? USUAL_TOO_DRY : drierThan(wanted))
}

/** The usual figures' own distance, as a ratio so that it never leaves the range from 0 to 1. */
function drierThan(ready: Decimal): Decimal {
  return ready.times(USUAL_TOO_DRY).dividedBy(USUAL_READY)
}

function wetterThan(tooDry: Decimal): Decimal {
  const distance = USUAL_READY.minus(USUAL_TOO_DRY)
  const halfway = tooDry.plus(1).dividedBy(2)
  return Decimal.min(tooDry.plus(distance), halfway)
}

function targetOf(ready: Decimal, tooDry: Decimal): PlasterTarget {
  return { readyWaterContentWetBasis: ready, tooDryWaterContentWetBasis: tooDry }
}
