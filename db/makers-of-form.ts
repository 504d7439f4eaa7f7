import { decimalOfNumber, type Decimal } from '../shared/decimal.ts'
import { makersCompared, type MakerFigures } from '../shared/makers.ts'
import type { TurnedRunFlows } from './turnings.ts'

interface Interval {
  readonly from: Decimal
  readonly to: Decimal
}

interface Maker extends Pick<
  MakerFigures,
  'maker' | 'runs' | 'turnedRuns' | 'firedPieces' | 'survivedPieces'
> {
  readonly turnedOffFraction: Decimal | null
  readonly turnedOffInterval95: Interval | null
  readonly survivorsFraction: Decimal | null
  readonly survivorsInterval95: Interval | null
}

/** The makers of a form side by side. */
export interface MakersOfForm {
  readonly makers: readonly Maker[]
  readonly findings: readonly string[]
  readonly words: string
  /** Runs that name no maker. */
  readonly unnamedRuns: number
  /** Runs that somebody else turned: they count for what survived, not for what was turned off. */
  readonly runsTurnedByAnother: number
}

/**
 * The makers of a form side by side, and what tells them apart. Only for a studio that compares makers.
 *
 * A maker is who threw the run. Units: fractions, pieces.
 */
export function makersOfForm(runs: readonly TurnedRunFlows[]): MakersOfForm {
  const made = runs.flatMap(({ maker, isTurnedByAnother, share, outcome }) =>
    maker === null
      ? []
      : [
          {
            maker,
            turnedOffFraction:
              share === null || isTurnedByAnother ? null : share.turnedOffFraction.toNumber(),
            firedPieces: outcome?.firedPieces ?? 0,
            lostPieces: outcome?.lostPieces ?? 0,
          },
        ],
  )
  const { makers, findings, words } = makersCompared(made)
  return {
    makers: makers.map(shownMaker),
    findings,
    words,
    unnamedRuns: runs.filter(({ maker }) => maker === null).length,
    runsTurnedByAnother: runs.filter(({ isTurnedByAnother }) => isTurnedByAnother).length,
  }
}

function shownMaker(figures: MakerFigures): Maker {
  const orNull = (value: number | null) => (value === null ? null : decimalOfNumber(value))
  const interval = (ends: { from: number; to: number } | null): Interval | null =>
    ends && { from: decimalOfNumber(ends.from), to: decimalOfNumber(ends.to) }
  return {
    ...figures,
    turnedOffFraction: orNull(figures.turnedOffFraction),
    turnedOffInterval95: interval(figures.turnedOffInterval95),
    survivorsFraction: orNull(figures.survivorsFraction),
    survivorsInterval95: interval(figures.survivorsInterval95),
  }
}
