import type { BookedEntry, BookedEstimate } from './balance-book.ts'
import { bagReading, guessed, madeReading } from './balance-readings.ts'
import { discardClay, leaveBasin, liftLoad, slakeScrap, weighKnown } from './balance-reclaim.ts'
import {
  idOf,
  leaveUnweighed,
  loseOnTheWay,
  moveAll,
  nameOf,
  of,
  STATE_BY_PLACE,
  tellFlow,
} from './balance-telling.ts'
import { countStock, weighWhole } from './balance-wholes.ts'
import type { BalanceWalk } from './balance-walk.ts'
import type { ActKind } from './month-world.ts'
import type { PlaceInside } from './place.ts'

/** What stays on hands, tools and boards while pots are thrown, of the clay; after the worked day. */
const STAYS_ON_HANDS = 0.002
/** What of the turnings flies past the bucket. Our choice, after the worked day. */
const FLIES_PAST = 0.02

type Translation = (walk: BalanceWalk, entry: BookedEntry) => void

/**
 * What each kind of entry says of flows and of stocks.
 *
 * A reading that was worked out from the books themselves, such as clay weighed again whose dry mass
 * was known, says nothing new and is left out; so is what the books put down to `unexplained`, which is
 * what the balance is to find.
 */
const TRANSLATIONS: Partial<Record<ActKind, Translation>> = {
  open_books: arriveFromOutside,
  receive_delivery: arriveFromOutside,
  open_bag: openBags,
  throw: throwClay,
  join: joinClay,
  wedge: wedgeClay,
  collect_slops: collectSlops,
  turn: turnPots,
  lose: losePots,
  weigh_scrap: weighScrap,
  weigh_run: (walk, entry) => weighWhole(walk, entry, 'pots'),
  count: countStock,
  read_slurry: (walk, entry) => weighWhole(walk, entry, 'basin'),
  dry_test: (walk, entry) => weighWhole(walk, entry, 'lot'),
  slake: slakeScrap,
  decant: (walk, entry) => leaveBasin(walk, entry, 'decanted'),
  pour: (walk, entry) => leaveBasin(walk, entry, 'load'),
  weigh_on_plaster: weighKnown,
  lift: liftLoad,
  bisque: fireRuns,
  glaze_fire: (walk, entry) => leaveUnweighed(walk, entry, 'bisque'),
  discard: discardClay,
}

/**
 * Tells one entry into the network of its month.
 *
 * Shape: entries come in the order in which they happened. Units: grams of dry clay.
 * Source: what the acts post.
 */
export function tellEntry(walk: BalanceWalk, entry: BookedEntry): void {
  TRANSLATIONS[entry.kind]?.(walk, entry)
  tellBlending(walk, entry)
  walk.closes(entry)
}

function arriveFromOutside(walk: BalanceWalk, entry: BookedEntry): void {
  of(entry, 'opening', 'delivered').forEach((estimate, index) => {
    const name = nameOf(walk, estimate.holdingId)
    const label =
      estimate.of === 'delivered'
        ? `The delivery of ${entry.day} (${name})`
        : `What was entered for ${name} on ${entry.day}`
    const place = walk.holding(estimate.holdingId)?.place ?? 'bench'
    const state = STATE_BY_PLACE[place as PlaceInside] ?? 'wedged'
    const count = entry.counts[index] ?? null
    tellFlow(walk, entry, { estimate, from: null, to: estimate.holdingId, label, state, count })
  })
}

function openBags(walk: BalanceWalk, entry: BookedEntry): void {
  const [from] = walk.at(entry, 'store', 'gave')
  const [to] = walk.at(entry, 'bench', 'got')
  if (from === undefined || to === undefined) return
  const bags =
    entry.lines
      .find(({ holdingId }) => holdingId === from)
      ?.pieces.abs()
      .toNumber() ?? 1
  const words = bags === 1 ? 'bag' : `${String(bags)} bags`
  const dryGrams = walk.booked(entry, from)
  const ofBags = { id: idOf(entry, 'bags'), label: `The ${words} opened on ${entry.day}, by count` }
  const byCount = bagReading(walk, { ...ofBags, entry, count: bags, dryGrams, outOf: from })
  const [opened] = of(entry, 'opened')
  if (opened === undefined) {
    walk.moves({ ...ofBags, entry, from, to, made: byCount, dryGrams })
    return
  }
  const id = idOf(entry, opened.estimateNo)
  const label = `The ${words} opened and weighed on ${entry.day}`
  const made = madeReading(walk, {
    ...{ id, label, entry, estimate: opened, outOf: from, state: 'as_delivered' },
  })
  const again = [{ ...ofBags, ...byCount.reading }]
  walk.moves({ id, label, entry, from, to, made, again, dryGrams: opened.dryGrams.toNumber() })
}

/** Clay of lots on the bench, in the order in which they were named. */
function takeClay(walk: BalanceWalk, entry: BookedEntry, what: string): string | null {
  const taken = of(entry, 'clay_taken')
  taken.forEach((estimate, index) => {
    const lotId = entry.fromLotIds[index]
    const from =
      walk.book.holdings.find((one) => one.place === 'bench' && one.lotId === lotId)?.holdingId ??
      null
    tellFlow(walk, entry, {
      ...{ estimate, from, to: estimate.holdingId, state: 'wedged' },
      label: `The ${what} of ${entry.day} (${nameOf(walk, from)})`,
      count: entry.counts[index] ?? null,
      isUnread: estimate.weighingNo === null,
    })
  })
  return taken[0]?.holdingId ?? null
}

function throwClay(walk: BalanceWalk, entry: BookedEntry): void {
  const run = takeClay(
    walk,
    entry,
    `clay for ${nameOf(walk, entry.estimates[0]?.holdingId ?? null)}`,
  )
  if (run === null) return
  const thrown = of(entry, 'clay_taken').reduce((sum, one) => sum + one.dryGrams.toNumber(), 0)
  loseOnTheWay(walk, entry, { from: run, grams: STAYS_ON_HANDS * thrown, label: 'hands and tools' })
}

function joinClay(walk: BalanceWalk, entry: BookedEntry): void {
  const run = takeClay(walk, entry, 'clay joined on')
  for (const estimate of of(entry, 'off_cuts')) {
    const label = `The off-cuts of ${entry.day} (${nameOf(walk, run)})`
    tellFlow(walk, entry, { estimate, from: run, to: estimate.holdingId, label, state: 'off_cuts' })
  }
}

function wedgeClay(walk: BalanceWalk, entry: BookedEntry): void {
  takeClay(walk, entry, 'clay wedged')
  const [to] = walk.at(entry, 'bench', 'got')
  for (const from of walk.at(entry, 'scrap', 'gave')) {
    moveAll(walk, entry, { from, to: to ?? null })
  }
  for (const estimate of of(entry, 'addition')) {
    const label = `The powder wedged in on ${entry.day}`
    tellFlow(walk, entry, { estimate, from: null, to: estimate.holdingId, label, state: 'powder' })
  }
  weighKnown(walk, entry)
}

function collectSlops(walk: BalanceWalk, entry: BookedEntry): void {
  const [estimate] = entry.estimates
  if (estimate === undefined) return
  const runs = walk.at(entry, 'greenware', 'gave')
  const what = estimate.of === 'off_cuts' ? 'off-cuts' : 'slops'
  const [only, ...others] = runs
  const whose = others.length === 0 ? nameOf(walk, only ?? null) : `${String(runs.length)} runs`
  const label = `The ${what} of ${entry.day} (${whose})`
  const told = { estimate, to: estimate.holdingId, label, state: estimate.of }
  if (others.length === 0) {
    tellFlow(walk, entry, { ...told, from: only ?? null })
    return
  }
  shareOver(walk, entry, { runs, estimate, told })
}

/** One reading of what several runs gave together: who gave how much nobody knows. */
function shareOver(
  walk: BalanceWalk,
  entry: BookedEntry,
  shared: {
    runs: readonly string[]
    estimate: BookedEstimate
    told: { to: string; label: string; state: string }
  },
): void {
  const { runs, estimate, told } = shared
  const id = idOf(entry, estimate.estimateNo)
  const heap = { id: `heap ${entry.entryId}`, place: 'scrap', name: told.label } as const
  for (const run of runs) {
    const label = `${told.label}, those of ${nameOf(walk, run)}`
    const unread = { id: idOf(entry, run), kind: entry.kind, label }
    walk.keeps(unread.id, entry, run)
    const share = guessed(walk.booked(entry, run)).reading
    walk.nodes.moves(walk.stock(run), heap, { ...unread, ...share })
  }
  const made = madeReading(walk, { id, entry, estimate, label: told.label, state: told.state })
  const moved = { id, kind: entry.kind, label: told.label, ...made.reading }
  walk.nodes.moves(heap, walk.stock(told.to), moved)
  walk.nodes.empties(heap)
  const dryGrams = estimate.dryGrams.toNumber()
  walk.wetness.receives(told.to, { dryGrams, wetness: made.wetness })
}

function turnPots(walk: BalanceWalk, entry: BookedEntry): void {
  const [run = null] = walk.at(entry, 'greenware', 'gave')
  for (const estimate of of(entry, 'turnings')) {
    const label = `The turnings of ${entry.day} (${nameOf(walk, run)})`
    tellFlow(walk, entry, { estimate, from: run, to: estimate.holdingId, label, state: 'turnings' })
    const grams = FLIES_PAST * estimate.dryGrams.toNumber()
    if (run !== null) loseOnTheWay(walk, entry, { from: run, grams, label: 'the wheel' })
  }
}

const STATE_BY_STAGE: Readonly<Record<string, string>> = {
  wheel: 'off_cuts',
  drying: 'air_dry',
}

function losePots(walk: BalanceWalk, entry: BookedEntry): void {
  const [run = null] = walk.at(entry, 'greenware', 'gave')
  for (const estimate of of(entry, 'lost_pieces')) {
    const label = `The lost pots of ${entry.day} (${nameOf(walk, run)})`
    const state = STATE_BY_STAGE[entry.stage ?? ''] ?? 'leather_hard'
    tellFlow(walk, entry, { estimate, from: run, to: estimate.holdingId, label, state })
  }
  leaveUnweighed(walk, entry, 'bisque')
}

function weighScrap(walk: BalanceWalk, entry: BookedEntry): void {
  const [estimate] = of(entry, 'scrap')
  for (const from of walk.at(entry, 'greenware', 'gave')) {
    const label = `What ${nameOf(walk, from)} gave on ${entry.day}`
    const to = estimate?.holdingId ?? null
    const dryGrams = walk.booked(entry, from)
    walk.moves({ id: idOf(entry, from), entry, from, to, label, dryGrams })
  }
  weighWhole(walk, entry, 'scrap')
}

/** By its place before the fire and after it, each run is one flow. */
function fireRuns(walk: BalanceWalk, entry: BookedEntry): void {
  for (const estimate of of(entry, 'fired')) {
    const runId = walk.holding(estimate.holdingId)?.runId
    const from = walk
      .at(entry, 'greenware', 'gave')
      .find((one) => walk.holding(one)?.runId === runId)
    const label = `The fired pots of ${entry.day} (${nameOf(walk, estimate.holdingId)})`
    tellFlow(walk, entry, {
      ...{ estimate, from: from ?? null, to: estimate.holdingId, label, state: 'fired' },
      isUnread: estimate.method !== 'fired_weighing',
    })
  }
}

/** Two clays met in a vessel on purpose: what was in it became the blend. */
function tellBlending(walk: BalanceWalk, entry: BookedEntry): void {
  const goals = [...walk.at(entry, 'scrap', 'got'), ...walk.at(entry, 'basin', 'got')]
  for (const to of goals) {
    const vesselId = walk.holding(to)?.vesselId
    for (const { holdingId, dryGrams } of entry.lines) {
      const isThere = walk.holding(holdingId)?.vesselId === vesselId && holdingId !== to
      if (!isThere || !dryGrams.lessThan(0) || walk.hasLeft(holdingId)) continue
      moveAll(walk, entry, { from: holdingId, to })
    }
  }
}
