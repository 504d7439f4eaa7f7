import { sql, type SQL } from 'drizzle-orm'
import type { EntryKind } from '../../shared/entry-kind.ts'
import type { LossStage } from '../../shared/place.ts'
import type { Database, Transaction } from '../connection.ts'
import { inSnapshot } from '../report-reading.ts'
import { findStudio } from '../studio.ts'

/** So many are offered: more than a thumb scrolls past is typed faster. Our choice. */
const WORDS_MAX = 6

/**
 * Where pots were sold before, the latest first.
 *
 * Grain: one row a channel. Refuses: `studio_not_found`.
 */
export function channelsBefore(db: Database, studioId: string): Promise<string[]> {
  return wordsBefore(db, studioId, {
    words: sql`s.channel`,
    from: sql`sale s join entry e on e.studio_id = s.studio_id and e.entry_id = s.entry_id`,
    where: sql`s.studio_id = ${studioId}`,
  })
}

/**
 * Why pieces were lost before at some stages, the latest first.
 *
 * Grain: one row a cause. Refuses: `studio_not_found`.
 */
export function causesBefore(
  db: Database,
  asked: { readonly studioId: string; readonly stages: readonly LossStage[] },
): Promise<string[]> {
  const { studioId, stages } = asked
  const listed = sql.join(
    stages.map((stage) => sql`${stage}`),
    sql`, `,
  )
  return wordsBefore(db, studioId, {
    words: sql`o.cause`,
    from: sql`loss o join entry e on e.studio_id = o.studio_id and e.entry_id = o.entry_id`,
    where: sql`o.studio_id = ${studioId} and o.stage in (${listed})`,
  })
}

/**
 * The bucket that scrap of a clay went into the last time that kind of thing was done; undefined where
 * it never was.
 *
 * Refuses: `studio_not_found`.
 */
export function vesselBefore(
  db: Database,
  asked: {
    readonly studioId: string
    readonly kind: EntryKind
    readonly bodyId?: string | undefined
  },
): Promise<string | undefined> {
  const { studioId, kind, bodyId } = asked
  return inSnapshot(db, async (ledger: Transaction) => {
    await findStudio(ledger, studioId)
    const [row] = await ledger.execute<{ vesselId: string }>(sql`
      select h.vessel_id as "vesselId"
        from entry e
        join line l on l.studio_id = e.studio_id and l.entry_id = e.entry_id
        join holding h on h.studio_id = l.studio_id and h.holding_id = l.holding_id
       where e.studio_id = ${studioId} and e.kind = ${kind} and h.place = 'scrap'
         ${bodyId === undefined ? sql`` : sql`and h.body_id = ${bodyId}`}
       order by e.happened_at desc, e.entry_id desc limit 1`)
    return row?.vesselId
  })
}

function wordsBefore(
  db: Database,
  studioId: string,
  looked: { words: SQL; from: SQL; where: SQL },
): Promise<string[]> {
  return inSnapshot(db, async (ledger: Transaction) => {
    await findStudio(ledger, studioId)
    const rows = await ledger.execute<{ words: string }>(sql`
      select ${looked.words} as words from ${looked.from} where ${looked.where}
       group by 1 order by max(e.happened_at) desc, 1 limit ${WORDS_MAX}`)
    return rows.map(({ words }) => words)
  })
}
