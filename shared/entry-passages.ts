import { ZERO, Decimal } from './decimal.ts'
import type { ActKind, WorldPlace } from './month-world.ts'
import { isInside, type Place, type PlaceInside } from './place.ts'

/** Where clay can come from and go to: a place, or another clay by blending. */
export type PassagePlace = PlaceInside | WorldPlace

/** What an entry of some kind moved at each place; a reversal counts as what it takes back. */
export interface EntryMoved {
  readonly kind: ActKind
  /** Dry clay that each place gained, or gave, below zero. They sum to nothing, blending aside. */
  readonly gained: ReadonlyMap<Place, Decimal>
}

/** Dry clay that passed from one place to another. */
export interface Passage {
  readonly kind: ActKind
  readonly from: PassagePlace
  readonly to: PassagePlace
  readonly dryGrams: Decimal
}

/** What the month report puts down to unexplained, it puts down to this place. */
const UNEXPLAINED_AT: Partial<Record<ActKind, PlaceInside>> = {
  weigh_scrap: 'scrap',
  read_slurry: 'basin',
  lose: 'greenware',
}

/**
 * From where to where the clay of one entry passed.
 *
 * The ledger says what each place gained; mostly one place gave, and the rest is plain. What was found
 * or missed passed between `unexplained` and the place where the month report has it. A dry test sets
 * each place right by itself, and nothing passes from place to place by it. Where several places gave and
 * several took, the first to give fills the first to take, and so on: the same both ways, so that a
 * reversal takes back what it reverses.
 *
 * Shape: of one entry and one clay, or of all clays together. Each place's passages sum to what it
 * gained, exactly.
 * Units: grams of dry clay; each above zero. Source: conservation of dry clay; the order is our choice.
 */
export function passagesOf({ kind, gained }: EntryMoved): Passage[] {
  const left = new Map<PassagePlace, Decimal>(gained)
  const blended = [...gained.values()].reduce((sum, grams) => sum.minus(grams), ZERO)
  if (!blended.isZero()) left.set('other_bodies', blended)
  const passages: Passage[] = []
  const pass = (from: PassagePlace, to: PassagePlace, grams: Decimal) => {
    left.set(from, (left.get(from) ?? ZERO).plus(grams))
    left.set(to, (left.get(to) ?? ZERO).minus(grams))
    if (grams.greaterThan(0)) passages.push({ kind, from, to, dryGrams: grams })
    if (grams.lessThan(0)) passages.push({ kind, from: to, to: from, dryGrams: grams.negated() })
  }
  if (kind === 'dry_test') passEachAlone(left, pass)
  const home = homeOfUnexplained(kind, [...gained.keys()])
  const unexplained = left.get('unexplained')
  if (unexplained !== undefined) pass('unexplained', home, unexplained.negated())
  passInOrder(left, pass)
  return passages
}

type Pass = (from: PassagePlace, to: PassagePlace, grams: Decimal) => void

/** Each place from or to the one place outside. */
function passEachAlone(left: ReadonlyMap<PassagePlace, Decimal>, pass: Pass): void {
  const outside = [...left].filter(([place, grams]) => !isPlaceInside(place) && !grams.isZero())
  const [counterpart] = outside
  if (counterpart === undefined || outside.length > 1) return
  const inside = [...left].filter(([place]) => isPlaceInside(place))
  for (const [place, grams] of inside) pass(counterpart[0], place, grams)
}

function homeOfUnexplained(kind: ActKind, touched: readonly Place[]): PlaceInside {
  const [first] = touched.filter(isInside).sort()
  return UNEXPLAINED_AT[kind] ?? first ?? 'bench'
}

function passInOrder(left: Map<PassagePlace, Decimal>, pass: Pass): void {
  const places = [...left.keys()].sort()
  for (;;) {
    const from = places.find((place) => left.get(place)?.lessThan(0))
    const to = places.find((place) => left.get(place)?.greaterThan(0))
    if (from === undefined || to === undefined) return
    pass(from, to, Decimal.min(left.get(from)?.abs() ?? ZERO, left.get(to) ?? ZERO))
  }
}

function isPlaceInside(place: PassagePlace): place is PlaceInside {
  return place !== 'other_bodies' && isInside(place)
}
