import { sql, type SQL } from 'drizzle-orm'
import type { Database } from '../connection.ts'
import { inSnapshot } from '../report-reading.ts'

/** What has a name in a studio, beside its id. */
export const NAMED = [
  'body',
  'form',
  'vessel',
  'bat',
  'scale',
  'material',
  'lot',
  'run',
  'holding',
] as const
export type Named = (typeof NAMED)[number]

/** Ids whose names are wanted, by what they are ids of. */
export type NamesAsked = Partial<Readonly<Record<Named, readonly (string | null | undefined)[]>>>

/** The name of one thing; its id where it has none. */
export type NameOf = (what: Named, id: string) => string

/**
 * What things are called, by their ids. A holding is called after its run, its lot or its vessel, and
 * otherwise after its clay; of what is not clay, after the material, and its bucket where it is in one.
 *
 * Grain: one row a thing that was asked for.
 */
export function namesOf(db: Database, studioId: string, asked: NamesAsked): Promise<NameOf> {
  return inSnapshot(db, async (ledger) => {
    const queries = NAMED.flatMap((what) => {
      const ids = [...new Set(asked[what] ?? [])].filter((id) => typeof id === 'string')
      return ids.length === 0 ? [] : [queryFor(what, studioId, ids)]
    })
    if (queries.length === 0) return (_, id) => id
    const rows = await ledger.execute<{ what: Named; id: string; name: string }>(
      sql.join(queries, sql` union all `),
    )
    const names = new Map(rows.map(({ what, id, name }) => [`${what} ${id}`, name]))
    return (what, id) => names.get(`${what} ${id}`) ?? id
  })
}

function queryFor(what: Named, studioId: string, ids: readonly string[]): SQL {
  if (what === 'holding') return holdingQuery(studioId, ids)
  const table = sql.identifier(what)
  const id = sql.identifier(`${what}_id`)
  const name = sql.identifier(what === 'lot' || what === 'run' ? 'label' : 'name')
  return sql`select ${what}::text as "what", ${id} as "id", ${name} as "name" from ${table}
              where studio_id = ${studioId} and ${id} in ${ids}`
}

function holdingQuery(studioId: string, ids: readonly string[]): SQL {
  return sql`select 'holding' as "what", h.holding_id as "id",
           coalesce(n.label, l.label, m.name || coalesce(' (' || v.name || ')', ''), v.name, b.name,
                    h.holding_id) as "name"
      from holding h
      left join material m on m.studio_id = h.studio_id and m.material_id = h.material_id
      left join run n on n.studio_id = h.studio_id and n.run_id = h.run_id
      left join lot l on l.studio_id = h.studio_id and l.lot_id = h.lot_id
      left join vessel v on v.studio_id = h.studio_id and v.vessel_id = h.vessel_id
      left join body b on b.studio_id = h.studio_id and b.body_id = h.body_id
     where h.studio_id = ${studioId} and h.holding_id in ${ids}`
}

/**
 * The months in which anything happened, the newest first, and who wrote anything down.
 *
 * Grain: one row a month, by the studio's clock; one row a person.
 */
export function monthsAndPeople(
  db: Database,
  { studioId, timeZone }: { readonly studioId: string; readonly timeZone: string },
): Promise<{ readonly months: readonly string[]; readonly people: readonly string[] }> {
  return inSnapshot(db, async (ledger) => {
    const months = await ledger.execute<{ month: string }>(sql`
      select distinct to_char(happened_at at time zone ${timeZone}, 'YYYY-MM') as "month"
        from entry where studio_id = ${studioId} order by 1 desc`)
    const people = await ledger.execute<{ by: string }>(sql`
      select distinct recorded_by as "by" from entry
       where studio_id = ${studioId} and recorded_by is not null order by 1`)
    return { months: months.map(({ month }) => month), people: people.map(({ by }) => by) }
  })
}
