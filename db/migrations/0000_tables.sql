CREATE TABLE "bat" (
	"studio_id" text NOT NULL,
	"bat_id" text NOT NULL,
	"name" text NOT NULL,
	"dry_grams" numeric,
	"length_millimetres" numeric,
	"width_millimetres" numeric,
	"thickness_millimetres" numeric,
	"changed_at" timestamp with time zone NOT NULL,
	CONSTRAINT "bat_studio_id_bat_id_pk" PRIMARY KEY("studio_id","bat_id"),
	CONSTRAINT "bat_name_must_be_new" UNIQUE("studio_id","name")
);
--> statement-breakpoint
CREATE TABLE "body" (
	"studio_id" text NOT NULL,
	"body_id" text NOT NULL,
	"name" text NOT NULL,
	"is_blend" boolean DEFAULT false NOT NULL,
	"loss_on_ignition_fraction" numeric NOT NULL,
	"drying_shrinkage_fraction_of_wet" numeric,
	"firing_shrinkage_fraction_of_dry" numeric,
	"crystalline_silica_fraction" numeric,
	"dust_threshold_wet_basis" numeric,
	"grain_grams_per_millilitre" numeric NOT NULL,
	"moisture" jsonb DEFAULT '{}'::jsonb NOT NULL,
	"changed_at" timestamp with time zone NOT NULL,
	CONSTRAINT "body_studio_id_body_id_pk" PRIMARY KEY("studio_id","body_id"),
	CONSTRAINT "body_name_must_be_new" UNIQUE("studio_id","name")
);
--> statement-breakpoint
CREATE TABLE "catalogue_history" (
	"studio_id" text NOT NULL,
	"resource" text NOT NULL,
	"resource_id" text NOT NULL,
	"version_no" bigint NOT NULL,
	"changed_at" timestamp with time zone NOT NULL,
	"facts" jsonb NOT NULL,
	CONSTRAINT "catalogue_history_studio_id_resource_resource_id_version_no_pk" PRIMARY KEY("studio_id","resource","resource_id","version_no")
);
--> statement-breakpoint
CREATE TABLE "dry_test" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"body_id" text NOT NULL,
	"lot_id" text,
	"state" text NOT NULL,
	"water_content_wet_basis" numeric NOT NULL,
	"standard_uncertainty" numeric NOT NULL,
	CONSTRAINT "dry_test_studio_id_entry_id_pk" PRIMARY KEY("studio_id","entry_id")
);
--> statement-breakpoint
CREATE TABLE "entry" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"kind" text NOT NULL,
	"happened_at" timestamp with time zone NOT NULL,
	"recorded_at" timestamp with time zone NOT NULL,
	"recorded_by" text,
	"note" text,
	"said" jsonb NOT NULL,
	"reverses_entry_id" text,
	"recorded_in" text DEFAULT pg_current_xact_id()::text NOT NULL,
	CONSTRAINT "entry_studio_id_entry_id_pk" PRIMARY KEY("studio_id","entry_id"),
	CONSTRAINT "entry_must_not_be_reversed_already" UNIQUE("studio_id","reverses_entry_id")
);
--> statement-breakpoint
CREATE TABLE "estimate" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"estimate_no" integer NOT NULL,
	"holding_id" text NOT NULL,
	"of" text NOT NULL,
	"dry_grams" numeric NOT NULL,
	"water_grams" numeric NOT NULL,
	"method" text NOT NULL,
	"standing" text NOT NULL,
	"standard_uncertainty_grams" numeric NOT NULL,
	"weighing_no" integer,
	CONSTRAINT "estimate_studio_id_entry_id_estimate_no_pk" PRIMARY KEY("studio_id","entry_id","estimate_no")
);
--> statement-breakpoint
CREATE TABLE "form" (
	"studio_id" text NOT NULL,
	"form_id" text NOT NULL,
	"name" text NOT NULL,
	"ball_grams" numeric,
	"turned_off_fraction" numeric,
	"price" numeric,
	"changed_at" timestamp with time zone NOT NULL,
	CONSTRAINT "form_studio_id_form_id_pk" PRIMARY KEY("studio_id","form_id"),
	CONSTRAINT "form_name_must_be_new" UNIQUE("studio_id","name")
);
--> statement-breakpoint
CREATE TABLE "holding" (
	"studio_id" text NOT NULL,
	"holding_id" text NOT NULL,
	"place" text NOT NULL,
	"body_id" text,
	"lot_id" text,
	"run_id" text,
	"vessel_id" text,
	"grade" text,
	"is_inside" boolean NOT NULL,
	"dry_grams" numeric DEFAULT '0' NOT NULL,
	"water_grams" numeric DEFAULT '0' NOT NULL,
	"pieces" numeric DEFAULT '0' NOT NULL,
	"cost" numeric DEFAULT '0' NOT NULL,
	"dry_variance" numeric DEFAULT '0' NOT NULL,
	"latest_at" timestamp with time zone,
	CONSTRAINT "holding_studio_id_holding_id_pk" PRIMARY KEY("studio_id","holding_id"),
	CONSTRAINT "holding_must_be_one_a_place" UNIQUE NULLS NOT DISTINCT("studio_id","place","body_id","lot_id","run_id","vessel_id","grade")
);
--> statement-breakpoint
CREATE TABLE "line" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"line_no" integer NOT NULL,
	"holding_id" text NOT NULL,
	"dry_grams" numeric NOT NULL,
	"water_grams" numeric NOT NULL,
	"pieces" numeric NOT NULL,
	"cost" numeric NOT NULL,
	"dry_variance" numeric NOT NULL,
	CONSTRAINT "line_studio_id_entry_id_line_no_pk" PRIMARY KEY("studio_id","entry_id","line_no"),
	CONSTRAINT "line_must_be_one_a_holding" UNIQUE("studio_id","entry_id","holding_id")
);
--> statement-breakpoint
CREATE TABLE "loss" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"run_id" text NOT NULL,
	"pieces" integer NOT NULL,
	"stage" text NOT NULL,
	"cause" text NOT NULL,
	"cost_left" numeric NOT NULL,
	CONSTRAINT "loss_studio_id_entry_id_run_id_pk" PRIMARY KEY("studio_id","entry_id","run_id")
);
--> statement-breakpoint
CREATE TABLE "lot" (
	"studio_id" text NOT NULL,
	"lot_id" text NOT NULL,
	"kind" text NOT NULL,
	"body_id" text NOT NULL,
	"label" text NOT NULL,
	"made_by_entry_id" text NOT NULL,
	"bat_id" text,
	"bags" integer,
	"goods_price" numeric,
	"freight" numeric,
	"dry_grams_at_first" numeric,
	CONSTRAINT "lot_studio_id_lot_id_pk" PRIMARY KEY("studio_id","lot_id")
);
--> statement-breakpoint
CREATE TABLE "month_closing" (
	"studio_id" text NOT NULL,
	"month" text NOT NULL,
	"entry_id" text NOT NULL,
	CONSTRAINT "month_closing_studio_id_month_pk" PRIMARY KEY("studio_id","month")
);
--> statement-breakpoint
CREATE TABLE "request" (
	"studio_id" text NOT NULL,
	"idempotency_key" text NOT NULL,
	"fingerprint" text NOT NULL,
	"answer" jsonb,
	"recorded_at" timestamp with time zone NOT NULL,
	CONSTRAINT "request_studio_id_idempotency_key_pk" PRIMARY KEY("studio_id","idempotency_key")
);
--> statement-breakpoint
CREATE TABLE "run" (
	"studio_id" text NOT NULL,
	"run_id" text NOT NULL,
	"form_id" text NOT NULL,
	"body_id" text NOT NULL,
	"label" text NOT NULL,
	"thrown_at" timestamp with time zone NOT NULL,
	"maker" text,
	"made_by_entry_id" text NOT NULL,
	CONSTRAINT "run_studio_id_run_id_pk" PRIMARY KEY("studio_id","run_id")
);
--> statement-breakpoint
CREATE TABLE "sale" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"form_id" text NOT NULL,
	"grade" text NOT NULL,
	"pieces" integer NOT NULL,
	"price_each" numeric NOT NULL,
	"channel" text NOT NULL,
	CONSTRAINT "sale_studio_id_entry_id_pk" PRIMARY KEY("studio_id","entry_id")
);
--> statement-breakpoint
CREATE TABLE "scale" (
	"studio_id" text NOT NULL,
	"scale_id" text NOT NULL,
	"name" text NOT NULL,
	"division_grams" numeric NOT NULL,
	"capacity_grams" numeric NOT NULL,
	"changed_at" timestamp with time zone NOT NULL,
	CONSTRAINT "scale_studio_id_scale_id_pk" PRIMARY KEY("studio_id","scale_id"),
	CONSTRAINT "scale_name_must_be_new" UNIQUE("studio_id","name")
);
--> statement-breakpoint
CREATE TABLE "studio" (
	"studio_id" text PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"currency" text NOT NULL,
	"time_zone" text NOT NULL,
	"jurisdiction" text NOT NULL,
	"created_at" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "vessel" (
	"studio_id" text NOT NULL,
	"vessel_id" text NOT NULL,
	"name" text NOT NULL,
	"kind" text NOT NULL,
	"tare_grams" numeric NOT NULL,
	"changed_at" timestamp with time zone NOT NULL,
	CONSTRAINT "vessel_studio_id_vessel_id_pk" PRIMARY KEY("studio_id","vessel_id"),
	CONSTRAINT "vessel_name_must_be_new" UNIQUE("studio_id","name")
);
--> statement-breakpoint
CREATE TABLE "weighing" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"weighing_no" integer NOT NULL,
	"purpose" text NOT NULL,
	"kind" text NOT NULL,
	"as_read" jsonb NOT NULL,
	"gross_grams" numeric NOT NULL,
	"tare_grams" numeric NOT NULL,
	"net_grams" numeric NOT NULL,
	"standard_uncertainty_grams" numeric NOT NULL,
	"vessel_id" text,
	"scale_id" text,
	"division_grams" numeric,
	"capacity_grams" numeric,
	"weighed_at" timestamp with time zone NOT NULL,
	"weighed_by" text,
	CONSTRAINT "weighing_studio_id_entry_id_weighing_no_pk" PRIMARY KEY("studio_id","entry_id","weighing_no")
);
--> statement-breakpoint
ALTER TABLE "bat" ADD CONSTRAINT "bat_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "body" ADD CONSTRAINT "body_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "catalogue_history" ADD CONSTRAINT "catalogue_history_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "dry_test" ADD CONSTRAINT "dry_test_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "dry_test" ADD CONSTRAINT "dry_test_has_a_body" FOREIGN KEY ("studio_id","body_id") REFERENCES "public"."body"("studio_id","body_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "dry_test" ADD CONSTRAINT "dry_test_has_a_lot" FOREIGN KEY ("studio_id","lot_id") REFERENCES "public"."lot"("studio_id","lot_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "entry" ADD CONSTRAINT "entry_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "entry" ADD CONSTRAINT "entry_reverses_an_entry" FOREIGN KEY ("studio_id","reverses_entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "estimate" ADD CONSTRAINT "estimate_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "estimate" ADD CONSTRAINT "estimate_has_a_holding" FOREIGN KEY ("studio_id","holding_id") REFERENCES "public"."holding"("studio_id","holding_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "estimate" ADD CONSTRAINT "estimate_has_a_weighing" FOREIGN KEY ("studio_id","entry_id","weighing_no") REFERENCES "public"."weighing"("studio_id","entry_id","weighing_no") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "form" ADD CONSTRAINT "form_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "holding" ADD CONSTRAINT "holding_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "holding" ADD CONSTRAINT "holding_has_a_body" FOREIGN KEY ("studio_id","body_id") REFERENCES "public"."body"("studio_id","body_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "holding" ADD CONSTRAINT "holding_has_a_lot" FOREIGN KEY ("studio_id","lot_id") REFERENCES "public"."lot"("studio_id","lot_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "holding" ADD CONSTRAINT "holding_has_a_run" FOREIGN KEY ("studio_id","run_id") REFERENCES "public"."run"("studio_id","run_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "holding" ADD CONSTRAINT "holding_has_a_vessel" FOREIGN KEY ("studio_id","vessel_id") REFERENCES "public"."vessel"("studio_id","vessel_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "line" ADD CONSTRAINT "line_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "line" ADD CONSTRAINT "line_has_a_holding" FOREIGN KEY ("studio_id","holding_id") REFERENCES "public"."holding"("studio_id","holding_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "loss" ADD CONSTRAINT "loss_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "loss" ADD CONSTRAINT "loss_has_a_run" FOREIGN KEY ("studio_id","run_id") REFERENCES "public"."run"("studio_id","run_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lot" ADD CONSTRAINT "lot_has_a_body" FOREIGN KEY ("studio_id","body_id") REFERENCES "public"."body"("studio_id","body_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lot" ADD CONSTRAINT "lot_has_an_entry" FOREIGN KEY ("studio_id","made_by_entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "lot" ADD CONSTRAINT "lot_lies_on_a_bat" FOREIGN KEY ("studio_id","bat_id") REFERENCES "public"."bat"("studio_id","bat_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "month_closing" ADD CONSTRAINT "month_closing_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "request" ADD CONSTRAINT "request_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "run" ADD CONSTRAINT "run_has_a_form" FOREIGN KEY ("studio_id","form_id") REFERENCES "public"."form"("studio_id","form_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "run" ADD CONSTRAINT "run_has_a_body" FOREIGN KEY ("studio_id","body_id") REFERENCES "public"."body"("studio_id","body_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "run" ADD CONSTRAINT "run_has_an_entry" FOREIGN KEY ("studio_id","made_by_entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "sale" ADD CONSTRAINT "sale_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "sale" ADD CONSTRAINT "sale_has_a_form" FOREIGN KEY ("studio_id","form_id") REFERENCES "public"."form"("studio_id","form_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "scale" ADD CONSTRAINT "scale_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "vessel" ADD CONSTRAINT "vessel_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "weighing" ADD CONSTRAINT "weighing_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "weighing" ADD CONSTRAINT "weighing_has_a_vessel" FOREIGN KEY ("studio_id","vessel_id") REFERENCES "public"."vessel"("studio_id","vessel_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "weighing" ADD CONSTRAINT "weighing_has_a_scale" FOREIGN KEY ("studio_id","scale_id") REFERENCES "public"."scale"("studio_id","scale_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "dry_test_by_state" ON "dry_test" USING btree ("studio_id","body_id","state");--> statement-breakpoint
CREATE INDEX "entry_by_time" ON "entry" USING btree ("studio_id","happened_at","entry_id");--> statement-breakpoint
CREATE INDEX "holding_by_run" ON "holding" USING btree ("studio_id","run_id");--> statement-breakpoint
CREATE INDEX "holding_by_lot" ON "holding" USING btree ("studio_id","lot_id");--> statement-breakpoint
CREATE INDEX "line_by_holding" ON "line" USING btree ("studio_id","holding_id");--> statement-breakpoint
CREATE INDEX "run_by_form" ON "run" USING btree ("studio_id","form_id","thrown_at");