import { assert } from './assert.ts'
import { decimal } from './decimal.ts'
import type { Decimal } from './decimal.ts'
import { Refusal } from './refusal.ts'

export interface ScaleLimits {
  readonly divisionGrams: Decimal
  readonly capacityGrams: Decimal
}

export interface GrossReading {
  readonly grossGrams: Decimal
  readonly tareGrams: Decimal
  readonly scale?: ScaleLimits | undefined
}

/** How far a label may be off to either side, of what it says. */
const LABEL_HALF_WIDTH_FRACTION = decimal('0.01')

/**
 * What was weighed without its vessel.
 *
 * Units: grams, exact.
 * Refuses: `gross_must_not_be_below_tare`, `reading_must_be_above_zero`,
 * `reading_must_be_within_scale_capacity`.
 * Source: common practice, no source.
 */
export function netOfReading({ grossGrams, tareGrams, scale }: GrossReading): Decimal {
  assert(tareGrams.greaterThanOrEqualTo(0), 'a vessel does not weigh less than nothing')
  const netGrams = grossGrams.minus(tareGrams)
  if (netGrams.lessThan(0)) {
    throw new Refusal(
      'gross_must_not_be_below_tare',
      `The scale read ${grossGrams.toFixed()} g, and the empty vessel weighs ${tareGrams.toFixed()} g. The full vessel weighs more than the empty one.`,
    )
  }
  if (netGrams.isZero()) {
    throw new Refusal(
      'reading_must_be_above_zero',
      `The scale read ${grossGrams.toFixed()} g, which leaves nothing in the vessel. A weigh-in weighs something.`,
    )
  }
  if (scale !== undefined && grossGrams.greaterThan(scale.capacityGrams)) {
    throw new Refusal(
      'reading_must_be_within_scale_capacity',
      `The scale carries at most ${scale.capacityGrams.toFixed()} g; ${grossGrams.toFixed()} g were read. Use a larger scale or weigh in parts.`,
    )
  }
  return netGrams
}

/**
 * The standard uncertainty that a scale's division leaves in a mass of one reading or of two.
 *
 * Anything within half a division shows the same digits, and every value there is as likely as the
 * next. A net mass is the difference of two such readings, whose uncertainties add in quadrature.
 *
 * Units: grams; 60 digits.
 * Source: GUM, JCGM 100:2008, F.2.2.1 (from memory): the division over the root of twelve.
 */
export function readingUncertaintyGrams(reading: {
  readonly divisionGrams: Decimal
  readonly readings: 1 | 2
}): Decimal {
  const { divisionGrams, readings } = reading
  return divisionGrams.times(divisionGrams).times(readings).dividedBy(12).sqrt()
}

/**
 * The standard uncertainty of a mass that was read from a label and not from a scale.
 *
 * Taken as equally likely anywhere within one per cent of what the label says.
 *
 * Units: grams; 60 digits.
 * Source: our choice, because the trade publishes no tolerance for what a bag holds; the rectangular
 * form is GUM, JCGM 100:2008, 4.3.7 (from memory).
 */
export function labelUncertaintyGrams(labelGrams: Decimal): Decimal {
  return labelGrams.times(LABEL_HALF_WIDTH_FRACTION).dividedBy(decimal(3).sqrt())
}
