import { connect, type Connection } from '../../db/connection.ts'
import {
  performAct,
  type Act,
  type ActAnswer,
  type Circumstances,
  type Services,
} from '../../db/perform.ts'
import { bat, body, form, holding, scale, studio, vessel } from '../../db/schema.ts'
import { and, eq } from 'drizzle-orm'
import { freshDatabase, type FreshDatabase } from './postgres.ts'

/** A studio in a database of its own, for a test to work in. */
export interface TestStudio {
  readonly services: Services
  readonly studioId: string
  readonly url: string
  /** Does an act as a person would, and gives its answer. */
  readonly does: <Said extends Circumstances>(act: Act<Said>, said: Said) => Promise<ActAnswer>
  /** What a holding has, by what tells it apart; zeros where there is none. */
  readonly holds: (where: Partial<typeof holding.$inferSelect>) => Promise<Balance>
  readonly close: () => Promise<void>
}

export interface Balance {
  readonly holdingId: string
  readonly dryGrams: string
  readonly waterGrams: string
  readonly pieces: string
  readonly cost: string
}

const NOTHING: Balance = { holdingId: '', dryGrams: '0', waterGrams: '0', pieces: '0', cost: '0' }

/** The moment at which every test studio's clock stands. */
export const TEST_NOW = new Date('2026-06-15T12:00:00Z')

/** Ids in the order in which they were asked for, so that a test can read them. */
export function countedIds(prefix = 'id'): () => string {
  let last = 0
  return () => {
    last += 1
    return `${prefix}-${String(last).padStart(6, '0')}`
  }
}

/**
 * A studio called 'mill-lane' with two plain bodies and their blend, a mug and a plate, three buckets,
 * two basins, two bats and a scale.
 */
export async function openTestStudio(choices: { poolSize?: number } = {}): Promise<TestStudio> {
  const database: FreshDatabase = await freshDatabase()
  const connection = connect(database.url, choices)
  const services: Services = { db: connection.db, now: () => TEST_NOW, newId: countedIds() }
  const studioId = 'mill-lane'
  await furnish(connection, studioId)
  return {
    services,
    studioId,
    url: database.url,
    does: async (act, said) => (await performAct(services, { studioId }, { act, said })).answer,
    holds: async (where) => balanceOf(connection, studioId, where),
    close: async () => {
      await connection.close()
      await database.close()
    },
  }
}

/** Fills a studio's catalogue straight into the tables. */
export async function furnish({ db }: Pick<Connection, 'db'>, studioId: string): Promise<void> {
  const changedAt = TEST_NOW
  await db.insert(studio).values({
    studioId,
    name: studioId,
    currency: 'GBP',
    timeZone: 'Europe/London',
    jurisdiction: 'GB',
    createdAt: changedAt,
  })
  const clay = {
    studioId,
    changedAt,
    lossOnIgnitionFraction: '0.08',
    grainGramsPerMillilitre: '2.6',
  }
  await db.insert(body).values([
    { ...clay, bodyId: 'buff', name: 'Buff stoneware' },
    { ...clay, bodyId: 'white', name: 'White stoneware' },
    { ...clay, bodyId: 'pepper', name: 'Pepper blend', isBlend: true },
  ])
  await db.insert(form).values([
    {
      studioId,
      changedAt,
      formId: 'mug',
      name: 'Mug',
      ballGrams: '400',
      turnedOffFraction: '0.05',
    },
    { studioId, changedAt, formId: 'plate', name: 'Plate', ballGrams: '1600' },
  ])
  await db.insert(vessel).values(
    ['bucket-1', 'bucket-2', 'bucket-3', 'basin-1', 'basin-2'].map((vesselId) => ({
      studioId,
      changedAt,
      vesselId,
      name: vesselId,
      kind: vesselId.startsWith('basin') ? 'basin' : 'bucket',
      tareGrams: '400',
    })),
  )
  await db.insert(bat).values(
    ['bat-a', 'bat-b'].map((batId) => ({
      studioId,
      changedAt,
      batId,
      name: batId,
      dryGrams: '7000',
    })),
  )
  await db.insert(scale).values({
    studioId,
    changedAt,
    scaleId: 'bench',
    name: 'Bench scale',
    divisionGrams: '5',
    capacityGrams: '10000',
  })
}

async function balanceOf(
  { db }: Pick<Connection, 'db'>,
  studioId: string,
  where: Partial<typeof holding.$inferSelect>,
): Promise<Balance> {
  const sames = Object.entries(where).map(([column, value]) =>
    eq(holding[column as 'place'], value as string),
  )
  const [row] = await db
    .select()
    .from(holding)
    .where(and(eq(holding.studioId, studioId), ...sames))
  if (row === undefined) return NOTHING
  const { holdingId, dryGrams, waterGrams, pieces, cost } = row
  return { holdingId, dryGrams, waterGrams, pieces, cost }
}

/** A mass in grams or kilograms, as it is written in a request. */
export const g = (value: string) => ({ value, unit: 'g' as const })
export const kg = (value: string) => ({ value, unit: 'kg' as const })
