import type { BookedEntry, BookedEstimate } from './balance-book.ts'
import { guessed, madeReading } from './balance-readings.ts'
import type { BalanceWalk } from './balance-walk.ts'
import type { PlaceInside } from './place.ts'

/** The state that clay is mostly in at a place. Units: none. Source: our choice. */
export const STATE_BY_PLACE: Partial<Record<PlaceInside, string>> = {
  store: 'as_delivered',
  bench: 'wedged',
  scrap: 'turnings',
  basin: 'slurry',
  plaster: 'slurry',
  greenware: 'leather_hard',
}

/** The estimates of an entry that speak of one of these. Units: as posted. Source: what the acts post. */
export function of(entry: BookedEntry, ...kinds: readonly string[]): BookedEstimate[] {
  return entry.estimates.filter((one) => kinds.includes(one.of))
}

/** The id of a reading of an entry. Units: none. Source: our choice. */
export function idOf(entry: BookedEntry, what: number | string): string {
  return `${entry.entryId}/${String(what)}`
}

/** What a sentence calls a holding. Units: none. Source: the catalogue. */
export function nameOf(walk: BalanceWalk, holdingId: string | null): string {
  return walk.holding(holdingId)?.name ?? 'clay'
}

/** A flow that an estimate speaks of. Units: grams of dry clay. Source: what the acts post. */
export function tellFlow(
  walk: BalanceWalk,
  entry: BookedEntry,
  told: {
    estimate: BookedEstimate
    from: string | null
    to: string | null
    label: string
    state: string
    count?: number | null
    isUnread?: boolean
  },
): void {
  const { estimate, from, to, label, state, count = null, isUnread = false } = told
  const id = idOf(entry, estimate.estimateNo)
  const made = isUnread
    ? undefined
    : madeReading(walk, { id, label, entry, estimate, outOf: from, state, count })
  walk.moves({ id, entry, from, to, label, made, dryGrams: estimate.dryGrams.toNumber() })
}

/** What goes lost on the way without being seen, guessed. Units: grams of dry clay. Source: what the acts post. */
export function loseOnTheWay(
  walk: BalanceWalk,
  entry: BookedEntry,
  lost: { from: string; grams: number; label: string },
): void {
  walk.moves({
    ...{ id: idOf(entry, lost.label), entry, from: lost.from, to: null },
    label: `What stayed on ${lost.label} on ${entry.day}`,
    made: guessed(lost.grams),
    dryGrams: lost.grams,
  })
}

/** All that was there goes, and nobody weighed it. Units: grams of dry clay. Source: what the acts post. */
export function moveAll(
  walk: BalanceWalk,
  entry: BookedEntry,
  { from, to }: { from: string; to: string | null },
): void {
  const label = `What was left of ${nameOf(walk, from)} on ${entry.day}`
  const dryGrams = walk.booked(entry, from)
  walk.moves({ id: idOf(entry, `all of ${from}`), entry, from, to, label, dryGrams })
}

/** Pots that go where no reading says anything of their clay any more. Units: grams of dry clay. Source: what the acts post. */
export function leaveUnweighed(walk: BalanceWalk, entry: BookedEntry, place: PlaceInside): void {
  for (const from of walk.at(entry, place, 'gave')) {
    const label = `What left ${nameOf(walk, from)} on ${entry.day}`
    const dryGrams = walk.booked(entry, from)
    walk.moves({ id: idOf(entry, from), entry, from, to: null, label, dryGrams })
  }
}
