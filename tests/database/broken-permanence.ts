import { entryOf } from './by-hand.ts'
import { trigger } from './broken-rule.ts'
import { recordOf } from './records.ts'
import type { BrokenRule } from './broken-rule.ts'

/** Written once: neither changed nor removed. */
export const WRITTEN_ONCE: readonly string[] = [
  ...['entry', 'line', 'weighing', 'estimate', 'dry_test', 'loss', 'sale', 'month_closing'],
  ...['lot', 'run', 'catalogue_history', 'glaze_recipe', 'glaze_recipe_part', 'glaze_batch'],
  ...['glazing', 'material_delivery', 'firing', 'firing_share'],
]
/** These change, each in its own way, but nothing that was ever there goes. */
export const NEVER_REMOVED: readonly string[] = [
  ...['holding', 'studio', 'body', 'form', 'vessel', 'scale', 'bat', 'material', 'kiln'],
]
const LASTING = [...WRITTEN_ONCE, ...NEVER_REMOVED]

const LOOSE_ENTRY = entryOf({ id: 'loose', kind: 'count' })
const LOOSE_RUN = `
  insert into run (studio_id, run_id, form_id, body_id, label, thrown_at, made_by_entry_id)
    values ('lane', 'loose', 'mug', 'stoneware', 'L', now(), 'loose');`

/** So that the row to be deleted is one that nothing points at. */
const LOOSE: Record<string, { given: string; which: string }> = {
  entry: { given: LOOSE_ENTRY, which: `entry_id = 'loose'` },
  run: {
    given: LOOSE_ENTRY + LOOSE_RUN,
    which: `run_id = 'loose'`,
  },
  studio: {
    given: `insert into studio values ('bare', 'Bare', 'EUR', 'Europe/Berlin', 'EU', now())`,
    which: `studio_id = 'bare'`,
  },
  holding: { given: '', which: `holding_id = 'tap'` },
  body: { given: '', which: `body_id = 'unused'` },
  form: { given: '', which: `form_id = 'unused'` },
  vessel: { given: '', which: `vessel_id = 'pail'` },
  material: { given: '', which: `material_id = 'unused'` },
  kiln: { given: '', which: `kiln_id = 'unused'` },
  glaze_recipe: {
    given: `insert into glaze_recipe values ('lane', 'celadon', 2, null, now())`,
    which: 'version_no = 2',
  },
  firing: {
    given: LOOSE_ENTRY + recordOf('firing', 'lane', 'loose'),
    which: `entry_id = 'loose'`,
  },
}

export const BROKEN_PERMANENCE: readonly BrokenRule[] = [
  ...WRITTEN_ONCE.map((table) =>
    trigger(table, 'ledger_is_append_only', `update ${table} set studio_id = studio_id`),
  ),
  ...LASTING.flatMap((table): BrokenRule[] => {
    const { given = '', which = 'true' } = LOOSE[table] ?? {}
    const othersAway = LASTING.filter((other) => other !== table).map(
      (other) => `drop trigger ledger_is_not_truncated on ${other};`,
    )
    return [
      {
        ...trigger(table, 'ledger_is_append_only', `delete from ${table} where ${which}`),
        given,
      },
      {
        ...trigger(table, 'ledger_is_append_only', `truncate ${table} cascade`),
        name: 'ledger_is_not_truncated',
        given: othersAway.join('\n'),
      },
    ]
  }),
]
