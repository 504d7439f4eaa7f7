import { lineOf } from './by-hand.ts'
import { RECORDS, recordOf } from './records.ts'
import type { RecordTable } from './records.ts'
import { entry, LINE_RULES, pairOf } from './broken-lines.ts'
import { HOLDING_RULES } from './broken-holdings.ts'
import { MATERIAL_RULES } from './broken-materials.ts'
import { BROKEN_PERMANENCE } from './broken-permanence.ts'
import { CATALOGUE_RULES, STUDIO } from './broken-catalogue.ts'
import { constraint, trigger, unless } from './broken-rule.ts'
import type { BrokenRule } from './broken-rule.ts'

const EARLY = 'set constraints all immediate; set constraints all deferred;'

const withRecord = (insert: string) => `${entry({ kind: 'count' })} ${insert};`

const ENTRIES: BrokenRule[] = [
  trigger('entry', 'entry_must_balance', entry({})),
  trigger(
    'line',
    'entry_must_balance',
    entry({ kind: 'count' }) + EARLY + lineOf('broken', 1, { to: 'bench', dry: '1' }),
  ),
  trigger(
    'entry',
    'entry_is_signed',
    entry({ kind: 'count' })
      .replace('reverses_entry_id)', 'recorded_in)')
      .replace('null)', "'1')") +
      unless(`(select recorded_in from entry where entry_id = 'broken') = '1'`, 'entry_is_signed'),
  ),
  trigger('entry', 'month_must_be_open', entry({ kind: 'count', at: '2020-01-31T12:00Z' })),
  trigger('entry', 'reversal_must_mirror', entry({ kind: 'reverse', reverses: 'opening' })),
  trigger(
    'line',
    'reversal_must_mirror',
    entry({ kind: 'reverse', reverses: 'reading' }) +
      EARLY +
      pairOf({ dry: '1' })
        .map((line, at) => lineOf('broken', at + 1, line))
        .join('\n'),
  ),
  {
    ...trigger('entry', 'entry_must_not_be_a_reversal', ''),
    name: 'reversal_must_mirror',
    breaks:
      entry({ kind: 'reverse', reverses: 'reading' }) +
      entry({ id: 'again', kind: 'reverse', reverses: 'broken' }),
  },
  constraint(
    'entry',
    'entry_must_not_be_reversed_already',
    entry({ kind: 'reverse', reverses: 'reading' }) +
      entry({ id: 'twice', kind: 'reverse', reverses: 'reading' }),
  ),
  constraint(
    'entry',
    'entry_kind_is_known',
    entry({ kind: 'juggle', lines: pairOf({ dry: '1' }) }),
  ),
  constraint(
    'entry',
    'entry_reversal_names_its_entry',
    entry({ kind: 'count', reverses: 'reading' }),
  ),
]

const altered = (table: RecordTable, from: string, to: string) =>
  withRecord(recordOf(table, 'lane', 'broken').replace(from, to))
const lotOf = (kind: string, bat: string) =>
  withRecord(`insert into lot (studio_id, lot_id, kind, body_id, label, made_by_entry_id, bat_id)
     values ('lane', 'broken', '${kind}', 'stoneware', 'B', 'broken', ${bat})`)
const RUN = `insert into run (studio_id, run_id, form_id, body_id, label, thrown_at, made_by_entry_id)
     values ('lane', 'broken', 'mug', 'stoneware', 'B', now(), `

const RECORD_RULES: BrokenRule[] = [
  ...['1300, 800, 501', "1300, 800, 'NaN'"].map((masses) =>
    constraint(
      'weighing',
      'weighing_net_is_gross_less_tare',
      altered('weighing', '1300, 800, 500', masses),
    ),
  ),
  ...['800, 800, 0', '500, -1, 501', "'NaN', 'NaN', 'NaN'"].map((masses) =>
    constraint('weighing', 'weighing_is_above_zero', altered('weighing', '1300, 800, 500', masses)),
  ),
  constraint('estimate', 'estimate_standing_is_known', altered('estimate', 'assumed', 'guessed')),
  ...['-1, 100', '400, -1', "'NaN', 100", "400, 'Infinity'"].map((masses) =>
    constraint('estimate', 'estimate_is_not_negative', altered('estimate', '400, 100', masses)),
  ),
  ...['1, 0.01', '-0.1, 0.01', "0.4, 'NaN'", '0.4, -1'].map((share) =>
    constraint(
      'dry_test',
      'dry_test_water_content_is_a_share',
      altered('dry_test', '0.4, 0.01', share),
    ),
  ),
  constraint('loss', 'loss_has_pieces', altered('loss', "1, 'bisque'", "0, 'bisque'")),
  constraint('loss', 'loss_has_pieces', altered('loss', "'crack', 0", "'crack', 'NaN'")),
  ...['0, 20', '1, -1', "1, 'NaN'"].map((amounts) =>
    constraint('sale', 'sale_has_pieces', altered('sale', '1, 20', amounts)),
  ),
  constraint(
    'month_closing',
    'month_closing_is_a_month',
    entry({ kind: 'close_month' }) +
      recordOf('month_closing', 'lane', 'broken').replace('2020-01', '2026-13'),
  ),
  trigger(
    'month_closing',
    'month_must_be_closed_by_its_entry',
    altered('month_closing', '2020-01', '2020-02'),
  ),
  constraint('lot', 'lot_kind_is_known', lotOf('odd', 'null')),
  ...['0', '-1', "'NaN'", "'Infinity'"].map((thickness) =>
    constraint(
      'lot',
      'lot_has_a_thickness',
      lotOf('load', "'bat'")
        .replace('bat_id)', 'bat_id, thickness_millimetres)')
        .replace("'bat')", `'bat', ${thickness})`),
    ),
  ),
  constraint('lot', 'lot_load_lies_on_a_bat', lotOf('load', 'null')),
  constraint('lot', 'lot_load_lies_on_a_bat', lotOf('delivery', "'bat'")),
]

const loadOf = (kind: string, rest: string) =>
  `insert into kiln_load values ('lane', 'broken', '${kind}', now(), null, ${rest});`

const KILN_RULES: BrokenRule[] = [
  constraint('kiln_load', 'kiln_load_kind_is_known', loadOf('raku', 'null, null')),
  constraint(
    'kiln_load',
    'kiln_load_is_fired_before_it_is_unloaded',
    loadOf('bisque', `null, 'reading'`),
  ),
  constraint(
    'kiln_load_run',
    'kiln_load_run_is_a_count',
    `${loadOf('bisque', 'null, null')} insert into kiln_load_run values ('lane', 'broken', 'run', -1)`,
  ),
]

const OPENNESS: BrokenRule[] = [
  trigger(
    'line',
    'entry_must_be_open',
    pairOf({ dry: '1' }, 'empty', 'tap')
      .map((line, at) => lineOf('opening', at + 4, line))
      .join('\n'),
  ),
  ...(Object.keys(RECORDS) as RecordTable[])
    .filter((table) => table !== 'month_closing')
    .map((table) => ({
      ...trigger(table, 'entry_must_be_open', recordOf(table, 'lane', 'opening')),
      // The opening fired nothing, and so no key is to speak for the rule.
      ...(table === 'firing_share' && {
        given: 'alter table firing_share drop constraint firing_share_is_of_a_firing',
      }),
    })),
  trigger(
    'month_closing',
    'entry_must_be_open',
    recordOf('month_closing', 'lane', 'closing').replace('2020-01', '2020-02'),
  ),
  trigger(
    'lot',
    'entry_must_be_open',
    `insert into lot (studio_id, lot_id, kind, body_id, label, made_by_entry_id)
       values ('lane', 'late', 'delivery', 'stoneware', 'L', 'opening')`,
  ),
  trigger('run', 'entry_must_be_open', `${RUN} 'opening')`),
]

export const BROKEN_RULES: readonly BrokenRule[] = [
  ...[
    ENTRIES,
    LINE_RULES,
    HOLDING_RULES,
    MATERIAL_RULES,
    RECORD_RULES,
    OPENNESS,
    CATALOGUE_RULES,
    KILN_RULES,
    STUDIO,
    BROKEN_PERMANENCE,
  ].flat(),
]
