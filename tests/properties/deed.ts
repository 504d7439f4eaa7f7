import { correctEntry } from '../../db/correct.ts'
import {
  performAct,
  type Act,
  type ActAnswer,
  type Circumstances,
  type Occasion,
  type Services,
} from '../../db/perform.ts'
import type { EntryKind } from '../../shared/entry-kind.ts'
import type { Place } from '../../shared/place.ts'
import type { Dice } from '../support/arbitraries.ts'
import type { View } from './view.ts'

/** What must follow from what was said, reckoned without the program. */
export interface Foretold {
  /** How many pieces each place gains, plus, or gives, minus; none where a place is not named. */
  readonly pieces: Partial<Record<Place, number>>
  /** Money that came into the studio's books. */
  readonly bought?: readonly string[]
  /** What the month's bill and the wear of a kiln come to, where that is plain. */
  readonly bill?: { readonly utility: string; readonly wear: string } | undefined
  /** True where pots of the same run are left, so that no money may leave the studio with the others. */
  readonly keepsMoney?: boolean
  /** True where there is nothing that it could be done to. */
  readonly isImpossible?: boolean
}

export type Answered = Promise<{ answer: ActAnswer; isRetry: boolean }>

/** One thing that somebody does in the studio, with sense or without. */
export interface Deed {
  readonly kind: EntryKind
  readonly said: unknown
  readonly foretold: Foretold
  readonly perform: (services: Services, occasion: Occasion) => Answered
  /** Takes an entry back and posts this deed instead. */
  readonly insteadOf: (services: Services, occasion: Occasion, entryId: string) => Answered
}

export type DeedMaker = (view: View, dice: Dice) => Deed

export function deedOf<Said extends Circumstances>(
  dice: Dice,
  done: { act: Act<Said>; said: Said },
  foretold: Foretold = { pieces: {} },
): Deed {
  const { act } = done
  const said = { ...done.said, ...circumstances(dice) }
  return {
    kind: act.kind,
    said,
    foretold,
    perform: (services, occasion) => performAct(services, occasion, { act, said }),
    insteadOf: (services, occasion, entryId) =>
      correctEntry(services, occasion, { said: { entryId }, again: { act, said } }),
  }
}

/** Mostly now, at times a month ago, rarely a time that cannot be. */
function circumstances(dice: Dice): Circumstances {
  return dice.pick<Circumstances>([
    {},
    { by: 'Ines' },
    {},
    {},
    {},
    { happenedAt: '2026-06-02T08:30:00+01:00', note: 'from the slate' },
    { happenedAt: '2026-05-31T23:30:00+01:00' },
    dice.isOnceIn(5) ? { happenedAt: '2026-06-15T12:02:01Z' } : {},
  ])
}
