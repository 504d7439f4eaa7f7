-- What makes clay unsure is kept by source: the scale, the tare, the water content that was reckoned with.
-- An amount is off by so much when a source is off by one of its standard uncertainties. Like clay, doubt
-- is moved and never made: in each entry the contributions of each source sum to nothing.

-- 1. Doubts as they are kept -------------------------------------------------------------------------

-- Doubts added up, source by source; what cancels is gone. Digits stay as few as they can be, so that
-- equal doubts are equal texts. Of no doubts at all, none.
create function doubts_summed(doubts jsonb[]) returns jsonb language sql immutable
  set search_path = public, pg_temp as $$
  select coalesce(jsonb_object_agg(source, trim_scale(contribution)::text), '{}')
    from (select one.key as source, sum(one.value::numeric) as contribution
            from unnest(doubts) as doubt, jsonb_each_text(doubt) as one
           group by one.key
          having sum(one.value::numeric) <> 0) as summed
$$;
--> statement-breakpoint
create function doubts_negated(doubts jsonb) returns jsonb language sql immutable
  set search_path = public, pg_temp as $$
  select coalesce(jsonb_object_agg(key, trim_scale(-value::numeric)::text), '{}') from jsonb_each_text(doubts)
$$;
--> statement-breakpoint
-- Plain digits as text, six after the point at most, none to spare, and never nothing.
create function doubts_fit_scale(doubts jsonb) returns boolean language sql immutable
  set search_path = public, pg_temp as $$
  select jsonb_typeof(doubts) = 'object' and not exists (
    select from jsonb_each(doubts)
     where jsonb_typeof(value) <> 'string' or value #>> '{}' in ('0', '-0')
        or (value #>> '{}') !~ '^-?(0|[1-9][0-9]{0,23})([.][0-9]{0,5}[1-9])?$')
$$;
--> statement-breakpoint
alter table line
  add column dry_doubt jsonb not null default '{}',
  add column cost_doubt jsonb not null default '{}';
--> statement-breakpoint
alter table holding
  add column dry_doubt jsonb not null default '{}',
  add column cost_doubt jsonb not null default '{}';
--> statement-breakpoint

-- What was doubted before sources were told apart stays doubted, as a source of each holding's own. It
-- stands on the holding's latest line, where nothing asks any more whether its entry balances in it.
alter table holding disable trigger user;
--> statement-breakpoint
alter table line disable trigger user;
--> statement-breakpoint
update holding
   set dry_doubt = jsonb_build_object('earlier|' || holding_id, trim_scale(round(sqrt(dry_variance), 6))::text)
 where dry_variance >= 0.000000000001;
--> statement-breakpoint
update line
   set dry_doubt = h.dry_doubt
  from holding h
 where h.studio_id = line.studio_id and h.holding_id = line.holding_id and h.dry_doubt <> '{}'
   and (line.entry_id, line.line_no) = (
     select l.entry_id, l.line_no from line l join entry e on e.studio_id = l.studio_id and e.entry_id = l.entry_id
      where l.studio_id = h.studio_id and l.holding_id = h.holding_id
      order by e.recorded_at desc, l.entry_id desc limit 1);
--> statement-breakpoint
-- A line that moved doubt alone says nothing any more, and its mirror could not be written.
delete from line where (dry_grams, water_grams, pieces, cost, dry_doubt) = (0, 0, 0, 0, '{}');
--> statement-breakpoint
alter table line enable trigger user;
--> statement-breakpoint
alter table holding enable trigger user;
--> statement-breakpoint
alter table line
  drop constraint line_must_fit_scale,
  drop constraint line_must_move_something,
  drop column dry_variance;
--> statement-breakpoint
alter table holding drop column dry_variance;
--> statement-breakpoint
alter table line
  add constraint line_must_fit_scale check (
    scale(dry_grams) <= 6 and scale(water_grams) <= 6 and scale(cost) <= 6 and pieces = trunc(pieces)
    and greatest(abs(dry_grams), abs(water_grams), abs(pieces), abs(cost)) < 1e24),
  add constraint doubt_must_fit_scale check (doubts_fit_scale(dry_doubt) and doubts_fit_scale(cost_doubt)),
  add constraint line_must_move_something check (
    (dry_grams, water_grams, pieces, cost, dry_doubt, cost_doubt) is distinct from (0, 0, 0, 0, '{}'::jsonb, '{}'::jsonb));
--> statement-breakpoint

-- 2. The rules that speak of doubt -----------------------------------------------------------------------

create or replace function entry_must_balance() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
declare
  total record;
  may_move_nothing boolean;
  takes_back boolean;
  lopsided text;
begin
  select count(*) as lines, coalesce(sum(dry_grams), 0) as dry_grams, coalesce(sum(water_grams), 0) as water_grams,
         coalesce(sum(pieces), 0) as pieces, coalesce(sum(cost), 0) as cost
    into total
    from line where studio_id = new.studio_id and entry_id = new.entry_id;
  select kind in ('read_slurry', 'weigh_on_plaster', 'dry_test', 'count', 'weigh_scrap', 'weigh_run', 'reverse', 'close_month'),
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
     and (total.dry_grams, total.water_grams, total.pieces, total.cost) = (0, 0, 0, 0) then
    return null;
  end if;
  raise exception 'entry % has % lines that sum to % g dry, % g water, % pieces, % money',
    new.entry_id, total.lines, total.dry_grams, total.water_grams, total.pieces, total.cost
    using errcode = 'check_violation', constraint = 'entry_must_balance';
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
  if moment < latest and (new.dry_grams < 0 or new.pieces < 0) then
    perform holding_must_not_have_been_negative(new, moment);
  end if;
  update holding
     set latest_at = greatest(latest_at, moment),
         dry_grams = dry_grams + new.dry_grams,
         water_grams = water_grams + new.water_grams,
         pieces = pieces + new.pieces,
         cost = cost + new.cost,
         dry_doubt = doubts_summed(array[dry_doubt, new.dry_doubt]),
         cost_doubt = doubts_summed(array[cost_doubt, new.cost_doubt])
   where studio_id = new.studio_id and holding_id = new.holding_id and is_inside;
  return null;
end $$;
--> statement-breakpoint
create or replace function holding_must_follow_its_lines() returns trigger language plpgsql
  set search_path = public, pg_temp as $$
begin
  if tg_op = 'INSERT' then
    if (new.dry_grams, new.water_grams, new.pieces, new.cost, new.dry_doubt, new.cost_doubt)
       = (0, 0, 0, 0, '{}', '{}')
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
    (select holding_id, dry_grams, water_grams, pieces, cost, dry_doubt, cost_doubt
       from line where studio_id = new.studio_id and entry_id = new.entry_id
     except all
     select holding_id, -dry_grams, -water_grams, -pieces, -cost,
            doubts_negated(dry_doubt), doubts_negated(cost_doubt)
       from line where studio_id = new.studio_id and entry_id = reversed_id)
    union all
    (select holding_id, -dry_grams, -water_grams, -pieces, -cost,
            doubts_negated(dry_doubt), doubts_negated(cost_doubt)
       from line where studio_id = new.studio_id and entry_id = reversed_id
     except all
     select holding_id, dry_grams, water_grams, pieces, cost, dry_doubt, cost_doubt
       from line where studio_id = new.studio_id and entry_id = new.entry_id)
  ) as difference;
  if differences = 0 and not reversed.is_open then
    return null;
  end if;
  raise exception 'entry % does not mirror entry %, or not yet', new.entry_id, reversed_id
    using errcode = 'check_violation', constraint = 'reversal_must_mirror';
end $$;
