import { sql } from 'drizzle-orm'
import type { Database } from '../../db/connection.ts'

/**
 * What is wrong with a studio's ledger, asked of the database in words of its own: nothing of the
 * program's arithmetic is used. One row a fault; none where all promises hold.
 */
export async function faultsOf(db: Database, studioId: string): Promise<string[]> {
  const rows = await db.execute<{ fault: string }>(sql`
    with moved as (
      select h.holding_id, h.place, h.is_inside, l.entry_id, l.dry_grams, l.water_grams, l.pieces,
             l.cost, l.dry_doubt, l.cost_doubt
        from line l join holding h using (studio_id, holding_id)
       where l.studio_id = ${studioId}),
    summed as (
      select holding_id, sum(dry_grams) as dry_grams, sum(water_grams) as water_grams,
             sum(pieces) as pieces, sum(cost) as cost
        from moved group by holding_id),
    doubts as (
      select holding_id, entry_id, is_inside, 'dry' as of_what, d.key as source, d.value::numeric as grams
        from moved, jsonb_each_text(dry_doubt) d
      union all
      select holding_id, entry_id, is_inside, 'cost', d.key, d.value::numeric
        from moved, jsonb_each_text(cost_doubt) d),
    doubts_kept as (
      select holding_id, 'dry' as of_what, d.key as source, d.value::numeric as grams
        from holding, jsonb_each_text(dry_doubt) d where studio_id = ${studioId}
      union all
      select holding_id, 'cost', d.key, d.value::numeric
        from holding, jsonb_each_text(cost_doubt) d where studio_id = ${studioId}),
    kept as (select * from holding where studio_id = ${studioId})
    select format('all lines sum to %s g dry, %s g water, %s pieces, %s money', sum(dry_grams),
                  sum(water_grams), sum(pieces), sum(cost)) as fault
      from moved having (sum(dry_grams), sum(water_grams), sum(pieces), sum(cost)) <> (0, 0, 0, 0)
    union all
    select format('entry %s does not balance', entry_id) from moved group by entry_id
    having (sum(dry_grams), sum(water_grams), sum(pieces), sum(cost)) <> (0, 0, 0, 0)
    union all
    select format('holding %s (%s) is below zero', holding_id, place) from kept
     where is_inside and least(dry_grams, water_grams, pieces, cost) < 0
    union all
    select format('holding %s (%s) is not the sum of its lines', holding_id, place)
      from kept left join summed s using (holding_id)
     where is_inside
       and (kept.dry_grams, kept.water_grams, kept.pieces, kept.cost)
           <> (coalesce(s.dry_grams, 0), coalesce(s.water_grams, 0), coalesce(s.pieces, 0),
               coalesce(s.cost, 0))
    union all
    select format('entry %s makes %s of the %s unsure and nothing less so', entry_id, source, of_what)
      from doubts group by entry_id, of_what, source having sum(grams) <> 0
    union all
    select format('holding %s is not as unsure by %s as its lines', holding_id, source)
      from (select holding_id, of_what, source, sum(grams) as grams from doubts where is_inside
             group by 1, 2, 3 having sum(grams) <> 0) lines
      full join doubts_kept k using (holding_id, of_what, source)
     where lines.grams is distinct from k.grams
    union all
    select format('holding %s (%s) is empty and unsure', holding_id, place) from kept
     where is_inside and (dry_grams = 0 and dry_doubt <> '{}' or material_grams = 0 and material_doubt <> '{}'
            or dry_grams = 0 and material_grams = 0 and pieces = 0 and cost_doubt <> '{}')
    union all
    select format('holding %s (%s) outside keeps a balance', holding_id, place) from kept
     where not is_inside
       and ((dry_grams, water_grams, pieces, cost) <> (0, 0, 0, 0) or dry_doubt <> '{}' or cost_doubt <> '{}')
    union all
    select format('holding %s (%s) has cost %s and nothing that cost it', holding_id, place, cost) from kept
     where is_inside and dry_grams = 0 and material_grams = 0 and cost <> 0
       and (material_id is null or pieces = 0)
    union all
    select format('cost inside is %s and outside %s', inside, outside)
      from (select (select coalesce(sum(cost), 0) from kept where is_inside) as inside,
                   (select coalesce(sum(cost), 0) from moved where not is_inside) as outside) both_sides
     where inside + outside <> 0
    union all
    select format('%s has taken or given money', place) from moved
     where place in ('tap', 'air', 'fire', 'hands') and cost <> 0`)
  return rows.map(({ fault }) => fault)
}

/** What a potter would not believe although every sum is right. */
export async function odditiesOf(db: Database, studioId: string): Promise<string[]> {
  const rows = await db.execute<{ oddity: string }>(sql`
    select format('lot %s of %s lies on the books as %s', l.lot_id, l.body_id, h.body_id) as oddity
      from holding h join lot l using (studio_id, lot_id)
     where h.studio_id = ${studioId} and h.body_id <> l.body_id and h.dry_grams > 0
    union all
    select format('run %s of %s lies on the books as %s', r.run_id, r.body_id, h.body_id)
      from holding h join run r using (studio_id, run_id)
     where h.studio_id = ${studioId} and h.body_id <> r.body_id and h.dry_grams > 0
    union all
    select format('vessel %s holds %s', vessel_id, string_agg(distinct body_id, ' and '))
      from holding where studio_id = ${studioId} and vessel_id is not null and dry_grams > 0
     group by vessel_id having count(distinct body_id) > 1
    union all
    select format('bat %s carries loads %s', l.bat_id, string_agg(l.lot_id, ' and '))
      from holding h join lot l using (studio_id, lot_id)
     where h.studio_id = ${studioId} and h.place = 'plaster' and h.dry_grams > 0
     group by l.bat_id having count(*) > 1
    union all
    select format('a dry test of %s is of lot %s of %s', t.body_id, t.lot_id, l.body_id)
      from dry_test t join lot l using (studio_id, lot_id)
     where t.studio_id = ${studioId} and t.body_id <> l.body_id`)
  return rows.map(({ oddity }) => oddity)
}

/** Every row of every table of a studio, as one line a table: its rows counted and digested. */
export async function fingerprintOf(db: Database, studioId: string): Promise<readonly string[]> {
  tables ??= await tablesWithStudios(db)
  const each = tables.map(
    (table) => sql`
      select ${table} || ' ' || count(*) || ' ' || coalesce(md5(string_agg(t::text, '|' order by t::text)), '') as print
        from ${sql.identifier(table)} t where t.studio_id = ${studioId}`,
  )
  const rows = await db.execute<{ print: string }>(sql.join(each, sql` union all `))
  return rows.map(({ print }) => print)
}

let tables: string[] | undefined

async function tablesWithStudios(db: Database): Promise<string[]> {
  const rows = await db.execute<{ name: string }>(sql`
    select table_name as name from information_schema.columns
     where table_schema = 'public' and column_name = 'studio_id' order by table_name`)
  return rows.map(({ name }) => name)
}
