import {
  foreignKey,
  jsonb,
  numeric,
  pgTable,
  primaryKey,
  text,
  timestamp,
  unique,
} from 'drizzle-orm/pg-core'
import { studio } from './schema-catalogue.ts'

const studioId = () =>
  text('studio_id')
    .notNull()
    .references(() => studio.studioId)
const changedAt = () => timestamp('changed_at', { withTimezone: true, mode: 'date' }).notNull()

/** What a studio keeps beside clay: powders, glazes, boxes, kiln shelves, gas. */
export const material = pgTable(
  'material',
  {
    studioId: studioId(),
    materialId: text('material_id').notNull(),
    name: text('name').notNull(),
    kind: text('kind').notNull(),
    /** 'mass' or 'count'. */
    keptBy: text('kept_by').notNull(),
    supplier: text('supplier'),
    /** As it comes: a powder is seldom quite dry. */
    waterContentWetBasis: numeric('water_content_wet_basis').notNull().default('0'),
    /** Of the dry mass. Of a glaze that has a recipe, the recipe says it. */
    lossOnIgnitionFraction: numeric('loss_on_ignition_fraction').notNull().default('0'),
    grainGramsPerMillilitre: numeric('grain_grams_per_millilitre').notNull().default('2.6'),
    crystallineSilicaFraction: numeric('crystalline_silica_fraction'),
    /** As the supplier's data sheet states them: [{ hazard, statement, percentage }]. */
    hazards: jsonb('hazards').notNull().default([]),
    /** The day of that data sheet, year-month-day. */
    dataSheetOn: text('data_sheet_on'),
    /** Order when so much is left: dry grams, or pieces. */
    reorderPoint: numeric('reorder_point'),
    /** What one bag or carton holds: grams as supplied, or pieces. */
    packSize: numeric('pack_size'),
    /** The supplier's price list: [{ atLeast, pricePerUnit }], per kilogram as supplied or per piece. */
    priceSteps: jsonb('price_steps').notNull().default([]),
    changedAt: changedAt(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.materialId] }),
    unique('material_name_must_be_new').on(t.studioId, t.name),
  ],
)

/** A kiln: its room, its power, and how what it costs is shared out. */
export const kiln = pgTable(
  'kiln',
  {
    studioId: studioId(),
    kilnId: text('kiln_id').notNull(),
    name: text('name').notNull(),
    volumeLitres: numeric('volume_litres'),
    /** How much of the volume ware can fill, between shelves and props. */
    usableFraction: numeric('usable_fraction').notNull().default('0.6'),
    ratedKilowatts: numeric('rated_kilowatts'),
    /** 'shelf_space', 'mass' or 'count'. */
    shareBy: text('share_by').notNull().default('shelf_space'),
    pricePerKilowattHour: numeric('price_per_kilowatt_hour'),
    /** Elements and kiln furniture, for each firing. */
    wearPerFiring: numeric('wear_per_firing').notNull().default('0'),
    /** What it usually takes, for the rule where nobody read a meter. */
    bisqueHours: numeric('bisque_hours'),
    glazeHours: numeric('glaze_hours'),
    /** What it burns, where gas is weighed. */
    fuelMaterialId: text('fuel_material_id'),
    changedAt: changedAt(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.kilnId] }),
    unique('kiln_name_must_be_new').on(t.studioId, t.name),
    foreignKey({
      name: 'kiln_burns_a_fuel',
      columns: [t.studioId, t.fuelMaterialId],
      foreignColumns: [material.studioId, material.materialId],
    }),
  ],
)
