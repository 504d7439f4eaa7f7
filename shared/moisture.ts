import { decimal, Decimal, ONE, ZERO } from './decimal.ts'
import { percentWords } from './percent.ts'

export const CLAY_STATES = [
  'as_delivered',
  'wedged',
  'off_cuts',
  'slops',
  'throwing_water',
  'leather_hard',
  'turnings',
  'air_dry',
  'slurry',
] as const
export type ClayState = (typeof CLAY_STATES)[number]

/** How well a figure is known: weighed here, worked out from what was weighed here, or taken on trust. */
export type Standing = 'measured' | 'estimated' | 'assumed'

export interface MoistureTest {
  readonly waterContentWetBasis: Decimal
  readonly standardUncertainty: Decimal
}

export interface DefaultMoisture extends MoistureTest {
  readonly source: string
}

/**
 * The water to reckon with in clay that was not tested itself.
 *
 * It is unsure in two ways. What this studio's clay holds on the whole is not known for certain, and is
 * the same mistake in every weigh-in that was reckoned with it. And no two batches are alike, which is a
 * mistake of each by itself.
 */
export interface MoistureFigure extends MoistureTest {
  /** Of the studio's clay on the whole: shared by all that use the figure. */
  readonly sharedUncertainty: Decimal
  /** Of one batch against the whole. */
  readonly betweenBatches: Decimal
  /** What was believed before any test. */
  readonly prior: MoistureTest
  readonly standing: Standing
  readonly method: 'studio_tests' | 'body_figure' | 'default_for_state'
  readonly tests: number
  /** How much of the figure is the tests' word, the rest being what was believed before. 0 to 1. */
  readonly weightOfTests: Decimal
}

const SEEN = 'trade range, seen in public sources'
const FROM_PRACTICE = 'common practice, no source'

/**
 * What a clay holds in each state when nobody has measured it.
 *
 * Units: fractions of the wet mass; the uncertainty is one standard deviation.
 * Source: the `source` of each row.
 */
export const DEFAULT_MOISTURE: Readonly<Record<ClayState, DefaultMoisture>> = {
  as_delivered: row('0.21', '0.02', SEEN),
  wedged: row('0.22', '0.015', FROM_PRACTICE),
  off_cuts: row('0.24', '0.015', FROM_PRACTICE),
  slops: row('0.60', '0.10', FROM_PRACTICE),
  throwing_water: row('0.93', '0.03', FROM_PRACTICE),
  leather_hard: row('0.17', '0.02', FROM_PRACTICE),
  turnings: row('0.15', '0.015', FROM_PRACTICE),
  air_dry: row('0.02', '0.01', FROM_PRACTICE),
  slurry: row('0.40', '0.04', SEEN),
}

/** Of what is believed of a clay, batches differ by half as much, as a deviation: a quarter of its variance. Our choice. */
export const BATCH_PART_OF_PRIOR = decimal('0.5')
/** Tests say how batches differ once there are some; the belief counts as so many of them. Our choice. */
const BELIEF_IN_TESTS = 5
/** No figure for a clay on the whole is surer than this before a test. Our choice. */
const SHARED_UNCERTAINTY_MIN = decimal('0.001')

/**
 * The best figure for the water in clay that was not tested itself.
 *
 * What is said of the body, or else the default for the state, is what is believed before any test.
 * Each test then pulls the figure towards what it found, by how sure it is of the studio's clay on the
 * whole: as unsure as it is itself and as batches differ. With few tests some of the belief is kept;
 * with many it is forgotten. The next batch differs from the figure as batches do, however many were
 * tested; how much that is, the tests tell too.
 *
 * Units: fractions of the wet mass; 60 digits.
 * Source: the normal mean with a normal prior, weights by inverse variance, and a variance with its own
 * prior: A. Gelman et al., Bayesian Data Analysis, sections 2.5 and 2.6 (from memory); that batches differ
 * by half of what is believed, and that this counts as five tests, is our choice.
 */
export function moistureFigure(known: {
  readonly state: ClayState
  readonly tests: readonly MoistureTest[]
  readonly bodyFigure: MoistureTest | undefined
}): MoistureFigure {
  const { state, tests, bodyFigure } = known
  const { waterContentWetBasis, standardUncertainty } = bodyFigure ?? DEFAULT_MOISTURE[state]
  const prior = { waterContentWetBasis, standardUncertainty }
  const betweenBatches = spreadOfBatches(standardUncertainty.times(BATCH_PART_OF_PRIOR), tests)
  const pooled = pooledMoisture(prior, { tests, betweenBatches })
  const taken = bodyFigure === undefined ? 'default_for_state' : 'body_figure'
  return {
    ...pooled,
    standardUncertainty: quadrature(pooled.sharedUncertainty, betweenBatches),
    betweenBatches,
    prior,
    standing: tests.length > 0 ? 'estimated' : 'assumed',
    method: tests.length > 0 ? 'studio_tests' : taken,
    tests: tests.length,
  }
}

/**
 * What a figure rests on, as a potter would say it.
 *
 * Units: none. Source: as `moistureFigure`.
 */
export function moistureWords(figure: MoistureFigure): string {
  if (figure.tests === 0) return 'Assumed: nobody has tested it here.'
  const tests = figure.tests === 1 ? 'one dry test' : `${String(figure.tests)} dry tests`
  const believed = percentWords(figure.prior.waterContentWetBasis)
  return `${percentWords(figure.weightOfTests, 0)} of it is the word of ${tests}; the rest is the ${believed} that was believed before.`
}

function pooledMoisture(
  prior: MoistureTest,
  known: { tests: readonly MoistureTest[]; betweenBatches: Decimal },
): Pick<MoistureFigure, 'waterContentWetBasis' | 'sharedUncertainty' | 'weightOfTests'> {
  const { tests, betweenBatches } = known
  const ofBatch = prior.standardUncertainty.times(BATCH_PART_OF_PRIOR)
  const ofPrior = prior.standardUncertainty.pow(2).minus(ofBatch.pow(2))
  const priorWeight = ONE.dividedBy(Decimal.max(ofPrior, SHARED_UNCERTAINTY_MIN.pow(2)))
  const weighed = tests.map(({ waterContentWetBasis, standardUncertainty }) => ({
    waterContentWetBasis,
    weight: ONE.dividedBy(standardUncertainty.pow(2).plus(betweenBatches.pow(2))),
  }))
  const testWeight = weighed.reduce((sum, { weight }) => sum.plus(weight), ZERO)
  const all = testWeight.plus(priorWeight)
  const pulled = weighed.reduce(
    (sum, { waterContentWetBasis, weight }) => sum.plus(waterContentWetBasis.times(weight)),
    prior.waterContentWetBasis.times(priorWeight),
  )
  return {
    waterContentWetBasis: pulled.dividedBy(all),
    sharedUncertainty: ONE.dividedBy(all).sqrt(),
    weightOfTests: testWeight.dividedBy(all),
  }
}

/** How batches differ: as was believed, or as the tests show, by how many there are. */
function spreadOfBatches(believed: Decimal, tests: readonly MoistureTest[]): Decimal {
  if (tests.length < 2) return believed
  const sum = tests.reduce((total, test) => total.plus(test.waterContentWetBasis), ZERO)
  const mean = sum.dividedBy(tests.length)
  const squares = tests.reduce(
    (total, test) => total.plus(test.waterContentWetBasis.minus(mean).pow(2)),
    believed.pow(2).times(BELIEF_IN_TESTS),
  )
  return squares.dividedBy(BELIEF_IN_TESTS + tests.length - 1).sqrt()
}

function quadrature(one: Decimal, other: Decimal): Decimal {
  return one.pow(2).plus(other.pow(2)).sqrt()
}

function row(centre: string, standardUncertainty: string, source: string): DefaultMoisture {
  return {
    waterContentWetBasis: decimal(centre),
    standardUncertainty: decimal(standardUncertainty),
    source,
  }
}
