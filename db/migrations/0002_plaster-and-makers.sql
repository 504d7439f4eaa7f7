-- What a studio wants of a slab, how thick it was poured, and whether makers are compared at all.
alter table body
  add column ready_water_content_wet_basis numeric,
  add column too_dry_water_content_wet_basis numeric;
--> statement-breakpoint
alter table body
  add constraint body_is_too_dry_below_ready check (
    ready_water_content_wet_basis > 0 and ready_water_content_wet_basis < 1
    and too_dry_water_content_wet_basis >= 0 and too_dry_water_content_wet_basis < 1
    and too_dry_water_content_wet_basis < ready_water_content_wet_basis);
--> statement-breakpoint
alter table lot add column thickness_millimetres numeric;
--> statement-breakpoint
alter table lot
  add constraint lot_has_a_thickness check (thickness_millimetres > 0 and thickness_millimetres < 'infinity');
--> statement-breakpoint
alter table studio add column compares_makers boolean default false not null;
--> statement-breakpoint
-- Comparing makers is switched on by the studio, and off again.
grant update (compares_makers) on studio to slakebook_app;
--> statement-breakpoint
-- A slab that is moved to a dry bat becomes a load of its own.
alter table entry
  drop constraint entry_kind_is_known,
  add constraint entry_kind_is_known check (kind in (
    'open_books', 'receive_delivery', 'open_bag', 'throw', 'join', 'collect_slops', 'turn', 'lose',
    'weigh_scrap', 'weigh_run', 'slake', 'decant', 'read_slurry', 'pour', 'weigh_on_plaster', 'move_load', 'lift',
    'wedge', 'rewet', 'bisque', 'glaze_fire', 'grade', 'sell', 'give_away', 'keep', 'break_in_shop',
    'discard', 'dry_test', 'count', 'reverse', 'close_month'));
