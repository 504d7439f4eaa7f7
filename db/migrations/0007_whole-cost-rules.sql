-- Glaze, fire and the rest in the same ledger: dry materials are a column of their own beside dry clay, and a
-- cost says what of it was paid for. Both are conserved as clay is: in each entry, and layer by layer.

-- 1. Domains: what a cell may hold ------------------------------------------------------------------

-- Layers of a cost are of known names, plain digits as text, six after the point at most, and never nothing.
create function cost_layers_fit_scale(layers jsonb) returns boolean language sql immutable
  set search_path = public, pg_temp as $$
  select doubts_fit_scale(layers)
     and not exists (select from jsonb_object_keys(layers) as layer
                      where layer not in ('glaze', 'fire', 'wear', 'packaging'))
$$;
--> statement-breakpoint
-- What is inside costs nothing below zero, whatever it was paid for; what no layer claims is clay.
create function cost_layers_fit_cost(layers jsonb, cost numeric) returns boolean language sql immutable
  set search_path = public, pg_temp as $$
  select coalesce(bool_and(value::numeric > 0), true) and coalesce(sum(value::numeric), 0) <= cost
    from jsonb_each_text(layers)
$$;
--> statement-breakpoint
-- True where a cost has no clay in it.
create function cost_layers_are_all_of_cost(layers jsonb, cost numeric) returns boolean language sql immutable
  set search_path = public, pg_temp as $$
  select coalesce(sum(value::numeric), 0) = cost from jsonb_each_text(layers)
$$;
--> statement-breakpoint
alter table line
  drop constraint line_must_fit_scale,
  drop constraint doubt_must_fit_scale,
  drop constraint line_must_move_something;
--> statement-breakpoint
alter table line
  add constraint line_must_fit_scale check (
    scale(dry_grams) <= 6 and scale(material_grams) <= 6 and scale(water_grams) <= 6 and scale(cost) <= 6
    and pieces = trunc(pieces) and cost_layers_fit_scale(cost_layers)
    and greatest(abs(dry_grams), abs(material_grams), abs(water_grams), abs(pieces), abs(cost)) < 1e24),
  add constraint doubt_must_fit_scale check (
    doubts_fit_scale(dry_doubt) and doubts_fit_scale(material_doubt) and doubts_fit_scale(cost_doubt)),
  add constraint line_must_move_something check (
    (dry_grams, material_grams, water_grams, pieces, cost, cost_layers, dry_doubt, material_doubt, cost_doubt)
    is distinct from (0, 0, 0, 0, 0, '{}'::jsonb, '{}'::jsonb, '{}'::jsonb, '{}'::jsonb));
--> statement-breakpoint
alter table holding
  drop constraint holding_place_is_known,
  drop constraint holding_is_inside_by_its_place,
  drop constraint holding_inside_has_a_body,
  drop constraint holding_must_not_go_negative,
  drop constraint pieces_must_have_clay,
  drop constraint holding_must_not_strand_cost;
--> statement-breakpoint
alter table holding
  add constraint holding_place_is_known check (place in (
    'store', 'bench', 'scrap', 'basin', 'plaster', 'greenware', 'bisque', 'glazed', 'finished', 'materials',
    'glaze_bucket', 'before', 'supplier', 'utility', 'wear', 'tap', 'air', 'fire', 'hands', 'customer', 'waste',
    'abnormal', 'idle', 'unexplained')),
  add constraint holding_is_inside_by_its_place check (is_inside = (place in (
    'store', 'bench', 'scrap', 'basin', 'plaster', 'greenware', 'bisque', 'glazed', 'finished', 'materials',
    'glaze_bucket'))),
  -- Clay and pots are of a body, materials of a material; nothing is of both.
  add constraint holding_inside_has_a_body check (
    not is_inside or case when place in ('materials', 'glaze_bucket') then material_id is not null
                          else body_id is not null end),
  add constraint holding_is_of_one_thing check (body_id is null or material_id is null),
  add constraint holding_must_not_go_negative check (
    dry_grams >= 0 and material_grams >= 0 and water_grams >= 0 and pieces >= 0 and cost >= 0
    and cost_layers_fit_cost(cost_layers, cost)),
  -- Bags and pots are made of clay; boxes and shelves are counted as they are.
  add constraint pieces_must_have_clay check (
    not is_inside or pieces = 0 or dry_grams > 0 or material_id is not null),
  -- On the shelf and in a bucket of glaze there is no clay, nor money that was paid for any.
  add constraint material_must_not_be_clay check (
    not is_inside or material_id is null
    or (dry_grams = 0 and cost_layers_are_all_of_cost(cost_layers, cost))),
  -- Glaze is in its bucket or on pots.
  add constraint glaze_must_be_on_something check (
    material_grams = 0 or material_id is not null or dry_grams > 0),
  -- Cost follows what it was paid for: where nothing is left, none of its cost may be stranded.
  add constraint holding_must_not_strand_cost check (
    cost = 0 or dry_grams > 0 or material_grams > 0 or (material_id is not null and pieces > 0));
--> statement-breakpoint
alter table entry
  drop constraint entry_kind_is_known,
  add constraint entry_kind_is_known check (kind in (
    'open_books', 'receive_delivery', 'open_bag', 'throw', 'join', 'collect_slops', 'turn', 'lose',
    'weigh_scrap', 'weigh_run', 'slake', 'decant', 'read_slurry', 'pour', 'weigh_on_plaster', 'move_load', 'lift',
    'wedge', 'rewet', 'bisque', 'glaze_fire', 'grade', 'sell', 'give_away', 'keep', 'break_in_shop',
    'discard', 'dry_test', 'count', 'receive_materials', 'mix_glaze', 'water_glaze', 'read_glaze', 'lose_glaze',
    'glaze', 'count_material', 'use_material', 'fire_empty', 'reverse', 'close_month'));
--> statement-breakpoint
alter table studio
  add constraint studio_seconds_cost_rule_is_known check (seconds_cost_rule in ('like_firsts', 'by_price')),
  add constraint studio_seconds_price_is_a_fraction check (
    seconds_price_fraction > 0 and seconds_price_fraction <= 1),
  add constraint studio_hourly_figure_is_money check (hourly_figure >= 0 and hourly_figure < 'infinity');
--> statement-breakpoint
alter table form
  add constraint form_takes_room_in_a_kiln check (
    kiln_footprint_square_centimetres > 0 and kiln_footprint_square_centimetres < 'infinity'
    and kiln_height_centimetres > 0 and kiln_height_centimetres < 'infinity'),
  add constraint form_glaze_is_a_mass check (glaze_grams_per_piece > 0 and glaze_grams_per_piece < 'infinity'),
  add constraint form_packing_is_a_list check (jsonb_typeof(packing) = 'array');
--> statement-breakpoint
alter table material
  add constraint material_kind_is_known check (
    kind in ('ingredient', 'glaze', 'packaging', 'kiln_furniture', 'fuel')),
  add constraint material_is_kept_by_mass_or_count check (kept_by in ('mass', 'count')),
  add constraint material_glaze_is_weighed check (kind not in ('ingredient', 'glaze', 'fuel') or kept_by = 'mass'),
  add constraint material_water_is_a_share check (water_content_wet_basis >= 0 and water_content_wet_basis < 1),
  add constraint material_loss_is_a_share check (
    loss_on_ignition_fraction >= 0 and loss_on_ignition_fraction < 1),
  add constraint material_silica_is_a_share check (
    crystalline_silica_fraction >= 0 and crystalline_silica_fraction <= 1),
  add constraint material_grains_are_heavier_than_water check (
    grain_grams_per_millilitre > 1 and grain_grams_per_millilitre < 'infinity'),
  add constraint material_figures_are_above_zero check (
    reorder_point >= 0 and reorder_point < 'infinity' and pack_size > 0 and pack_size < 'infinity'),
  add constraint material_lists_are_lists check (
    jsonb_typeof(hazards) = 'array' and jsonb_typeof(price_steps) = 'array');
--> statement-breakpoint
alter table kiln
  add constraint kiln_share_rule_is_known check (share_by in ('shelf_space', 'mass', 'count')),
  add constraint kiln_figures_are_above_zero check (
    volume_litres > 0 and volume_litres < 'infinity' and rated_kilowatts > 0 and rated_kilowatts < 'infinity'
    and usable_fraction > 0 and usable_fraction <= 1
    and price_per_kilowatt_hour >= 0 and price_per_kilowatt_hour < 'infinity'
    and wear_per_firing >= 0 and wear_per_firing < 'infinity'
    and bisque_hours > 0 and bisque_hours < 'infinity' and glaze_hours > 0 and glaze_hours < 'infinity');
--> statement-breakpoint
alter table glaze_recipe add constraint glaze_recipe_versions_count_up check (version_no >= 1);
--> statement-breakpoint
alter table glaze_recipe_part
  add constraint glaze_recipe_part_has_parts check (parts > 0 and parts < 'infinity'),
  add constraint glaze_is_not_its_own_ingredient check (ingredient_id <> material_id);
--> statement-breakpoint
alter table glazing
  add constraint glazing_has_pieces check (
    pieces > 0 and dry_grams > 0 and dry_grams < 'infinity'
    and standard_uncertainty_grams >= 0 and standard_uncertainty_grams < 'infinity'
    and loss_on_ignition_fraction >= 0 and loss_on_ignition_fraction < 1),
  add constraint glazing_how_is_known check (how in ('bucket', 'pieces', 'usual'));
--> statement-breakpoint
alter table glaze_batch add constraint glaze_batch_is_of_something check (
  dry_grams > 0 and dry_grams < 'infinity' and water_grams >= 0 and water_grams < 'infinity'
  and cost >= 0 and cost < 'infinity' and loss_on_ignition_fraction >= 0 and loss_on_ignition_fraction < 1
  and grain_grams_per_millilitre > 1 and grain_grams_per_millilitre < 'infinity');
--> statement-breakpoint
alter table material_delivery
  add constraint material_delivery_has_a_price check (
    goods_price >= 0 and goods_price < 'infinity' and freight >= 0 and freight < 'infinity'),
  add constraint material_delivery_brings_something check (
    wet_grams > 0 and wet_grams < 'infinity' and dry_grams > 0 and dry_grams <= wet_grams
    and pieces > 0 and pieces < 'infinity');
--> statement-breakpoint
alter table firing
  add constraint firing_kind_is_known check (kind in ('bisque', 'glaze', 'empty')),
  add constraint firing_standing_is_known check (standing in ('measured', 'estimated', 'assumed')),
  add constraint firing_costs_something_or_nothing check (
    energy_cost >= 0 and energy_cost < 'infinity' and wear_cost >= 0 and wear_cost < 'infinity'
    and candling_cost >= 0 and candling_cost <= energy_cost
    and full_fraction > 0 and full_fraction < 'infinity'),
  add constraint firing_used_something_or_nothing check (
    relative_uncertainty >= 0 and relative_uncertainty < 'infinity'
    and kilowatt_hours >= 0 and kilowatt_hours < 'infinity'
    and candling_kilowatt_hours >= 0 and candling_kilowatt_hours < 'infinity'
    and fuel_grams >= 0 and fuel_grams < 'infinity'
    and price_per_kilowatt_hour >= 0 and price_per_kilowatt_hour < 'infinity');
--> statement-breakpoint
alter table firing_share add constraint firing_share_costs_something_or_nothing check (
  energy_cost >= 0 and energy_cost < 'infinity' and wear_cost >= 0 and wear_cost < 'infinity'
  and weight >= 0 and weight < 'infinity' and pieces > 0);
--> statement-breakpoint
alter table loss add constraint loss_is_abnormal_in_part check (
  abnormal_pieces between 0 and pieces and cost_abnormal >= 0 and cost_abnormal < 'infinity');
--> statement-breakpoint

-- 2. The rules of the ledger, with two columns more ----------------------------------------------------

create or replace function entry_must_balance() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
declare
  total record;
  may_move_nothing boolean;
  takes_back boolean;
  lopsided text;
begin
  select count(*) as lines, coalesce(sum(dry_grams), 0) as dry_grams,
         coalesce(sum(material_grams), 0) as material_grams, coalesce(sum(water_grams), 0) as water_grams,
         coalesce(sum(pieces), 0) as pieces, coalesce(sum(cost), 0) as cost,
         doubts_summed(array_agg(cost_layers)) as cost_layers
    into total
    from line where studio_id = new.studio_id and entry_id = new.entry_id;
  select kind in ('read_slurry', 'weigh_on_plaster', 'dry_test', 'count', 'weigh_scrap', 'weigh_run', 'read_glaze',
                  'count_material', 'reverse', 'close_month'),
         reverses_entry_id is not null
    into may_move_nothing, takes_back
    from entry where studio_id = new.studio_id and entry_id = new.entry_id;
  select min(source) into lopsided
    from (select d.key as source
            from line l, jsonb_each_text(l.dry_doubt) d
           where l.studio_id = new.studio_id and l.entry_id = new.entry_id
           group by d.key having sum(d.value::numeric) <> 0
           union all
          select d.key
            from line l, jsonb_each_text(l.material_doubt) d
           where l.studio_id = new.studio_id and l.entry_id = new.entry_id
           group by d.key having sum(d.value::numeric) <> 0
           union all
          select d.key
            from line l, jsonb_each_text(l.cost_doubt) d
           where l.studio_id = new.studio_id and l.entry_id = new.entry_id
           group by d.key having sum(d.value::numeric) <> 0) as doubts
   -- What was doubted before sources were told apart stands on one line alone, and is taken back from it.
   where not (takes_back and source like 'earlier|%');
  if lopsided is not null then
    raise exception 'the lines of entry % do not sum to nothing in what % makes unsure', new.entry_id, lopsided
      using errcode = 'check_violation', constraint = 'doubt_must_balance';
  end if;
  if (total.lines >= 2 or may_move_nothing)
     and (total.dry_grams, total.material_grams, total.water_grams, total.pieces, total.cost) = (0, 0, 0, 0, 0)
     and total.cost_layers = '{}' then
    return null;
  end if;
  raise exception 'entry % has % lines that sum to % g dry clay, % g of materials, % g water, % pieces, % money and % by layer',
    new.entry_id, total.lines, total.dry_grams, total.material_grams, total.water_grams, total.pieces, total.cost,
    total.cost_layers
    using errcode = 'check_violation', constraint = 'entry_must_balance';
end $$;
--> statement-breakpoint
create or replace function holding_must_not_have_been_negative(leaving public.line, moment timestamptz) returns void language plpgsql
  set search_path = public, pg_temp as $$
begin
  if exists (
    select from (
      select e.happened_at, sum(l.dry_grams) over so_far as dry_grams, sum(l.pieces) over so_far as pieces,
             sum(l.material_grams) over so_far as material_grams
        from line l join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
       where l.studio_id = leaving.studio_id and l.holding_id = leaving.holding_id
      window so_far as (order by e.happened_at)
    ) as running
    where running.happened_at >= moment
      and (running.dry_grams < 0 or running.pieces < 0 or running.material_grams < 0)) then
    raise exception 'holding % had less than that at %, or since', leaving.holding_id, moment
      using errcode = 'check_violation', constraint = 'holding_must_not_have_been_negative';
  end if;
end $$;
--> statement-breakpoint
create or replace function line_moves_its_holding() returns trigger language plpgsql security definer
  set search_path = public, pg_temp as $$
declare
  moment timestamptz;
  latest timestamptz;
begin
  select happened_at into moment from entry where studio_id = new.studio_id and entry_id = new.entry_id;
  select latest_at into latest from holding
   where studio_id = new.studio_id and holding_id = new.holding_id and is_inside
     for no key update;
  if moment < latest and (new.dry_grams < 0 or new.pieces < 0 or new.material_grams < 0) then
    perform holding_must_not_have_been_negative(new, moment);
  end if;
  update holding
     set latest_at = greatest(latest_at, moment),
         dry_grams = dry_grams + new.dry_grams,
         material_grams = material_grams + new.material_grams,
         water_grams = water_grams + new.water_grams,
         pieces = pieces + new.pieces,
         cost = cost + new.cost,
         cost_layers = doubts_summed(array[cost_layers, new.cost_layers]),
         dry_doubt = doubts_summed(array[dry_doubt, new.dry_doubt]),
         material_doubt = doubts_summed(array[material_doubt, new.material_doubt]),
         cost_doubt = doubts_summed(array[cost_doubt, new.cost_doubt])
   where studio_id = new.studio_id and holding_id = new.holding_id and is_inside;
  return null;
end $$;
--> statement-breakpoint
create or replace function holding_must_follow_its_lines() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
begin
  if tg_op = 'INSERT' then
    if (new.dry_grams, new.material_grams, new.water_grams, new.pieces, new.cost, new.cost_layers, new.dry_doubt,
        new.material_doubt, new.cost_doubt)
       = (0, 0, 0, 0, 0, '{}', '{}', '{}', '{}')
       and new.latest_at is null then
      return new;
    end if;
  elsif pg_trigger_depth() > 1
        and (new.studio_id, new.holding_id, new.place, new.body_id, new.material_id, new.lot_id, new.run_id,
             new.vessel_id, new.grade, new.is_inside)
            is not distinct from
            (old.studio_id, old.holding_id, old.place, old.body_id, old.material_id, old.lot_id, old.run_id,
             old.vessel_id, old.grade, old.is_inside) then
    return new;
  end if;
  raise exception 'holding % has the balance of its lines and no other', new.holding_id
    using errcode = 'check_violation', constraint = 'holding_must_follow_its_lines';
end $$;
--> statement-breakpoint
-- One thing lies in a vessel, clay or glaze, and one load on a bat.
create or replace function clays_must_lie_apart() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
declare
  lying record;
begin
  if new.dry_grams <= 0 and new.material_grams <= 0 then
    return null;
  end if;
  select h.vessel_id, case when h.place = 'plaster' then l.bat_id end as bat_id into lying
    from holding h left join lot l on l.studio_id = h.studio_id and l.lot_id = h.lot_id
   where h.studio_id = new.studio_id and h.holding_id = new.holding_id and h.is_inside;
  if lying.vessel_id is not null then
    perform pg_advisory_xact_lock(hashtextextended('vessel ' || new.studio_id || ' ' || lying.vessel_id, 0));
    if (select count(distinct (body_id, material_id)) from holding
         where studio_id = new.studio_id and vessel_id = lying.vessel_id
           and (dry_grams > 0 or material_grams > 0)) > 1 then
      raise exception 'in vessel % two clays, or clay and glaze, would meet', lying.vessel_id
        using errcode = 'check_violation', constraint = 'bodies_must_not_mix_unless_declared';
    end if;
  elsif lying.bat_id is not null then
    perform pg_advisory_xact_lock(hashtextextended('bat ' || new.studio_id || ' ' || lying.bat_id, 0));
    if (select count(*) from holding h join lot l on l.studio_id = h.studio_id and l.lot_id = h.lot_id
         where h.studio_id = new.studio_id and h.place = 'plaster' and h.dry_grams > 0
           and l.bat_id = lying.bat_id) > 1 then
      raise exception 'bat % would carry two loads', lying.bat_id
        using errcode = 'check_violation', constraint = 'bat_must_be_empty';
    end if;
  end if;
  return null;
end $$;
--> statement-breakpoint
create or replace function reversal_must_mirror() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
declare
  reversed_id text;
  reversed record;
  differences bigint;
begin
  select reverses_entry_id into reversed_id
    from entry where studio_id = new.studio_id and entry_id = new.entry_id;
  if reversed_id is null then
    return null;
  end if;
  select reverses_entry_id is not null as is_reversal, recorded_in = pg_current_xact_id()::text as is_open
    into reversed
    from entry where studio_id = new.studio_id and entry_id = reversed_id;
  if reversed.is_reversal then
    raise exception 'entry % is a reversal itself', reversed_id
      using errcode = 'check_violation', constraint = 'entry_must_not_be_a_reversal';
  end if;
  select count(*) into differences from (
    (select holding_id, dry_grams, material_grams, water_grams, pieces, cost, cost_layers, dry_doubt,
            material_doubt, cost_doubt
       from line where studio_id = new.studio_id and entry_id = new.entry_id
     except all
     select holding_id, -dry_grams, -material_grams, -water_grams, -pieces, -cost, doubts_negated(cost_layers),
            doubts_negated(dry_doubt), doubts_negated(material_doubt), doubts_negated(cost_doubt)
       from line where studio_id = new.studio_id and entry_id = reversed_id)
    union all
    (select holding_id, -dry_grams, -material_grams, -water_grams, -pieces, -cost, doubts_negated(cost_layers),
            doubts_negated(dry_doubt), doubts_negated(material_doubt), doubts_negated(cost_doubt)
       from line where studio_id = new.studio_id and entry_id = reversed_id
     except all
     select holding_id, dry_grams, material_grams, water_grams, pieces, cost, cost_layers, dry_doubt,
            material_doubt, cost_doubt
       from line where studio_id = new.studio_id and entry_id = new.entry_id)
  ) as difference;
  if differences = 0 and not reversed.is_open then
    return null;
  end if;
  raise exception 'entry % does not mirror entry %, or not yet', new.entry_id, reversed_id
    using errcode = 'check_violation', constraint = 'reversal_must_mirror';
end $$;
--> statement-breakpoint

-- 3. The new tables keep what the others keep ------------------------------------------------------------

do $$
declare
  fact_table text;
begin
  foreach fact_table in array array['glaze_batch', 'glazing', 'material_delivery', 'firing', 'firing_share'] loop
    execute format('create trigger entry_must_be_open before insert on %I
                      for each row execute function entry_must_be_open()', fact_table);
  end loop;
  foreach fact_table in array array['glaze_batch', 'glazing', 'material_delivery', 'firing', 'firing_share',
                                    'glaze_recipe', 'glaze_recipe_part'] loop
    execute format('create trigger ledger_is_append_only before update or delete on %I
                      for each row execute function ledger_is_append_only()', fact_table);
    execute format('create trigger ledger_is_not_truncated before truncate on %I
                      for each statement execute function ledger_is_append_only()', fact_table);
  end loop;
  foreach fact_table in array array['material', 'kiln'] loop
    execute format('create trigger ledger_is_append_only before delete on %I
                      for each row execute function ledger_is_append_only()', fact_table);
    execute format('create trigger ledger_is_not_truncated before truncate on %I
                      for each statement execute function ledger_is_append_only()', fact_table);
    execute format('create trigger catalogue_remembers after insert or update on %I
                      for each row execute function catalogue_remembers()', fact_table);
  end loop;
end $$;
--> statement-breakpoint
grant select, insert on material, kiln, glaze_recipe, glaze_recipe_part, glaze_batch, glazing, material_delivery,
  firing, firing_share to slakebook_app;
--> statement-breakpoint
grant update on material, kiln to slakebook_app;
--> statement-breakpoint
grant update (seconds_cost_rule, seconds_price_fraction, hourly_figure) on studio to slakebook_app;
--> statement-breakpoint
grant update (kiln_id) on kiln_load to slakebook_app;
