import type { Decimal } from '../../shared/decimal.ts'
import {
  CLAY_STATES,
  DEFAULT_MOISTURE,
  moistureWords,
  type ClayState,
} from '../../shared/moisture.ts'
import type { Database } from '../connection.ts'
import { findBody } from '../studio.ts'
import { studioFigure, testsOf } from '../water-figures.ts'

/** What this studio reckons with for the water in a clay, state by state, and how well it knows it. */
export interface MoistureRow {
  readonly state: ClayState
  readonly waterContentWetBasis: string
  readonly standardUncertainty: string
  readonly standing: string
  readonly method: string
  readonly tests: number
  /** How much of the figure is the tests' word, 0 to 1; the rest is what was believed before. */
  readonly weightOfTests: string
  /** Of the clay on the whole, and of one batch against the whole: the two make up the first. */
  readonly sharedUncertainty: string
  readonly betweenBatches: string
  /** What the figure rests on. */
  readonly words: string
  /** Where a default comes from; null where the figure is the studio's own. */
  readonly source: string | null
}

const DIGITS_SHOWN = 6

/**
 * The water figure of a body in every state.
 *
 * Shape: one row a state. Units: fractions of the wet mass. Refuses: `body_not_found`.
 */
export async function moistureOfBody(
  db: Database,
  studioId: string,
  bodyId: string,
): Promise<MoistureRow[]> {
  return db.transaction(
    async (ledger) => {
      const body = await findBody(ledger, studioId, bodyId)
      const rows: MoistureRow[] = []
      for (const state of CLAY_STATES) {
        const figure = studioFigure(body, state, await testsOf(ledger, { studioId, bodyId, state }))
        const isDefault = figure.method === 'default_for_state'
        const shown = (value: Decimal) => value.toDecimalPlaces(DIGITS_SHOWN).toFixed()
        rows.push({
          state,
          waterContentWetBasis: shown(figure.waterContentWetBasis),
          standardUncertainty: shown(figure.standardUncertainty),
          standing: figure.standing,
          method: figure.method,
          tests: figure.tests,
          weightOfTests: shown(figure.weightOfTests),
          sharedUncertainty: shown(figure.sharedUncertainty),
          betweenBatches: shown(figure.betweenBatches),
          words: moistureWords(figure),
          source: isDefault ? DEFAULT_MOISTURE[state].source : null,
        })
      }
      return rows
    },
    { accessMode: 'read only' },
  )
}
