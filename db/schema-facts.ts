import { index, integer, jsonb, numeric, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import { body, form, studio } from './schema-catalogue.ts'
import { entry, key, lot, moment, run, studioId } from './schema-ledger.ts'

/** A sample dried to constant mass. */
export const dryTest = pgTable(
  'dry_test',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    bodyId: text('body_id').notNull(),
    lotId: text('lot_id'),
    state: text('state').notNull(),
    waterContentWetBasis: numeric('water_content_wet_basis').notNull(),
    standardUncertainty: numeric('standard_uncertainty').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId] }),
    key('dry_test_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
    key('dry_test_has_a_body', [t.studioId, t.bodyId], [body.studioId, body.bodyId]),
    key('dry_test_has_a_lot', [t.studioId, t.lotId], [lot.studioId, lot.lotId]),
    index('dry_test_by_state').on(t.studioId, t.bodyId, t.state),
  ],
)

/** Pieces that did not make it, and why. */
export const loss = pgTable(
  'loss',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    runId: text('run_id').notNull(),
    pieces: integer('pieces').notNull(),
    stage: text('stage').notNull(),
    cause: text('cause').notNull(),
    /** What the pieces carried and left to the survivors of their run. */
    costLeft: numeric('cost_left').notNull(),
    /** How many of them were more than is usual, and what those carried, lost for good. */
    abnormalPieces: integer('abnormal_pieces').notNull().default(0),
    costAbnormal: numeric('cost_abnormal').notNull().default('0'),
    /** What is usual for the form, and by which numbers, in words. */
    usualWords: text('usual_words'),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId, t.runId] }),
    key('loss_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
    key('loss_has_a_run', [t.studioId, t.runId], [run.studioId, run.runId]),
  ],
)

/** A sale: what was paid and where. What it cost is in the lines. */
export const sale = pgTable(
  'sale',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    formId: text('form_id').notNull(),
    grade: text('grade').notNull(),
    pieces: integer('pieces').notNull(),
    priceEach: numeric('price_each').notNull(),
    channel: text('channel').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId] }),
    key('sale_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
    key('sale_has_a_form', [t.studioId, t.formId], [form.studioId, form.formId]),
  ],
)

/** A month that was closed, and with it every month before. */
export const monthClosing = pgTable(
  'month_closing',
  {
    studioId: studioId(),
    month: text('month').notNull(),
    entryId: text('entry_id').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.month] }),
    key('month_closing_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
  ],
)

/** A request that was answered, so that its retry gets the first answer. */
export const request = pgTable(
  'request',
  {
    studioId: studioId().references(() => studio.studioId),
    idempotencyKey: text('idempotency_key').notNull(),
    fingerprint: text('fingerprint').notNull(),
    answer: jsonb('answer'),
    recordedAt: moment('recorded_at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.studioId, t.idempotencyKey] })],
)
