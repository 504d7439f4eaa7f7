import { ZERO, type Decimal } from './decimal.ts'
import { ENTRY_KINDS } from './entry-kind.ts'
import { passagesOf, type EntryMoved, type Passage, type PassagePlace } from './entry-passages.ts'
import { worldRowOf, type ActKind } from './month-world.ts'
import { CLAY_PLACES, isInside, PLACES_INSIDE, type PlaceInside } from './place.ts'

/** An end of a band: a place of the studio's own, or the row of the world through which it came or went. */
export type StreamEnd =
  { readonly place: PlaceInside } | { readonly place: undefined; readonly world: string }

/** All the clay that passed one way between two ends in a month. */
export interface StreamBand {
  readonly from: StreamEnd
  readonly to: StreamEnd
  readonly dryGrams: Decimal
  /** The kinds of entry that moved it, in the order of the books. */
  readonly kinds: readonly ActKind[]
}

export interface StreamStock {
  readonly place: PlaceInside
  readonly openingDryGrams: Decimal
  readonly closingDryGrams: Decimal
}

export interface MonthStream {
  /** A place each, in the order in which clay passes; those without anything among them. */
  readonly stocks: readonly StreamStock[]
  readonly bands: readonly StreamBand[]
}

/** What a month's stream is made of. */
export interface StreamFacts {
  /** Dry clay at each place when the month began. */
  readonly opening: ReadonlyMap<PlaceInside, Decimal>
  readonly entries: readonly EntryMoved[]
}

/**
 * The clay of a month from place to place: what was there, what passed, what stayed.
 *
 * What entries of one kind moved to and fro between two places is told once, the way that more of it
 * went. So is what was found and missed at a place, over all kinds.
 *
 * Shape: at each place the opening and what came equal what went and the closing, exactly; the bands of
 * a row of the world sum to that row of `monthSheet`.
 * Units: grams of dry clay, exact; bands above zero. Source: conservation of dry clay.
 */
export function monthStream({ opening, entries }: StreamFacts): MonthStream {
  const bands = bandsOf(entries.flatMap(passagesOf))
  return {
    stocks: CLAY_PLACES.map((place) => {
      const openingDryGrams = opening.get(place) ?? ZERO
      const came = sumOf(bands.filter(({ to }) => to.place === place))
      const went = sumOf(bands.filter(({ from }) => from.place === place))
      return {
        place,
        openingDryGrams,
        closingDryGrams: openingDryGrams.plus(came).minus(went),
      }
    }),
    bands,
  }
}

interface Directed {
  readonly from: StreamEnd
  readonly to: StreamEnd
  dryGrams: Decimal
  readonly kinds: Set<ActKind>
}

function bandsOf(passages: readonly Passage[]): StreamBand[] {
  const bands = new Map<string, Directed>()
  for (const { from, to, dryGrams, kinds } of netted(passages)) {
    const key = `${nameOf(from)}>${nameOf(to)}`
    const band = bands.get(key) ?? { from, to, dryGrams: ZERO, kinds: new Set() }
    band.dryGrams = band.dryGrams.plus(dryGrams)
    kinds.forEach((kind) => band.kinds.add(kind))
    bands.set(key, band)
  }
  return [...bands.values()]
    .map((band) => ({ ...band, kinds: inOrderOfBooks(band.kinds) }))
    .sort((one, other) => orderOf(one) - orderOf(other))
}

/** To and fro taken together: by kind, and over all kinds where nobody knows what it was. */
function netted(passages: readonly Passage[]): Directed[] {
  const sums = new Map<string, Directed>()
  for (const { kind, from, to, dryGrams } of passages) {
    const isUnknown = from === 'unexplained' || to === 'unexplained'
    const isForth = from < to
    const [one, other] = isForth ? [from, to] : [to, from]
    const key = [isUnknown ? '' : kind, one, other].join('|')
    const ends = { from: endOf(one, kind), to: endOf(other, kind) }
    const sum = sums.get(key) ?? { ...ends, dryGrams: ZERO, kinds: new Set() }
    sum.dryGrams = sum.dryGrams.plus(isForth ? dryGrams : dryGrams.negated())
    sum.kinds.add(kind)
    sums.set(key, sum)
  }
  return [...sums.values()]
    .filter(({ dryGrams }) => !dryGrams.isZero())
    .map((sum) =>
      sum.dryGrams.isNegative()
        ? { ...sum, from: sum.to, to: sum.from, dryGrams: sum.dryGrams.negated() }
        : sum,
    )
}

function endOf(place: PassagePlace, kind: ActKind): StreamEnd {
  if (place !== 'other_bodies' && isInside(place)) return { place }
  return { place: undefined, world: worldRowOf(place, kind).row }
}

/** The name of an end: the place, or the row of the world. Units: none. */
export function nameOf(end: StreamEnd): string {
  return end.place ?? end.world
}

function inOrderOfBooks(kinds: ReadonlySet<ActKind>): ActKind[] {
  return ENTRY_KINDS.filter((kind): kind is ActKind => kind !== 'reverse' && kinds.has(kind))
}

/** By the place that gives, then by the one that takes; what comes in stands before what is there. */
function orderOf({ from, to }: Pick<StreamBand, 'from' | 'to'>): number {
  const at = (end: StreamEnd) => (end.place === undefined ? -1 : PLACES_INSIDE.indexOf(end.place))
  const first = from.place === undefined ? at(to) - 0.5 : at(from)
  const last = to.place === undefined ? PLACES_INSIDE.length : at(to)
  return first * (PLACES_INSIDE.length + 1) + last
}

function sumOf(bands: readonly StreamBand[]): Decimal {
  return bands.reduce((sum, { dryGrams }) => sum.plus(dryGrams), ZERO)
}
