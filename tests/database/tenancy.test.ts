import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { entryOf, lineOf, openGround, verdict } from './by-hand.ts'
import type { Ground } from './by-hand.ts'
import { recordOf } from './records.ts'

let ground: Ground

beforeAll(async () => {
  ground = await openGround()
  await ground.owner.unsafe(`
    insert into holding (studio_id, holding_id, place, body_id, is_inside) values
      ('hill', 'of-hill', 'bench', 'unused', true);
    insert into body (studio_id, body_id, name, loss_on_ignition_fraction,
                      grain_grams_per_millilitre, changed_at)
      values ('hill', 'hill-clay', 'Hill clay', 0.07, 2.6, now());
    insert into vessel values ('hill', 'hill-pail', 'Hill pail', 'bucket', 800, now());`)
})
afterAll(() => ground.close())

/** What the other studio has and this one has not. */
const HILL_HAS = `
  insert into material (studio_id, material_id, name, kind, kept_by, changed_at)
    values ('hill', 'hill-ash', 'Hill ash', 'ingredient', 'mass', now());
  insert into glaze_recipe values ('hill', 'celadon', 2, null, now());
  insert into kiln (studio_id, kiln_id, name, changed_at)
    values ('hill', 'hill-kiln', 'Hill kiln', now());
  insert into entry (studio_id, entry_id, kind, happened_at, recorded_at, said)
    values ('hill', 'hill-entry', 'count', now(), now(), '{}');
  insert into run (studio_id, run_id, form_id, body_id, label, thrown_at, made_by_entry_id)
    values ('hill', 'hill-run', 'mug', 'stoneware', 'H', now(), 'hill-entry');`

describe.each(['owner', 'app'] as const)('by the hand of the %s,', (writer) => {
  test('a line does not point at a holding of another studio', async () => {
    const lines = [
      { to: 'bench', dry: '-1' },
      { to: 'of-hill', dry: '1' },
    ]
    expect(await verdict(ground[writer], entryOf({ id: 'across', lines }))).toBe(
      'line_has_a_holding',
    )
  })

  test('a line of one studio does not enter an open entry of another', async () => {
    const across = entryOf({ id: 'across' }) + lineOf('across', 1, { to: 'bench', studio: 'hill' })
    expect(await verdict(ground[writer], across)).toBe('entry_must_be_open')
  })

  test('a line of another studio does not balance an entry of the same id', async () => {
    const here = entryOf({ id: 'same', lines: [{ to: 'bench', dry: '-1' }] })
    const there = entryOf({ id: 'same', studio: 'hill', lines: [{ to: 'bench', dry: '1' }] })
    expect(await verdict(ground[writer], here + there)).toBe('entry_must_balance')
  })

  test('a holding is not of a body, and a weighing not in a vessel, of another studio', async () => {
    const holding = `insert into holding (studio_id, holding_id, place, body_id, is_inside)
                       values ('lane', 'odd', 'scrap', 'hill-clay', true)`
    expect(await verdict(ground[writer], holding)).toBe('holding_has_a_body')
    const weighing = `
      insert into weighing (studio_id, entry_id, weighing_no, purpose, kind, as_read, gross_grams,
          tare_grams, net_grams, standard_uncertainty_grams, weighed_at, vessel_id)
        values ('lane', 'odd', 1, 'scrap', 'alone', '{}', 2, 1, 1, 0, now(), 'hill-pail')`
    const odd = entryOf({ id: 'odd', kind: 'count' }) + weighing
    expect(await verdict(ground[writer], odd)).toBe('weighing_has_a_vessel')
  })

  test('a kiln load is not filled with pots, nor fired by an entry, of another studio', async () => {
    const odd = `
      insert into entry (studio_id, entry_id, kind, happened_at, recorded_at, said)
        values ('hill', 'hill-only', 'count', now(), now(), '{}');
      insert into run (studio_id, run_id, form_id, body_id, label, thrown_at, made_by_entry_id)
        values ('hill', 'hill-pots', 'mug', 'stoneware', 'H', now(), 'hill-only');
      insert into kiln_load values ('lane', 'odd', 'bisque', now());`
    const filled = `${odd} insert into kiln_load_run values ('lane', 'odd', 'hill-pots', 1)`
    expect(await verdict(ground[writer], filled)).toBe('kiln_load_run_has_a_run')
    const fired = `${odd} update kiln_load set unloaded_at = now(), fired_by_entry_id = 'hill-only'
                     where studio_id = 'lane' and kiln_load_id = 'odd'`
    expect(await verdict(ground[writer], fired)).toBe('kiln_load_was_fired_by_an_entry')
    const lost = `${odd} insert into kiln_load_run values ('lane', 'odd', 'run', 1, 'hill-only')`
    expect(await verdict(ground[writer], lost)).toBe('kiln_load_run_was_lost_by_an_entry')
    const elsewhere = `${odd} insert into kiln_load_run values ('hill', 'odd', 'hill-pots', 1)`
    expect(await verdict(ground[writer], elsewhere)).toBe('kiln_load_run_is_of_a_load')
  })

  test('a holding is not of a material, nor a kiln fired with the fuel, of another studio', async () => {
    const tried = (statements: string) => verdict(ground[writer], HILL_HAS + statements)
    const holding = `insert into holding (studio_id, holding_id, place, material_id, is_inside)
                       values ('lane', 'odd', 'materials', 'hill-ash', true)`
    expect(await tried(holding)).toBe('holding_has_a_material')
    const fuel = `update kiln set fuel_material_id = 'hill-ash' where studio_id = 'lane'`
    expect(await tried(fuel)).toBe('kiln_burns_a_fuel')
    const load = `insert into kiln_load (studio_id, kiln_load_id, kind, loaded_at, kiln_id)
                    values ('lane', 'odd', 'bisque', now(), 'hill-kiln')`
    expect(await tried(load)).toBe('kiln_load_is_in_a_kiln')
  })

  test.each([
    ["'lane', 'hill-ash', 1, null, now()", 'glaze_recipe', 'glaze_recipe_is_of_a_glaze'],
    [
      "'lane', 'hill-ash', 1, 1, 'quartz', 5, false",
      ...['glaze_recipe_part', 'glaze_recipe_part_is_of_a_recipe'],
    ],
    [
      "'lane', 'celadon', 1, 2, 'hill-ash', 5, false",
      ...['glaze_recipe_part', 'glaze_recipe_part_is_an_ingredient'],
    ],
  ])('a recipe is not of what another studio has: %s', async (values, table = '', rule = '') => {
    const insert = `insert into ${table} values (${values})`
    expect(await verdict(ground[writer], HILL_HAS + insert)).toBe(rule)
  })

  test.each([
    ['glaze_batch', ["'celadon'", "'hill-ash'"], 'glaze_batch_is_of_a_glaze'],
    ['glaze_batch', ["'celadon', 1", "'celadon', 2"], 'glaze_batch_follows_a_recipe'],
    ['glaze_batch', ["'glaze-pail'", "'hill-pail'"], 'glaze_batch_is_in_a_vessel'],
    ['glazing', ["'celadon'", "'hill-ash'"], 'glazing_is_of_a_glaze'],
    ['glazing', ["'run'", "'hill-run'"], 'glazing_has_a_run'],
    ['material_delivery', ["'quartz'", "'hill-ash'"], 'material_delivery_is_of_a_material'],
    ['firing', ["'kiln'", "'hill-kiln'"], 'firing_is_of_a_kiln'],
  ] as const)('a record of %s does not speak of %s: %s', async (table, instead, rule) => {
    const [own, others] = instead
    const odd = recordOf(table, 'lane', 'odd').replace(own, others)
    const tried = HILL_HAS + entryOf({ id: 'odd', kind: 'count' }) + odd
    expect(await verdict(ground[writer], tried)).toBe(rule)
  })

  test('what a run bore of a fire is of that fire, and of a run of the studio', async () => {
    const entry = HILL_HAS + entryOf({ id: 'odd', kind: 'count' })
    const share = recordOf('firing_share', 'lane', 'odd')
    expect(await verdict(ground[writer], entry + share)).toBe('firing_share_is_of_a_firing')
    const ofHill = recordOf('firing', 'lane', 'odd') + share.replace("'run'", "'hill-run'")
    expect(await verdict(ground[writer], entry + ofHill)).toBe('firing_share_has_a_run')
    const fuelled = recordOf('firing', 'lane', 'odd')
      .replace('full_fraction)', 'full_fraction, fuel_material_id)')
      .replace('0.8)', "0.8, 'hill-ash')")
    expect(await verdict(ground[writer], entry + fuelled)).toBe('firing_burns_a_fuel')
  })

  test.each([
    { table: 'body', id: 'unused' },
    { table: 'form', id: 'unused' },
    { table: 'vessel', id: 'pail' },
    { table: 'scale', id: 'bench-scale' },
    { table: 'bat', id: 'bat' },
    { table: 'material', id: 'unused' },
    { table: 'kiln', id: 'unused' },
  ])('a $table does not move to another studio and keeps its id', async ({ table, id }) => {
    const changed = (change: string) =>
      verdict(
        ground[writer],
        `update ${table} set ${change} where studio_id = 'lane' and ${table}_id = '${id}'`,
      )
    const moved = `studio_id = 'hill', ${table}_id = 'moved', name = 'moved'`
    expect(await changed(moved)).toBe('catalogue_must_keep_its_ids')
    expect(await changed(`${table}_id = 'renamed'`)).toBe('catalogue_must_keep_its_ids')
  })
})

describe('the catalog of the database says that', () => {
  test('the key of every table begins with the studio', async () => {
    const keys = await ground.owner`
      select r.relname as table, a.attname as first
        from pg_class r
        left join pg_constraint k on k.conrelid = r.oid and k.contype = 'p'
        left join pg_attribute a on a.attrelid = r.oid and a.attnum = k.conkey[1]
       where r.relnamespace = 'public'::regnamespace and r.relkind in ('r', 'p')`
    expect(keys.length).toBeGreaterThanOrEqual(30)
    expect(keys.filter((key) => key.first !== 'studio_id')).toEqual([])
  })

  test('every unique rule begins with the studio', async () => {
    const rules = await ground.owner`
      select i.indexrelid::regclass::text as name, a.attname as first
        from pg_index i
        join pg_class c on c.oid = i.indrelid and c.relnamespace = 'public'::regnamespace
        left join pg_attribute a on a.attrelid = i.indrelid and a.attnum = i.indkey[0]
       where i.indisunique`
    expect(rules.length).toBeGreaterThanOrEqual(40)
    expect(rules.filter((rule) => rule.first !== 'studio_id')).toEqual([])
  })

  test('every foreign key carries the studio on both sides, in the same place', async () => {
    const keys = await ground.owner`
      select k.conname as name,
             (select array_agg(a.attname::text order by at.place)
                from unnest(k.conkey) with ordinality as at (number, place)
                join pg_attribute a on a.attrelid = k.conrelid and a.attnum = at.number) as from,
             (select array_agg(a.attname::text order by at.place)
                from unnest(k.confkey) with ordinality as at (number, place)
                join pg_attribute a on a.attrelid = k.confrelid and a.attnum = at.number) as to
        from pg_constraint k
       where k.contype = 'f' and k.connamespace = 'public'::regnamespace`
    const withoutStudio = keys.filter(
      (key) => (key.from as string[])[0] !== 'studio_id' || (key.to as string[])[0] !== 'studio_id',
    )
    expect(keys.length).toBeGreaterThanOrEqual(60)
    expect(withoutStudio).toEqual([])
  })

  test('no foreign key was left unchecked, and none acts on its own', async () => {
    const keys = await ground.owner`
      select conname, convalidated, confdeltype, confupdtype from pg_constraint
       where contype = 'f' and connamespace = 'public'::regnamespace`
    const lax = keys.filter(
      (key) => key.convalidated !== true || key.confdeltype !== 'a' || key.confupdtype !== 'a',
    )
    expect(keys.length).toBeGreaterThanOrEqual(60)
    expect(lax).toEqual([])
  })
})
