import { present } from '../../shared/assert.ts'
import { decimal } from '../../shared/decimal.ts'
import { doubtBy, standardUncertaintyOfDoubt, type Doubt } from '../../shared/doubt.ts'
import { howSure, type Unsure } from '../../shared/how-sure.ts'
import { choleskyRoot, type Rows } from '../../shared/linear-algebra.ts'
import { doubtPropagated } from '../../shared/propagation.ts'
import type { UncertaintyShare } from '../../shared/statistics.ts'

/** A figure and one standard uncertainty of it, of a source of its own. */
export interface Measured {
  readonly value: number
  readonly standardUncertainty: number
  readonly source: string
}

export function measured({ value, standardUncertainty, source }: Measured): Unsure {
  return { amount: decimal(value), doubt: doubtBy(source, decimal(standardUncertainty)) }
}

/** Figures that were measured together: their covariance split into as many independent sources. */
export function measuredTogether(
  values: readonly number[],
  covariance: Rows,
  source: string,
): Unsure[] {
  return choleskyRoot(covariance).map((row, index) => ({
    amount: decimal(present(values[index], 'each variance has a value')),
    doubt: new Map(row.map((share, column) => [`${source}, part ${column + 1}`, decimal(share)])),
  }))
}

/** A figure by any function of others; slopes that are not given are read off the function. */
export function workedOut(
  inputs: readonly Unsure[],
  compute: (values: readonly number[]) => number,
  slopes?: (values: readonly number[]) => readonly number[],
): Unsure {
  const values = inputs.map(({ amount }) => amount.toNumber())
  const found = slopes?.(values) ?? slopesReadOff(inputs, compute)
  return {
    amount: decimal(compute(values)),
    doubt: doubtPropagated(
      inputs.map(({ doubt }, index) => ({
        doubt,
        slope: decimal(present(found[index], 'each input has its slope')),
      })),
    ),
  }
}

/** Partial derivatives, read off a hundredth of a standard uncertainty to either side. */
function slopesReadOff(
  inputs: readonly Unsure[],
  compute: (values: readonly number[]) => number,
): number[] {
  const values = inputs.map(({ amount }) => amount.toNumber())
  return inputs.map((input, index) => {
    const step = uncertaintyOf(input) / 100
    // What is sure moves nothing, whatever its slope.
    if (step === 0) return 0
    const at = (away: number) => compute(values.with(index, (values[index] ?? 0) + away))
    return (at(step) - at(-step)) / (2 * step)
  })
}

/** Reports round an uncertainty to six digits after the point; published values may need more. */
const FINER = decimal(1e12)

export function uncertaintyOf({ doubt }: Unsure): number {
  const finer = doubtPropagated([{ doubt, slope: FINER }])
  return standardUncertaintyOfDoubt(finer).dividedBy(FINER).toNumber()
}

/** How far two figures are off together, by what their sum is less sure of than their difference. */
export function correlationBetween(one: Unsure, other: Unsure): number {
  const both = uncertaintyOf(one) * uncertaintyOf(other)
  if (both === 0) return 0
  const even = (
    { doubt }: Unsure,
    of: number,
  ): { doubt: Doubt; slope: ReturnType<typeof decimal> } => ({
    doubt,
    slope: decimal(1 / of),
  })
  const half = even(one, uncertaintyOf(one))
  const rest = even(other, uncertaintyOf(other))
  const together = doubtPropagated([half, rest])
  const apart = doubtPropagated([half, { ...rest, slope: rest.slope.negated() }])
  const squared = (doubt: Doubt) => uncertaintyOf({ amount: decimal(0), doubt }) ** 2
  return (squared(together) - squared(apart)) / 4
}

/** Each source of a figure with the degrees of freedom behind it; infinite where nothing is said. */
export function sharesOf(
  { doubt }: Unsure,
  degreesBySource: Readonly<Record<string, number>> = {},
): UncertaintyShare[] {
  return [...doubt].map(([source, one]) => ({
    standardUncertainty: one.abs().toNumber(),
    degreesOfFreedom: degreesBySource[source] ?? Number.POSITIVE_INFINITY,
  }))
}

/** True where a report would say that a figure is not none. */
export function isDistinguishable(one: Unsure): boolean {
  return howSure(one).isDistinguishableFromZero
}
