import { Decimal, toLedgerScale, ZERO } from './decimal.ts'
import {
  gramsAsItIsNow,
  hoursBetween,
  type LoadHistory,
  type PlasterReading,
} from './plaster-history.ts'
import { wentDoubt, type BatRead, type WentDoubt } from './plaster-doubt.ts'
import { batThirst, whereWaterWent, type BatThirst } from './plaster.ts'
import { Refusal } from './refusal.ts'

/** How a bat's mass is known. */
export type BatStanding = 'weighed_alone' | 'pair_less_slab' | 'at_most' | 'not_known'

/** What a bat holds, as well as it is known. */
export interface BatFigures {
  readonly standing: BatStanding
  readonly at: Date | undefined
  readonly dryGrams: Decimal | undefined
  readonly nowGrams: Decimal | undefined
  /** The least that it can weigh; absent where it was weighed, or is not known. */
  readonly leastGrams?: Decimal
  readonly thirst: BatThirst | undefined
  readonly words: string
}

/** Where the water of a slab went, between laying it and weighing it. */
export interface WaterWent {
  readonly at: Date
  readonly leftGrams: Decimal
  readonly drunkGrams: Decimal
  readonly evaporatedGrams: Decimal
  /** One standard uncertainty of each. */
  readonly doubt: WentDoubt
}

interface BatMass {
  readonly at: Date
  readonly grams: Decimal
  readonly standardUncertaintyGrams: Decimal
  readonly standing: 'weighed_alone' | 'pair_less_slab'
  readonly read: BatRead
}

/** Weighings so close belong together. Our choice: lifting and weighing takes some minutes. */
const TOGETHER_HOURS = 0.5
/** A bat this many standard uncertainties below its dry mass is taken for dry. Our choice. */
const LEEWAY = 4
/** A weighing holds until the slab has lost so much more, of the bat's dry mass. Our choice. */
const SOON_FRACTION = '0.01'

/**
 * What the bat of a load holds, best first: weighed alone; weighed with its slab, less the slab; or,
 * where nobody weighed it, at most all that the slab has lost, and at least nothing. Of what the slab
 * has lost since the bat was weighed it drank at most all, and at least nothing.
 *
 * Units: grams. Source: mass balance; the order is our choice.
 */
export function batOfLoad(history: LoadHistory, slabNowGrams: Decimal | undefined): BatFigures {
  const { batDryGrams: dryGrams } = history
  const mass = batMasses(history).at(-1)
  if (dryGrams === undefined) {
    return notKnown(undefined, 'What the bat weighs dry is not entered: weigh it dry and enter it.')
  }
  if (mass !== undefined) {
    const lost = lostSince(history, mass, slabNowGrams)
    return lost.greaterThan(dryGrams.times(SOON_FRACTION))
      ? drunkSince(dryGrams, mass, lost)
      : weighedBat(dryGrams, mass)
  }
  if (slabNowGrams === undefined || history.laid === undefined) {
    return notKnown(dryGrams, 'The bat was not weighed since this slab was laid on it.')
  }
  const leftGrams = Decimal.max(history.laid.grams.minus(slabNowGrams), 0)
  const nowGrams = toLedgerScale(dryGrams.plus(leftGrams))
  return {
    standing: 'at_most',
    at: undefined,
    dryGrams,
    nowGrams,
    leastGrams: dryGrams,
    thirst: batThirst({ dryGrams, nowGrams, leastGrams: dryGrams }),
    words:
      'The bat was not weighed: it holds at most what the slab has lost, if it was dry when the slab was laid on it.',
  }
}

/** What the slab has lost since bat and slab were weighed; nothing where that is not known. */
function lostSince(history: LoadHistory, mass: BatMass, slabNowGrams: Decimal | undefined) {
  const slab = nearest(history.slabs, mass.at)
  if (slab === undefined || slabNowGrams === undefined) return ZERO
  return Decimal.max(gramsAsItIsNow(history, slab).minus(slabNowGrams), 0)
}

/** A bat that may have drunk on since it was weighed: at most all that the slab has lost since. */
function drunkSince(dryGrams: Decimal, mass: BatMass, lostGrams: Decimal): BatFigures {
  const weighed = weighedBat(dryGrams, mass)
  // A bat that contradicts its dry mass says nothing, and neither does what was added to it since.
  if (weighed.thirst === undefined) return weighed
  const leastGrams = massOrDry(dryGrams, mass)
  const nowGrams = leastGrams.plus(lostGrams).toDecimalPlaces(1)
  return {
    standing: 'at_most',
    at: mass.at,
    dryGrams,
    nowGrams,
    leastGrams,
    thirst: batThirst({ dryGrams, nowGrams, leastGrams }),
    words: `When it was weighed the bat held ${weighed.thirst.holdsGrams.toFixed(0)} g; since then the slab has lost ${lostGrams.toFixed(0)} g more, which went into the bat or the air.`,
  }
}

/** What a bat weighed, or its dry mass where it weighed less by no more than the scale leaves open. */
function massOrDry(dryGrams: Decimal, mass: BatMass): Decimal {
  const short = dryGrams.minus(mass.grams)
  const leeway = mass.standardUncertaintyGrams.times(LEEWAY)
  return short.greaterThan(0) && short.lessThanOrEqualTo(leeway) ? dryGrams : mass.grams
}

/**
 * What a bat held when it was weighed last.
 *
 * Units: grams. Source: mass balance.
 */
export function weighedBat(dryGrams: Decimal, mass: BatMass): BatFigures {
  const { at, standing } = mass
  const nowGrams = massOrDry(dryGrams, mass)
  const words =
    standing === 'weighed_alone'
      ? 'The bat was weighed alone.'
      : 'Bat and slab were weighed together, and the slab alone: the rest is the bat.'
  try {
    return { standing, at, dryGrams, nowGrams, thirst: batThirst({ dryGrams, nowGrams }), words }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return { standing, at, dryGrams, nowGrams, thirst: undefined, words: error.message }
  }
}

/**
 * Where the water went that had left a slab when slab and bat were both weighed last.
 *
 * Units: grams, exact. Source: as `whereWaterWent` and `wentDoubt`. Nothing where the two were never weighed at about
 * the same time, or contradict each other.
 */
export function waterWentOf(history: LoadHistory): WaterWent | undefined {
  const { laid, batDryGrams: dryGrams } = history
  if (laid === undefined || dryGrams === undefined || history.partings.length > 0) return undefined
  const both = batMasses(history)
    .toReversed()
    .flatMap((mass) => {
      const slab = nearest(history.slabs, mass.at)
      return slab === undefined ? [] : [{ mass, slab }]
    })[0]
  if (both === undefined) return undefined
  try {
    const went = whereWaterWent({
      pouredGrams: laid.grams,
      slabGrams: both.slab.grams,
      bat: { dryGrams, nowGrams: massOrDry(dryGrams, both.mass) },
    })
    const doubt = wentDoubt({ laid, slab: both.slab, bat: both.mass.read })
    return { at: both.mass.at, ...went, doubt }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return undefined
  }
}

/** All that tells what the bat weighed, the oldest first; of one moment, the bat alone goes last. */
function batMasses(history: LoadHistory): BatMass[] {
  const alone = history.bats.map((bat): BatMass => ({
    ...bat,
    standing: 'weighed_alone',
    read: { kind: 'alone', bat },
  }))
  const lessSlab = history.pairs.flatMap((pair): BatMass[] => {
    const slab = nearest(history.slabs, pair.at)
    if (slab === undefined) return []
    return [
      {
        at: pair.at,
        grams: pair.grams.minus(slab.grams),
        standardUncertaintyGrams: pair.standardUncertaintyGrams.plus(slab.standardUncertaintyGrams),
        standing: 'pair_less_slab',
        read: { kind: 'pair_less_slab', pair },
      },
    ]
  })
  return [...lessSlab, ...alone].sort((one, other) => one.at.getTime() - other.at.getTime())
}

function nearest(readings: readonly PlasterReading[], at: Date): PlasterReading | undefined {
  const away = (reading: PlasterReading) => Math.abs(hoursBetween(at, reading.at))
  return readings
    .filter((reading) => away(reading) <= TOGETHER_HOURS)
    .toSorted((one, other) => away(one) - away(other))[0]
}

function notKnown(dryGrams: Decimal | undefined, words: string): BatFigures {
  return {
    standing: 'not_known',
    at: undefined,
    dryGrams,
    nowGrams: undefined,
    thirst: undefined,
    words,
  }
}

/** A bat that carries nothing. */
export interface RestingBat {
  /** As it was when its last load left it, or was weighed last before. */
  readonly figures: BatFigures
  /** When its last load left it; absent where nothing ever lay on it. */
  readonly emptySince: Date | undefined
}

/**
 * What an empty bat held when its last load left it; since then it dries.
 *
 * Shape: the loads that ever lay on it, the oldest first. Units: grams. Source: as `batOfLoad`.
 */
export function restingBat(
  loads: readonly LoadHistory[],
  dryGrams: Decimal | undefined,
): RestingBat {
  const last = loads.reduce<LoadHistory | undefined>(
    (latest, one) => (endOf(one) >= endOf(latest) ? one : latest),
    undefined,
  )
  if (last === undefined) {
    const words = 'By the books nothing has lain on it yet.'
    return { figures: notKnown(dryGrams, words), emptySince: undefined }
  }
  const figures = batOfLoad({ ...last, batDryGrams: dryGrams }, last.slabs.at(-1)?.grams)
  const emptySince = last.endedAt
  if (figures.standing === 'weighed_alone' || figures.standing === 'pair_less_slab') {
    const words = `${figures.words} It dries since it was emptied.`
    return { figures: { ...figures, words }, emptySince }
  }
  const drank =
    figures.thirst === undefined
      ? ''
      : ` It drank at most ${figures.thirst.holdsGrams.toFixed(0)} g.`
  const words = `Not weighed when its last load left it.${drank} Weigh it before it is used again.`
  return { figures: notKnown(dryGrams, words), emptySince }
}

function endOf(load: LoadHistory | undefined): number {
  return load?.endedAt?.getTime() ?? 0
}
