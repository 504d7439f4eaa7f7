import { ZERO, type Decimal } from './decimal.ts'
import type { ActKind } from './month-world.ts'
import type { Grade, LossStage, PotPlace } from './place.ts'
import { negated, sumOf, type Quantities } from './quantity.ts'

/** What entries of one kind did to a run's pots at one place. */
export interface RunMovement extends Quantities {
  readonly kind: ActKind
  readonly place: PotPlace
  readonly grade: Grade | undefined
}

/** Clay taken for handles and the like, and what of it was cut off again. */
export interface Joining {
  readonly taken: Quantities
  readonly offCuts: Quantities
}

/** All that happened to a run: its movements, its losses, and what it still holds. */
export interface RunFlows {
  readonly runId: string
  readonly formId: string
  readonly bodyId: string
  readonly movements: readonly RunMovement[]
  readonly joining: Joining
  readonly losses: readonly {
    readonly stage: LossStage
    readonly pieces: Decimal
    readonly costLeft: Decimal
  }[]
}

/** What happened to some pots, whichever runs they are of. */
export type PotFlows = Pick<RunFlows, 'movements' | 'joining' | 'losses'>

interface Wanted {
  readonly kinds: readonly ActKind[]
  readonly places?: readonly PotPlace[]
  readonly grade?: Grade
}

/** What came to a run's pots by some kinds of entry, at some of their places. Units: as given; exact. */
export function cameTo(run: PotFlows, wanted: Wanted): Quantities {
  const { kinds, places, grade } = wanted
  return sumOf(
    run.movements.filter(
      (moved) =>
        kinds.includes(moved.kind) &&
        (places === undefined || places.includes(moved.place)) &&
        (grade === undefined || moved.grade === grade),
    ),
  )
}

/** What left them. Units: as given; exact. */
export function wentFrom(run: PotFlows, wanted: Wanted): Quantities {
  return negated(cameTo(run, wanted))
}

/** What a run's pots hold at a place: all that ever came there. Units: as given; exact. */
export function heldAt(run: PotFlows, place: PotPlace): Quantities {
  return sumOf(run.movements.filter((moved) => moved.place === place))
}

/** Pieces lost at some stages. Units: pieces. */
export function piecesLost(run: PotFlows, stages: readonly LossStage[]): Decimal {
  return run.losses
    .filter(({ stage }) => stages.includes(stage))
    .reduce((sum, { pieces }) => sum.plus(pieces), ZERO)
}

/** Several runs taken as one. Units: as given. */
export function runsTogether(runs: readonly PotFlows[]): PotFlows {
  return {
    movements: runs.flatMap((run) => run.movements),
    joining: {
      taken: sumOf(runs.map((run) => run.joining.taken)),
      offCuts: sumOf(runs.map((run) => run.joining.offCuts)),
    },
    losses: runs.flatMap((run) => run.losses),
  }
}

/** False of a run whose throwing was taken back: nothing is left of it to tell. Units: as given. */
export function isAlive(run: PotFlows): boolean {
  return run.movements.some((moved) => !moved.pieces.isZero() || !moved.dryGrams.isZero())
}
