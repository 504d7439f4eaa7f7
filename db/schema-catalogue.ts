import {
  bigint,
  boolean,
  jsonb,
  numeric,
  pgTable,
  primaryKey,
  text,
  timestamp,
} from 'drizzle-orm/pg-core'
import { unique } from 'drizzle-orm/pg-core'

const studioId = () =>
  text('studio_id')
    .notNull()
    .references(() => studio.studioId)
const moment = (name: string) => timestamp(name, { withTimezone: true, mode: 'date' })

/** The tenant: every other key begins with its id. */
export const studio = pgTable('studio', {
  studioId: text('studio_id').primaryKey(),
  name: text('name').notNull(),
  currency: text('currency').notNull(),
  timeZone: text('time_zone').notNull(),
  jurisdiction: text('jurisdiction').notNull(),
  /** Makers are compared with each other only where the studio asked for it. */
  comparesMakers: boolean('compares_makers').notNull().default(false),
  createdAt: moment('created_at').notNull(),
  /** How its pages write masses and days, and which form of the trade's words they use. */
  massUnits: text('mass_units').notNull().default('metric'),
  dateOrder: text('date_order').notNull().default('day_month_year'),
  tradeWords: text('trade_words').notNull().default('UK'),
  /** How firsts and seconds share what they cost, and what a second fetches of a first's price. */
  secondsCostRule: text('seconds_cost_rule').notNull().default('like_firsts'),
  secondsPriceFraction: numeric('seconds_price_fraction').notNull().default('0.5'),
  /** What an hour of the potter's own is to be worth: never part of a cost, only compared with. */
  hourlyFigure: numeric('hourly_figure'),
})

/** A clay: what it is bought as, and what the fire takes of it. */
export const body = pgTable(
  'body',
  {
    studioId: studioId(),
    bodyId: text('body_id').notNull(),
    name: text('name').notNull(),
    isBlend: boolean('is_blend').notNull().default(false),
    lossOnIgnitionFraction: numeric('loss_on_ignition_fraction').notNull(),
    dryingShrinkageFractionOfWet: numeric('drying_shrinkage_fraction_of_wet'),
    firingShrinkageFractionOfDry: numeric('firing_shrinkage_fraction_of_dry'),
    crystallineSilicaFraction: numeric('crystalline_silica_fraction'),
    dustThresholdWetBasis: numeric('dust_threshold_wet_basis'),
    grainGramsPerMillilitre: numeric('grain_grams_per_millilitre').notNull(),
    /** By state of clay: { waterContentWetBasis, standardUncertainty }. */
    moisture: jsonb('moisture').notNull().default({}),
    /** How wet a slab is when it is ready to wedge, and when it is too dry; usual figures where null. */
    readyWaterContentWetBasis: numeric('ready_water_content_wet_basis'),
    tooDryWaterContentWetBasis: numeric('too_dry_water_content_wet_basis'),
    changedAt: moment('changed_at').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.bodyId] }),
    unique('body_name_must_be_new').on(t.studioId, t.name),
  ],
)

/** A shape that is made again and again. */
export const form = pgTable(
  'form',
  {
    studioId: studioId(),
    formId: text('form_id').notNull(),
    name: text('name').notNull(),
    ballGrams: numeric('ball_grams'),
    turnedOffFraction: numeric('turned_off_fraction'),
    price: numeric('price'),
    /** The room that one piece takes on a kiln shelf, with the gap to its neighbours. */
    kilnFootprintSquareCentimetres: numeric('kiln_footprint_square_centimetres'),
    kilnHeightCentimetres: numeric('kiln_height_centimetres'),
    /** Dry glaze on a piece, as it is said until glazings were weighed. */
    glazeGramsPerPiece: numeric('glaze_grams_per_piece'),
    /** What a sold piece is packed in: [{ materialId, perPiece }]. */
    packing: jsonb('packing').notNull().default([]),
    changedAt: moment('changed_at').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.formId] }),
    unique('form_name_must_be_new').on(t.studioId, t.name),
  ],
)

/** A bucket, basin, board or tin, with what it weighs empty. */
export const vessel = pgTable(
  'vessel',
  {
    studioId: studioId(),
    vesselId: text('vessel_id').notNull(),
    name: text('name').notNull(),
    kind: text('kind').notNull(),
    tareGrams: numeric('tare_grams').notNull(),
    changedAt: moment('changed_at').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.vesselId] }),
    unique('vessel_name_must_be_new').on(t.studioId, t.name),
  ],
)

/** A scale: the step of its display and the most that it can weigh. */
export const scale = pgTable(
  'scale',
  {
    studioId: studioId(),
    scaleId: text('scale_id').notNull(),
    name: text('name').notNull(),
    divisionGrams: numeric('division_grams').notNull(),
    capacityGrams: numeric('capacity_grams').notNull(),
    changedAt: moment('changed_at').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.scaleId] }),
    unique('scale_name_must_be_new').on(t.studioId, t.name),
  ],
)

/** A plaster slab for drying slurry, with its own dry mass. */
export const bat = pgTable(
  'bat',
  {
    studioId: studioId(),
    batId: text('bat_id').notNull(),
    name: text('name').notNull(),
    dryGrams: numeric('dry_grams'),
    lengthMillimetres: numeric('length_millimetres'),
    widthMillimetres: numeric('width_millimetres'),
    thicknessMillimetres: numeric('thickness_millimetres'),
    changedAt: moment('changed_at').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.batId] }),
    unique('bat_name_must_be_new').on(t.studioId, t.name),
  ],
)

/** What each of the above was, from when: written by the database itself. */
export const catalogueHistory = pgTable(
  'catalogue_history',
  {
    studioId: studioId(),
    resource: text('resource').notNull(),
    resourceId: text('resource_id').notNull(),
    versionNo: bigint('version_no', { mode: 'number' }).notNull(),
    changedAt: moment('changed_at').notNull(),
    facts: jsonb('facts').notNull(),
  },
  (t) => [primaryKey({ columns: [t.studioId, t.resource, t.resourceId, t.versionNo] })],
)
