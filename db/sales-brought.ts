import { createHash } from 'node:crypto'
import { sql } from 'drizzle-orm'
import type { Grade } from '../shared/place.ts'
import type { Database } from './connection.ts'

/** What a sale from a file is known by in this studio's requests. */
const PREFIX = 'sale-of-file:'
/** Between the key of a sale and which time it is recorded, after the first was taken back or was another. */
const TIME_MARK = '~'

/** A sale that was brought before. */
export interface SaleBrought {
  readonly entryId: string
  /** True where it was taken back since. */
  readonly isTakenBack: boolean
  /** How many times it is recorded, with all that were taken back. */
  readonly times: number
}

/**
 * The Idempotency-Key under which a sale of a file is recorded.
 *
 * Made of what the sale is known by and of nothing that a later file would say otherwise; `time` is 1
 * unless the same sale is recorded once more on purpose.
 */
export function keyOfSale(sale: { identity: string; nth: number }, time = 1): string {
  const content = JSON.stringify([sale.identity, sale.nth])
  const key = `${PREFIX}${createHash('sha256').update(content).digest('hex')}`
  return time === 1 ? key : `${key}${TIME_MARK}${String(time)}`
}

/** Grain: one row a key that was brought before, by the key of its first time. */
export async function salesBrought(
  db: Database,
  asked: { studioId: string; keys: readonly string[] },
): Promise<ReadonlyMap<string, SaleBrought>> {
  const { studioId, keys } = asked
  const rows = await db.execute<{
    key: string
    entryId: string
    isTakenBack: boolean
    times: number
  }>(sql`
    with brought as (
      select split_part(q.idempotency_key, ${TIME_MARK}, 1) as key, q.answer #>> '{entry,entryId}' as entry_id,
             coalesce(nullif(split_part(q.idempotency_key, ${TIME_MARK}, 2), ''), '1')::integer as time
        from request q
       where q.studio_id = ${studioId} and starts_with(q.idempotency_key, ${PREFIX}) and q.answer is not null)
    select distinct on (b.key) b.key as "key", b.entry_id as "entryId", b.time as "times",
           exists (select from entry r
                    where r.studio_id = ${studioId} and r.reverses_entry_id = b.entry_id) as "isTakenBack"
      from brought b
      join jsonb_array_elements_text(${JSON.stringify(keys)}::jsonb) asked(key) on asked.key = b.key
     order by b.key, b.time desc`)
  return new Map(rows.map(({ key, ...brought }) => [key, brought]))
}

/** A sale as the books have it, whoever recorded it. */
export interface SaleAlike {
  readonly day: string
  readonly formId: string
  readonly grade: Grade
  readonly pieces: number
  readonly priceEach: string
}

/**
 * The sales of some days that stand in the books and did not come from a file, on the studio's wall.
 *
 * Grain: one row a sale.
 */
export async function salesNotFromFiles(
  db: Database,
  asked: { studioId: string; timeZone: string; from: string; to: string },
): Promise<SaleAlike[]> {
  const { studioId, timeZone, from, to } = asked
  const day = sql`(e.happened_at at time zone ${timeZone})::date`
  const rows = await db.execute<SaleAlike & Record<string, unknown>>(sql`
    select ${day}::text as "day", s.form_id as "formId", s.grade as "grade", s.pieces as "pieces",
           s.price_each as "priceEach"
      from sale s
      join entry e on e.studio_id = s.studio_id and e.entry_id = s.entry_id
     where s.studio_id = ${studioId} and ${day} between ${from}::date and ${to}::date
       and not exists (select from entry r
                        where r.studio_id = s.studio_id and r.reverses_entry_id = s.entry_id)
       and not exists (select from request q
                        where q.studio_id = s.studio_id and starts_with(q.idempotency_key, ${PREFIX})
                          and q.answer #>> '{entry,entryId}' = s.entry_id)`)
  return [...rows]
}

/** Finished pots on the shelf, by form and grade. Grain: one row a form and grade. Units: pieces. */
export async function shelfNow(
  db: Database,
  studioId: string,
): Promise<{ formId: string; grade: Grade; pieces: string }[]> {
  const rows = await db.execute<{ formId: string; grade: Grade; pieces: string }>(sql`
    select r.form_id as "formId", h.grade as "grade", trim_scale(sum(h.pieces))::text as "pieces"
      from holding h
      join run r on r.studio_id = h.studio_id and r.run_id = h.run_id
     where h.studio_id = ${studioId} and h.place = 'finished' and h.pieces > 0
     group by r.form_id, h.grade`)
  return [...rows]
}
