import { newApp } from '../../api/app.ts'
import { connect } from '../../db/connection.ts'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { freshDatabase } from './postgres.ts'
import { countedIds } from './studio.ts'
import { ROWS, type RowName } from './worked-day-rows.ts'

/**
 * The day is told twice. Once with each row's dry mass as the handbook prints it, rounded to 1 g, so
 * that every closing figure must come out to the gram; and once with the water contents as printed, where
 * nothing is rounded between the rows and the figures may differ by what the handbook rounded away.
 */
export type Telling = 'dry masses as printed' | 'water contents as printed'

export interface Day {
  readonly dryKilograms: (where: Record<string, string>) => Promise<Decimal>
  readonly unexplainedKilograms: () => Promise<Decimal>
  readonly outsideKilograms: (place: string) => Promise<Decimal>
  readonly get: (path: string) => Promise<Record<string, unknown>>
  readonly does: (act: string, content: unknown) => Promise<Record<string, unknown>>
  readonly close: () => Promise<void>
}

export const BODY = 'buff'

/** A studio of that day, reached over HTTP. */
export async function openDay(telling: Telling): Promise<Day> {
  const database = await freshDatabase()
  const { db, sql, close } = connect(database.url)
  const app = newApp({
    db,
    now: () => new Date('2026-05-14T20:00:00Z'),
    newId: countedIds(telling === 'dry masses as printed' ? 'a' : 'b'),
    log: { info: () => undefined, error: (message, facts) => console.error(message, facts) },
  })
  const send = async (method: string, path: string, content?: unknown) => {
    const answer = await app.request(path, {
      method,
      headers: { 'content-type': 'application/json' },
      ...(content === undefined ? {} : { body: JSON.stringify(content) }),
    })
    const said = (await answer.json()) as Record<string, unknown>
    if (!answer.ok) throw new Error(`${method} ${path}: ${JSON.stringify(said)}`)
    return said
  }
  await furnish((path, content) => send('POST', path, content))
  const sumOf = async (rows: readonly { sum: string | null }[]) =>
    decimal(rows[0]?.sum ?? '0').dividedBy(1000)
  return {
    does: (act, content) => send('POST', `/v1/acts/${act}`, content),
    get: (path) => send('GET', path),
    dryKilograms: async (where) => {
      const query = new URLSearchParams({ ...where, limit: '200' }).toString()
      const { items } = (await send('GET', `/v1/holdings?${query}`)) as {
        items: { dryGrams: string }[]
      }
      return items.reduce((sum, item) => sum.plus(item.dryGrams), decimal(0)).dividedBy(1000)
    },
    unexplainedKilograms: async () =>
      sumOf(
        await sql<{ sum: string }[]>`select sum(l.dry_grams) as sum from line l
          join holding h using (studio_id, holding_id) where h.place = 'unexplained'`,
      ),
    outsideKilograms: async (place) =>
      sumOf(
        await sql<{ sum: string }[]>`select sum(l.dry_grams) as sum from line l
          join holding h using (studio_id, holding_id) where h.place = ${place}`,
      ),
    close: async () => {
      await close()
      await database.close()
    },
  }
}

async function furnish(post: (path: string, content: unknown) => Promise<unknown>): Promise<void> {
  await post('/v1/studios', {
    studioId: 'worked-day',
    name: 'The worked day',
    currency: 'EUR',
    timeZone: 'Europe/London',
    jurisdiction: 'GB',
  })
  await post('/v1/bodies', {
    bodyId: BODY,
    name: 'Buff stoneware',
    lossOnIgnitionFraction: '0.0741',
  })
  for (const formId of ['plate', 'jug', 'planter']) {
    await post('/v1/forms', { formId, name: formId })
  }
  for (const [vesselId, tare] of Object.entries({
    'scrap-bin': '0',
    'slops-bucket': '0',
    'bucket-1': '0',
    'bucket-2': '0',
    'rewedge-pile': '0',
    settling: '0',
    mop: '0',
  })) {
    await post('/v1/vessels', {
      vesselId,
      name: vesselId,
      kind: 'bucket',
      tareGrams: tare,
    })
  }
  for (const batId of ['bat-a', 'bat-b', 'bat-c']) {
    await post('/v1/bats', { batId, name: batId, dryGrams: '7100' })
  }
}

/** A row's reading, and its water in one of the two tellings. */
export function tell(telling: Telling) {
  return (name: RowName) => {
    const [net, waterPercent, dry] = ROWS[name]
    const content =
      telling === 'dry masses as printed'
        ? decimal(1).minus(decimal(dry).dividedBy(net)).toDecimalPlaces(12)
        : decimal(waterPercent).dividedBy(100)
    return {
      reading: { net: { value: net, unit: 'kg' } },
      water: { content: content.toFixed(), basis: 'wet', standing: 'measured' },
    }
  }
}
