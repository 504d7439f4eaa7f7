-- The schema as the catalog of the database tells it after all migrations. Not to be run: it is
-- here to be read, and so that a change of the schema shows as a difference. `npm run snapshot`
-- writes it.

-- Tables

create table bat (
  studio_id text not null,
  bat_id text not null,
  name text not null,
  dry_grams numeric,
  length_millimetres numeric,
  width_millimetres numeric,
  thickness_millimetres numeric,
  changed_at timestamp with time zone not null
);

create table body (
  studio_id text not null,
  body_id text not null,
  name text not null,
  is_blend boolean default false not null,
  loss_on_ignition_fraction numeric not null,
  drying_shrinkage_fraction_of_wet numeric,
  firing_shrinkage_fraction_of_dry numeric,
  crystalline_silica_fraction numeric,
  dust_threshold_wet_basis numeric,
  grain_grams_per_millilitre numeric not null,
  moisture jsonb default '{}'::jsonb not null,
  changed_at timestamp with time zone not null,
  ready_water_content_wet_basis numeric,
  too_dry_water_content_wet_basis numeric
);

create table catalogue_history (
  studio_id text not null,
  resource text not null,
  resource_id text not null,
  version_no bigint not null,
  changed_at timestamp with time zone not null,
  facts jsonb not null
);

create table dry_test (
  studio_id text not null,
  entry_id text not null,
  body_id text not null,
  lot_id text,
  state text not null,
  water_content_wet_basis numeric not null,
  standard_uncertainty numeric not null
);

create table entry (
  studio_id text not null,
  entry_id text not null,
  kind text not null,
  happened_at timestamp with time zone not null,
  recorded_at timestamp with time zone not null,
  recorded_by text,
  note text,
  said jsonb not null,
  reverses_entry_id text,
  recorded_in text default (pg_current_xact_id())::text not null
);

create table estimate (
  studio_id text not null,
  entry_id text not null,
  estimate_no integer not null,
  holding_id text not null,
  of text not null,
  dry_grams numeric not null,
  water_grams numeric not null,
  method text not null,
  standing text not null,
  standard_uncertainty_grams numeric not null,
  weighing_no integer
);

create table firing (
  studio_id text not null,
  entry_id text not null,
  kiln_id text not null,
  kind text not null,
  how text not null,
  standing text not null,
  relative_uncertainty numeric not null,
  kilowatt_hours numeric,
  candling_kilowatt_hours numeric,
  fuel_material_id text,
  fuel_grams numeric,
  price_per_kilowatt_hour numeric,
  energy_cost numeric not null,
  candling_cost numeric not null,
  wear_cost numeric not null,
  shared_by text,
  shared_by_words text,
  full_fraction numeric,
  full_how text
);

create table firing_share (
  studio_id text not null,
  entry_id text not null,
  run_id text not null,
  pieces integer not null,
  weight numeric not null,
  energy_cost numeric not null,
  wear_cost numeric not null
);

create table form (
  studio_id text not null,
  form_id text not null,
  name text not null,
  ball_grams numeric,
  turned_off_fraction numeric,
  price numeric,
  changed_at timestamp with time zone not null,
  kiln_footprint_square_centimetres numeric,
  kiln_height_centimetres numeric,
  glaze_grams_per_piece numeric,
  packing jsonb default '[]'::jsonb not null
);

create table glaze_batch (
  studio_id text not null,
  entry_id text not null,
  material_id text not null,
  version_no integer,
  vessel_id text not null,
  dry_grams numeric not null,
  water_grams numeric not null,
  cost numeric not null,
  loss_on_ignition_fraction numeric not null,
  grain_grams_per_millilitre numeric not null
);

create table glaze_recipe (
  studio_id text not null,
  material_id text not null,
  version_no integer not null,
  note text,
  made_at timestamp with time zone not null
);

create table glaze_recipe_part (
  studio_id text not null,
  material_id text not null,
  version_no integer not null,
  part_no integer not null,
  ingredient_id text not null,
  parts numeric not null,
  is_addition boolean not null
);

create table glazing (
  studio_id text not null,
  entry_id text not null,
  run_id text not null,
  material_id text not null,
  pieces integer not null,
  dry_grams numeric not null,
  standard_uncertainty_grams numeric not null,
  loss_on_ignition_fraction numeric not null,
  how text not null
);

create table holding (
  studio_id text not null,
  holding_id text not null,
  place text not null,
  body_id text,
  lot_id text,
  run_id text,
  vessel_id text,
  grade text,
  is_inside boolean not null,
  dry_grams numeric default '0'::numeric not null,
  water_grams numeric default '0'::numeric not null,
  pieces numeric default '0'::numeric not null,
  cost numeric default '0'::numeric not null,
  latest_at timestamp with time zone,
  dry_doubt jsonb default '{}'::jsonb not null,
  cost_doubt jsonb default '{}'::jsonb not null,
  material_id text,
  material_grams numeric default '0'::numeric not null,
  cost_layers jsonb default '{}'::jsonb not null,
  material_doubt jsonb default '{}'::jsonb not null
);

create table kiln (
  studio_id text not null,
  kiln_id text not null,
  name text not null,
  volume_litres numeric,
  usable_fraction numeric default 0.6 not null,
  rated_kilowatts numeric,
  share_by text default 'shelf_space'::text not null,
  price_per_kilowatt_hour numeric,
  wear_per_firing numeric default '0'::numeric not null,
  bisque_hours numeric,
  glaze_hours numeric,
  fuel_material_id text,
  changed_at timestamp with time zone not null
);

create table kiln_load (
  studio_id text not null,
  kiln_load_id text not null,
  kind text not null,
  loaded_at timestamp with time zone not null,
  loaded_by text,
  unloaded_at timestamp with time zone,
  fired_by_entry_id text,
  kiln_id text
);

create table kiln_load_run (
  studio_id text not null,
  kiln_load_id text not null,
  run_id text not null,
  pieces integer not null,
  lost_by_entry_id text
);

create table line (
  studio_id text not null,
  entry_id text not null,
  line_no integer not null,
  holding_id text not null,
  dry_grams numeric not null,
  water_grams numeric not null,
  pieces numeric not null,
  cost numeric not null,
  dry_doubt jsonb default '{}'::jsonb not null,
  cost_doubt jsonb default '{}'::jsonb not null,
  material_grams numeric default '0'::numeric not null,
  cost_layers jsonb default '{}'::jsonb not null,
  material_doubt jsonb default '{}'::jsonb not null
);

create table loss (
  studio_id text not null,
  entry_id text not null,
  run_id text not null,
  pieces integer not null,
  stage text not null,
  cause text not null,
  cost_left numeric not null,
  abnormal_pieces integer default 0 not null,
  cost_abnormal numeric default '0'::numeric not null,
  usual_words text
);

create table lot (
  studio_id text not null,
  lot_id text not null,
  kind text not null,
  body_id text not null,
  label text not null,
  made_by_entry_id text not null,
  bat_id text,
  bags integer,
  goods_price numeric,
  freight numeric,
  dry_grams_at_first numeric,
  thickness_millimetres numeric
);

create table material (
  studio_id text not null,
  material_id text not null,
  name text not null,
  kind text not null,
  kept_by text not null,
  supplier text,
  water_content_wet_basis numeric default '0'::numeric not null,
  loss_on_ignition_fraction numeric default '0'::numeric not null,
  grain_grams_per_millilitre numeric default 2.6 not null,
  crystalline_silica_fraction numeric,
  hazards jsonb default '[]'::jsonb not null,
  data_sheet_on text,
  reorder_point numeric,
  pack_size numeric,
  price_steps jsonb default '[]'::jsonb not null,
  changed_at timestamp with time zone not null
);

create table material_delivery (
  studio_id text not null,
  entry_id text not null,
  material_id text not null,
  wet_grams numeric,
  dry_grams numeric,
  pieces numeric,
  goods_price numeric not null,
  freight numeric not null,
  label text
);

create table month_closing (
  studio_id text not null,
  month text not null,
  entry_id text not null
);

create table request (
  studio_id text not null,
  idempotency_key text not null,
  fingerprint text not null,
  answer jsonb,
  recorded_at timestamp with time zone not null
);

create table run (
  studio_id text not null,
  run_id text not null,
  form_id text not null,
  body_id text not null,
  label text not null,
  thrown_at timestamp with time zone not null,
  maker text,
  made_by_entry_id text not null
);

create table sale (
  studio_id text not null,
  entry_id text not null,
  form_id text not null,
  grade text not null,
  pieces integer not null,
  price_each numeric not null,
  channel text not null
);

create table scale (
  studio_id text not null,
  scale_id text not null,
  name text not null,
  division_grams numeric not null,
  capacity_grams numeric not null,
  changed_at timestamp with time zone not null
);

create table studio (
  studio_id text not null,
  name text not null,
  currency text not null,
  time_zone text not null,
  jurisdiction text not null,
  created_at timestamp with time zone not null,
  compares_makers boolean default false not null,
  mass_units text default 'metric'::text not null,
  date_order text default 'day_month_year'::text not null,
  trade_words text default 'UK'::text not null,
  seconds_cost_rule text default 'like_firsts'::text not null,
  seconds_price_fraction numeric default 0.5 not null,
  hourly_figure numeric
);

create table vessel (
  studio_id text not null,
  vessel_id text not null,
  name text not null,
  kind text not null,
  tare_grams numeric not null,
  changed_at timestamp with time zone not null
);

create table weighing (
  studio_id text not null,
  entry_id text not null,
  weighing_no integer not null,
  purpose text not null,
  kind text not null,
  as_read jsonb not null,
  gross_grams numeric not null,
  tare_grams numeric not null,
  net_grams numeric not null,
  standard_uncertainty_grams numeric not null,
  vessel_id text,
  scale_id text,
  division_grams numeric,
  capacity_grams numeric,
  weighed_at timestamp with time zone not null,
  weighed_by text
);

-- Constraints

alter table bat add constraint bat_name_must_be_new UNIQUE (studio_id, name);
alter table bat add constraint bat_studio_id_bat_id_pk PRIMARY KEY (studio_id, bat_id);
alter table bat add constraint bat_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table body add constraint body_is_too_dry_below_ready CHECK (((ready_water_content_wet_basis > (0)::numeric) AND (ready_water_content_wet_basis < (1)::numeric) AND (too_dry_water_content_wet_basis >= (0)::numeric) AND (too_dry_water_content_wet_basis < (1)::numeric) AND (too_dry_water_content_wet_basis < ready_water_content_wet_basis)));
alter table body add constraint body_name_must_be_new UNIQUE (studio_id, name);
alter table body add constraint body_studio_id_body_id_pk PRIMARY KEY (studio_id, body_id);
alter table body add constraint body_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table catalogue_history add constraint catalogue_history_studio_id_resource_resource_id_version_no_pk PRIMARY KEY (studio_id, resource, resource_id, version_no);
alter table catalogue_history add constraint catalogue_history_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table dry_test add constraint dry_test_has_a_body FOREIGN KEY (studio_id, body_id) REFERENCES body(studio_id, body_id);
alter table dry_test add constraint dry_test_has_a_lot FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id);
alter table dry_test add constraint dry_test_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table dry_test add constraint dry_test_studio_id_entry_id_pk PRIMARY KEY (studio_id, entry_id);
alter table dry_test add constraint dry_test_water_content_is_a_share CHECK (((water_content_wet_basis >= (0)::numeric) AND (water_content_wet_basis < (1)::numeric) AND (standard_uncertainty >= (0)::numeric) AND (standard_uncertainty < 'Infinity'::numeric)));
alter table entry add constraint entry_kind_is_known CHECK ((kind = ANY (ARRAY['open_books'::text, 'receive_delivery'::text, 'open_bag'::text, 'throw'::text, 'join'::text, 'collect_slops'::text, 'turn'::text, 'lose'::text, 'weigh_scrap'::text, 'weigh_run'::text, 'slake'::text, 'decant'::text, 'read_slurry'::text, 'pour'::text, 'weigh_on_plaster'::text, 'move_load'::text, 'lift'::text, 'wedge'::text, 'rewet'::text, 'bisque'::text, 'glaze_fire'::text, 'grade'::text, 'sell'::text, 'give_away'::text, 'keep'::text, 'break_in_shop'::text, 'discard'::text, 'dry_test'::text, 'count'::text, 'receive_materials'::text, 'mix_glaze'::text, 'water_glaze'::text, 'read_glaze'::text, 'lose_glaze'::text, 'glaze'::text, 'count_material'::text, 'use_material'::text, 'fire_empty'::text, 'reverse'::text, 'close_month'::text])));
alter table entry add constraint entry_must_not_be_reversed_already UNIQUE (studio_id, reverses_entry_id);
alter table entry add constraint entry_reversal_names_its_entry CHECK (((kind = 'reverse'::text) = (reverses_entry_id IS NOT NULL)));
alter table entry add constraint entry_reverses_an_entry FOREIGN KEY (studio_id, reverses_entry_id) REFERENCES entry(studio_id, entry_id);
alter table entry add constraint entry_studio_id_entry_id_pk PRIMARY KEY (studio_id, entry_id);
alter table entry add constraint entry_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table estimate add constraint estimate_has_a_holding FOREIGN KEY (studio_id, holding_id) REFERENCES holding(studio_id, holding_id);
alter table estimate add constraint estimate_has_a_weighing FOREIGN KEY (studio_id, entry_id, weighing_no) REFERENCES weighing(studio_id, entry_id, weighing_no);
alter table estimate add constraint estimate_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table estimate add constraint estimate_is_not_negative CHECK (((dry_grams >= (0)::numeric) AND (water_grams >= (0)::numeric) AND (standard_uncertainty_grams >= (0)::numeric) AND (GREATEST(dry_grams, water_grams, standard_uncertainty_grams) < 'Infinity'::numeric)));
alter table estimate add constraint estimate_standing_is_known CHECK ((standing = ANY (ARRAY['measured'::text, 'estimated'::text, 'assumed'::text])));
alter table estimate add constraint estimate_studio_id_entry_id_estimate_no_pk PRIMARY KEY (studio_id, entry_id, estimate_no);
alter table firing add constraint firing_burns_a_fuel FOREIGN KEY (studio_id, fuel_material_id) REFERENCES material(studio_id, material_id);
alter table firing add constraint firing_costs_something_or_nothing CHECK (((energy_cost >= (0)::numeric) AND (energy_cost < 'Infinity'::numeric) AND (wear_cost >= (0)::numeric) AND (wear_cost < 'Infinity'::numeric) AND (candling_cost >= (0)::numeric) AND (candling_cost <= energy_cost) AND (full_fraction > (0)::numeric) AND (full_fraction < 'Infinity'::numeric)));
alter table firing add constraint firing_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table firing add constraint firing_is_of_a_kiln FOREIGN KEY (studio_id, kiln_id) REFERENCES kiln(studio_id, kiln_id);
alter table firing add constraint firing_kind_is_known CHECK ((kind = ANY (ARRAY['bisque'::text, 'glaze'::text, 'empty'::text])));
alter table firing add constraint firing_standing_is_known CHECK ((standing = ANY (ARRAY['measured'::text, 'estimated'::text, 'assumed'::text])));
alter table firing add constraint firing_studio_id_entry_id_pk PRIMARY KEY (studio_id, entry_id);
alter table firing add constraint firing_used_something_or_nothing CHECK (((relative_uncertainty >= (0)::numeric) AND (relative_uncertainty < 'Infinity'::numeric) AND (kilowatt_hours >= (0)::numeric) AND (kilowatt_hours < 'Infinity'::numeric) AND (candling_kilowatt_hours >= (0)::numeric) AND (candling_kilowatt_hours < 'Infinity'::numeric) AND (fuel_grams >= (0)::numeric) AND (fuel_grams < 'Infinity'::numeric) AND (price_per_kilowatt_hour >= (0)::numeric) AND (price_per_kilowatt_hour < 'Infinity'::numeric)));
alter table firing_share add constraint firing_share_costs_something_or_nothing CHECK (((energy_cost >= (0)::numeric) AND (energy_cost < 'Infinity'::numeric) AND (wear_cost >= (0)::numeric) AND (wear_cost < 'Infinity'::numeric) AND (weight >= (0)::numeric) AND (weight < 'Infinity'::numeric) AND (pieces > 0)));
alter table firing_share add constraint firing_share_has_a_run FOREIGN KEY (studio_id, run_id) REFERENCES run(studio_id, run_id);
alter table firing_share add constraint firing_share_is_of_a_firing FOREIGN KEY (studio_id, entry_id) REFERENCES firing(studio_id, entry_id);
alter table firing_share add constraint firing_share_studio_id_entry_id_run_id_pk PRIMARY KEY (studio_id, entry_id, run_id);
alter table form add constraint form_glaze_is_a_mass CHECK (((glaze_grams_per_piece > (0)::numeric) AND (glaze_grams_per_piece < 'Infinity'::numeric)));
alter table form add constraint form_name_must_be_new UNIQUE (studio_id, name);
alter table form add constraint form_packing_is_a_list CHECK ((jsonb_typeof(packing) = 'array'::text));
alter table form add constraint form_studio_id_form_id_pk PRIMARY KEY (studio_id, form_id);
alter table form add constraint form_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table form add constraint form_takes_room_in_a_kiln CHECK (((kiln_footprint_square_centimetres > (0)::numeric) AND (kiln_footprint_square_centimetres < 'Infinity'::numeric) AND (kiln_height_centimetres > (0)::numeric) AND (kiln_height_centimetres < 'Infinity'::numeric)));
alter table glaze_batch add constraint glaze_batch_follows_a_recipe FOREIGN KEY (studio_id, material_id, version_no) REFERENCES glaze_recipe(studio_id, material_id, version_no);
alter table glaze_batch add constraint glaze_batch_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table glaze_batch add constraint glaze_batch_is_in_a_vessel FOREIGN KEY (studio_id, vessel_id) REFERENCES vessel(studio_id, vessel_id);
alter table glaze_batch add constraint glaze_batch_is_of_a_glaze FOREIGN KEY (studio_id, material_id) REFERENCES material(studio_id, material_id);
alter table glaze_batch add constraint glaze_batch_is_of_something CHECK (((dry_grams > (0)::numeric) AND (dry_grams < 'Infinity'::numeric) AND (water_grams >= (0)::numeric) AND (water_grams < 'Infinity'::numeric) AND (cost >= (0)::numeric) AND (cost < 'Infinity'::numeric) AND (loss_on_ignition_fraction >= (0)::numeric) AND (loss_on_ignition_fraction < (1)::numeric) AND (grain_grams_per_millilitre > (1)::numeric) AND (grain_grams_per_millilitre < 'Infinity'::numeric)));
alter table glaze_batch add constraint glaze_batch_studio_id_entry_id_pk PRIMARY KEY (studio_id, entry_id);
alter table glaze_recipe add constraint glaze_recipe_is_of_a_glaze FOREIGN KEY (studio_id, material_id) REFERENCES material(studio_id, material_id);
alter table glaze_recipe add constraint glaze_recipe_studio_id_material_id_version_no_pk PRIMARY KEY (studio_id, material_id, version_no);
alter table glaze_recipe add constraint glaze_recipe_versions_count_up CHECK ((version_no >= 1));
alter table glaze_recipe_part add constraint glaze_is_not_its_own_ingredient CHECK ((ingredient_id <> material_id));
alter table glaze_recipe_part add constraint glaze_recipe_part_has_parts CHECK (((parts > (0)::numeric) AND (parts < 'Infinity'::numeric)));
alter table glaze_recipe_part add constraint glaze_recipe_part_is_an_ingredient FOREIGN KEY (studio_id, ingredient_id) REFERENCES material(studio_id, material_id);
alter table glaze_recipe_part add constraint glaze_recipe_part_is_of_a_recipe FOREIGN KEY (studio_id, material_id, version_no) REFERENCES glaze_recipe(studio_id, material_id, version_no);
alter table glaze_recipe_part add constraint glaze_recipe_part_studio_id_material_id_version_no_part_no_pk PRIMARY KEY (studio_id, material_id, version_no, part_no);
alter table glazing add constraint glazing_has_a_run FOREIGN KEY (studio_id, run_id) REFERENCES run(studio_id, run_id);
alter table glazing add constraint glazing_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table glazing add constraint glazing_has_pieces CHECK (((pieces > 0) AND (dry_grams > (0)::numeric) AND (dry_grams < 'Infinity'::numeric) AND (standard_uncertainty_grams >= (0)::numeric) AND (standard_uncertainty_grams < 'Infinity'::numeric) AND (loss_on_ignition_fraction >= (0)::numeric) AND (loss_on_ignition_fraction < (1)::numeric)));
alter table glazing add constraint glazing_how_is_known CHECK ((how = ANY (ARRAY['bucket'::text, 'pieces'::text, 'usual'::text])));
alter table glazing add constraint glazing_is_of_a_glaze FOREIGN KEY (studio_id, material_id) REFERENCES material(studio_id, material_id);
alter table glazing add constraint glazing_studio_id_entry_id_run_id_pk PRIMARY KEY (studio_id, entry_id, run_id);
alter table holding add constraint glaze_must_be_on_something CHECK (((material_grams = (0)::numeric) OR (material_id IS NOT NULL) OR (dry_grams > (0)::numeric)));
alter table holding add constraint holding_has_a_body FOREIGN KEY (studio_id, body_id) REFERENCES body(studio_id, body_id);
alter table holding add constraint holding_has_a_lot FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id);
alter table holding add constraint holding_has_a_material FOREIGN KEY (studio_id, material_id) REFERENCES material(studio_id, material_id);
alter table holding add constraint holding_has_a_run FOREIGN KEY (studio_id, run_id) REFERENCES run(studio_id, run_id);
alter table holding add constraint holding_has_a_vessel FOREIGN KEY (studio_id, vessel_id) REFERENCES vessel(studio_id, vessel_id);
alter table holding add constraint holding_inside_has_a_body CHECK (((NOT is_inside) OR
CASE
    WHEN (place = ANY (ARRAY['materials'::text, 'glaze_bucket'::text])) THEN (material_id IS NOT NULL)
    ELSE (body_id IS NOT NULL)
END));
alter table holding add constraint holding_is_inside_by_its_place CHECK ((is_inside = (place = ANY (ARRAY['store'::text, 'bench'::text, 'scrap'::text, 'basin'::text, 'plaster'::text, 'greenware'::text, 'bisque'::text, 'glazed'::text, 'finished'::text, 'materials'::text, 'glaze_bucket'::text]))));
alter table holding add constraint holding_is_of_one_thing CHECK (((body_id IS NULL) OR (material_id IS NULL)));
alter table holding add constraint holding_must_be_one_a_place UNIQUE NULLS NOT DISTINCT (studio_id, place, body_id, material_id, lot_id, run_id, vessel_id, grade);
alter table holding add constraint holding_must_not_go_negative CHECK (((dry_grams >= (0)::numeric) AND (material_grams >= (0)::numeric) AND (water_grams >= (0)::numeric) AND (pieces >= (0)::numeric) AND (cost >= (0)::numeric) AND cost_layers_fit_cost(cost_layers, cost)));
alter table holding add constraint holding_must_not_strand_cost CHECK (((cost = (0)::numeric) OR (dry_grams > (0)::numeric) OR (material_grams > (0)::numeric) OR ((material_id IS NOT NULL) AND (pieces > (0)::numeric))));
alter table holding add constraint holding_place_is_known CHECK ((place = ANY (ARRAY['store'::text, 'bench'::text, 'scrap'::text, 'basin'::text, 'plaster'::text, 'greenware'::text, 'bisque'::text, 'glazed'::text, 'finished'::text, 'materials'::text, 'glaze_bucket'::text, 'before'::text, 'supplier'::text, 'utility'::text, 'wear'::text, 'tap'::text, 'air'::text, 'fire'::text, 'hands'::text, 'customer'::text, 'waste'::text, 'abnormal'::text, 'idle'::text, 'unexplained'::text])));
alter table holding add constraint holding_studio_id_holding_id_pk PRIMARY KEY (studio_id, holding_id);
alter table holding add constraint holding_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table holding add constraint material_must_not_be_clay CHECK (((NOT is_inside) OR (material_id IS NULL) OR ((dry_grams = (0)::numeric) AND cost_layers_are_all_of_cost(cost_layers, cost))));
alter table holding add constraint pieces_must_have_clay CHECK (((NOT is_inside) OR (pieces = (0)::numeric) OR (dry_grams > (0)::numeric) OR (material_id IS NOT NULL)));
alter table kiln add constraint kiln_burns_a_fuel FOREIGN KEY (studio_id, fuel_material_id) REFERENCES material(studio_id, material_id);
alter table kiln add constraint kiln_figures_are_above_zero CHECK (((volume_litres > (0)::numeric) AND (volume_litres < 'Infinity'::numeric) AND (rated_kilowatts > (0)::numeric) AND (rated_kilowatts < 'Infinity'::numeric) AND (usable_fraction > (0)::numeric) AND (usable_fraction <= (1)::numeric) AND (price_per_kilowatt_hour >= (0)::numeric) AND (price_per_kilowatt_hour < 'Infinity'::numeric) AND (wear_per_firing >= (0)::numeric) AND (wear_per_firing < 'Infinity'::numeric) AND (bisque_hours > (0)::numeric) AND (bisque_hours < 'Infinity'::numeric) AND (glaze_hours > (0)::numeric) AND (glaze_hours < 'Infinity'::numeric)));
alter table kiln add constraint kiln_name_must_be_new UNIQUE (studio_id, name);
alter table kiln add constraint kiln_share_rule_is_known CHECK ((share_by = ANY (ARRAY['shelf_space'::text, 'mass'::text, 'count'::text])));
alter table kiln add constraint kiln_studio_id_kiln_id_pk PRIMARY KEY (studio_id, kiln_id);
alter table kiln add constraint kiln_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table kiln_load add constraint kiln_load_is_fired_before_it_is_unloaded CHECK (((fired_by_entry_id IS NULL) OR (unloaded_at IS NOT NULL)));
alter table kiln_load add constraint kiln_load_is_in_a_kiln FOREIGN KEY (studio_id, kiln_id) REFERENCES kiln(studio_id, kiln_id);
alter table kiln_load add constraint kiln_load_kind_is_known CHECK ((kind = ANY (ARRAY['bisque'::text, 'glaze'::text])));
alter table kiln_load add constraint kiln_load_studio_id_kiln_load_id_pk PRIMARY KEY (studio_id, kiln_load_id);
alter table kiln_load add constraint kiln_load_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table kiln_load add constraint kiln_load_was_fired_by_an_entry FOREIGN KEY (studio_id, fired_by_entry_id) REFERENCES entry(studio_id, entry_id);
alter table kiln_load_run add constraint kiln_load_run_has_a_run FOREIGN KEY (studio_id, run_id) REFERENCES run(studio_id, run_id);
alter table kiln_load_run add constraint kiln_load_run_is_a_count CHECK ((pieces >= 0));
alter table kiln_load_run add constraint kiln_load_run_is_of_a_load FOREIGN KEY (studio_id, kiln_load_id) REFERENCES kiln_load(studio_id, kiln_load_id);
alter table kiln_load_run add constraint kiln_load_run_studio_id_kiln_load_id_run_id_pk PRIMARY KEY (studio_id, kiln_load_id, run_id);
alter table kiln_load_run add constraint kiln_load_run_was_lost_by_an_entry FOREIGN KEY (studio_id, lost_by_entry_id) REFERENCES entry(studio_id, entry_id);
alter table line add constraint doubt_must_fit_scale CHECK ((doubts_fit_scale(dry_doubt) AND doubts_fit_scale(material_doubt) AND doubts_fit_scale(cost_doubt)));
alter table line add constraint line_has_a_holding FOREIGN KEY (studio_id, holding_id) REFERENCES holding(studio_id, holding_id);
alter table line add constraint line_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table line add constraint line_must_be_one_a_holding UNIQUE (studio_id, entry_id, holding_id);
alter table line add constraint line_must_fit_scale CHECK (((scale(dry_grams) <= 6) AND (scale(material_grams) <= 6) AND (scale(water_grams) <= 6) AND (scale(cost) <= 6) AND (pieces = trunc(pieces)) AND cost_layers_fit_scale(cost_layers) AND (GREATEST(abs(dry_grams), abs(material_grams), abs(water_grams), abs(pieces), abs(cost)) < '1000000000000000000000000'::numeric)));
alter table line add constraint line_must_move_something CHECK ((((((((((dry_grams IS DISTINCT FROM (0)::numeric) OR (material_grams IS DISTINCT FROM (0)::numeric)) OR (water_grams IS DISTINCT FROM (0)::numeric)) OR (pieces IS DISTINCT FROM (0)::numeric)) OR (cost IS DISTINCT FROM (0)::numeric)) OR (cost_layers IS DISTINCT FROM '{}'::jsonb)) OR (dry_doubt IS DISTINCT FROM '{}'::jsonb)) OR (material_doubt IS DISTINCT FROM '{}'::jsonb)) OR (cost_doubt IS DISTINCT FROM '{}'::jsonb)));
alter table line add constraint line_studio_id_entry_id_line_no_pk PRIMARY KEY (studio_id, entry_id, line_no);
alter table loss add constraint loss_has_a_run FOREIGN KEY (studio_id, run_id) REFERENCES run(studio_id, run_id);
alter table loss add constraint loss_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table loss add constraint loss_has_pieces CHECK (((pieces > 0) AND (cost_left >= (0)::numeric) AND (cost_left < 'Infinity'::numeric)));
alter table loss add constraint loss_is_abnormal_in_part CHECK ((((abnormal_pieces >= 0) AND (abnormal_pieces <= pieces)) AND (cost_abnormal >= (0)::numeric) AND (cost_abnormal < 'Infinity'::numeric)));
alter table loss add constraint loss_studio_id_entry_id_run_id_pk PRIMARY KEY (studio_id, entry_id, run_id);
alter table lot add constraint lot_has_a_body FOREIGN KEY (studio_id, body_id) REFERENCES body(studio_id, body_id);
alter table lot add constraint lot_has_a_thickness CHECK (((thickness_millimetres > (0)::numeric) AND (thickness_millimetres < 'Infinity'::numeric)));
alter table lot add constraint lot_has_an_entry FOREIGN KEY (studio_id, made_by_entry_id) REFERENCES entry(studio_id, entry_id);
alter table lot add constraint lot_kind_is_known CHECK ((kind = ANY (ARRAY['delivery'::text, 'opened'::text, 'load'::text, 'reclaimed'::text, 'wedged'::text, 'earlier'::text])));
alter table lot add constraint lot_lies_on_a_bat FOREIGN KEY (studio_id, bat_id) REFERENCES bat(studio_id, bat_id);
alter table lot add constraint lot_load_lies_on_a_bat CHECK (((kind = 'load'::text) = (bat_id IS NOT NULL)));
alter table lot add constraint lot_studio_id_lot_id_pk PRIMARY KEY (studio_id, lot_id);
alter table material add constraint material_figures_are_above_zero CHECK (((reorder_point >= (0)::numeric) AND (reorder_point < 'Infinity'::numeric) AND (pack_size > (0)::numeric) AND (pack_size < 'Infinity'::numeric)));
alter table material add constraint material_glaze_is_weighed CHECK (((kind <> ALL (ARRAY['ingredient'::text, 'glaze'::text, 'fuel'::text])) OR (kept_by = 'mass'::text)));
alter table material add constraint material_grains_are_heavier_than_water CHECK (((grain_grams_per_millilitre > (1)::numeric) AND (grain_grams_per_millilitre < 'Infinity'::numeric)));
alter table material add constraint material_is_kept_by_mass_or_count CHECK ((kept_by = ANY (ARRAY['mass'::text, 'count'::text])));
alter table material add constraint material_kind_is_known CHECK ((kind = ANY (ARRAY['ingredient'::text, 'glaze'::text, 'packaging'::text, 'kiln_furniture'::text, 'fuel'::text])));
alter table material add constraint material_lists_are_lists CHECK (((jsonb_typeof(hazards) = 'array'::text) AND (jsonb_typeof(price_steps) = 'array'::text)));
alter table material add constraint material_loss_is_a_share CHECK (((loss_on_ignition_fraction >= (0)::numeric) AND (loss_on_ignition_fraction < (1)::numeric)));
alter table material add constraint material_name_must_be_new UNIQUE (studio_id, name);
alter table material add constraint material_silica_is_a_share CHECK (((crystalline_silica_fraction >= (0)::numeric) AND (crystalline_silica_fraction <= (1)::numeric)));
alter table material add constraint material_studio_id_material_id_pk PRIMARY KEY (studio_id, material_id);
alter table material add constraint material_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table material add constraint material_water_is_a_share CHECK (((water_content_wet_basis >= (0)::numeric) AND (water_content_wet_basis < (1)::numeric)));
alter table material_delivery add constraint material_delivery_brings_something CHECK (((wet_grams > (0)::numeric) AND (wet_grams < 'Infinity'::numeric) AND (dry_grams > (0)::numeric) AND (dry_grams <= wet_grams) AND (pieces > (0)::numeric) AND (pieces < 'Infinity'::numeric)));
alter table material_delivery add constraint material_delivery_has_a_price CHECK (((goods_price >= (0)::numeric) AND (goods_price < 'Infinity'::numeric) AND (freight >= (0)::numeric) AND (freight < 'Infinity'::numeric)));
alter table material_delivery add constraint material_delivery_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table material_delivery add constraint material_delivery_is_of_a_material FOREIGN KEY (studio_id, material_id) REFERENCES material(studio_id, material_id);
alter table material_delivery add constraint material_delivery_studio_id_entry_id_material_id_pk PRIMARY KEY (studio_id, entry_id, material_id);
alter table month_closing add constraint month_closing_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table month_closing add constraint month_closing_is_a_month CHECK ((month ~ '^[12]\d{3}-(0[1-9]|1[0-2])$'::text));
alter table month_closing add constraint month_closing_studio_id_month_pk PRIMARY KEY (studio_id, month);
alter table request add constraint request_studio_id_idempotency_key_pk PRIMARY KEY (studio_id, idempotency_key);
alter table request add constraint request_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table run add constraint run_has_a_body FOREIGN KEY (studio_id, body_id) REFERENCES body(studio_id, body_id);
alter table run add constraint run_has_a_form FOREIGN KEY (studio_id, form_id) REFERENCES form(studio_id, form_id);
alter table run add constraint run_has_an_entry FOREIGN KEY (studio_id, made_by_entry_id) REFERENCES entry(studio_id, entry_id);
alter table run add constraint run_studio_id_run_id_pk PRIMARY KEY (studio_id, run_id);
alter table sale add constraint sale_has_a_form FOREIGN KEY (studio_id, form_id) REFERENCES form(studio_id, form_id);
alter table sale add constraint sale_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table sale add constraint sale_has_pieces CHECK (((pieces > 0) AND (price_each >= (0)::numeric) AND (price_each < 'Infinity'::numeric)));
alter table sale add constraint sale_studio_id_entry_id_pk PRIMARY KEY (studio_id, entry_id);
alter table scale add constraint scale_name_must_be_new UNIQUE (studio_id, name);
alter table scale add constraint scale_studio_id_scale_id_pk PRIMARY KEY (studio_id, scale_id);
alter table scale add constraint scale_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table studio add constraint studio_currency_is_a_code CHECK ((currency ~ '^[A-Z]{3}$'::text));
alter table studio add constraint studio_date_order_is_known CHECK ((date_order = ANY (ARRAY['day_month_year'::text, 'month_day_year'::text, 'year_month_day'::text])));
alter table studio add constraint studio_hourly_figure_is_money CHECK (((hourly_figure >= (0)::numeric) AND (hourly_figure < 'Infinity'::numeric)));
alter table studio add constraint studio_jurisdiction_is_known CHECK ((jurisdiction = ANY (ARRAY['GB'::text, 'US'::text, 'EU'::text, 'AU'::text, 'other'::text])));
alter table studio add constraint studio_mass_units_are_known CHECK ((mass_units = ANY (ARRAY['metric'::text, 'pounds_ounces'::text])));
alter table studio add constraint studio_pkey PRIMARY KEY (studio_id);
alter table studio add constraint studio_seconds_cost_rule_is_known CHECK ((seconds_cost_rule = ANY (ARRAY['like_firsts'::text, 'by_price'::text])));
alter table studio add constraint studio_seconds_price_is_a_fraction CHECK (((seconds_price_fraction > (0)::numeric) AND (seconds_price_fraction <= (1)::numeric)));
alter table studio add constraint studio_trade_words_are_known CHECK ((trade_words = ANY (ARRAY['UK'::text, 'US'::text])));
alter table vessel add constraint vessel_name_must_be_new UNIQUE (studio_id, name);
alter table vessel add constraint vessel_studio_id_studio_studio_id_fk FOREIGN KEY (studio_id) REFERENCES studio(studio_id);
alter table vessel add constraint vessel_studio_id_vessel_id_pk PRIMARY KEY (studio_id, vessel_id);
alter table weighing add constraint weighing_has_a_scale FOREIGN KEY (studio_id, scale_id) REFERENCES scale(studio_id, scale_id);
alter table weighing add constraint weighing_has_a_vessel FOREIGN KEY (studio_id, vessel_id) REFERENCES vessel(studio_id, vessel_id);
alter table weighing add constraint weighing_has_an_entry FOREIGN KEY (studio_id, entry_id) REFERENCES entry(studio_id, entry_id);
alter table weighing add constraint weighing_is_above_zero CHECK (((net_grams > (0)::numeric) AND (tare_grams >= (0)::numeric) AND (standard_uncertainty_grams >= (0)::numeric) AND (GREATEST(gross_grams, tare_grams, standard_uncertainty_grams) < 'Infinity'::numeric)));
alter table weighing add constraint weighing_net_is_gross_less_tare CHECK ((net_grams = (gross_grams - tare_grams)));
alter table weighing add constraint weighing_studio_id_entry_id_weighing_no_pk PRIMARY KEY (studio_id, entry_id, weighing_no);

-- Indexes

CREATE INDEX dry_test_by_state ON public.dry_test USING btree (studio_id, body_id, state);
CREATE INDEX entry_by_time ON public.entry USING btree (studio_id, happened_at, entry_id);
CREATE INDEX firing_by_kiln ON public.firing USING btree (studio_id, kiln_id);
CREATE INDEX glazing_by_run ON public.glazing USING btree (studio_id, run_id);
CREATE INDEX holding_by_lot ON public.holding USING btree (studio_id, lot_id);
CREATE INDEX holding_by_run ON public.holding USING btree (studio_id, run_id);
CREATE INDEX kiln_load_by_time ON public.kiln_load USING btree (studio_id, loaded_at);
CREATE INDEX line_by_holding ON public.line USING btree (studio_id, holding_id);
CREATE INDEX run_by_form ON public.run USING btree (studio_id, form_id, thrown_at);

-- Views and sequences

-- none

-- Functions

CREATE OR REPLACE FUNCTION public.catalogue_remembers()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.clays_must_lie_apart()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.cost_layers_are_all_of_cost(layers jsonb, cost numeric)
 RETURNS boolean
 LANGUAGE sql
 IMMUTABLE
 SET search_path TO 'public', 'pg_temp'
AS $function$
  select coalesce(sum(value::numeric), 0) = cost from jsonb_each_text(layers)
$function$;

CREATE OR REPLACE FUNCTION public.cost_layers_fit_cost(layers jsonb, cost numeric)
 RETURNS boolean
 LANGUAGE sql
 IMMUTABLE
 SET search_path TO 'public', 'pg_temp'
AS $function$
  select coalesce(bool_and(value::numeric > 0), true) and coalesce(sum(value::numeric), 0) <= cost
    from jsonb_each_text(layers)
$function$;

CREATE OR REPLACE FUNCTION public.cost_layers_fit_scale(layers jsonb)
 RETURNS boolean
 LANGUAGE sql
 IMMUTABLE
 SET search_path TO 'public', 'pg_temp'
AS $function$
  select doubts_fit_scale(layers)
     and not exists (select from jsonb_object_keys(layers) as layer
                      where layer not in ('glaze', 'fire', 'wear', 'packaging'))
$function$;

CREATE OR REPLACE FUNCTION public.doubts_fit_scale(doubts jsonb)
 RETURNS boolean
 LANGUAGE sql
 IMMUTABLE
 SET search_path TO 'public', 'pg_temp'
AS $function$
  select jsonb_typeof(doubts) = 'object' and not exists (
    select from jsonb_each(doubts)
     where jsonb_typeof(value) <> 'string' or value #>> '{}' in ('0', '-0')
        or (value #>> '{}') !~ '^-?(0|[1-9][0-9]{0,23})([.][0-9]{0,5}[1-9])?$')
$function$;

CREATE OR REPLACE FUNCTION public.doubts_negated(doubts jsonb)
 RETURNS jsonb
 LANGUAGE sql
 IMMUTABLE
 SET search_path TO 'public', 'pg_temp'
AS $function$
  select coalesce(jsonb_object_agg(key, trim_scale(-value::numeric)::text), '{}') from jsonb_each_text(doubts)
$function$;

CREATE OR REPLACE FUNCTION public.doubts_summed(doubts jsonb[])
 RETURNS jsonb
 LANGUAGE sql
 IMMUTABLE
 SET search_path TO 'public', 'pg_temp'
AS $function$
  select coalesce(jsonb_object_agg(source, trim_scale(contribution)::text), '{}')
    from (select one.key as source, sum(one.value::numeric) as contribution
            from unnest(doubts) as doubt, jsonb_each_text(doubt) as one
           group by one.key
          having sum(one.value::numeric) <> 0) as summed
$function$;

CREATE OR REPLACE FUNCTION public.entry_is_signed()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
begin
  new.recorded_in := pg_current_xact_id()::text;
  return new;
end $function$;

CREATE OR REPLACE FUNCTION public.entry_must_balance()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.entry_must_be_open()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.holding_must_follow_its_lines()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.holding_must_not_have_been_negative(leaving public.line, moment timestamp with time zone)
 RETURNS void
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.ledger_is_append_only()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
begin
  raise exception 'the ledger is append-only: % of % is refused; post a correction instead', lower(tg_op), tg_table_name
    using errcode = 'check_violation', constraint = 'ledger_is_append_only';
end $function$;

CREATE OR REPLACE FUNCTION public.line_moves_its_holding()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.month_must_be_closed_by_its_entry()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
begin
  if exists (select from entry where studio_id = new.studio_id and entry_id = new.entry_id
                                 and kind = 'close_month') then
    return new;
  end if;
  raise exception 'entry % did not come to close a month', new.entry_id
    using errcode = 'check_violation', constraint = 'month_must_be_closed_by_its_entry';
end $function$;

CREATE OR REPLACE FUNCTION public.month_must_be_open()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.reversal_must_mirror()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'public', 'pg_temp'
AS $function$
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
end $function$;

-- Triggers

CREATE CONSTRAINT TRIGGER clays_must_lie_apart AFTER INSERT ON public.line DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION clays_must_lie_apart();
CREATE CONSTRAINT TRIGGER entry_must_balance AFTER INSERT ON public.entry DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION entry_must_balance();
CREATE CONSTRAINT TRIGGER entry_must_balance AFTER INSERT ON public.line DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION entry_must_balance();
CREATE CONSTRAINT TRIGGER reversal_must_mirror AFTER INSERT ON public.entry DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION reversal_must_mirror();
CREATE CONSTRAINT TRIGGER reversal_must_mirror AFTER INSERT ON public.line DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION reversal_must_mirror();
CREATE TRIGGER catalogue_remembers AFTER INSERT OR UPDATE ON public.bat FOR EACH ROW EXECUTE FUNCTION catalogue_remembers();
CREATE TRIGGER catalogue_remembers AFTER INSERT OR UPDATE ON public.body FOR EACH ROW EXECUTE FUNCTION catalogue_remembers();
CREATE TRIGGER catalogue_remembers AFTER INSERT OR UPDATE ON public.form FOR EACH ROW EXECUTE FUNCTION catalogue_remembers();
CREATE TRIGGER catalogue_remembers AFTER INSERT OR UPDATE ON public.kiln FOR EACH ROW EXECUTE FUNCTION catalogue_remembers();
CREATE TRIGGER catalogue_remembers AFTER INSERT OR UPDATE ON public.material FOR EACH ROW EXECUTE FUNCTION catalogue_remembers();
CREATE TRIGGER catalogue_remembers AFTER INSERT OR UPDATE ON public.scale FOR EACH ROW EXECUTE FUNCTION catalogue_remembers();
CREATE TRIGGER catalogue_remembers AFTER INSERT OR UPDATE ON public.vessel FOR EACH ROW EXECUTE FUNCTION catalogue_remembers();
CREATE TRIGGER entry_is_signed BEFORE INSERT ON public.entry FOR EACH ROW EXECUTE FUNCTION entry_is_signed();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.dry_test FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.estimate FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.firing FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.firing_share FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.glaze_batch FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.glazing FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.line FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.loss FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.lot FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.material_delivery FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.month_closing FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.run FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.sale FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER entry_must_be_open BEFORE INSERT ON public.weighing FOR EACH ROW EXECUTE FUNCTION entry_must_be_open();
CREATE TRIGGER holding_must_follow_its_lines BEFORE INSERT OR UPDATE ON public.holding FOR EACH ROW EXECUTE FUNCTION holding_must_follow_its_lines();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE ON public.bat FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE ON public.body FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE ON public.form FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE ON public.holding FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE ON public.kiln FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE ON public.material FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE ON public.scale FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE ON public.studio FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE ON public.vessel FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.catalogue_history FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.dry_test FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.entry FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.estimate FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.firing FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.firing_share FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.glaze_batch FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.glaze_recipe FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.glaze_recipe_part FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.glazing FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.line FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.loss FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.lot FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.material_delivery FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.month_closing FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.run FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.sale FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_append_only BEFORE DELETE OR UPDATE ON public.weighing FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.bat FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.body FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.catalogue_history FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.dry_test FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.entry FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.estimate FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.firing FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.firing_share FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.form FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.glaze_batch FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.glaze_recipe FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.glaze_recipe_part FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.glazing FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.holding FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.kiln FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.line FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.loss FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.lot FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.material FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.material_delivery FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.month_closing FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.run FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.sale FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.scale FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.studio FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.vessel FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER ledger_is_not_truncated BEFORE TRUNCATE ON public.weighing FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER line_moves_its_holding AFTER INSERT ON public.line FOR EACH ROW EXECUTE FUNCTION line_moves_its_holding();
CREATE TRIGGER month_must_be_closed_by_its_entry BEFORE INSERT ON public.month_closing FOR EACH ROW EXECUTE FUNCTION month_must_be_closed_by_its_entry();
CREATE TRIGGER month_must_be_open BEFORE INSERT ON public.entry FOR EACH ROW EXECUTE FUNCTION month_must_be_open();

-- Policies

-- none

-- What others than the owner may do

grant insert, select on table dry_test to slakebook_app;
grant insert, select on table entry to slakebook_app;
grant insert, select on table estimate to slakebook_app;
grant insert, select on table firing to slakebook_app;
grant insert, select on table firing_share to slakebook_app;
grant insert, select on table glaze_batch to slakebook_app;
grant insert, select on table glaze_recipe to slakebook_app;
grant insert, select on table glaze_recipe_part to slakebook_app;
grant insert, select on table glazing to slakebook_app;
grant insert, select on table holding to slakebook_app;
grant insert, select on table kiln_load to slakebook_app;
grant insert, select on table kiln_load_run to slakebook_app;
grant insert, select on table line to slakebook_app;
grant insert, select on table loss to slakebook_app;
grant insert, select on table lot to slakebook_app;
grant insert, select on table material_delivery to slakebook_app;
grant insert, select on table month_closing to slakebook_app;
grant insert, select on table request to slakebook_app;
grant insert, select on table run to slakebook_app;
grant insert, select on table sale to slakebook_app;
grant insert, select on table studio to slakebook_app;
grant insert, select on table weighing to slakebook_app;
grant insert, select, update on table bat to slakebook_app;
grant insert, select, update on table body to slakebook_app;
grant insert, select, update on table form to slakebook_app;
grant insert, select, update on table kiln to slakebook_app;
grant insert, select, update on table material to slakebook_app;
grant insert, select, update on table scale to slakebook_app;
grant insert, select, update on table vessel to slakebook_app;
grant select on table catalogue_history to slakebook_app;
grant update on table holding (grade) to slakebook_app;
grant update on table kiln_load (fired_by_entry_id) to slakebook_app;
grant update on table kiln_load (kiln_id) to slakebook_app;
grant update on table kiln_load (unloaded_at) to slakebook_app;
grant update on table kiln_load_run (lost_by_entry_id) to slakebook_app;
grant update on table kiln_load_run (pieces) to slakebook_app;
grant update on table request (answer) to slakebook_app;
grant update on table studio (compares_makers) to slakebook_app;
grant update on table studio (date_order) to slakebook_app;
grant update on table studio (hourly_figure) to slakebook_app;
grant update on table studio (jurisdiction) to slakebook_app;
grant update on table studio (mass_units) to slakebook_app;
grant update on table studio (name) to slakebook_app;
grant update on table studio (seconds_cost_rule) to slakebook_app;
grant update on table studio (seconds_price_fraction) to slakebook_app;
grant update on table studio (trade_words) to slakebook_app;
grant usage on schema public to public;
grant usage on schema public to slakebook_app;
