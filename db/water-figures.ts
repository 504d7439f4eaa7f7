import { and, eq, sql } from 'drizzle-orm'
import { decimal, type Decimal } from '../shared/decimal.ts'
import type { Doubt } from '../shared/doubt.ts'
import { moistureSource, sourceOf } from '../shared/doubt-source.ts'
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
  /** What makes it unsure, in fractions of the wet mass by source. */
  readonly waterDoubt: Doubt
  readonly method: DryMassMethod
  readonly standing: Standing
}

/** How far off a water content is that is said without an uncertainty, by how it was come by. */
export const UNCERTAINTY_BY_STANDING = {
  measured: '0.004',
  stated: '0.015',
  assumed: '0.02',
} as const

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
      ? await figureOnRecord(book, { body, state, lotId })
      : await pointingAt(pointer, () => figureSaid(book, said, { bodyId, state }))
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
    netDoubt: asked.reading.netDoubt,
    waterContentWetBasis: figure.waterContentWetBasis,
    waterDoubt: figure.waterDoubt,
    method: figure.method,
    standing: figure.standing,
  })
}

/** What a dried sample says, unsure by `source`. Units: 0 to 1, wet basis. */
export function figureOfSample(sample: SampleSaid, source: string): WaterFigure {
  const tinGrams = sample.tin === undefined ? decimal(0) : gramsFrom(sample.tin)
  const reading = {
    tinGrams,
    wetWithTinGrams: gramsFrom(sample.wetWithTin),
    dryWithTinGrams: gramsFrom(sample.dryWithTin),
  }
  const contents = waterContentOfSample(reading)
  const standardUncertainty = sampleWaterUncertainty({
    ...contents,
    divisionGrams: divisionGramsFromLastDigit(sample.dryWithTin),
  })
  return {
    waterContentWetBasis: contents.waterContentWetBasis,
    standardUncertainty,
    waterDoubt: new Map([[source, standardUncertainty]]),
    method: 'dry_test',
    standing: 'measured',
  }
}

/**
 * A content that is said again, of the same clay in the same state, is taken for the same figure and so
 * for the same mistake: one that was measured for the day, one that is only known by heart for ever. Our
 * choice.
 */
function figureSaid(
  book: Book,
  said: WaterSaid,
  of: { bodyId: string; state: ClayState },
): WaterFigure {
  if (said.sample !== undefined) return figureOfSample(said.sample, book.ownSource('sample'))
  const standing = said.standing ?? 'stated'
  const content = decimal(said.content ?? '0')
  const basis = said.basis ?? 'wet'
  const standardUncertainty = decimal(said.standardUncertainty ?? UNCERTAINTY_BY_STANDING[standing])
  const day = standing === 'measured' ? book.facts.day : 'always'
  const source = sourceOf('said', of.state, content.toFixed(), basis, day, of.bodyId)
  return {
    waterContentWetBasis: waterContentWetBasisFrom(content, basis),
    standardUncertainty,
    waterDoubt: new Map([[source, standardUncertainty]]),
    method: 'stated_water_content',
    standing: standing === 'measured' ? 'measured' : 'assumed',
  }
}

async function figureOnRecord(
  book: Book,
  asked: { body: BodyFacts; state: ClayState; lotId: string | undefined },
): Promise<WaterFigure> {
  const { body, state, lotId } = asked
  const { bodyId } = body
  const tests = await testsOf(book.ledger, { studioId: book.studioId, bodyId, state })
  const own = tests.filter((test) => lotId !== undefined && test.lotId === lotId).at(-1)
  if (own !== undefined) {
    const waterDoubt = new Map([[testSource(own.entryId), own.standardUncertainty]])
    return { ...own, waterDoubt, method: 'dry_test', standing: 'measured' }
  }
  const figure = studioFigure(body, state, tests)
  const waterDoubt = new Map([
    [moistureSource({ bodyId, state, prior: figure.prior }), figure.sharedUncertainty],
    [book.ownSource('batch'), figure.betweenBatches],
  ])
  return { ...figure, waterDoubt }
}

/** The source of doubt that a recorded dry test is, wherever its figure is used. */
export function testSource(entryId: string): string {
  return sourceOf('test', entryId)
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
