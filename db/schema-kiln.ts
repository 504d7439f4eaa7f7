import { index, integer, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import { studio } from './schema-catalogue.ts'
import { entry, key, moment, run, studioId } from './schema-ledger.ts'
import { kiln } from './schema-materials.ts'

/**
 * What was put into a kiln together. It is a note and no part of the ledger: clay moves when it is fired.
 * What was taken out again without a fire has been unloaded and has no entry.
 */
export const kilnLoad = pgTable(
  'kiln_load',
  {
    studioId: studioId().references(() => studio.studioId),
    kilnLoadId: text('kiln_load_id').notNull(),
    kind: text('kind').notNull(),
    kilnId: text('kiln_id'),
    loadedAt: moment('loaded_at').notNull(),
    loadedBy: text('loaded_by'),
    unloadedAt: moment('unloaded_at'),
    /** The entry of its fire. */
    firedByEntryId: text('fired_by_entry_id'),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.kilnLoadId] }),
    key(
      'kiln_load_was_fired_by_an_entry',
      [t.studioId, t.firedByEntryId],
      [entry.studioId, entry.entryId],
    ),
    key('kiln_load_is_in_a_kiln', [t.studioId, t.kilnId], [kiln.studioId, kiln.kilnId]),
    index('kiln_load_by_time').on(t.studioId, t.loadedAt),
  ],
)

/** How many pieces of a run are in a load; none of it any more where they were taken out again. */
export const kilnLoadRun = pgTable(
  'kiln_load_run',
  {
    studioId: studioId(),
    kilnLoadId: text('kiln_load_id').notNull(),
    runId: text('run_id').notNull(),
    pieces: integer('pieces').notNull(),
    /** The entry of what did not come out whole. */
    lostByEntryId: text('lost_by_entry_id'),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.kilnLoadId, t.runId] }),
    key(
      'kiln_load_run_is_of_a_load',
      [t.studioId, t.kilnLoadId],
      [kilnLoad.studioId, kilnLoad.kilnLoadId],
    ),
    key('kiln_load_run_has_a_run', [t.studioId, t.runId], [run.studioId, run.runId]),
    key(
      'kiln_load_run_was_lost_by_an_entry',
      [t.studioId, t.lostByEntryId],
      [entry.studioId, entry.entryId],
    ),
  ],
)
