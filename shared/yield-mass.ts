import { toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import type { ActKind } from './month-world.ts'
import { POT_PLACES } from './place.ts'
import { cameTo, heldAt, wentFrom, type PotFlows } from './run-flows.ts'

export interface MassShare {
  readonly dryGrams: Decimal
  /** Of what was begun with; null where nothing was. */
  readonly fractionOfBegun: Decimal | null
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
export type MassByPart = Readonly<Record<(typeof MASS_PARTS)[number], MassShare>>

const FIRED_PLACES = POT_PLACES.filter((place) => place !== 'greenware')

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
  ) => wentFrom(pots, { kinds, places }).dryGrams
  const thrown = cameTo(pots, { kinds: ['throw'] }).dryGrams
  const openedWith = cameTo(pots, { kinds: ['open_books'] }).dryGrams
  const joinedOn = pots.joining.taken.dryGrams
  const begun = thrown.plus(openedWith).plus(joinedOn)
  const share = (dryGrams: Decimal): MassShare => ({
    dryGrams,
    fractionOfBegun: begun.isZero() ? null : toLedgerScale(dryGrams.dividedBy(begun)),
  })
  const waiting = POT_PLACES.reduce((sum, at) => sum.plus(heldAt(pots, at).dryGrams), ZERO)
  return {
    thrown: share(thrown),
    openedWith: share(openedWith),
    joinedOn: share(joinedOn),
    slopsAndOffCuts: share(
      out(['collect_slops', 'weigh_scrap']).plus(pots.joining.offCuts.dryGrams),
    ),
    turnedOff: share(out(['turn'])),
    lostBeforeBisque: share(out(['lose'], ['greenware'])),
    lossOnIgnition: share(out(['bisque', 'glaze_fire'])),
    lostAfterBisque: share(out(['lose'], FIRED_PLACES).plus(out(['grade']))),
    sold: share(out(['sell'])),
    givenAway: share(out(['give_away'])),
    kept: share(out(['keep'])),
    brokenInShop: share(out(['break_in_shop'])),
    unexplained: share(out(['weigh_run', 'count', 'dry_test'])),
    waiting: share(waiting),
  }
}
