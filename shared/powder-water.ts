import { Decimal, decimal } from './decimal.ts'

/** What is known by heart of the water in a powder is off by so much of itself, one standard deviation. */
const FRACTION_OF_ITSELF = decimal('0.5')
/** But not by more than this: a wet powder is stated as well as wet clay is. */
const AT_MOST = decimal('0.015')

/**
 * How unsure the water of a powder is that nobody measured: half of itself. One that is said to be dry is
 * taken to be.
 *
 * Units: fractions of the wet mass. Source: our choice; powders come with some tenths of a per cent.
 */
export function powderWaterUncertainty(waterContentWetBasis: Decimal): Decimal {
  return Decimal.min(waterContentWetBasis.times(FRACTION_OF_ITSELF), AT_MOST)
}
