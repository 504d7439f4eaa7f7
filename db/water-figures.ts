import { and, eq, sql } from 'drizzle-orm'
import { decimal, type Decimal } from '../shared/decimal.ts'
import { dryMassFromWet, type DryMassEstimate, type DryMassMethod } from '../shared/dry-mass.ts'
import {
  moistureFigure,
  type ClayState,
  type MoistureFigure,
  type Standing,
} from '../shared/moisture.ts'
import { gramsFrom, divisionGramsFromLastDigit, type Mass } from '../shared/units.ts'
import {
  sampleWaterUncertainty,
  waterContentOfSample,
  waterContentWetBasisFrom,
} from '../shared/water.ts'
import type { Book } from './book.ts'
import type { Transaction } from './connection.ts'
import { pointingAt, type Reading } from './readings.ts'
import { dryTest } from './schema.ts'
import { findBody, type BodyFacts } from './studio.ts'

/** What is said of the water in a clay: a content on a named basis, or a sample that was dried. */
export interface WaterSaid {
  readonly content?: string | undefined
  readonly basis?: 'wet' | 'dry' | undefined
  readonly standing?: 'measured' | 'stated' | 'assumed' | undefined
  readonly standardUncertainty?: string | undefined
  readonly sample?: SampleSaid | undefined
}

export interface SampleSaid {
  readonly tin?: Mass | undefined
  readonly wetWithTin: Mass
  readonly dryWithTin: Mass
}

export interface WaterFigure {
  readonly waterContentWetBasis: Decimal
  readonly standardUncertainty: Decimal
  readonly method: DryMassMethod
  readonly standing: Standing
}

/** How far off a water content is that is said without an uncertainty, by how it was come by. */
const UNCERTAINTY_BY_STANDING = { measured: '0.004', stated: '0.015', assumed: '0.02' } as const

/**
 * The water content to reckon with, best first: what is said with this act (a dried sample, a measured
 * or stated content), this lot's own dry test, this studio's tests of the body in that state, what is
 * stated of the body, the handbook's default.
 *
 * Units: 0 to 1, wet basis. Refuses: `water_content_must_be_below_one`,
 * `sample_must_not_dry_heavier`, `body_not_found`.
 */
export async function waterFigure(
  book: Book,
  asked: {
    said: WaterSaid | undefined
    state: ClayState
    bodyId: string
    lotId?: string | undefined
    pointer: string
  },
): Promise<WaterFigure> {
  const { said, state, bodyId, lotId, pointer } = asked
  const body = await findBody(book.ledger, book.studioId, bodyId)
  const figure =
    said === undefined
      ? await figureOnRecord(book.ledger, { studioId: book.studioId, body, state, lotId })
      : await pointingAt(pointer, () => figureSaid(said))
  book.handles({
    handlesDryClay: false,
    waterContentWetBasis: figure.waterContentWetBasis,
    dustThresholdWetBasis: body.dustThresholdWetBasis,
  })
  return figure
}

/** The dry clay in a reading, by the best water content there is. Units: grams. */
export async function dryMassOfReading(
  book: Book,
  asked: Parameters<typeof waterFigure>[1] & { reading: Reading },
): Promise<DryMassEstimate> {
  const figure = await waterFigure(book, asked)
  return dryMassFromWet({
    netGrams: asked.reading.netGrams,
    netUncertaintyGrams: asked.reading.standardUncertaintyGrams,
    waterContentWetBasis: figure.waterContentWetBasis,
    waterContentUncertainty: figure.standardUncertainty,
    method: figure.method,
    standing: figure.standing,
  })
}

/** What a dried sample says. Units: 0 to 1, wet basis. */
export function figureOfSample(sample: SampleSaid): WaterFigure {
  const tinGrams = sample.tin === undefined ? decimal(0) : gramsFrom(sample.tin)
  const reading = {
    tinGrams,
    wetWithTinGrams: gramsFrom(sample.wetWithTin),
    dryWithTinGrams: gramsFrom(sample.dryWithTin),
  }
  const contents = waterContentOfSample(reading)
  return {
    waterContentWetBasis: contents.waterContentWetBasis,
    standardUncertainty: sampleWaterUncertainty({
      ...contents,
      divisionGrams: divisionGramsFromLastDigit(sample.dryWithTin),
    }),
    method: 'dry_test',
    standing: 'measured',
  }
}

function figureSaid(said: WaterSaid): WaterFigure {
  if (said.sample !== undefined) return figureOfSample(said.sample)
  const standing = said.standing ?? 'stated'
  return {
    waterContentWetBasis: waterContentWetBasisFrom(
      decimal(said.content ?? '0'),
      said.basis ?? 'wet',
    ),
    standardUncertainty: decimal(said.standardUncertainty ?? UNCERTAINTY_BY_STANDING[standing]),
    method: 'stated_water_content',
    standing: standing === 'measured' ? 'measured' : 'assumed',
  }
}

async function figureOnRecord(
  ledger: Transaction,
  asked: { studioId: string; body: BodyFacts; state: ClayState; lotId: string | undefined },
): Promise<WaterFigure> {
  const { studioId, body, state, lotId } = asked
  const tests = await testsOf(ledger, { studioId, bodyId: body.bodyId, state })
  const own = tests.filter((test) => lotId !== undefined && test.lotId === lotId).at(-1)
  if (own !== undefined) return { ...own, method: 'dry_test', standing: 'measured' }
  return studioFigure(body, state, tests)
}

/** This studio's figure for a body in a state, from its tests, its own word or the default. */
export function studioFigure(
  body: BodyFacts,
  state: ClayState,
  tests: readonly { waterContentWetBasis: Decimal; standardUncertainty: Decimal }[],
): MoistureFigure {
  const stated = body.moisture[state]
  return moistureFigure({
    state,
    tests,
    bodyFigure:
      stated === undefined
        ? undefined
        : {
            waterContentWetBasis: decimal(stated.waterContentWetBasis),
            standardUncertainty: decimal(stated.standardUncertainty),
          },
  })
}

/** The dry tests that stand (were not reversed), oldest first. */
export async function testsOf(
  ledger: Transaction,
  of: { studioId: string; bodyId: string; state: ClayState },
) {
  const rows = await ledger
    .select()
    .from(dryTest)
    .where(
      and(
        eq(dryTest.studioId, of.studioId),
        eq(dryTest.bodyId, of.bodyId),
        eq(dryTest.state, of.state),
        sql`not exists (select from entry e where e.studio_id = ${dryTest.studioId} and e.reverses_entry_id = ${dryTest.entryId})`,
      ),
    )
    .orderBy(
      sql`(select happened_at from entry e where e.studio_id = ${dryTest.studioId} and e.entry_id = ${dryTest.entryId})`,
    )
  return rows.map((row) => ({
    entryId: row.entryId,
    lotId: row.lotId,
    waterContentWetBasis: decimal(row.waterContentWetBasis),
    standardUncertainty: decimal(row.standardUncertainty),
  }))
}
