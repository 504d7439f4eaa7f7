import { sql } from 'drizzle-orm'
import {
  boolean,
  foreignKey,
  index,
  integer,
  jsonb,
  numeric,
  pgTable,
  primaryKey,
  text,
  timestamp,
  unique,
} from 'drizzle-orm/pg-core'
import { body, studio, bat, form, scale, vessel } from './schema-catalogue.ts'
import { material } from './schema-materials.ts'

export const studioId = () => text('studio_id').notNull()
export const moment = (name: string) => timestamp(name, { withTimezone: true, mode: 'date' })

/** By source of doubt, what it adds when it is one standard uncertainty higher: plain digits as text. */
const doubt = (name: string) => jsonb(name).notNull().default({})

/** By layer other than clay, how much of the cost is for it: plain digits as text. */
const layers = () => jsonb('cost_layers').notNull().default({})

/** One thing that happened. */
export const entry = pgTable(
  'entry',
  {
    studioId: studioId().references(() => studio.studioId),
    entryId: text('entry_id').notNull(),
    kind: text('kind').notNull(),
    happenedAt: moment('happened_at').notNull(),
    recordedAt: moment('recorded_at').notNull(),
    recordedBy: text('recorded_by'),
    note: text('note'),
    /** The request, as it was said. */
    said: jsonb('said').notNull(),
    reversesEntryId: text('reverses_entry_id'),
    /** The transaction that wrote it: only that one may add its lines. */
    recordedIn: text('recorded_in')
      .notNull()
      .default(sql`pg_current_xact_id()::text`),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId] }),
    unique('entry_must_not_be_reversed_already').on(t.studioId, t.reversesEntryId),
    foreignKey({
      name: 'entry_reverses_an_entry',
      columns: [t.studioId, t.reversesEntryId],
      foreignColumns: [t.studioId, t.entryId],
    }),
    index('entry_by_time').on(t.studioId, t.happenedAt, t.entryId),
  ],
)

/** A clay that is kept apart from other clay of its body: a delivery, a reclaim, a load on a bat. */
export const lot = pgTable(
  'lot',
  {
    studioId: studioId(),
    lotId: text('lot_id').notNull(),
    kind: text('kind').notNull(),
    bodyId: text('body_id').notNull(),
    label: text('label').notNull(),
    madeByEntryId: text('made_by_entry_id').notNull(),
    batId: text('bat_id'),
    bags: integer('bags'),
    goodsPrice: numeric('goods_price'),
    freight: numeric('freight'),
    dryGramsAtFirst: numeric('dry_grams_at_first'),
    /** Of a load, as it was poured. */
    thicknessMillimetres: numeric('thickness_millimetres'),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.lotId] }),
    key('lot_has_a_body', [t.studioId, t.bodyId], [body.studioId, body.bodyId]),
    key('lot_has_an_entry', [t.studioId, t.madeByEntryId], [entry.studioId, entry.entryId]),
    key('lot_lies_on_a_bat', [t.studioId, t.batId], [bat.studioId, bat.batId]),
  ],
)

/** Pieces of one form thrown from one clay together. */
export const run = pgTable(
  'run',
  {
    studioId: studioId(),
    runId: text('run_id').notNull(),
    formId: text('form_id').notNull(),
    bodyId: text('body_id').notNull(),
    label: text('label').notNull(),
    thrownAt: moment('thrown_at').notNull(),
    maker: text('maker'),
    madeByEntryId: text('made_by_entry_id').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.runId] }),
    key('run_has_a_form', [t.studioId, t.formId], [form.studioId, form.formId]),
    key('run_has_a_body', [t.studioId, t.bodyId], [body.studioId, body.bodyId]),
    key('run_has_an_entry', [t.studioId, t.madeByEntryId], [entry.studioId, entry.entryId]),
    index('run_by_form').on(t.studioId, t.formId, t.thrownAt),
  ],
)

/** Somewhere that something is. Its balance is kept by the database as lines arrive. */
export const holding = pgTable(
  'holding',
  {
    studioId: studioId().references(() => studio.studioId),
    holdingId: text('holding_id').notNull(),
    place: text('place').notNull(),
    /** Of pots and clay; what is of a material is of no body. */
    bodyId: text('body_id'),
    materialId: text('material_id'),
    lotId: text('lot_id'),
    runId: text('run_id'),
    vesselId: text('vessel_id'),
    grade: text('grade'),
    isInside: boolean('is_inside').notNull(),
    dryGrams: numeric('dry_grams').notNull().default('0'),
    materialGrams: numeric('material_grams').notNull().default('0'),
    waterGrams: numeric('water_grams').notNull().default('0'),
    pieces: numeric('pieces').notNull().default('0'),
    cost: numeric('cost').notNull().default('0'),
    costLayers: layers(),
    dryDoubt: doubt('dry_doubt'),
    materialDoubt: doubt('material_doubt'),
    costDoubt: doubt('cost_doubt'),
    /** When the latest of its entries happened. */
    latestAt: moment('latest_at'),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.holdingId] }),
    unique('holding_must_be_one_a_place')
      .on(t.studioId, t.place, t.bodyId, t.materialId, t.lotId, t.runId, t.vesselId, t.grade)
      .nullsNotDistinct(),
    key('holding_has_a_body', [t.studioId, t.bodyId], [body.studioId, body.bodyId]),
    key(
      'holding_has_a_material',
      [t.studioId, t.materialId],
      [material.studioId, material.materialId],
    ),
    key('holding_has_a_lot', [t.studioId, t.lotId], [lot.studioId, lot.lotId]),
    key('holding_has_a_run', [t.studioId, t.runId], [run.studioId, run.runId]),
    key('holding_has_a_vessel', [t.studioId, t.vesselId], [vessel.studioId, vessel.vesselId]),
    index('holding_by_run').on(t.studioId, t.runId),
    index('holding_by_lot').on(t.studioId, t.lotId),
  ],
)

/** What an entry moved into (plus) or out of (minus) one holding. */
export const line = pgTable(
  'line',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    lineNo: integer('line_no').notNull(),
    holdingId: text('holding_id').notNull(),
    dryGrams: numeric('dry_grams').notNull(),
    materialGrams: numeric('material_grams').notNull().default('0'),
    waterGrams: numeric('water_grams').notNull(),
    pieces: numeric('pieces').notNull(),
    cost: numeric('cost').notNull(),
    costLayers: layers(),
    dryDoubt: doubt('dry_doubt'),
    materialDoubt: doubt('material_doubt'),
    costDoubt: doubt('cost_doubt'),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId, t.lineNo] }),
    unique('line_must_be_one_a_holding').on(t.studioId, t.entryId, t.holdingId),
    key('line_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
    key('line_has_a_holding', [t.studioId, t.holdingId], [holding.studioId, holding.holdingId]),
    index('line_by_holding').on(t.studioId, t.holdingId),
  ],
)

/** A reading, kept as it was read. */
export const weighing = pgTable(
  'weighing',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    weighingNo: integer('weighing_no').notNull(),
    /** The field of the act that it was read for. */
    purpose: text('purpose').notNull(),
    /** clay, clay_with_plaster, plaster, label, water, sample, volume. */
    kind: text('kind').notNull(),
    asRead: jsonb('as_read').notNull(),
    grossGrams: numeric('gross_grams').notNull(),
    tareGrams: numeric('tare_grams').notNull(),
    netGrams: numeric('net_grams').notNull(),
    standardUncertaintyGrams: numeric('standard_uncertainty_grams').notNull(),
    vesselId: text('vessel_id'),
    scaleId: text('scale_id'),
    divisionGrams: numeric('division_grams'),
    capacityGrams: numeric('capacity_grams'),
    weighedAt: moment('weighed_at').notNull(),
    weighedBy: text('weighed_by'),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId, t.weighingNo] }),
    key('weighing_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
    key('weighing_has_a_vessel', [t.studioId, t.vesselId], [vessel.studioId, vessel.vesselId]),
    key('weighing_has_a_scale', [t.studioId, t.scaleId], [scale.studioId, scale.scaleId]),
  ],
)

/** What readings were taken to mean: a dry mass with its method and how sure it is. */
export const estimate = pgTable(
  'estimate',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    estimateNo: integer('estimate_no').notNull(),
    holdingId: text('holding_id').notNull(),
    of: text('of').notNull(),
    dryGrams: numeric('dry_grams').notNull(),
    waterGrams: numeric('water_grams').notNull(),
    method: text('method').notNull(),
    standing: text('standing').notNull(),
    standardUncertaintyGrams: numeric('standard_uncertainty_grams').notNull(),
    weighingNo: integer('weighing_no'),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId, t.estimateNo] }),
    key('estimate_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
    key('estimate_has_a_holding', [t.studioId, t.holdingId], [holding.studioId, holding.holdingId]),
    key(
      'estimate_has_a_weighing',
      [t.studioId, t.entryId, t.weighingNo],
      [weighing.studioId, weighing.entryId, weighing.weighingNo],
    ),
  ],
)

type Columns = Parameters<typeof foreignKey>[0]
/** A foreign key by its name, so that what breaks it can be told apart. */
export function key(name: string, columns: unknown[], foreignColumns: unknown[]) {
  return foreignKey({ name, columns, foreignColumns } as unknown as Columns)
}
