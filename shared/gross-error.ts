import { assert, present } from './assert.ts'
import { innerProduct, transposed, type Rows } from './linear-algebra.ts'
import { globalTest, type GlobalTest, type ResidualSpace } from './reconciliation.ts'
import { normalQuantile } from './statistics.ts'

/** One mistake that may have been made. */
export interface Suspect {
  /** What one unit of it adds to each measured flow. */
  readonly effect: readonly number[]
  /** How large such a mistake usually is, in its own unit; said of all suspects or of none. */
  readonly expectedSize?: number
}

/** What the balances say of one mistake, if it is the only one left. */
export interface Suspicion {
  /** Its place in the list of suspects. */
  readonly suspect: number
  /** Those that the balances cannot tell from it, and what one unit of it would be of theirs. */
  readonly alike: readonly { readonly suspect: number; readonly unitsAUnit: number }[]
  /** How large the mistake looks, in its own unit: what was measured too much. */
  readonly size: number
  readonly standardUncertainty: number
  /** The size in its uncertainties: what chance alone gives a deviation of one. */
  readonly standardised: number
  /** Twice the natural logarithm of how much likelier the residuals are with it than without. */
  readonly evidence: number
}

export interface MistakeTest {
  /** The strongest evidence first; of those that are alike, the likeliest stands for all. */
  readonly suspicions: readonly Suspicion[]
  /** Whether any standardised size passes the critical value. */
  readonly isAnythingLarge: boolean
  /** Suspects of which no balance speaks. */
  readonly unseen: readonly number[]
  /** What the largest of all standardised sizes seldom passes by chance. */
  readonly criticalValue: number
  readonly globalTest: GlobalTest
}

/** The residuals and what the suspects add to them, less what has been taken out already. */
export interface SuspectSpace {
  readonly residual: readonly number[]
  readonly degreesOfFreedom: number
  /** What each suspect adds to the residuals, and how much it added before any was taken out. */
  readonly shifts: Rows
  readonly fullLengths: readonly number[]
  readonly expectedSizes: readonly (number | undefined)[]
}

/** How far from one the likeness of two suspects may be for rounding alone. */
const LIKENESS_ROUNDING = 1e-9
/** Of what a suspect adds, the part that is left across another to which it is alike. */
const UNSEEN_FRACTION = Math.sqrt(2 * LIKENESS_ROUNDING)

/**
 * The suspects that stand for a gross error in one measurement, each flow for itself.
 *
 * Units: a suspect's size is in the unit of the flows. Source: the definition of a bias.
 */
export function singleFlowSuspects(count: number): Suspect[] {
  return Array.from({ length: count }, (_, suspect) => ({
    effect: Array.from({ length: count }, (__, flow) => (flow === suspect ? 1 : 0)),
  }))
}

/**
 * Which single mistake fits best to what the balances leave over.
 *
 * Each suspect is given the size that explains most, and that is compared with what chance gives it.
 * For independent measurements this is the adjustment of the measurement in its own deviations. The
 * critical value is so much higher than for one suspect as there are different ones. Two suspects that
 * add to all balances in one proportion cannot be told apart by any of them, and stand together.
 *
 * Where it is said how large mistakes usually are, those that would have to be absurdly large, and those
 * that could be of any size because hardly anything speaks of them, come later in line.
 *
 * Shape: one number a flow in each suspect; confidence from 0 to 1, both excluded.
 * Units: a size is in the units that its suspect is given in.
 * Source: R. S. H. Mah and A. C. Tamhane, AIChE J. 28 (1982), 828-830 (statistic of most power);
 * S. Narasimhan and R. S. H. Mah, AIChE J. 33 (1987), 1514-1521 (likelihood ratio and size); Z. Sidak,
 * J. Am. Stat. Assoc. 62 (1967), 626-633 (many at once); all from memory. With expected sizes: Bayes'
 * rule, a mistake being normal about zero with its expected size as deviation.
 */
export function mistakeTest(
  residuals: ResidualSpace,
  asked: { suspects: readonly Suspect[]; confidence: number },
): MistakeTest {
  return testIn(suspectSpace(residuals, asked.suspects), asked.confidence)
}

/**
 * What suspects add to the residuals.
 *
 * Shape: as `mistakeTest`. Units: deviations that chance alone gives. Source: as `mistakeTest`.
 */
export function suspectSpace(
  { residual, effects }: ResidualSpace,
  suspects: readonly Suspect[],
): SuspectSpace {
  const perFlow = effects.length === 0 ? [] : transposed(effects)
  const parts = suspects.map(({ effect }) =>
    // Most suspects touch one flow or few.
    effect.flatMap((units, flow) =>
      units === 0 ? [] : [(perFlow[flow] ?? []).map((one) => one * units)],
    ),
  )
  const shifts = parts.map((some) =>
    residual.map((_, row) => sum(some.map((part) => part[row] ?? 0))),
  )
  // What would be added if nothing cancelled: a suspect that cancels out adds only rounding.
  const fullLengths = parts.map((some) => lengthOf(some.map(lengthOf)))
  const expectedSizes = suspects.map(({ expectedSize }) => expectedSize)
  const said = expectedSizes.filter((size) => size !== undefined)
  assert(said.length === 0 || said.length === suspects.length, 'sizes are expected of all or none')
  assert(
    said.every((size) => Number.isFinite(size) && size > 0),
    'a mistake has some size',
  )
  return { residual, degreesOfFreedom: residual.length, shifts, fullLengths, expectedSizes }
}

/**
 * The test of each suspect in a space, as `mistakeTest`.
 *
 * Units: as `mistakeTest`. Source: as `mistakeTest`.
 */
export function testIn(space: SuspectSpace, confidence: number): MistakeTest {
  const { residual, shifts, fullLengths, degreesOfFreedom } = space
  const isSeen = shifts.map(
    (shift, index) => lengthOf(shift) > UNSEEN_FRACTION * (fullLengths[index] ?? 0),
  )
  const places = shifts.map((_, suspect) => suspect)
  const classes = classesOf(
    shifts,
    places.filter((suspect) => isSeen[suspect]),
  )
  const limit = criticalValue(confidence, classes.length)
  const suspicions = classes
    .map((suspects) => suspicionOf(space, suspects))
    .sort((one, other) => other.evidence - one.evidence)
  return {
    suspicions,
    isAnythingLarge: suspicions.some(({ standardised }) => Math.abs(standardised) > limit),
    unseen: places.filter((suspect) => isSeen[suspect] !== true),
    criticalValue: limit,
    globalTest: globalTest(innerProduct(residual, residual), degreesOfFreedom),
  }
}

/** The suspects that are seen, together with those of the same direction. */
function classesOf(shifts: Rows, seen: readonly number[]): [number, ...number[]][] {
  const directions = new Map(seen.map((suspect) => [suspect, unit(shifts[suspect] ?? [])]))
  const classes: [number, ...number[]][] = []
  for (const suspect of seen) {
    const own = present(directions.get(suspect), 'what is seen has a direction')
    const same = classes.find(([first]) => {
      const likeness = innerProduct(own, directions.get(first) ?? [])
      return Math.abs(likeness) > 1 - LIKENESS_ROUNDING
    })
    if (same === undefined) classes.push([suspect])
    else same.push(suspect)
  }
  return classes
}

/** The likeliest of some suspects that are alike, with the others beside it. */
function suspicionOf(space: SuspectSpace, suspects: readonly number[]): Suspicion {
  const [first, ...others] = suspects
    .map((suspect) => singleSuspicion(space, suspect))
    .sort((one, other) => other.evidence - one.evidence)
  const likeliest = present(first, 'a class has a member')
  return {
    ...likeliest,
    alike: others.map((other) => ({
      suspect: other.suspect,
      unitsAUnit: ratioOf(shiftAt(space, likeliest.suspect), shiftAt(space, other.suspect)),
    })),
  }
}

function singleSuspicion(space: SuspectSpace, suspect: number): Omit<Suspicion, 'alike'> {
  const shift = shiftAt(space, suspect)
  const square = innerProduct(shift, shift)
  const size = innerProduct(shift, space.residual) / square
  const standardUncertainty = 1 / Math.sqrt(square)
  const standardised = size / standardUncertainty
  const expected = space.expectedSizes[suspect]
  const reach = expected === undefined ? Infinity : (expected / standardUncertainty) ** 2
  const evidence =
    reach === Infinity
      ? standardised ** 2
      : (standardised ** 2 * reach) / (1 + reach) - Math.log1p(reach)
  return { suspect, size, standardUncertainty, standardised, evidence }
}

function shiftAt(space: SuspectSpace, suspect: number): readonly number[] {
  return present(space.shifts[suspect], 'a suspect adds something')
}

/** What the largest of so many independent deviations passes no more often than is allowed. */
function criticalValue(confidence: number, count: number): number {
  assert(confidence > 0 && confidence < 1, 'a confidence is between nothing and certainty')
  const single = confidence ** (1 / Math.max(1, count))
  return normalQuantile((1 + single) / 2)
}

/** How many of one vector make up another of the same direction. */
function ratioOf(whole: readonly number[], one: readonly number[]): number {
  return innerProduct(whole, one) / innerProduct(one, one)
}

function unit(vector: readonly number[]): number[] {
  const length = lengthOf(vector)
  return vector.map((one) => one / length)
}

function lengthOf(vector: readonly number[]): number {
  return Math.hypot(...vector)
}

function sum(values: readonly number[]): number {
  return values.reduce((so, one) => so + one, 0)
}
