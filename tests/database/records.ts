/** What an entry may carry beside its lines, one insert a kind of record. */
export const RECORDS = {
  weighing: `(studio_id, entry_id, weighing_no, purpose, kind, as_read, gross_grams, tare_grams,
      net_grams, standard_uncertainty_grams, weighed_at)
    values ($studio, $entry, 1, 'scrap', 'alone', '{}', 1300, 800, 500, 0.3, now())`,
  estimate: `(studio_id, entry_id, estimate_no, holding_id, of, dry_grams, water_grams, method,
      standing, standard_uncertainty_grams)
    values ($studio, $entry, 1, 'bucket', 'scrap', 400, 100, 'state', 'assumed', 20)`,
  dry_test: `values ($studio, $entry, 'stoneware', null, 'slops', 0.4, 0.01)`,
  loss: `values ($studio, $entry, 'run', 1, 'bisque', 'crack', 0)`,
  sale: `values ($studio, $entry, 'mug', 'first', 1, 20, 'market')`,
  month_closing: `values ($studio, '2020-01', $entry)`,
  glaze_batch: `values ($studio, $entry, 'celadon', 1, 'glaze-pail', 300, 300, 6, 0.1, 2.6)`,
  glazing: `values ($studio, $entry, 'run', 'celadon', 10, 250, 12, 0.1, 'bucket')`,
  material_delivery: `values ($studio, $entry, 'quartz', 210, 200, null, 9, 1, 'Q')`,
  firing: `(studio_id, entry_id, kiln_id, kind, how, standing, relative_uncertainty, energy_cost,
      candling_cost, wear_cost, full_fraction)
    values ($studio, $entry, 'kiln', 'glaze', 'meter', 'measured', 0.02, 12, 2, 4, 0.8)`,
  firing_share: `values ($studio, $entry, 'run', 10, 14.5, 12, 4)`,
} as const
export type RecordTable = keyof typeof RECORDS

export function recordOf(table: RecordTable, studio: string, entry: string): string {
  const rest = RECORDS[table].replace('$studio', `'${studio}'`).replace('$entry', `'${entry}'`)
  return `insert into ${table} ${rest};`
}

/** A row of each: of the entry `reading`, and of `closing` where it says that a month is closed. */
export function recordsOf(studio: string): string {
  const tables = Object.keys(RECORDS) as RecordTable[]
  const writer = (table: RecordTable) => (table === 'month_closing' ? 'closing' : 'reading')
  return tables.map((table) => recordOf(table, studio, writer(table))).join('\n')
}
