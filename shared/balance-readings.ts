import type { BookedEntry, BookedEstimate, BookedWeighing } from './balance-book.ts'
import type { BalanceWalk, MadeReading } from './balance-walk.ts'
import { keepUnnamed, partsKept } from './balance-kept.ts'
import { absolute, relative, waterParts, type Parts, type ReadingAsked } from './balance-water.ts'
import { decimal, ONE, toLedgerScale, type Decimal } from './decimal.ts'
import { standardUncertaintyOfDoubt, type Doubt } from './doubt.ts'
import type { Asking, FlowReading } from './month-network.ts'
import { knownMistakes } from './reading-mistakes.ts'
import { labelUncertaintyGrams } from './reading.ts'
import { doubtOfMass, doubtOfWater } from './water-doubt.ts'
import { SURE } from './wetness.ts'

/** Clay sticks to whatever it is weighed in: no dry mass is surer. Our choice. */
const STICKS_GRAMS = 1
/** A mistake is a tare, a unit or a digit: seldom less than this, however light the load. Our choice. */
const MISTAKE_GRAMS = 300
const MISTAKE_UNCERTAINTIES = 10
/** No two handfuls of one clay are equally wet: so much of the wet mass, whatever the figure. Our choice. */
const UNEVEN_WATER = 0.001
/** What stayed on hands and flew past the bucket before the month, of pots' clay. Our choice, after the worked day. */
const UNSEEN_OF_POTS = 0.005
/** A ball is cut to within one per cent of what it is to weigh. Our choice. */
const BALL_HALF_WIDTH = 0.01
/** What a body is said to lose in the fire is good to half a per cent of its dry mass. Our choice. */
const FIRE_UNCERTAINTY = 0.005
/** Bags of one delivery differ as labels do: so much of each. */
const BAG_UNCERTAINTY = labelUncertaintyGrams(ONE).toNumber()

/**
 * What an estimate says of a flow: how much, how unsure, and what it shares with other readings.
 *
 * Its water content is a figure that other readings may share; the scale's part is its own.
 *
 * Units: grams of dry clay; what came out of a fire is told as the dry clay that it was.
 * Source: GUM, JCGM 100:2008, 5.1.2 and 5.2 (from memory).
 */
export function madeReading(walk: BalanceWalk, asked: ReadingAsked): MadeReading {
  const { id, entry, estimate } = asked
  const weighings = weighingsOf(walk, entry, estimate)
  const dry = estimate.dryGrams.toNumber()
  const net = dry + estimate.waterGrams.toNumber()
  const dryFraction = net > 0 ? dry / net : 1
  const isLabel = weighings.some(({ kind }) => kind === 'label')
  const scale = dryFraction * Math.hypot(...weighings.map(scaleOf))
  const spread = isLabel ? bagSpread(dry, asked.count) : ballSpread(asked, weighings)
  const water = waterParts(walk, asked, { dry, net, scale })
  const parts = new Map([...water, ...(isLabel ? [labelPart(walk, asked, scale)] : [])])
  keepOrigin(walk, asked, { dryFraction, weighings })
  const isTold = weighings.length > 0 || water.size > 0
  const whole = isTold ? 0 : estimate.standardUncertaintyGrams.toNumber()
  const uneven = dryFraction < 1 ? UNEVEN_WATER * net : 0
  const own = Math.hypot(isLabel ? 0 : scale, spread, whole, uneven, STICKS_GRAMS)
  const isFired = walk.holding(estimate.holdingId)?.place === 'bisque'
  // A basin told by its volume was measured; nothing else is without a weigh-in.
  const isGuess = weighings.length === 0 && estimate.method !== 'slurry_density'
  const reading = readingFrom(dry, own, parts)
  return {
    reading: {
      ...(isFired ? asDry(walk, reading) : reading),
      ...(isGuess ? { isGuess } : {}),
      ...mistakesOf(walk, id),
    },
    wetness: relative(water, dry),
  }
}

/** A flow that nobody weighed and that is known within a factor of two. Units: grams. */
export function guessed(grams: number): MadeReading {
  const unsure = Math.hypot(grams / Math.sqrt(3), STICKS_GRAMS)
  return { reading: { ...readingFrom(grams, unsure, new Map()), isGuess: true }, wetness: SURE }
}

/** So much of a holding by the books' own water, weighed wet. Units: grams. */
export function shareReading(
  walk: BalanceWalk,
  asked: Omit<ReadingAsked, 'estimate' | 'state'> & {
    readonly weighing: BookedWeighing
    readonly dryGrams: number
    readonly outOf: string
  },
): MadeReading {
  const { id, weighing, dryGrams, outOf } = asked
  const net = weighing.netGrams.toNumber()
  const wetness = walk.wetness.of(outOf)
  const dryFraction = dryGrams / net
  const own = Math.hypot(dryFraction * scaleOf(weighing), UNEVEN_WATER * net, STICKS_GRAMS)
  keepOrigin(
    walk,
    { ...asked, estimate: { holdingId: outOf } },
    { dryFraction, weighings: [weighing] },
  )
  const reading = readingFrom(dryGrams, own, absolute(wetness, dryGrams))
  return { reading: { ...reading, ...mistakesOf(walk, id) }, wetness }
}

/** So many bags, each holding what its delivery held on average. Units: grams. */
export function bagReading(
  walk: BalanceWalk,
  asked: Omit<ReadingAsked, 'estimate' | 'state'> & { dryGrams: number; outOf: string },
): MadeReading {
  const { dryGrams, outOf, count } = asked
  const wetness = walk.wetness.of(outOf)
  const label = labelOf(outOf)
  const rested = walk.sources.has(label) ? [[label, BAG_UNCERTAINTY * dryGrams] as const] : []
  const parts = new Map([...absolute(wetness, dryGrams), ...rested])
  const own = Math.hypot(bagSpread(dryGrams, count), STICKS_GRAMS)
  keepOrigin(walk, { ...asked, estimate: { holdingId: outOf } }, { dryFraction: 1, weighings: [] })
  const asking = { verb: 'came to', question: 'were they counted right' }
  return { reading: { ...readingFrom(dryGrams, own, parts), asking }, wetness }
}

/**
 * What the books have of a holding when the month begins.
 *
 * It rests on the sources that the ledger keeps for it, under their own names: what two holdings share,
 * or a holding and a weigh-in of the month, they share here too. What labels say of bags goes by the
 * holding, as it does for bags that are opened by count.
 *
 * Units: grams. Source: as `doubtOfSum`.
 */
export function openingReading(
  walk: BalanceWalk,
  held: {
    holdingId: string
    dryGrams: Decimal
    dryDoubt: Doubt
    name: string
  },
): MadeReading {
  const dry = held.dryGrams.toNumber()
  const ofWater = doubtOfWater(held.dryDoubt)
  const ofMass = doubtOfMass(held.dryDoubt)
  const isBags = walk.holding(held.holdingId)?.place === 'store'
  const wetness = relative(partsKept(ofWater), dry)
  for (const source of isBags ? ofWater.keys() : held.dryDoubt.keys()) keepUnnamed(walk, source)
  const asking = openingAsking(held.name, isBags)
  const mass = isBags
    ? [openingLabel(walk, held, standardUncertaintyOfDoubt(ofMass).toNumber())]
    : partsKept(ofMass)
  const own = openingOwn(walk, held.holdingId, dry)
  const reading = readingFrom(dry, own, new Map([...partsKept(ofWater), ...mass]))
  const isFired = walk.holding(held.holdingId)?.place === 'bisque'
  return { reading: { ...(isFired ? asDry(walk, reading) : reading), asking }, wetness }
}

/** What the ledger does not keep: that clay is uneven, and of pots what went lost unseen before. */
function openingOwn(walk: BalanceWalk, holdingId: string, dry: number): number {
  const place = walk.holding(holdingId)?.place
  const unseen = place === 'greenware' || place === 'bisque' ? UNSEEN_OF_POTS * dry : 0
  return Math.hypot(STICKS_GRAMS, UNEVEN_WATER * dry, unseen)
}

/** A comma within a name reads as the sentence's own: what stands after it goes in brackets. */
function openingAsking(name: string, isBags: boolean): Asking {
  return {
    ...{ verb: 'came to', beganWith: name.replace(/, ([^,]+)$/, ' ($1)') },
    question: isBags ? 'was a bag used that nobody wrote down' : 'was as much there',
    questionIfLess: isBags ? 'was a bag there that nobody wrote down' : 'was more there',
  }
}

/** The source under which a label's doubt goes by the holding of its bags. */
function labelOf(holdingId: string): string {
  return `label of ${holdingId}`
}

function openingLabel(
  walk: BalanceWalk,
  { holdingId, name }: { holdingId: string; name: string },
  grams: number,
): readonly [string, number] {
  const source = labelOf(holdingId)
  walk.sources.set(source, { label: `What the labels say of ${name}`, entryId: null, state: null })
  return [source, grams]
}

function labelPart(
  walk: BalanceWalk,
  asked: ReadingAsked,
  grams: number,
): readonly [string, number] {
  const source = labelOf(asked.estimate.holdingId)
  const label = `What the labels say of ${walk.holding(asked.estimate.holdingId)?.name ?? 'bags'}`
  walk.sources.set(source, { label, entryId: asked.entry.entryId, state: null })
  return [source, grams]
}

/** The two weigh-ins of a difference, or the one. */
function weighingsOf(walk: BalanceWalk, entry: BookedEntry, estimate: BookedEstimate) {
  const weighing = walk.weighingOf(entry, estimate)
  if (weighing === undefined) return []
  if (weighing.purpose !== 'after') return [weighing]
  return entry.weighings.filter(({ purpose }) => purpose === 'before' || purpose === 'after')
}

function scaleOf({ standardUncertaintyGrams }: BookedWeighing): number {
  return standardUncertaintyGrams.toNumber()
}

function bagSpread(dry: number, count: number | null | undefined): number {
  return (BAG_UNCERTAINTY * dry) / Math.sqrt(Math.max(1, count ?? 1))
}

function ballSpread({ count, estimate }: ReadingAsked, weighings: readonly BookedWeighing[]) {
  const isBalls = weighings.some(({ purpose }) => purpose.endsWith('ballMass'))
  if (!isBalls) return 0
  const each = (BALL_HALF_WIDTH / Math.sqrt(3)) * estimate.dryGrams.toNumber()
  return each / Math.sqrt(Math.max(1, count ?? 1))
}

function keepOrigin(
  walk: BalanceWalk,
  asked: { id: string; entry: BookedEntry; estimate: { holdingId: string } },
  read: { dryFraction: number; weighings: readonly BookedWeighing[] },
): void {
  const { holdingId } = asked.estimate
  const weighing = read.weighings.length === 1 ? (read.weighings[0] ?? null) : null
  walk.origins.set(asked.id, {
    entryId: asked.entry.entryId,
    holdingId,
    weighing,
    dryFraction: read.dryFraction,
    mistakes: weighing === null ? [] : mistakesAround(walk, asked, weighing),
  })
}

function mistakesAround(
  { book }: BalanceWalk,
  asked: { entry: BookedEntry; estimate: { holdingId: string } },
  weighing: BookedWeighing,
) {
  const vesselId =
    weighing.vesselId ??
    book.holdings.find((one) => one.holdingId === asked.estimate.holdingId)?.vesselId
  return knownMistakes(weighing, {
    vessel: book.vessels.find(({ id }) => id === vesselId),
    vessels: book.vessels,
    bats: book.bats.filter(({ id }) => asked.entry.batIds.includes(id)),
  })
}

function mistakesOf(walk: BalanceWalk, id: string): Pick<FlowReading, 'mistakes'> {
  const origin = walk.origins.get(id)
  if (origin === undefined || origin.mistakes.length === 0) return {}
  return {
    mistakes: origin.mistakes.map(({ words, wetGrams }) => ({
      words,
      dryGrams: toLedgerScale(wetGrams.times(origin.dryFraction)),
    })),
  }
}

function readingFrom(dry: number, own: number, parts: Parts): Omit<FlowReading, 'id' | 'label'> {
  const all = [...parts].filter(([, grams]) => grams !== 0)
  const unsure = Math.hypot(own, ...all.map(([, part]) => part))
  return {
    dryGrams: grams(dry),
    standardUncertaintyGrams: grams(unsure),
    expectedMistakeGrams: grams(Math.max(MISTAKE_GRAMS, MISTAKE_UNCERTAINTIES * unsure)),
    sources: all.map(([sourceId, part]) => ({ sourceId, contributionGrams: grams(part) })),
  }
}

/** Fired clay as the dry clay that it was, which all firings of a body lose by one figure. */
function asDry(
  walk: BalanceWalk,
  reading: Omit<FlowReading, 'id' | 'label'>,
): Omit<FlowReading, 'id' | 'label'> {
  const kept = decimal(1).minus(walk.book.lossOnIgnitionFraction)
  const dryGrams = toLedgerScale((reading.dryGrams ?? decimal(0)).dividedBy(kept))
  const byFire = toLedgerScale(dryGrams.times(FIRE_UNCERTAINTY).dividedBy(kept))
  const before = reading.standardUncertaintyGrams.dividedBy(kept)
  walk.sources.set('fire', {
    label: 'The loss on ignition of this clay',
    ...{ entryId: null, state: null },
  })
  return {
    ...reading,
    dryGrams,
    standardUncertaintyGrams: toLedgerScale(before.pow(2).plus(byFire.pow(2)).sqrt()),
    sources: [
      ...(reading.sources ?? []).map(({ sourceId, contributionGrams }) => ({
        sourceId,
        contributionGrams: toLedgerScale(contributionGrams.dividedBy(kept)),
      })),
      { sourceId: 'fire', contributionGrams: byFire },
    ],
  }
}

function grams(value: number): Decimal {
  return toLedgerScale(decimal(value))
}
