import { sql } from 'drizzle-orm'
import type { Database } from '../../db/connection.ts'

/**
 * What is wrong with where the money and the materials of a studio are, asked of the database in words of
 * its own. Money came in from suppliers, by the month's bill, by what firings were charged for wear, and
 * from before; it is in the studio, sold, wasted, lost beyond the usual, gone while the kiln was idle, or
 * unexplained. So it is layer by layer, clay among them, to the last unit.
 */
export async function moneyFaultsOf(db: Database, studioId: string): Promise<string[]> {
  const rows = await db.execute<{ fault: string }>(sql`
    with moved as (
      select h.place, h.holding_id, h.is_inside, l.entry_id, l.material_grams, l.cost, l.cost_layers,
             l.material_doubt
        from line l join holding h using (studio_id, holding_id)
       where l.studio_id = ${studioId}),
    layers as (
      select place, holding_id, is_inside, entry_id, key as layer, value::numeric as cost
        from moved, jsonb_each_text(cost_layers)
      union all
      select place, holding_id, is_inside, entry_id, 'clay',
             cost - coalesce((select sum(value::numeric) from jsonb_each_text(cost_layers)), 0)
        from moved),
    kept as (
      select holding_id, place, key as layer, value::numeric as cost
        from holding, jsonb_each_text(cost_layers) where studio_id = ${studioId} and is_inside
      union all
      select holding_id, place, 'clay',
             cost - coalesce((select sum(value::numeric) from jsonb_each_text(cost_layers)), 0)
        from holding where studio_id = ${studioId} and is_inside),
    came as (
      select layer, -sum(cost) as cost from layers
       where place in ('supplier', 'utility', 'wear', 'before') group by layer),
    went as (
      select layer, sum(cost) as cost from (
        select layer, cost from kept
        union all
        select layer, cost from layers
         where place in ('customer', 'waste', 'abnormal', 'idle', 'unexplained')) as all_of_it
       group by layer)
    select format('of %s %s came in and %s is somewhere', layer, coalesce(came.cost, 0), coalesce(went.cost, 0))
             as fault
      from came full join went using (layer)
     where coalesce(came.cost, 0) <> coalesce(went.cost, 0)
    union all
    select format('entry %s makes %s of %s', entry_id, sum(cost), layer) from layers
     group by entry_id, layer having sum(cost) <> 0
    union all
    select format('%s has taken or given %s of %s', place, sum(cost), layer) from layers
     where place in ('tap', 'air', 'fire', 'hands') group by place, entry_id, layer having sum(cost) <> 0
    union all
    select format('holding %s (%s) has %s of %s', holding_id, place, cost, layer) from kept where cost < 0
    union all
    select format('holding %s (%s) has clay money in what is no clay', holding_id, place) from kept
     where place in ('materials', 'glaze_bucket') and layer = 'clay' and cost <> 0
    union all
    select format('%s has paid %s of %s', place, sum(cost), layer) from layers
     where place = 'utility' and layer <> 'fire' or place = 'wear' and layer <> 'wear'
     group by place, entry_id, layer having sum(cost) <> 0
    union all
    select format('%s of %s is on %s of %s', k.cost, k.layer, k.place, m.kind)
      from kept k join holding h on h.studio_id = ${studioId} and h.holding_id = k.holding_id
      join material m on m.studio_id = h.studio_id and m.material_id = h.material_id
     where k.cost <> 0 and k.layer <> case m.kind when 'packaging' then 'packaging' when 'fuel' then 'fire'
                                                 when 'kiln_furniture' then 'wear' else 'glaze' end
    union all
    select format('holding %s keeps %s of %s and its lines make %s', holding_id, k.cost, layer, l.cost)
      from kept k full join (
        select holding_id, layer, sum(cost) as cost from layers where is_inside group by 1, 2) l
        using (holding_id, layer)
     where coalesce(k.cost, 0) <> coalesce(l.cost, 0)
    union all
    select format('entry %s makes %s g of materials', entry_id, sum(material_grams)) from moved
     group by entry_id having sum(material_grams) <> 0
    union all
    select format('%s g of materials came in and %s g are somewhere', came, went)
      from (select -coalesce(sum(material_grams) filter (where place in ('supplier', 'before')), 0) as came,
                   coalesce(sum(material_grams) filter (where not is_inside
                     and place not in ('supplier', 'before')), 0)
                   + (select coalesce(sum(material_grams), 0) from holding
                       where studio_id = ${studioId} and is_inside) as went
              from moved) both_sides
     where came <> went
    union all
    select format('%s has %s g of materials', place, sum(material_grams)) from moved
     where place in ('tap', 'hands', 'utility', 'abnormal', 'idle')
     group by place having sum(material_grams) <> 0
    union all
    select format('holding %s (%s) has %s g of materials', holding_id, place, material_grams) from holding
     where studio_id = ${studioId} and is_inside
       and (material_grams < 0 or material_grams > 0 and dry_grams = 0 and material_id is null
            or material_grams > 0 and place in ('store', 'bench', 'scrap', 'basin', 'plaster', 'greenware'))
    union all
    select format('holding %s is not as unsure of its materials as its lines by %s', holding_id, source)
      from (select holding_id, key as source, sum(value::numeric) as grams
              from moved, jsonb_each_text(material_doubt) where is_inside
             group by 1, 2 having sum(value::numeric) <> 0) lines
      full join (select holding_id, key as source, value::numeric as grams
                   from holding, jsonb_each_text(material_doubt) where studio_id = ${studioId}) k
        using (holding_id, source)
     where lines.grams is distinct from k.grams`)
  return rows.map(({ fault }) => fault)
}
