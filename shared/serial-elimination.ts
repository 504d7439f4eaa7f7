import { assert, present } from './assert.ts'
import { suspectSpace, testIn } from './gross-error.ts'
import type { MistakeTest, Suspect, SuspectSpace, Suspicion } from './gross-error.ts'
import { innerProduct, inverseOfPositive, timesVector } from './linear-algebra.ts'
import type { ResidualSpace } from './reconciliation.ts'

export interface SerialElimination {
  /** In the order in which they were found, each with its size beside the others. */
  readonly found: readonly Suspicion[]
  /** The test before each, the last with nothing more to find or at the limit. */
  readonly tests: readonly MistakeTest[]
}

/**
 * Mistakes found one after the other, each time with those found before taken out.
 *
 * A mistake of unknown size in a measurement makes it as good as not made, so the residuals are looked
 * at across what it adds to them. It ends when no suspect passes the critical value, or at the limit.
 *
 * Shape: as `mistakeTest`; the limit is a whole number, 0 or more.
 * Units: as `mistakeTest`. All sizes are estimated together at the end.
 * Source: D. R. Ripps, Chem. Eng. Progress Symp. Ser. 61 (1965) 55, 8-13; R. W. Serth and W. A. Heenan,
 * AIChE J. 32 (1986), 733-742 (both from memory).
 */
export function serialElimination(
  residuals: ResidualSpace,
  asked: { suspects: readonly Suspect[]; confidence: number; limit: number },
): SerialElimination {
  const { suspects, confidence, limit } = asked
  assert(Number.isSafeInteger(limit) && limit >= 0, 'a limit is a whole number')
  const start = suspectSpace(residuals, suspects)
  const found: Suspicion[] = []
  const tests: MistakeTest[] = []
  let space = start
  for (;;) {
    const test = testIn(space, confidence)
    tests.push(test)
    // Who is named stands out: one of which hardly anything speaks may come first in line and not.
    const first = test.suspicions.find((one) => isLarge(one, test))
    if (first === undefined || found.length === limit) break
    found.push(first)
    space = without(space, first.suspect)
  }
  return { found: together(start, found), tests }
}

function isLarge({ standardised }: Suspicion, { criticalValue }: MistakeTest): boolean {
  return Math.abs(standardised) > criticalValue
}

/** The residuals across what one suspect adds to them. */
function without(space: SuspectSpace, suspect: number): SuspectSpace {
  const shift = present(space.shifts[suspect], 'a suspect is known')
  const along = shift.map((one) => one / Math.hypot(...shift))
  const across = (vector: readonly number[]) => {
    const part = innerProduct(vector, along)
    return vector.map((one, index) => one - part * (along[index] ?? 0))
  }
  return {
    ...space,
    residual: across(space.residual),
    degreesOfFreedom: space.degreesOfFreedom - 1,
    shifts: space.shifts.map(across),
  }
}

/** The sizes of all that were found, each beside the others. */
function together(start: SuspectSpace, found: readonly Suspicion[]): Suspicion[] {
  if (found.length === 0) return []
  const shifts = found.map(({ suspect }) => present(start.shifts[suspect], 'a suspect is known'))
  const covariance = inverseOfPositive(
    shifts.map((one) => shifts.map((other) => innerProduct(one, other))),
  )
  const sizes = timesVector(covariance, timesVector(shifts, start.residual))
  return found.map((one, index) => {
    const size = sizes[index] ?? one.size
    const standardUncertainty = Math.sqrt(covariance[index]?.[index] ?? 0)
    return { ...one, size, standardUncertainty, standardised: size / standardUncertainty }
  })
}
