import { assert } from './assert.ts'
import { ZERO, type Decimal } from './decimal.ts'
import { shareOut } from './money.ts'
import { RECLAIM_WAYS, type ReclaimWay } from './reclaim-worth.ts'

/** An act of reclaim, as far as it was about one clay. */
export interface ReclaimAct {
  readonly bodyId: string
  /** As far as it says one: lifting and wedging may. */
  readonly way: ReclaimWay | null
  /** How long hands were at it; null where nobody told. */
  readonly minutes: Decimal | null
  readonly reclaimedDryGrams: Decimal
}

/** How many acts there were and how many of them told no minutes. */
export interface ActsCounted {
  readonly acts: number
  readonly actsUntold: number
}

export interface WayReclaimed extends ActsCounted {
  /** Null where nobody said. */
  readonly way: ReclaimWay | null
  readonly reclaimedDryGrams: Decimal
  /** Its own, and its share of those of no way. */
  readonly minutes: Decimal
}

export interface BodyReclaimed extends ActsCounted {
  readonly bodyId: string
  readonly reclaimedDryGrams: Decimal
  readonly minutes: Decimal
  /** Of acts that say no way and gave no clay yet, as slaking and pouring: shared among the ways. */
  readonly minutesShared: Decimal
  readonly ways: readonly WayReclaimed[]
}

/**
 * What was reclaimed of each clay in each way, and in how many minutes.
 *
 * Minutes of acts that say no way and by which no clay came back, as slaking and pouring, are shared among
 * the ways of the same clay by the dry clay that came back in each; where none did yet, they stand where
 * no way is said.
 *
 * Shape: clays in the order in which they come; of each, by hand, by mill, not said, as far as they were.
 * Units: dry grams; minutes at ledger scale, whose parts sum to the whole exactly.
 * Source: our choice; shares by `shareOut`.
 */
export function reclaimTold(acts: readonly ReclaimAct[]): BodyReclaimed[] {
  const bodyIds = [...new Set(acts.map(({ bodyId }) => bodyId))]
  return bodyIds.map((bodyId) => bodyTold(bodyId, actsOf(acts, bodyId)))
}

function actsOf(acts: readonly ReclaimAct[], bodyId: string): ReclaimAct[] {
  return acts.filter((act) => act.bodyId === bodyId)
}

function bodyTold(bodyId: string, acts: readonly ReclaimAct[]): BodyReclaimed {
  const minutesShared = minutesOf(acts.filter(isOfNoWay))
  const own = [...RECLAIM_WAYS, null].map((way) => wayTold(way, acts))
  const weights = own.map(({ reclaimedDryGrams }) => reclaimedDryGrams)
  const isNoneBack = weights.every((weight) => weight.isZero())
  const shares = isNoneBack ? [ZERO, ZERO, minutesShared] : shareOut(minutesShared, weights)
  const ways = own.map((one, index) => ({
    ...one,
    minutes: one.minutes.plus(shares[index] ?? ZERO),
  }))
  return {
    bodyId,
    ...counted(acts),
    reclaimedDryGrams: clayOf(acts),
    minutes: minutesOf(acts),
    minutesShared,
    ways: ways.filter(
      ({ acts: some, minutes, reclaimedDryGrams }) =>
        some > 0 || minutes.greaterThan(0) || reclaimedDryGrams.greaterThan(0),
    ),
  }
}

function wayTold(way: ReclaimWay | null, all: readonly ReclaimAct[]): WayReclaimed {
  const acts = all.filter((act) => !isOfNoWay(act) && act.way === way)
  return { way, ...counted(acts), reclaimedDryGrams: clayOf(acts), minutes: minutesOf(acts) }
}

function isOfNoWay({ way, reclaimedDryGrams }: ReclaimAct): boolean {
  return way === null && reclaimedDryGrams.isZero()
}

function counted(acts: readonly ReclaimAct[]): ActsCounted {
  return {
    acts: acts.length,
    actsUntold: acts.filter(({ minutes }) => minutes === null).length,
  }
}

function minutesOf(acts: readonly ReclaimAct[]): Decimal {
  return acts.reduce((sum, { minutes }) => sum.plus(minutes ?? ZERO), ZERO)
}

function clayOf(acts: readonly ReclaimAct[]): Decimal {
  return acts.reduce((sum, { reclaimedDryGrams }) => sum.plus(reclaimedDryGrams), ZERO)
}

/**
 * Of how many acts the minutes were told, in words.
 *
 * Units: none. Source: our choice.
 */
export function untoldMinutesWords({ acts, actsUntold }: ActsCounted): string {
  assert(actsUntold <= acts, 'no more are untold than there were')
  if (acts === 0) return 'Nothing was done for it in this time.'
  if (actsUntold === acts) {
    return 'No minutes were told, so that nobody can say what an hour of it is worth.'
  }
  if (actsUntold === 0) {
    return acts === 1
      ? 'Its minutes were told.'
      : `Minutes were told each time, ${String(acts)} times in all.`
  }
  return `Minutes were told ${timesWords(acts - actsUntold)} of ${String(acts)}. The rest took time too, so that an hour is worth less than is said here.`
}

function timesWords(times: number): string {
  return times === 1 ? 'once out' : `${String(times)} times out`
}
