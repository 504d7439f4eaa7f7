import { connect, type Connection } from '../../db/connection.ts'
import { migrate } from '../../db/migrate.ts'
import { performAct, type Act, type Circumstances, type Services } from '../../db/perform.ts'
import { bat, body, form, scale, studio, vessel } from '../../db/schema.ts'
import { findServer } from '../support/find-server.ts'
import type { Does } from './true-potter.ts'
import { SCALES, WEIGHED_IN } from './true-scale.ts'

/** A migrated database on a real server, for as many studios as like to work in it. */
export interface Ledger {
  readonly connection: Connection
  readonly close: () => Promise<void>
}

const FIRST_MOMENT = Date.parse('2026-03-02T08:00:00Z')
const ACT_MS = 30 * 60 * 1000
const NOW = new Date('2026-06-15T12:00:00Z')

export async function openLedger(name: string, tell: (line: string) => void): Promise<Ledger> {
  const server = await findServer(tell)
  const admin = connect(server.url, { asApp: false, poolSize: 1 })
  await admin.sql.unsafe(`create database ${name}`)
  const url = new URL(server.url)
  url.pathname = name
  await migrate(url.href)
  const connection = connect(url.href)
  const close = async () => {
    await connection.close()
    await admin.sql.unsafe(`drop database ${name} with (force)`)
    await admin.close()
    await server.stop()
  }
  return { connection, close }
}

/** A new studio in the ledger: what its potter does is half an hour apart. */
export async function newStudio({ connection }: Ledger, studioId: string): Promise<Does> {
  const { db } = connection
  await furnish(db, studioId)
  let ids = 0
  const newId = () => `${studioId}-${String((ids += 1)).padStart(6, '0')}`
  const services: Services = { db, now: () => NOW, newId }
  let acts = 0
  return async <Said extends Circumstances>(act: Act<Said>, said: Said) => {
    acts += 1
    const happenedAt = new Date(FIRST_MOMENT + acts * ACT_MS).toISOString()
    return performAct(services, { studioId }, { act, said: { ...said, happenedAt } })
  }
}

async function furnish(db: Connection['db'], studioId: string): Promise<void> {
  const made = { studioId, changedAt: NOW }
  await db.insert(studio).values({
    ...{ studioId, name: studioId, currency: 'GBP', timeZone: 'Europe/London' },
    ...{ jurisdiction: 'GB', createdAt: NOW },
  })
  const clay = { ...made, lossOnIgnitionFraction: '0.08', grainGramsPerMillilitre: '2.6' }
  await db.insert(body).values([
    { ...clay, bodyId: 'buff', name: 'Buff stoneware' },
    { ...clay, bodyId: 'white', name: 'White stoneware' },
  ])
  await db.insert(form).values({ ...made, formId: 'pot', name: 'Pot', ballGrams: '900' })
  await db.insert(vessel).values([
    ...Object.values(WEIGHED_IN).map(({ vesselId, tareGrams }) => ({
      ...{ ...made, vesselId, name: vesselId, tareGrams: String(tareGrams) },
      kind: vesselId.startsWith('basin') ? 'basin' : 'bucket',
    })),
    ...['bucket-1', 'bucket-2'].map((vesselId) => ({
      ...{ ...made, vesselId, name: vesselId, kind: 'bucket', tareGrams: '400' },
    })),
  ])
  await db
    .insert(bat)
    .values(['bat-a', 'bat-b'].map((batId) => ({ ...made, batId, name: batId, dryGrams: '7000' })))
  await db.insert(scale).values(
    Object.values(SCALES).map(({ scaleId, divisionGrams, capacityGrams }) => ({
      ...{ ...made, scaleId, name: scaleId },
      ...{ divisionGrams: String(divisionGrams), capacityGrams: String(capacityGrams) },
    })),
  )
}
