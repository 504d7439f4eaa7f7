-- What is in a kiln: a note that survives the phone it was tapped into. Clay moves when it is fired, by
-- the entries of the ledger; nothing here is part of its sums.
create table kiln_load (
	studio_id text not null,
	kiln_load_id text not null,
	kind text not null,
	loaded_at timestamp with time zone not null,
	loaded_by text,
	unloaded_at timestamp with time zone,
	fired_by_entry_id text,
	constraint kiln_load_studio_id_kiln_load_id_pk primary key (studio_id, kiln_load_id),
	constraint kiln_load_kind_is_known check (kind in ('bisque', 'glaze')),
	constraint kiln_load_is_fired_before_it_is_unloaded check (
	  fired_by_entry_id is null or unloaded_at is not null)
);
--> statement-breakpoint
create table kiln_load_run (
	studio_id text not null,
	kiln_load_id text not null,
	run_id text not null,
	pieces integer not null,
	lost_by_entry_id text,
	constraint kiln_load_run_studio_id_kiln_load_id_run_id_pk primary key (studio_id, kiln_load_id, run_id),
	-- None of a run: it was taken out again before the fire.
	constraint kiln_load_run_is_a_count check (pieces >= 0)
);
--> statement-breakpoint
alter table kiln_load
  add constraint kiln_load_studio_id_studio_studio_id_fk foreign key (studio_id) references studio (studio_id),
  add constraint kiln_load_was_fired_by_an_entry
    foreign key (studio_id, fired_by_entry_id) references entry (studio_id, entry_id);
--> statement-breakpoint
alter table kiln_load_run
  add constraint kiln_load_run_is_of_a_load
    foreign key (studio_id, kiln_load_id) references kiln_load (studio_id, kiln_load_id),
  add constraint kiln_load_run_has_a_run foreign key (studio_id, run_id) references run (studio_id, run_id),
  add constraint kiln_load_run_was_lost_by_an_entry
    foreign key (studio_id, lost_by_entry_id) references entry (studio_id, entry_id);
--> statement-breakpoint
create index kiln_load_by_time on kiln_load using btree (studio_id, loaded_at);
--> statement-breakpoint
-- A load is looked at and changed until it is unloaded; nothing of it is ever removed.
grant select, insert on kiln_load, kiln_load_run to slakebook_app;
--> statement-breakpoint
grant update (unloaded_at, fired_by_entry_id) on kiln_load to slakebook_app;
--> statement-breakpoint
grant update (pieces, lost_by_entry_id) on kiln_load_run to slakebook_app;
