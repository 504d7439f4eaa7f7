import { decimalOfNumber, type Decimal } from '../shared/decimal.ts'
import { trimmingLink, weightLink, type TrimmingLink, type WeightLink } from '../shared/trimming.ts'
import type { TurnedRunFlows } from './turnings.ts'

type Link = TrimmingLink | WeightLink

/** A link with its odds ratio at six digits. */
export interface ShownLink extends Omit<Link, 'oddsRatioAPoint'> {
  readonly verdict: Link['verdict']
  readonly oddsRatioAPoint: {
    readonly estimate: Decimal
    readonly interval95: { readonly from: Decimal; readonly to: Decimal }
  } | null
}

/** Whether what was turned off, or what the pots weigh, goes with losses in the kiln. */
export interface KilnLosses {
  readonly byTurnedOff: ShownLink
  readonly byDryMass: ShownLink
  /** Runs that do not count yet: some of their pots wait between the kilns, or none was fired. */
  readonly runsNotThrough: number
}

/** Both links for some runs, each form compared within itself. Units: odds ratios, pieces. */
export function kilnLosses(runs: readonly TurnedRunFlows[]): KilnLosses {
  const fired = runs.flatMap(({ outcome, ...run }) =>
    outcome === null ? [] : [{ ...run, ...outcome, formId: run.flows.formId }],
  )
  const turned = fired.flatMap(({ share, ...run }) =>
    share === null ? [] : [{ ...run, turnedOffFraction: share.turnedOffFraction.toNumber() }],
  )
  const weighed = fired.flatMap(({ dryGramsAPiece, ...run }) =>
    dryGramsAPiece === null ? [] : [{ ...run, dryGramsAPiece: dryGramsAPiece.toNumber() }],
  )
  return {
    byTurnedOff: shownLink(trimmingLink(turned)),
    byDryMass: shownLink(weightLink(weighed)),
    runsNotThrough: runs.length - fired.length,
  }
}

function shownLink(link: Link): ShownLink {
  const { oddsRatioAPoint: ratio } = link
  return {
    ...link,
    oddsRatioAPoint: ratio && {
      estimate: decimalOfNumber(ratio.estimate),
      interval95: {
        from: decimalOfNumber(ratio.interval95.from),
        to: decimalOfNumber(ratio.interval95.to),
      },
    },
  }
}
