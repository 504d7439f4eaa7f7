import { ZERO, decimal } from './decimal.ts'
import type { Decimal } from './decimal.ts'

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

export interface MoistureFigure extends MoistureTest {
  readonly standing: Standing
  readonly method: 'studio_tests' | 'body_figure' | 'default_for_state'
  readonly tests: number
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

/** The standard deviation of water content from lot to lot of one clay in one state. Our choice. */
const BETWEEN_LOTS = decimal('0.01')

/**
 * The best figure for the water in clay that was not tested itself.
 *
 * This studio's own tests come first, then what is said of the body, then the default for the state.
 * The mean of the tests is uncertain by what each test leaves open and by how few lots were tested;
 * the next lot then differs from the mean by as much as lots do, however many were tested.
 *
 * Units: fractions of the wet mass; 60 digits.
 * Source: our choice, because the next lot is a new draw; the mean's uncertainty is GUM, JCGM
 * 100:2008, 4.2.3 (from memory), the spread between lots of 0.01 our own.
 */
export function moistureFigure(known: {
  readonly state: ClayState
  readonly tests: readonly MoistureTest[]
  readonly bodyFigure: MoistureTest | undefined
}): MoistureFigure {
  const { state, tests, bodyFigure } = known
  if (tests.length > 0) return meanOfTests(tests)
  const figure = bodyFigure ?? DEFAULT_MOISTURE[state]
  return {
    waterContentWetBasis: figure.waterContentWetBasis,
    standardUncertainty: figure.standardUncertainty,
    standing: 'assumed',
    method: bodyFigure === undefined ? 'default_for_state' : 'body_figure',
    tests: 0,
  }
}

function meanOfTests(tests: readonly MoistureTest[]): MoistureFigure {
  const count = tests.length
  const sum = tests.reduce((total, test) => total.plus(test.waterContentWetBasis), ZERO)
  const sumOfVariances = tests.reduce(
    (total, { standardUncertainty: one }) => total.plus(one.times(one)),
    ZERO,
  )
  return {
    waterContentWetBasis: sum.dividedBy(count),
    standardUncertainty: sumOfVariances
      .dividedBy(count * count)
      .plus(
        BETWEEN_LOTS.pow(2)
          .times(count + 1)
          .dividedBy(count),
      )
      .sqrt(),
    standing: 'estimated',
    method: 'studio_tests',
    tests: count,
  }
}

function row(centre: string, standardUncertainty: string, source: string): DefaultMoisture {
  return {
    waterContentWetBasis: decimal(centre),
    standardUncertainty: decimal(standardUncertainty),
    source,
  }
}
