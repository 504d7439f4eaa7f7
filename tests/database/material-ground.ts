/** What a studio has beside its clay: materials, a recipe, a kiln, and where they are kept. */
export function materialsOf(studio: string): string {
  return `
    insert into material (studio_id, material_id, name, kind, kept_by, changed_at) values
      ('${studio}', 'quartz', 'Quartz', 'ingredient', 'mass', now()),
      ('${studio}', 'celadon', 'Celadon', 'glaze', 'mass', now()),
      ('${studio}', 'box', 'Box', 'packaging', 'count', now()),
      ('${studio}', 'unused', 'Unused', 'ingredient', 'mass', now());
    insert into kiln (studio_id, kiln_id, name, changed_at) values
      ('${studio}', 'kiln', 'Kiln', now()), ('${studio}', 'unused', 'Unused', now());
    insert into glaze_recipe values ('${studio}', 'celadon', 1, null, now());
    insert into glaze_recipe_part values ('${studio}', 'celadon', 1, 1, 'quartz', 30, false);
    insert into vessel values ('${studio}', 'glaze-pail', 'Glaze pail', 'bucket', 900, now());
    insert into holding (studio_id, holding_id, place, material_id, vessel_id, is_inside) values
      ('${studio}', 'shelf', 'materials', 'quartz', null, true),
      ('${studio}', 'boxes', 'materials', 'box', null, true),
      ('${studio}', 'glaze', 'glaze_bucket', 'celadon', 'glaze-pail', true);`
}
