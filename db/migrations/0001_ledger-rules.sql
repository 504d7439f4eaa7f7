-- The promises of the ledger, kept by the database itself, whoever writes.

-- 1. Domains: what a cell may hold ------------------------------------------------------------------

alter table studio
  add constraint studio_currency_is_a_code check (currency ~ '^[A-Z]{3}$'),
  add constraint studio_jurisdiction_is_known check (jurisdiction in ('GB', 'US', 'EU', 'AU', 'other'));
--> statement-breakpoint
alter table entry
  add constraint entry_kind_is_known check (kind in (
    'open_books', 'receive_delivery', 'open_bag', 'throw', 'join', 'collect_slops', 'turn', 'lose',
    'weigh_scrap', 'weigh_run', 'slake', 'decant', 'read_slurry', 'pour', 'weigh_on_plaster', 'lift',
    'wedge', 'rewet', 'bisque', 'glaze_fire', 'grade', 'sell', 'give_away', 'keep', 'break_in_shop',
    'discard', 'dry_test', 'count', 'reverse', 'close_month')),
  add constraint entry_reversal_names_its_entry check ((kind = 'reverse') = (reverses_entry_id is not null));
--> statement-breakpoint
alter table lot
  add constraint lot_kind_is_known check (kind in ('delivery', 'opened', 'load', 'reclaimed', 'wedged', 'earlier')),
  add constraint lot_load_lies_on_a_bat check ((kind = 'load') = (bat_id is not null));
--> statement-breakpoint
alter table holding
  add constraint holding_place_is_known check (place in (
    'store', 'bench', 'scrap', 'basin', 'plaster', 'greenware', 'bisque', 'glazed', 'finished',
    'before', 'supplier', 'tap', 'air', 'fire', 'hands', 'customer', 'waste', 'unexplained')),
  add constraint holding_is_inside_by_its_place check (is_inside = (place in (
    'store', 'bench', 'scrap', 'basin', 'plaster', 'greenware', 'bisque', 'glazed', 'finished'))),
  add constraint holding_inside_has_a_body check (not is_inside or body_id is not null),
  add constraint holding_must_not_go_negative check (
    dry_grams >= 0 and water_grams >= 0 and pieces >= 0 and cost >= 0),
  -- Bags and pots are made of clay.
  add constraint pieces_must_have_clay check (not is_inside or pieces = 0 or dry_grams > 0),
  -- Cost follows clay: where no clay is left, none of its cost may be stranded.
  add constraint holding_must_not_strand_cost check (dry_grams > 0 or cost = 0);
--> statement-breakpoint
-- numeric(p, s) would round in silence; a bare numeric with this check refuses instead.
alter table line
  add constraint line_must_fit_scale check (
    scale(dry_grams) <= 6 and scale(water_grams) <= 6 and scale(cost) <= 6
    and scale(dry_variance) <= 12 and pieces = trunc(pieces)
    and greatest(abs(dry_grams), abs(water_grams), abs(pieces), abs(cost), abs(dry_variance)) < 1e24),
  add constraint line_must_move_something check (
    (dry_grams, water_grams, pieces, cost, dry_variance) is distinct from (0, 0, 0, 0, 0));
--> statement-breakpoint
alter table weighing
  add constraint weighing_net_is_gross_less_tare check (net_grams = gross_grams - tare_grams),
  -- NaN is greater than everything to PostgreSQL, infinity included, so it needs a bound above.
  add constraint weighing_is_above_zero check (
    net_grams > 0 and tare_grams >= 0 and standard_uncertainty_grams >= 0
    and greatest(gross_grams, tare_grams, standard_uncertainty_grams) < 'infinity');
--> statement-breakpoint
alter table estimate
  add constraint estimate_standing_is_known check (standing in ('measured', 'estimated', 'assumed')),
  add constraint estimate_is_not_negative check (
    dry_grams >= 0 and water_grams >= 0 and standard_uncertainty_grams >= 0
    and greatest(dry_grams, water_grams, standard_uncertainty_grams) < 'infinity');
--> statement-breakpoint
alter table dry_test
  add constraint dry_test_water_content_is_a_share check (
    water_content_wet_basis >= 0 and water_content_wet_basis < 1
    and standard_uncertainty >= 0 and standard_uncertainty < 'infinity');
--> statement-breakpoint
alter table loss add constraint loss_has_pieces check (
  pieces > 0 and cost_left >= 0 and cost_left < 'infinity');
--> statement-breakpoint
alter table sale add constraint sale_has_pieces check (
  pieces > 0 and price_each >= 0 and price_each < 'infinity');
--> statement-breakpoint
alter table month_closing add constraint month_closing_is_a_month check (month ~ '^[12]\d{3}-(0[1-9]|1[0-2])$');
--> statement-breakpoint

-- Every function below says where its tables are: without that, a temporary table of the same name would
-- stand in for the ledger's, and whoever made it could show the rules what they wish to see.

-- 2. An entry balances ------------------------------------------------------------------------------

-- Each of the four columns of an entry's lines sums to exactly zero. The question is put at COMMIT, so
-- that lines may arrive one by one, and to every writer, so that no program can leave it out. Only the
-- kinds that record a reading or a decision may move nothing at all, and what takes such an entry back.
create function entry_must_balance() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
declare
  total record;
  may_move_nothing boolean;
begin
  select count(*) as lines, coalesce(sum(dry_grams), 0) as dry_grams, coalesce(sum(water_grams), 0) as water_grams,
         coalesce(sum(pieces), 0) as pieces, coalesce(sum(cost), 0) as cost
    into total
    from line where studio_id = new.studio_id and entry_id = new.entry_id;
  select kind in ('read_slurry', 'weigh_on_plaster', 'dry_test', 'count', 'weigh_scrap', 'weigh_run', 'reverse', 'close_month')
    into may_move_nothing
    from entry where studio_id = new.studio_id and entry_id = new.entry_id;
  -- A lone line can only change how sure a holding is, and only a reading does that.
  if (total.lines >= 2 or may_move_nothing)
     and (total.dry_grams, total.water_grams, total.pieces, total.cost) = (0, 0, 0, 0) then
    return null;
  end if;
  raise exception 'entry % has % lines that sum to % g dry, % g water, % pieces, % money',
    new.entry_id, total.lines, total.dry_grams, total.water_grams, total.pieces, total.cost
    using errcode = 'check_violation', constraint = 'entry_must_balance';
end $$;
--> statement-breakpoint
create constraint trigger entry_must_balance after insert on entry
  deferrable initially deferred for each row execute function entry_must_balance();
--> statement-breakpoint
create constraint trigger entry_must_balance after insert on line
  deferrable initially deferred for each row execute function entry_must_balance();
--> statement-breakpoint

-- 3. An entry is closed at commit ---------------------------------------------------------------------

-- Whoever writes an entry signs it with the transaction that writes it, and cannot sign for another.
create function entry_is_signed() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
begin
  new.recorded_in := pg_current_xact_id()::text;
  return new;
end $$;
--> statement-breakpoint
create trigger entry_is_signed before insert on entry
  for each row execute function entry_is_signed();
--> statement-breakpoint
-- A committed entry takes nothing more, not even a balanced pair of lines or a late weighing, and makes
-- no lot and no run any more.
create function entry_must_be_open() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
declare
  written_by text;
begin
  if tg_table_name in ('lot', 'run') then
    written_by := new.made_by_entry_id;
  else
    written_by := new.entry_id;
  end if;
  if exists (select from entry
              where studio_id = new.studio_id and entry_id = written_by
                and recorded_in = pg_current_xact_id()::text) then
    return new;
  end if;
  raise exception 'entry % was closed when it was committed', written_by
    using errcode = 'check_violation', constraint = 'entry_must_be_open';
end $$;
--> statement-breakpoint
create trigger entry_must_be_open before insert on lot for each row execute function entry_must_be_open();
--> statement-breakpoint
create trigger entry_must_be_open before insert on run for each row execute function entry_must_be_open();
--> statement-breakpoint
create trigger entry_must_be_open before insert on line for each row execute function entry_must_be_open();
--> statement-breakpoint
create trigger entry_must_be_open before insert on weighing for each row execute function entry_must_be_open();
--> statement-breakpoint
create trigger entry_must_be_open before insert on estimate for each row execute function entry_must_be_open();
--> statement-breakpoint
create trigger entry_must_be_open before insert on dry_test for each row execute function entry_must_be_open();
--> statement-breakpoint
create trigger entry_must_be_open before insert on loss for each row execute function entry_must_be_open();
--> statement-breakpoint
create trigger entry_must_be_open before insert on sale for each row execute function entry_must_be_open();
--> statement-breakpoint
create trigger entry_must_be_open before insert on month_closing for each row execute function entry_must_be_open();
--> statement-breakpoint

-- 4. Balances follow lines -------------------------------------------------------------------------------

-- A holding inside was never below nothing either: what is dated into the past must have been there
-- then, at each moment since. Only what leaves, and only before the holding's latest entry, needs the
-- question; entries of one moment count together. (A bare `line` would be the type of a geometric line.)
create function holding_must_not_have_been_negative(leaving public.line, moment timestamptz) returns void language plpgsql
  set search_path = public, pg_temp as $$
begin
  if exists (
    select from (
      select e.happened_at, sum(l.dry_grams) over so_far as dry_grams, sum(l.pieces) over so_far as pieces
        from line l join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
       where l.studio_id = leaving.studio_id and l.holding_id = leaving.holding_id
      window so_far as (order by e.happened_at)
    ) as running
    where running.happened_at >= moment and (running.dry_grams < 0 or running.pieces < 0)) then
    raise exception 'holding % had less than that at %, or since', leaving.holding_id, moment
      using errcode = 'check_violation', constraint = 'holding_must_not_have_been_negative';
  end if;
end $$;
--> statement-breakpoint
-- A holding inside keeps the sum of its lines, in the same transaction and whoever writes them. A holding
-- outside keeps none, so that the tap is not a row that everybody waits for. It writes as the owner, so
-- that the program's role needs no right to a balance.
create function line_moves_its_holding() returns trigger language plpgsql security definer
  set search_path = public, pg_temp as $$
declare
  moment timestamptz;
  latest timestamptz;
begin
  select happened_at into moment from entry where studio_id = new.studio_id and entry_id = new.entry_id;
  select latest_at into latest from holding
   where studio_id = new.studio_id and holding_id = new.holding_id and is_inside
     for no key update;
  if moment < latest and (new.dry_grams < 0 or new.pieces < 0) then
    perform holding_must_not_have_been_negative(new, moment);
  end if;
  update holding
     set latest_at = greatest(latest_at, moment),
         dry_grams = dry_grams + new.dry_grams,
         water_grams = water_grams + new.water_grams,
         pieces = pieces + new.pieces,
         cost = cost + new.cost,
         dry_variance = dry_variance + new.dry_variance
   where studio_id = new.studio_id and holding_id = new.holding_id and is_inside;
  return null;
end $$;
--> statement-breakpoint
create trigger line_moves_its_holding after insert on line
  for each row execute function line_moves_its_holding();
--> statement-breakpoint
-- Nothing but a line moves a balance, and nothing at all changes what a holding is.
create function holding_must_follow_its_lines() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
begin
  if tg_op = 'INSERT' then
    if (new.dry_grams, new.water_grams, new.pieces, new.cost, new.dry_variance) = (0, 0, 0, 0, 0)
       and new.latest_at is null then
      return new;
    end if;
  elsif pg_trigger_depth() > 1
        and (new.studio_id, new.holding_id, new.place, new.body_id, new.lot_id, new.run_id, new.vessel_id,
             new.grade, new.is_inside)
            is not distinct from
            (old.studio_id, old.holding_id, old.place, old.body_id, old.lot_id, old.run_id, old.vessel_id,
             old.grade, old.is_inside) then
    return new;
  end if;
  raise exception 'holding % has the balance of its lines and no other', new.holding_id
    using errcode = 'check_violation', constraint = 'holding_must_follow_its_lines';
end $$;
--> statement-breakpoint
create trigger holding_must_follow_its_lines before insert or update on holding
  for each row execute function holding_must_follow_its_lines();
--> statement-breakpoint

-- One clay lies in a vessel and one load on a bat, however it came there: poured at the same instant as
-- another, counted, or taken back to where it lay. Asked at COMMIT, because a blend empties the vessel of
-- its parts in the same entry; whoever asks holds the vessel or bat until its entry can be seen.
create function clays_must_lie_apart() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
declare
  lying record;
begin
  if new.dry_grams <= 0 then
    return null;
  end if;
  select h.vessel_id, case when h.place = 'plaster' then l.bat_id end as bat_id into lying
    from holding h left join lot l on l.studio_id = h.studio_id and l.lot_id = h.lot_id
   where h.studio_id = new.studio_id and h.holding_id = new.holding_id and h.is_inside;
  if lying.vessel_id is not null then
    perform pg_advisory_xact_lock(hashtextextended('vessel ' || new.studio_id || ' ' || lying.vessel_id, 0));
    if (select count(distinct body_id) from holding
         where studio_id = new.studio_id and vessel_id = lying.vessel_id and dry_grams > 0) > 1 then
      raise exception 'in vessel % two clays would meet', lying.vessel_id
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
create constraint trigger clays_must_lie_apart after insert on line
  deferrable initially deferred for each row execute function clays_must_lie_apart();
--> statement-breakpoint

-- 5. Nothing is edited, nothing is deleted ------------------------------------------------------------------

create function ledger_is_append_only() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
begin
  raise exception 'the ledger is append-only: % of % is refused; post a correction instead', lower(tg_op), tg_table_name
    using errcode = 'check_violation', constraint = 'ledger_is_append_only';
end $$;
--> statement-breakpoint
do $$
declare
  ledger_table text;
begin
  foreach ledger_table in array array['entry', 'line', 'weighing', 'estimate', 'dry_test', 'loss', 'sale',
                                      'month_closing', 'lot', 'run', 'catalogue_history'] loop
    execute format('create trigger ledger_is_append_only before update or delete on %I
                      for each row execute function ledger_is_append_only()', ledger_table);
    execute format('create trigger ledger_is_not_truncated before truncate on %I
                      for each statement execute function ledger_is_append_only()', ledger_table);
  end loop;
  foreach ledger_table in array array['holding', 'studio', 'body', 'form', 'vessel', 'scale', 'bat'] loop
    execute format('create trigger ledger_is_append_only before delete on %I
                      for each row execute function ledger_is_append_only()', ledger_table);
    execute format('create trigger ledger_is_not_truncated before truncate on %I
                      for each statement execute function ledger_is_append_only()', ledger_table);
  end loop;
end $$;
--> statement-breakpoint

-- 6. A closed month stays closed ------------------------------------------------------------------------------

-- The month of an entry is the month on the studio's wall. Writers share a lock that the closing takes
-- alone, so that no entry slips into a month while it is being closed. Whoever waited for the lock must
-- then see the closing, which a snapshot from before it would not show. Moments are compared, not names
-- of months: a moment before Christ or without beginning has no name that sorts before them.
create function month_must_be_open() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
declare
  month_lock bigint := hashtextextended('month closing of ' || new.studio_id, 0);
  on_the_wall timestamp;
  closed_through text;
begin
  if current_setting('transaction_isolation') not in ('read committed', 'read uncommitted') then
    raise exception 'entries are written under read committed, where a month that was just closed is seen'
      using errcode = 'check_violation', constraint = 'entry_must_see_closings';
  end if;
  if new.kind = 'close_month' then
    perform pg_advisory_xact_lock(month_lock);
  else
    perform pg_advisory_xact_lock_shared(month_lock);
  end if;
  select new.happened_at at time zone time_zone into on_the_wall
    from studio where studio_id = new.studio_id;
  select max(month) into closed_through from month_closing where studio_id = new.studio_id;
  if on_the_wall < (closed_through || '-01')::date + interval '1 month' then
    raise exception 'the books are closed through %', closed_through
      using errcode = 'check_violation', constraint = 'month_must_be_open';
  end if;
  return new;
end $$;
--> statement-breakpoint
create trigger month_must_be_open before insert on entry
  for each row execute function month_must_be_open();
--> statement-breakpoint
-- Only an entry that came to close a month took the lock alone.
create function month_must_be_closed_by_its_entry() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
begin
  if exists (select from entry where studio_id = new.studio_id and entry_id = new.entry_id
                                 and kind = 'close_month') then
    return new;
  end if;
  raise exception 'entry % did not come to close a month', new.entry_id
    using errcode = 'check_violation', constraint = 'month_must_be_closed_by_its_entry';
end $$;
--> statement-breakpoint
create trigger month_must_be_closed_by_its_entry before insert on month_closing
  for each row execute function month_must_be_closed_by_its_entry();
--> statement-breakpoint

-- 7. A reversal mirrors ------------------------------------------------------------------------------------------

-- Line by line, the reversal of an entry is the entry going the other way, and nothing else. Asked for
-- each line of a reversal as well, because whoever has the question put early (`set constraints all
-- immediate`) could add lines after the answer; and an entry that is still open has no mirror yet.
create function reversal_must_mirror() returns trigger language plpgsql
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
    (select holding_id, dry_grams, water_grams, pieces, cost, dry_variance
       from line where studio_id = new.studio_id and entry_id = new.entry_id
     except all
     select holding_id, -dry_grams, -water_grams, -pieces, -cost, -dry_variance
       from line where studio_id = new.studio_id and entry_id = reversed_id)
    union all
    (select holding_id, -dry_grams, -water_grams, -pieces, -cost, -dry_variance
       from line where studio_id = new.studio_id and entry_id = reversed_id
     except all
     select holding_id, dry_grams, water_grams, pieces, cost, dry_variance
       from line where studio_id = new.studio_id and entry_id = new.entry_id)
  ) as difference;
  if differences = 0 and not reversed.is_open then
    return null;
  end if;
  raise exception 'entry % does not mirror entry %, or not yet', new.entry_id, reversed_id
    using errcode = 'check_violation', constraint = 'reversal_must_mirror';
end $$;
--> statement-breakpoint
create constraint trigger reversal_must_mirror after insert on entry
  deferrable initially deferred for each row execute function reversal_must_mirror();
--> statement-breakpoint
create constraint trigger reversal_must_mirror after insert on line
  deferrable initially deferred for each row execute function reversal_must_mirror();
--> statement-breakpoint

-- 8. The catalogue remembers ------------------------------------------------------------------------------------

-- What a vessel weighed last spring stays readable: every change of a catalogue row is written down,
-- whoever makes it. What it is called by never changes, or its history would be another's.
create function catalogue_remembers() returns trigger language plpgsql security definer
  set search_path = public, pg_temp as $$
declare
  row_facts jsonb := to_jsonb(new);
  id_of_row text := row_facts ->> (tg_table_name || '_id');
begin
  if tg_op = 'UPDATE' and (new.studio_id, id_of_row)
                          <> (old.studio_id, to_jsonb(old) ->> (tg_table_name || '_id')) then
    raise exception '% % keeps its id and its studio', tg_table_name, to_jsonb(old) ->> (tg_table_name || '_id')
      using errcode = 'check_violation', constraint = 'catalogue_must_keep_its_ids';
  end if;
  if tg_op = 'UPDATE' and to_jsonb(old) - 'changed_at' = row_facts - 'changed_at' then
    return null;
  end if;
  insert into catalogue_history (studio_id, resource, resource_id, version_no, changed_at, facts)
  select new.studio_id, tg_table_name, id_of_row,
         1 + coalesce(max(h.version_no), 0), new.changed_at, row_facts - 'studio_id' - 'changed_at'
    from catalogue_history h
   where h.studio_id = new.studio_id and h.resource = tg_table_name and h.resource_id = id_of_row;
  return null;
end $$;
--> statement-breakpoint
do $$
declare
  catalogue_table text;
begin
  foreach catalogue_table in array array['body', 'form', 'vessel', 'scale', 'bat'] loop
    execute format('create trigger catalogue_remembers after insert or update on %I
                      for each row execute function catalogue_remembers()', catalogue_table);
  end loop;
end $$;
--> statement-breakpoint

-- 9. The role of the program --------------------------------------------------------------------------------------

-- The program writes as a role that owns nothing and can add to the ledger but not rewrite it. Roles
-- belong to the whole server, so that a second database on it finds the role made already.
do $$
begin
  create role slakebook_app nologin;
exception when duplicate_object or unique_violation then
  null;
end $$;
--> statement-breakpoint
do $$
begin
  execute format('grant slakebook_app to %I', current_user);
end $$;
--> statement-breakpoint
grant usage on schema public to slakebook_app;
--> statement-breakpoint
grant select, insert on all tables in schema public to slakebook_app;
--> statement-breakpoint
revoke insert on catalogue_history from slakebook_app;
--> statement-breakpoint
-- Locking a holding before its balance is read asks for the right to update one column of it, which
-- holding_must_follow_its_lines then refuses all the same. The balances are not the program's to write.
grant update (grade) on holding to slakebook_app;
--> statement-breakpoint
grant update on body, form, vessel, scale, bat to slakebook_app;
--> statement-breakpoint
-- What is recorded was recorded in the studio's currency and by its clock: neither changes any more.
grant update (name, jurisdiction) on studio to slakebook_app;
--> statement-breakpoint
grant update (answer) on request to slakebook_app;
