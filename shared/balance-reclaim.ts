import type { BookedEntry } from './balance-book.ts'
import { shareReading } from './balance-readings.ts'
import { idOf, loseOnTheWay, moveAll, nameOf, of, tellFlow } from './balance-telling.ts'
import type { BalanceWalk } from './balance-walk.ts'

/** What stays on a bat, where nobody weighed the scrapings. Our choice, after the worked day. */
const STAYS_ON_BAT_GRAMS = 10

/** Scrap goes into a basin, weighed wet; or all of it. Units: grams of dry clay. Source: what the acts post. */
export function slakeScrap(walk: BalanceWalk, entry: BookedEntry): void {
  const [from] = walk.at(entry, 'scrap', 'gave')
  const [to = null] = walk.at(entry, 'basin', 'got')
  if (from === undefined) return
  leaveByShare(walk, entry, { from, to, purpose: 'scrap', what: 'The scrap slaked on' })
}

/** Clay is thrown away, weighed wet; or all of it. Units: grams of dry clay. Source: what the acts post. */
export function discardClay(walk: BalanceWalk, entry: BookedEntry): void {
  const from = entry.lines.find(({ dryGrams }) => dryGrams.lessThan(0))?.holdingId
  if (from === undefined) return
  leaveByShare(walk, entry, { from, to: null, purpose: 'reading', what: 'The clay thrown away on' })
}

/** Some of a holding goes, weighed wet; or all of it, weighed or not. */
function leaveByShare(
  walk: BalanceWalk,
  entry: BookedEntry,
  left: { from: string; to: string | null; purpose: string; what: string },
): void {
  const { from, to, purpose, what } = left
  const weighing = entry.weighings.find((one) => one.purpose === purpose)
  if (weighing === undefined) {
    moveAll(walk, entry, { from, to })
    return
  }
  const id = idOf(entry, 'share')
  const label = `${what} ${entry.day} (${nameOf(walk, from)})`
  const dryGrams = walk.booked(entry, from)
  const made = shareReading(walk, { id, label, entry, weighing, dryGrams, outOf: from })
  walk.moves({ id, entry, from, to, label, made, dryGrams })
}

/** Slurry, or the water over it, leaves a basin. Units: grams of dry clay. Source: what the acts post. */
export function leaveBasin(walk: BalanceWalk, entry: BookedEntry, what: 'decanted' | 'load'): void {
  const [from = null] = walk.at(entry, 'basin', 'gave')
  for (const estimate of of(entry, what)) {
    const words = what === 'load' ? 'The slurry poured on' : 'The water drawn off on'
    const label = `${words} ${entry.day} (${nameOf(walk, what === 'load' ? estimate.holdingId : from)})`
    const state = what === 'load' ? 'slurry' : 'drawn_off'
    tellFlow(walk, entry, { estimate, from, to: estimate.holdingId, label, state })
  }
}

/** A slab is lifted off its bat; what stays on the bat is guessed where nobody weighed it. Units: grams of dry clay. Source: what the acts post. */
export function liftLoad(walk: BalanceWalk, entry: BookedEntry): void {
  const [from] = walk.at(entry, 'plaster', 'gave')
  const [to = null] = walk.at(entry, 'bench', 'got')
  if (from === undefined) return
  const scrapings = of(entry, 'scrapings')
  for (const estimate of scrapings) {
    const label = `The scrapings of ${entry.day} (${nameOf(walk, from)})`
    tellFlow(walk, entry, { estimate, from, to: null, label, state: 'wedged' })
  }
  if (scrapings.length === 0) {
    loseOnTheWay(walk, entry, { from, grams: STAYS_ON_BAT_GRAMS, label: 'the bat' })
  }
  weighKnown(walk, entry)
  moveAll(walk, entry, { from, to })
}

/**
 * Clay is weighed whose dry mass is known: what is taken of it later rests on that weigh-in.
 *
 * Units: parts of its dry mass. Source: what the acts post.
 */
export function weighKnown(walk: BalanceWalk, entry: BookedEntry): void {
  for (const estimate of entry.estimates) {
    const weighing = walk.weighingOf(entry, estimate)
    if (estimate.method !== 'known_dry_weighed_again' || weighing === undefined) continue
    const { holdingId } = estimate
    const source = `weigh-in of ${holdingId}`
    walk.sources.set(source, {
      label: `The weigh-in of ${entry.day} (${nameOf(walk, holdingId)})`,
      ...{ entryId: entry.entryId, state: null },
    })
    const part = weighing.standardUncertaintyGrams.dividedBy(weighing.netGrams).toNumber()
    walk.wetness.restsOn(holdingId, source, part)
  }
}
