import { toLedgerScale, type Decimal } from './decimal.ts'
import { standardUncertaintyOfDoubt } from './doubt.ts'
import { dryOf, howSure, unsureQuotient, unsureSum, type HowSure, type Unsure } from './how-sure.ts'
import type { ActKind } from './month-world.ts'
import { POT_PLACES } from './place.ts'
import { cameTo, heldAt, wentFrom, type PotFlows } from './run-flows.ts'

export interface MassShare {
  readonly dryGrams: Decimal
  /** Of what was begun with; null where nothing was. */
  readonly fractionOfBegun: Decimal | null
  readonly dryUncertaintyGrams: Decimal
  /** Of the fraction: what makes both of its parts unsure alike has cancelled. */
  readonly fractionUncertainty: Decimal | null
  /** The true share lies in it 19 times in 20; null with the fraction. */
  readonly fractionInterval95: HowSure['interval95'] | null
}

/** How sure a part is that may as well be none. */
export interface MaybeNone {
  readonly dryInterval95: HowSure['interval95']
  readonly isDistinguishableFromZero: boolean
}

export const MASS_PARTS = [
  'thrown',
  'openedWith',
  'joinedOn',
  'slopsAndOffCuts',
  'turnedOff',
  'lostBeforeBisque',
  'lossOnIgnition',
  'lostAfterBisque',
  'sold',
  'givenAway',
  'kept',
  'brokenInShop',
  'unexplained',
  'waiting',
] as const
type MassPart = (typeof MASS_PARTS)[number]
export type MassByPart = Readonly<
  Record<Exclude<MassPart, 'unexplained'>, MassShare> & { unexplained: MassShare & MaybeNone }
>

const FIRED_PLACES = POT_PLACES.filter((place) => place !== 'greenware')

/** The dry clay that pots were begun with: thrown, opened with, joined on. Units: grams. Source: the definition. */
export function begunWith(pots: PotFlows): Unsure {
  return unsureSum([
    dryOf(cameTo(pots, { kinds: ['throw', 'open_books'] })),
    dryOf(pots.joining.taken),
  ])
}

/** Whether a part can be told from none. Units: grams. Source: as `howSure`. */
export function maybeNone(part: Unsure): MaybeNone {
  const { interval95, isDistinguishableFromZero } = howSure(part)
  return { dryInterval95: interval95, isDistinguishableFromZero }
}

/**
 * Where the dry clay of some pots came from and what became of it.
 *
 * What was begun with is thrown, opened with and joined on; all the other parts sum to it, `unexplained`
 * being what weighing and counting missed (plus) or found (minus).
 *
 * Units: grams of dry clay, exact; after the fire, of fired clay. Fractions at six digits.
 * Source: mass balance.
 */
export function massByPart(pots: PotFlows): MassByPart {
  const out = (
    kinds: readonly ActKind[],
    places: readonly (typeof POT_PLACES)[number][] = POT_PLACES,
  ) => dryOf(wentFrom(pots, { kinds, places }))
  const thrown = dryOf(cameTo(pots, { kinds: ['throw'] }))
  const openedWith = dryOf(cameTo(pots, { kinds: ['open_books'] }))
  const joinedOn = dryOf(pots.joining.taken)
  const begun = begunWith(pots)
  const share = (part: Unsure): MassShare => {
    const ofBegun = begun.amount.isZero() ? undefined : unsureQuotient(part, begun)
    return {
      dryGrams: part.amount,
      fractionOfBegun: ofBegun === undefined ? null : toLedgerScale(ofBegun.amount),
      dryUncertaintyGrams: standardUncertaintyOfDoubt(part.doubt),
      fractionUncertainty: ofBegun === undefined ? null : standardUncertaintyOfDoubt(ofBegun.doubt),
      fractionInterval95: ofBegun === undefined ? null : howSure(ofBegun).interval95,
    }
  }
  const unexplained = out(['weigh_run', 'count', 'dry_test'])
  const waiting = unsureSum(POT_PLACES.map((at) => dryOf(heldAt(pots, at))))
  return {
    thrown: share(thrown),
    openedWith: share(openedWith),
    joinedOn: share(joinedOn),
    slopsAndOffCuts: share(
      unsureSum([out(['collect_slops', 'weigh_scrap']), dryOf(pots.joining.offCuts)]),
    ),
    turnedOff: share(out(['turn'])),
    lostBeforeBisque: share(out(['lose'], ['greenware'])),
    lossOnIgnition: share(out(['bisque', 'glaze_fire'])),
    lostAfterBisque: share(unsureSum([out(['lose'], FIRED_PLACES), out(['grade'])])),
    sold: share(out(['sell'])),
    givenAway: share(out(['give_away'])),
    kept: share(out(['keep'])),
    brokenInShop: share(out(['break_in_shop'])),
    unexplained: { ...share(unexplained), ...maybeNone(unexplained) },
    waiting: share(waiting),
  }
}
