import { assert } from './assert.ts'
import { Decimal, decimal, ONE, toLedgerScale, ZERO } from './decimal.ts'
import { percentWords } from './percent.ts'

/** How the glaze of a glazing was found. */
export type GlazingHow = 'bucket' | 'pieces'

/** A glazing of one form that lies behind us. */
export interface PastGlazing {
  readonly pieces: Decimal
  /** Of all its pieces; of a bucket, what left it. */
  readonly dryGrams: Decimal
  readonly standardUncertaintyGrams: Decimal
  readonly how: GlazingHow
}

/** What somebody says of a form. */
export interface SaidPerPiece {
  readonly dryGramsPerPiece: Decimal
  /** Undefined where it was said without. */
  readonly standardUncertaintyGrams: Decimal | undefined
}

export interface GlazePerPiece {
  readonly dryGramsPerPiece: Decimal
  /** Of the form's mean. */
  readonly standardUncertaintyGrams: Decimal
  /** By how much one glazing differs from another. */
  readonly betweenGlazingsGrams: Decimal
  /** Of what the next glazing will show: the two together. */
  readonly nextUncertaintyGrams: Decimal
  readonly glazings: number
  /** How much of the mean is the word of the glazings, from 0 to 1; the rest was said. */
  readonly weightOfGlazings: Decimal
  readonly words: string
}

/** What is said without a give or take is held to be within a quarter of itself. Our choice. */
const SAID_UNCERTAINTY_FRACTION = decimal('0.25')
/** Glazings of a form differ by so much before they show by how much: hand, thickness, porosity. Our choice. */
const BETWEEN_FRACTION = decimal('0.15')
/** That belief counts as so many glazings. Our choice. */
const BELIEF_IN_GLAZINGS = 5

interface Reading {
  readonly perPiece: Decimal
  readonly variance: Decimal
}

/**
 * The dry glaze that a piece of a form takes, learned from its past glazings and drawn towards what was said.
 *
 * Each glazing pulls by how sure it is of the form on the whole: as unsure as its readings are, and as one
 * glazing differs from another. How much that is, the glazings tell too, once there are some. With few of
 * them what was said is kept for a good part; with many it is forgotten. What left a bucket is more than
 * what is on the pots, by what is carried off.
 *
 * Shape: glazings with pieces; undefined where there is none and nothing was said.
 * Units: grams of dry glaze a piece at ledger scale; `carriedOffFraction` is of what is on the pots, and zero
 * where the books have already told what the wash bucket got.
 * Source: the normal mean with a normal prior, weights by inverse variance: A. Gelman et al., Bayesian Data
 * Analysis, section 2.5 (from memory); the spread between glazings as that between batches in
 * `moistureFigure`, each reading counted by how sure it is (R. T. Birge, Phys. Rev. 40 (1932), 207-227; from memory).
 */
export function glazePerPiece(known: {
  readonly glazings: readonly PastGlazing[]
  readonly said: SaidPerPiece | undefined
  readonly carriedOffFraction: Decimal
}): GlazePerPiece | undefined {
  const { glazings, said } = known
  const readings = glazings.map((one) => readingOf(one, known.carriedOffFraction))
  const usual = said?.dryGramsPerPiece ?? meanOf(readings)
  if (usual === undefined) return undefined
  const between = spreadOfGlazings(readings, usual.abs().times(BETWEEN_FRACTION))
  const pulls = readings.map(({ perPiece, variance }) => ({
    perPiece,
    weight: weightOf(variance.plus(between.pow(2))),
  }))
  const ofGlazings = pulls.reduce((sum, { weight }) => sum.plus(weight), ZERO)
  const ofSaid = said === undefined ? ZERO : weightOf(saidUncertainty(said).pow(2))
  const all = ofGlazings.plus(ofSaid)
  const pulled = pulls.reduce(
    (sum, { perPiece, weight }) => sum.plus(perPiece.times(weight)),
    usual.times(ofSaid),
  )
  const variance = ONE.dividedBy(all)
  const weightOfGlazings = ofGlazings.dividedBy(all)
  return {
    dryGramsPerPiece: toLedgerScale(pulled.dividedBy(all)),
    standardUncertaintyGrams: toLedgerScale(variance.sqrt()),
    betweenGlazingsGrams: toLedgerScale(between),
    nextUncertaintyGrams: toLedgerScale(variance.plus(between.pow(2)).sqrt()),
    glazings: glazings.length,
    weightOfGlazings,
    words: wordsOf(glazings, said, weightOfGlazings),
  }
}

function readingOf(glazing: PastGlazing, carriedOffFraction: Decimal): Reading {
  const { pieces, dryGrams, standardUncertaintyGrams, how } = glazing
  assert(pieces.greaterThan(0), 'a glazing has pieces')
  const share = how === 'bucket' ? pieces.times(ONE.plus(carriedOffFraction)) : pieces
  return {
    perPiece: dryGrams.dividedBy(share),
    variance: standardUncertaintyGrams.dividedBy(share).pow(2),
  }
}

function meanOf(readings: readonly Reading[]): Decimal | undefined {
  if (readings.length === 0) return undefined
  return readings.reduce((sum, { perPiece }) => sum.plus(perPiece), ZERO).dividedBy(readings.length)
}

/** How glazings differ: as was believed, or as they show, by how many and how sure they are. */
function spreadOfGlazings(readings: readonly Reading[], believed: Decimal): Decimal {
  if (readings.length < 2) return believed
  const weighed = readings.map(({ perPiece, variance }) => ({
    perPiece,
    weight: weightOf(variance.plus(believed.pow(2))),
  }))
  const whole = weighed.reduce((sum, { weight }) => sum.plus(weight), ZERO)
  const centre = weighed
    .reduce((sum, { perPiece, weight }) => sum.plus(perPiece.times(weight)), ZERO)
    .dividedBy(whole)
  const apart = weighed.reduce(
    (sum, { perPiece, weight }) => sum.plus(perPiece.minus(centre).pow(2).times(weight)),
    decimal(BELIEF_IN_GLAZINGS),
  )
  return believed.times(apart.dividedBy(BELIEF_IN_GLAZINGS + readings.length - 1).sqrt())
}

/** No figure is surer than what the ledger keeps of it. */
const VARIANCE_MIN = decimal('1e-12')

function weightOf(variance: Decimal): Decimal {
  return ONE.dividedBy(Decimal.max(variance, VARIANCE_MIN))
}

function saidUncertainty({ dryGramsPerPiece, standardUncertaintyGrams }: SaidPerPiece): Decimal {
  return standardUncertaintyGrams ?? dryGramsPerPiece.abs().times(SAID_UNCERTAINTY_FRACTION)
}

function wordsOf(
  glazings: readonly PastGlazing[],
  said: SaidPerPiece | undefined,
  weightOfGlazings: Decimal,
): string {
  const saidGrams = said === undefined ? '' : `${toLedgerScale(said.dryGramsPerPiece).toFixed()} g`
  if (glazings.length === 0) return `Not yet glazed here: the ${saidGrams} that was said.`
  const count = glazings.length === 1 ? 'one glazing' : `${String(glazings.length)} glazings`
  const learned = `${count}, ${howWords(glazings)}`
  if (said === undefined) return `Learned from ${learned}.`
  return `${percentWords(weightOfGlazings, 0)} of it is the word of ${learned}; the rest is the ${saidGrams} that was said.`
}

function howWords(glazings: readonly PastGlazing[]): string {
  const byBucket = glazings.filter(({ how }) => how === 'bucket').length
  const byPieces = glazings.length - byBucket
  if (byPieces === 0) return 'read by the bucket'
  if (byBucket === 0) return 'read by weighing pots'
  return `${String(byBucket)} read by the bucket and ${String(byPieces)} by weighing pots`
}
