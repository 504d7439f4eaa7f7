import { constraint, trigger, unless } from './broken-rule.ts'
import type { BrokenRule } from './broken-rule.ts'

const CATALOGUE = ['body', 'form', 'vessel', 'scale', 'bat', 'material', 'kiln'] as const
const UNREFERENCED = {
  ...{ body: 'unused', form: 'unused', vessel: 'pail', scale: 'bench-scale', bat: 'bat' },
  ...{ material: 'unused', kiln: 'unused' },
}

const OF_ALL: BrokenRule[] = CATALOGUE.flatMap((table): BrokenRule[] => {
  const row = `studio_id = 'lane' and ${table}_id = '${UNREFERENCED[table]}'`
  const versions = `select count(*) from catalogue_history where studio_id = 'lane'
                      and resource = '${table}' and resource_id = '${UNREFERENCED[table]}'`
  const twin = `insert into ${table} select (jsonb_populate_record(t,
      jsonb_build_object('${table}_id', 'twin'))).* from ${table} t where ${row}`
  return [
    trigger(
      table,
      'catalogue_remembers',
      `update ${table} set name = 'Otherwise' where ${row};
       ${unless(`(${versions}) = 1`, 'catalogue_remembers')}`,
    ),
    {
      ...trigger(table, 'catalogue_must_keep_its_ids', ''),
      name: 'catalogue_remembers',
      breaks: `update ${table} set ${table}_id = 'renamed' where ${row}`,
    },
    constraint(table, `${table}_name_must_be_new`, twin),
  ]
})

const BODY_RULES: BrokenRule[] = [
  '0.20, 0.20',
  '0.20, 0.22',
  '0, null',
  '1, null',
  "'NaN', null",
  'null, 1',
  'null, -0.1',
  "null, 'NaN'",
].map((shares) =>
  constraint(
    'body',
    'body_is_too_dry_below_ready',
    `update body set (ready_water_content_wet_basis, too_dry_water_content_wet_basis) = (${shares})
      where studio_id = 'lane' and body_id = 'unused'`,
  ),
)

export const CATALOGUE_RULES: BrokenRule[] = [...OF_ALL, ...BODY_RULES]

export const STUDIO: BrokenRule[] = [
  constraint('studio', 'studio_currency_is_a_code', `update studio set currency = 'euro'`),
  constraint('studio', 'studio_jurisdiction_is_known', `update studio set jurisdiction = 'Mars'`),
  constraint('studio', 'studio_mass_units_are_known', `update studio set mass_units = 'stone'`),
  constraint('studio', 'studio_date_order_is_known', `update studio set date_order = 'year'`),
  constraint('studio', 'studio_trade_words_are_known', `update studio set trade_words = 'AU'`),
]
