import { entry } from './broken-lines.ts'
import { constraint } from './broken-rule.ts'
import type { BrokenRule } from './broken-rule.ts'
import { recordOf, type RecordTable } from './records.ts'

const NO_FIGURE = ["'NaN'", "'Infinity'"]

/** Each wrong value of some columns of one row of the catalogue. */
const set = (rule: string, table: string, wrong: Record<string, readonly string[]>) =>
  Object.entries(wrong).flatMap(([columns, all]) =>
    all.map((value) =>
      constraint(table, rule, `update ${table} set ${columns} = ${value} ${ROW[table] ?? ''}`),
    ),
  )
const ROW: Record<string, string> = {
  form: `where studio_id = 'lane' and form_id = 'unused'`,
  material: `where studio_id = 'lane' and material_id = 'unused'`,
  kiln: `where studio_id = 'lane' and kiln_id = 'unused'`,
}

const OF_MATERIALS: BrokenRule[] = [
  ...set('material_kind_is_known', 'material', { kind: [`'gravel'`] }),
  ...set('material_is_kept_by_mass_or_count', 'material', {
    "kind = 'packaging', kept_by": [`'length'`],
  }),
  ...set('material_glaze_is_weighed', 'material', { kept_by: [`'count'`] }),
  ...set('material_water_is_a_share', 'material', { water_content_wet_basis: ['-0.1', '1'] }),
  ...set('material_loss_is_a_share', 'material', { loss_on_ignition_fraction: ['-0.1', '1'] }),
  ...set('material_silica_is_a_share', 'material', {
    crystalline_silica_fraction: ['-0.1', '1.1', "'NaN'"],
  }),
  ...set('material_grains_are_heavier_than_water', 'material', {
    grain_grams_per_millilitre: ['1', ...NO_FIGURE],
  }),
  ...set('material_figures_are_above_zero', 'material', {
    reorder_point: ['-1', ...NO_FIGURE],
    pack_size: ['0', ...NO_FIGURE],
  }),
  ...set('material_lists_are_lists', 'material', { hazards: [`'{}'`], price_steps: [`'1'`] }),
]

const OF_KILNS: BrokenRule[] = [
  ...set('kiln_share_rule_is_known', 'kiln', { share_by: [`'guess'`] }),
  ...set('kiln_figures_are_above_zero', 'kiln', {
    volume_litres: ['0', ...NO_FIGURE],
    rated_kilowatts: ['0', ...NO_FIGURE],
    usable_fraction: ['0', '1.1', "'NaN'"],
    price_per_kilowatt_hour: ['-1', ...NO_FIGURE],
    wear_per_firing: ['-1', ...NO_FIGURE],
    bisque_hours: ['0', ...NO_FIGURE],
    glaze_hours: ['0', ...NO_FIGURE],
  }),
]

const OF_STUDIO_AND_FORM: BrokenRule[] = [
  ...set('studio_seconds_cost_rule_is_known', 'studio', { seconds_cost_rule: [`'by_weight'`] }),
  ...set('studio_seconds_price_is_a_fraction', 'studio', {
    seconds_price_fraction: ['0', '1.1', "'NaN'"],
  }),
  ...set('studio_hourly_figure_is_money', 'studio', { hourly_figure: ['-1', ...NO_FIGURE] }),
  ...set('form_takes_room_in_a_kiln', 'form', {
    kiln_footprint_square_centimetres: ['0', ...NO_FIGURE],
    kiln_height_centimetres: ['0', ...NO_FIGURE],
  }),
  ...set('form_glaze_is_a_mass', 'form', { glaze_grams_per_piece: ['0', ...NO_FIGURE] }),
  ...set('form_packing_is_a_list', 'form', { packing: [`'{}'`] }),
]

const OF_RECIPES: BrokenRule[] = [
  constraint(
    'glaze_recipe',
    'glaze_recipe_versions_count_up',
    `insert into glaze_recipe values ('lane', 'celadon', 0, null, now())`,
  ),
  ...['0', ...NO_FIGURE].map((parts) =>
    constraint(
      'glaze_recipe_part',
      'glaze_recipe_part_has_parts',
      `insert into glaze_recipe_part values ('lane', 'celadon', 1, 2, 'unused', ${parts}, true)`,
    ),
  ),
  constraint(
    'glaze_recipe_part',
    'glaze_is_not_its_own_ingredient',
    `insert into glaze_recipe_part values ('lane', 'celadon', 1, 2, 'celadon', 5, true)`,
  ),
]

/** A record of an entry of its own with a part of it replaced, once for each wrong value. */
function wrong(table: RecordTable, rule: string, changes: Record<string, readonly string[]>) {
  const before = table === 'firing_share' ? recordOf('firing', 'lane', 'broken') : ''
  const record = recordOf(table, 'lane', 'broken')
  return Object.entries(changes).flatMap(([from, all]) =>
    all.map((to) => {
      if (!record.includes(from)) throw new Error(`no ${from} in ${record}`)
      const broken = `${entry({ kind: 'count' })} ${before} ${record.replace(from, to)}`
      return constraint(table, rule, broken)
    }),
  )
}

/** A firing that says one thing more. */
function firingWith(column: string, value: string): BrokenRule {
  const firing = recordOf('firing', 'lane', 'broken')
    .replace('full_fraction)', `full_fraction, ${column})`)
    .replace('0.8)', `0.8, ${value})`)
  return constraint(
    'firing',
    'firing_used_something_or_nothing',
    `${entry({ kind: 'count' })} ${firing}`,
  )
}

const share = (amounts: string) => `'run', ${amounts}`

const OF_RECORDS: BrokenRule[] = [
  ...wrong('glaze_batch', 'glaze_batch_is_of_something', {
    '300, 300, 6, 0.1, 2.6': [
      ...['0, 300, 6, 0.1, 2.6', "'NaN', 300, 6, 0.1, 2.6", '300, -1, 6, 0.1, 2.6'],
      ...["300, 'NaN', 6, 0.1, 2.6", '300, 300, -1, 0.1, 2.6', "300, 300, 'NaN', 0.1, 2.6"],
      ...['300, 300, 6, 1, 2.6', '300, 300, 6, -0.1, 2.6', '300, 300, 6, 0.1, 1'],
      "300, 300, 6, 0.1, 'NaN'",
    ],
  }),
  ...wrong('glazing', 'glazing_has_pieces', {
    '10, 250, 12, 0.1': [
      ...['0, 250, 12, 0.1', '10, 0, 12, 0.1', "10, 'NaN', 12, 0.1", '10, 250, -1, 0.1'],
      ...["10, 250, 'NaN', 0.1", '10, 250, 12, 1', '10, 250, 12, -0.1'],
    ],
  }),
  ...wrong('glazing', 'glazing_how_is_known', { "'bucket'": [`'by_eye'`] }),
  ...wrong('material_delivery', 'material_delivery_has_a_price', {
    '9, 1': ['-1, 1', "'NaN', 1", '9, -1', "9, 'Infinity'"],
  }),
  ...wrong('material_delivery', 'material_delivery_brings_something', {
    '210, 200, null': [
      ...['0, 0, null', '210, 0, null', '210, 211, null', "'NaN', 200, null"],
      ...['null, null, 0', "null, null, 'NaN'"],
    ],
  }),
  ...wrong('firing', 'firing_kind_is_known', { "'glaze'": [`'raku'`] }),
  ...wrong('firing', 'firing_standing_is_known', { "'measured'": [`'guessed'`] }),
  ...wrong('firing', 'firing_costs_something_or_nothing', {
    '12, 2, 4, 0.8': [
      ...['-1, 0, 4, 0.8', "'NaN', 2, 4, 0.8", '12, 13, 4, 0.8', '12, -1, 4, 0.8'],
      ...['12, 2, -1, 0.8', "12, 2, 'NaN', 0.8", '12, 2, 4, 0', "12, 2, 4, 'NaN'"],
    ],
  }),
  ...wrong('firing', 'firing_used_something_or_nothing', {
    '0.02, 12': ['-0.1, 12', "'NaN', 12"],
  }),
  ...['kilowatt_hours', 'candling_kilowatt_hours', 'fuel_grams', 'price_per_kilowatt_hour'].flatMap(
    (column) => ['-1', ...NO_FIGURE].map((value) => firingWith(column, value)),
  ),
  ...wrong('firing_share', 'firing_share_costs_something_or_nothing', {
    [share('10, 14.5, 12, 4')]: [
      ...['0, 14.5, 12, 4', '10, -1, 12, 4', "10, 'NaN', 12, 4", '10, 14.5, -1, 4'].map(share),
      ...["10, 14.5, 'NaN', 4", '10, 14.5, 12, -1', "10, 14.5, 12, 'NaN'"].map(share),
    ],
  }),
  ...wrong('loss', 'loss_is_abnormal_in_part', {
    "'crack', 0)": ['-1, 0', '2, 0', '1, -1', "1, 'NaN'"].map((part) => `'crack', 0, ${part})`),
  }),
]

export const MATERIAL_RULES: readonly BrokenRule[] = [
  ...[OF_MATERIALS, OF_KILNS, OF_STUDIO_AND_FORM, OF_RECIPES, OF_RECORDS].flat(),
]
