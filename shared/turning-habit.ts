import { Decimal, ONE, toLedgerScale, ZERO } from './decimal.ts'
import { percentWords } from './percent.ts'

/** The share that a form is turned off by, as far as chance goes. */
export interface TurningHabit {
  readonly centreFraction: Decimal
  readonly lowerLimitFraction: Decimal
  readonly upperLimitFraction: Decimal
}

/**
 * What comes off a run if it is turned by habit, as it lies in the bucket.
 *
 * Units: grams dry in, grams wet out; fractions of the dry clay and of the wet mass.
 * Source: the definition of a share, and wet = dry / (1 - water).
 */
export function turningsByHabit(run: {
  readonly dryGrams: Decimal
  readonly turnedOffFraction: Decimal
  readonly waterContentWetBasis: Decimal
}): Decimal {
  const dry = run.dryGrams.times(run.turnedOffFraction)
  return toLedgerScale(dry.dividedBy(ONE.minus(run.waterContentWetBasis)))
}

/**
 * Whether a run was turned as its form usually is, in a sentence.
 *
 * Units: fractions of the dry clay before turning. Source: the limits of the chart of single values.
 */
export function turningHabitWords(turnedOffFraction: Decimal, habit: TurningHabit): string {
  const lowest = Decimal.max(ZERO, habit.lowerLimitFraction)
  const limits = `${percentWords(lowest)} to ${percentWords(habit.upperLimitFraction)}`
  if (turnedOffFraction.greaterThan(habit.upperLimitFraction)) {
    return `More than by habit: ${limits}. Turned thinner, thrown thicker, or a tare forgotten.`
  }
  if (turnedOffFraction.lessThan(habit.lowerLimitFraction)) {
    return `Less than by habit: ${limits}. Left thicker, thrown thinner, or turnings left out.`
  }
  return `Within habit: ${limits}.`
}
