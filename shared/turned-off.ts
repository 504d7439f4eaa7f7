import { ONE, toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import { doubtOfMass } from './water-doubt.ts'
import { doubtBy, doubtOfSum, doubtTimes, standardUncertaintyOfDoubt } from './doubt.ts'
import { moistureSource, sourceOf } from './doubt-source.ts'
import { unsureQuotient, unsureSum, unsureTimes, type Unsure } from './how-sure.ts'
import type { ClayState, MoistureFigure } from './moisture.ts'
import type { ActKind } from './month-world.ts'

/** Clay that was weighed wet and reckoned dry with a figure: this studio's, its body's or the default. */
export interface ReckonedWithFigure {
  readonly bodyId: string
  readonly state: ClayState
  readonly wetGrams: Decimal
  readonly dryGrams: Decimal
  /** What it is reckoned with as far as one knows now. */
  readonly figureNow: MoistureFigure
}

/** What an entry did to the leather-hard pots of a run. */
export interface PotsMove {
  readonly entryId: string
  readonly kind: ActKind
  /** As it is on the books: plus what came, minus what went. */
  readonly dry: Unsure
  /** Null where its water was measured or said, or where the books do not rest on a figure. */
  readonly reckoned: ReckonedWithFigure | null
  /** Of a dry test: the state whose figure it set right. */
  readonly testedState: ClayState | null
}

/** What a run was turned from, and what came off it. */
export interface Turning {
  /** Of all its turnings together. */
  readonly turnedOff: Unsure
  /** What the run held just before it was first turned. */
  readonly before: Unsure
  /** Some of its turnings have a water content of their own, which was measured or said. */
  readonly hasOwnWater: boolean
}

export interface TurnedOffShare {
  readonly turnedOffFraction: Decimal
  /** Of the ratio: what makes the turnings and the pots unsure alike has cancelled. */
  readonly standardUncertainty: Decimal
}

/**
 * What was turned off a run and from what, all of it reckoned with the figures as they are known now.
 *
 * The books keep each turning as it was reckoned on its day. A dry test in between would set runs apart
 * that were turned alike, so what rests on a figure is reckoned again from its wet mass; corrections that
 * a test of the same state made in the books are left out, because they are in the figure. What was
 * measured or said stays.
 *
 * Shape: the entries of one run, oldest first; null where it was not turned. Units: grams of dry clay.
 * Source: dry = wet x (1 - water), as `dryMassFromWet`; doubts as `Doubt`.
 */
export function turningOf(moves: readonly PotsMove[]): Turning | null {
  const first = moves.findIndex(({ kind }) => kind === 'turn')
  if (first < 0) return null
  const turnings = moves.filter(({ kind }) => kind === 'turn')
  const earlier = moves.slice(0, first)
  const states = new Set(earlier.flatMap(({ reckoned }) => reckoned?.state ?? []))
  const counted = earlier.filter(
    ({ testedState }) => testedState === null || !states.has(testedState),
  )
  return {
    turnedOff: unsureTimes(unsureSum(turnings.map(reckonedNow)), ONE.negated()),
    before: unsureSum(counted.map(reckonedNow)),
    hasOwnWater: turnings.some(({ reckoned }) => reckoned === null),
  }
}

/**
 * What the dry clay of a run's pots is as one knows now, over what the books had of it before the fire.
 *
 * Pots are what is left when slops and turnings are off them, so a figure for the water of these is in
 * their mass too. Pots that were lost or fired took their part along, and change nothing in the ratio.
 *
 * Shape: as `turningOf`. Units: a ratio, one where nothing was reckoned with a figure.
 * Source: as `turningOf`.
 */
export function potsOverBooked(moves: readonly PotsMove[]): Decimal {
  const states = new Set(moves.flatMap(({ reckoned }) => reckoned?.state ?? []))
  const stayed = moves.filter(({ kind }) => kind !== 'lose' && kind !== 'bisque')
  const known = stayed.filter(({ testedState }) => testedState === null || !states.has(testedState))
  const booked = unsureSum(stayed.map(({ dry }) => dry)).amount
  const now = unsureSum(known.map(reckonedNow)).amount
  return booked.greaterThan(ZERO) && now.greaterThan(ZERO) ? now.dividedBy(booked) : ONE
}

/** What an entry did, with the water of its clay as it is known now. */
function reckonedNow({ entryId, dry, reckoned }: PotsMove): Unsure {
  if (reckoned === null) return dry
  const { bodyId, state, wetGrams, dryGrams, figureNow } = reckoned
  if (dryGrams.isZero() || wetGrams.isZero()) return dry
  const dryFraction = ONE.minus(figureNow.waterContentWetBasis)
  // Of slops that are of several runs a run has a part.
  const wet = dry.amount.times(wetGrams).dividedBy(dryGrams)
  const amount = toLedgerScale(wet.times(dryFraction))
  const mass = doubtOfMass(dry.doubt)
  const wrong = wet.negated()
  return {
    amount,
    doubt: doubtOfSum([
      dry.amount.isZero() ? mass : doubtTimes(mass, amount.dividedBy(dry.amount)),
      doubtBy(
        moistureSource({ bodyId, state, prior: figureNow.prior }),
        wrong.times(figureNow.sharedUncertainty),
      ),
      doubtBy(sourceOf('batch', entryId), wrong.times(figureNow.betweenBatches)),
    ]),
  }
}

/**
 * The share of a run's dry clay that was turned off it: dry turnings over dry pots before turning.
 *
 * Null where the books held less before than came off, which says that they were told in another order
 * than it happened in.
 *
 * Units: grams, to fractions at six digits.
 * Source: the definition of a share; its uncertainty as `unsureQuotient`.
 */
export function turnedOffShare({ turnedOff, before }: Turning): TurnedOffShare | null {
  const isTold = before.amount.greaterThan(ZERO) && turnedOff.amount.lessThan(before.amount)
  if (!isTold || turnedOff.amount.lessThan(0)) return null
  const share = unsureQuotient(turnedOff, before)
  return {
    turnedOffFraction: toLedgerScale(share.amount),
    standardUncertainty: standardUncertaintyOfDoubt(share.doubt),
  }
}

/**
 * With which water the turnings of a chart were reckoned, and what to mind where not all alike.
 *
 * Units: none, runs counted. Source: as `turningOf`.
 */
export function waterWords(turnings: readonly Pick<Turning, 'hasOwnWater'>[]): string {
  const own = turnings.filter(({ hasOwnWater }) => hasOwnWater).length
  const byFigure = turnings.length - own
  if (turnings.length === 0) return 'No run has been turned yet.'
  if (own === 0) return 'All turnings are reckoned with the water figure as it is known now.'
  if (byFigure === 0) return 'The turnings of all runs have water contents of their own.'
  return `The turnings of ${own} of ${turnings.length} runs have water contents of their own, and the other ${byFigure} are reckoned with the figure as it is known now: a step between the two may be water and not turning.`
}
