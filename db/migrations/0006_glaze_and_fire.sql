CREATE TABLE "firing" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"kiln_id" text NOT NULL,
	"kind" text NOT NULL,
	"how" text NOT NULL,
	"standing" text NOT NULL,
	"relative_uncertainty" numeric NOT NULL,
	"kilowatt_hours" numeric,
	"candling_kilowatt_hours" numeric,
	"fuel_material_id" text,
	"fuel_grams" numeric,
	"price_per_kilowatt_hour" numeric,
	"energy_cost" numeric NOT NULL,
	"candling_cost" numeric NOT NULL,
	"wear_cost" numeric NOT NULL,
	"shared_by" text,
	"shared_by_words" text,
	"full_fraction" numeric,
	"full_how" text,
	CONSTRAINT "firing_studio_id_entry_id_pk" PRIMARY KEY("studio_id","entry_id")
);
--> statement-breakpoint
CREATE TABLE "firing_share" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"run_id" text NOT NULL,
	"pieces" integer NOT NULL,
	"weight" numeric NOT NULL,
	"energy_cost" numeric NOT NULL,
	"wear_cost" numeric NOT NULL,
	CONSTRAINT "firing_share_studio_id_entry_id_run_id_pk" PRIMARY KEY("studio_id","entry_id","run_id")
);
--> statement-breakpoint
CREATE TABLE "glaze_batch" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"material_id" text NOT NULL,
	"version_no" integer,
	"vessel_id" text NOT NULL,
	"dry_grams" numeric NOT NULL,
	"water_grams" numeric NOT NULL,
	"cost" numeric NOT NULL,
	"loss_on_ignition_fraction" numeric NOT NULL,
	"grain_grams_per_millilitre" numeric NOT NULL,
	CONSTRAINT "glaze_batch_studio_id_entry_id_pk" PRIMARY KEY("studio_id","entry_id")
);
--> statement-breakpoint
CREATE TABLE "glaze_recipe" (
	"studio_id" text NOT NULL,
	"material_id" text NOT NULL,
	"version_no" integer NOT NULL,
	"note" text,
	"made_at" timestamp with time zone NOT NULL,
	CONSTRAINT "glaze_recipe_studio_id_material_id_version_no_pk" PRIMARY KEY("studio_id","material_id","version_no")
);
--> statement-breakpoint
CREATE TABLE "glaze_recipe_part" (
	"studio_id" text NOT NULL,
	"material_id" text NOT NULL,
	"version_no" integer NOT NULL,
	"part_no" integer NOT NULL,
	"ingredient_id" text NOT NULL,
	"parts" numeric NOT NULL,
	"is_addition" boolean NOT NULL,
	CONSTRAINT "glaze_recipe_part_studio_id_material_id_version_no_part_no_pk" PRIMARY KEY("studio_id","material_id","version_no","part_no")
);
--> statement-breakpoint
CREATE TABLE "glazing" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"run_id" text NOT NULL,
	"material_id" text NOT NULL,
	"pieces" integer NOT NULL,
	"dry_grams" numeric NOT NULL,
	"standard_uncertainty_grams" numeric NOT NULL,
	"loss_on_ignition_fraction" numeric NOT NULL,
	"how" text NOT NULL,
	CONSTRAINT "glazing_studio_id_entry_id_run_id_pk" PRIMARY KEY("studio_id","entry_id","run_id")
);
--> statement-breakpoint
CREATE TABLE "kiln" (
	"studio_id" text NOT NULL,
	"kiln_id" text NOT NULL,
	"name" text NOT NULL,
	"volume_litres" numeric,
	"usable_fraction" numeric DEFAULT '0.6' NOT NULL,
	"rated_kilowatts" numeric,
	"share_by" text DEFAULT 'shelf_space' NOT NULL,
	"price_per_kilowatt_hour" numeric,
	"wear_per_firing" numeric DEFAULT '0' NOT NULL,
	"bisque_hours" numeric,
	"glaze_hours" numeric,
	"fuel_material_id" text,
	"changed_at" timestamp with time zone NOT NULL,
	CONSTRAINT "kiln_studio_id_kiln_id_pk" PRIMARY KEY("studio_id","kiln_id"),
	CONSTRAINT "kiln_name_must_be_new" UNIQUE("studio_id","name")
);
--> statement-breakpoint
CREATE TABLE "material" (
	"studio_id" text NOT NULL,
	"material_id" text NOT NULL,
	"name" text NOT NULL,
	"kind" text NOT NULL,
	"kept_by" text NOT NULL,
	"supplier" text,
	"water_content_wet_basis" numeric DEFAULT '0' NOT NULL,
	"loss_on_ignition_fraction" numeric DEFAULT '0' NOT NULL,
	"grain_grams_per_millilitre" numeric DEFAULT '2.6' NOT NULL,
	"crystalline_silica_fraction" numeric,
	"hazards" jsonb DEFAULT '[]'::jsonb NOT NULL,
	"data_sheet_on" text,
	"reorder_point" numeric,
	"pack_size" numeric,
	"price_steps" jsonb DEFAULT '[]'::jsonb NOT NULL,
	"changed_at" timestamp with time zone NOT NULL,
	CONSTRAINT "material_studio_id_material_id_pk" PRIMARY KEY("studio_id","material_id"),
	CONSTRAINT "material_name_must_be_new" UNIQUE("studio_id","name")
);
--> statement-breakpoint
CREATE TABLE "material_delivery" (
	"studio_id" text NOT NULL,
	"entry_id" text NOT NULL,
	"material_id" text NOT NULL,
	"wet_grams" numeric,
	"dry_grams" numeric,
	"pieces" numeric,
	"goods_price" numeric NOT NULL,
	"freight" numeric NOT NULL,
	"label" text,
	CONSTRAINT "material_delivery_studio_id_entry_id_material_id_pk" PRIMARY KEY("studio_id","entry_id","material_id")
);
--> statement-breakpoint
ALTER TABLE "holding" DROP CONSTRAINT "holding_must_be_one_a_place";--> statement-breakpoint
ALTER TABLE "form" ADD COLUMN "kiln_footprint_square_centimetres" numeric;--> statement-breakpoint
ALTER TABLE "form" ADD COLUMN "kiln_height_centimetres" numeric;--> statement-breakpoint
ALTER TABLE "form" ADD COLUMN "glaze_grams_per_piece" numeric;--> statement-breakpoint
ALTER TABLE "form" ADD COLUMN "packing" jsonb DEFAULT '[]'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "holding" ADD COLUMN "material_id" text;--> statement-breakpoint
ALTER TABLE "holding" ADD COLUMN "material_grams" numeric DEFAULT '0' NOT NULL;--> statement-breakpoint
ALTER TABLE "holding" ADD COLUMN "cost_layers" jsonb DEFAULT '{}'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "holding" ADD COLUMN "material_doubt" jsonb DEFAULT '{}'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "kiln_load" ADD COLUMN "kiln_id" text;--> statement-breakpoint
ALTER TABLE "line" ADD COLUMN "material_grams" numeric DEFAULT '0' NOT NULL;--> statement-breakpoint
ALTER TABLE "line" ADD COLUMN "cost_layers" jsonb DEFAULT '{}'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "line" ADD COLUMN "material_doubt" jsonb DEFAULT '{}'::jsonb NOT NULL;--> statement-breakpoint
ALTER TABLE "loss" ADD COLUMN "abnormal_pieces" integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE "loss" ADD COLUMN "cost_abnormal" numeric DEFAULT '0' NOT NULL;--> statement-breakpoint
ALTER TABLE "loss" ADD COLUMN "usual_words" text;--> statement-breakpoint
ALTER TABLE "studio" ADD COLUMN "seconds_cost_rule" text DEFAULT 'like_firsts' NOT NULL;--> statement-breakpoint
ALTER TABLE "studio" ADD COLUMN "seconds_price_fraction" numeric DEFAULT '0.5' NOT NULL;--> statement-breakpoint
ALTER TABLE "studio" ADD COLUMN "hourly_figure" numeric;--> statement-breakpoint
ALTER TABLE "firing" ADD CONSTRAINT "firing_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing" ADD CONSTRAINT "firing_is_of_a_kiln" FOREIGN KEY ("studio_id","kiln_id") REFERENCES "public"."kiln"("studio_id","kiln_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing" ADD CONSTRAINT "firing_burns_a_fuel" FOREIGN KEY ("studio_id","fuel_material_id") REFERENCES "public"."material"("studio_id","material_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing_share" ADD CONSTRAINT "firing_share_is_of_a_firing" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."firing"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing_share" ADD CONSTRAINT "firing_share_has_a_run" FOREIGN KEY ("studio_id","run_id") REFERENCES "public"."run"("studio_id","run_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glaze_batch" ADD CONSTRAINT "glaze_batch_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glaze_batch" ADD CONSTRAINT "glaze_batch_is_of_a_glaze" FOREIGN KEY ("studio_id","material_id") REFERENCES "public"."material"("studio_id","material_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glaze_batch" ADD CONSTRAINT "glaze_batch_follows_a_recipe" FOREIGN KEY ("studio_id","material_id","version_no") REFERENCES "public"."glaze_recipe"("studio_id","material_id","version_no") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glaze_batch" ADD CONSTRAINT "glaze_batch_is_in_a_vessel" FOREIGN KEY ("studio_id","vessel_id") REFERENCES "public"."vessel"("studio_id","vessel_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glaze_recipe" ADD CONSTRAINT "glaze_recipe_is_of_a_glaze" FOREIGN KEY ("studio_id","material_id") REFERENCES "public"."material"("studio_id","material_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glaze_recipe_part" ADD CONSTRAINT "glaze_recipe_part_is_of_a_recipe" FOREIGN KEY ("studio_id","material_id","version_no") REFERENCES "public"."glaze_recipe"("studio_id","material_id","version_no") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glaze_recipe_part" ADD CONSTRAINT "glaze_recipe_part_is_an_ingredient" FOREIGN KEY ("studio_id","ingredient_id") REFERENCES "public"."material"("studio_id","material_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glazing" ADD CONSTRAINT "glazing_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glazing" ADD CONSTRAINT "glazing_has_a_run" FOREIGN KEY ("studio_id","run_id") REFERENCES "public"."run"("studio_id","run_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "glazing" ADD CONSTRAINT "glazing_is_of_a_glaze" FOREIGN KEY ("studio_id","material_id") REFERENCES "public"."material"("studio_id","material_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "kiln" ADD CONSTRAINT "kiln_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "kiln" ADD CONSTRAINT "kiln_burns_a_fuel" FOREIGN KEY ("studio_id","fuel_material_id") REFERENCES "public"."material"("studio_id","material_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "material" ADD CONSTRAINT "material_studio_id_studio_studio_id_fk" FOREIGN KEY ("studio_id") REFERENCES "public"."studio"("studio_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "material_delivery" ADD CONSTRAINT "material_delivery_has_an_entry" FOREIGN KEY ("studio_id","entry_id") REFERENCES "public"."entry"("studio_id","entry_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "material_delivery" ADD CONSTRAINT "material_delivery_is_of_a_material" FOREIGN KEY ("studio_id","material_id") REFERENCES "public"."material"("studio_id","material_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "firing_by_kiln" ON "firing" USING btree ("studio_id","kiln_id");--> statement-breakpoint
CREATE INDEX "glazing_by_run" ON "glazing" USING btree ("studio_id","run_id");--> statement-breakpoint
ALTER TABLE "holding" ADD CONSTRAINT "holding_has_a_material" FOREIGN KEY ("studio_id","material_id") REFERENCES "public"."material"("studio_id","material_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "kiln_load" ADD CONSTRAINT "kiln_load_is_in_a_kiln" FOREIGN KEY ("studio_id","kiln_id") REFERENCES "public"."kiln"("studio_id","kiln_id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "holding" ADD CONSTRAINT "holding_must_be_one_a_place" UNIQUE NULLS NOT DISTINCT("studio_id","place","body_id","material_id","lot_id","run_id","vessel_id","grade");