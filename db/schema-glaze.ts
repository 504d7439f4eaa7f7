import { boolean, index, integer, numeric, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import { vessel } from './schema-catalogue.ts'
import { entry, key, moment, run, studioId } from './schema-ledger.ts'
import { kiln, material } from './schema-materials.ts'

/** A recipe of a glaze as it was from some day; a later version does not touch an earlier one. */
export const glazeRecipe = pgTable(
  'glaze_recipe',
  {
    studioId: studioId(),
    materialId: text('material_id').notNull(),
    versionNo: integer('version_no').notNull(),
    note: text('note'),
    madeAt: moment('made_at').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.materialId, t.versionNo] }),
    key(
      'glaze_recipe_is_of_a_glaze',
      [t.studioId, t.materialId],
      [material.studioId, material.materialId],
    ),
  ],
)

/** One ingredient of a recipe: parts by dry mass; additions stand over the hundred. */
export const glazeRecipePart = pgTable(
  'glaze_recipe_part',
  {
    studioId: studioId(),
    materialId: text('material_id').notNull(),
    versionNo: integer('version_no').notNull(),
    partNo: integer('part_no').notNull(),
    ingredientId: text('ingredient_id').notNull(),
    parts: numeric('parts').notNull(),
    isAddition: boolean('is_addition').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.materialId, t.versionNo, t.partNo] }),
    key(
      'glaze_recipe_part_is_of_a_recipe',
      [t.studioId, t.materialId, t.versionNo],
      [glazeRecipe.studioId, glazeRecipe.materialId, glazeRecipe.versionNo],
    ),
    key(
      'glaze_recipe_part_is_an_ingredient',
      [t.studioId, t.ingredientId],
      [material.studioId, material.materialId],
    ),
  ],
)

/** A batch of glaze as it was mixed into a bucket. */
export const glazeBatch = pgTable(
  'glaze_batch',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    materialId: text('material_id').notNull(),
    versionNo: integer('version_no'),
    vesselId: text('vessel_id').notNull(),
    dryGrams: numeric('dry_grams').notNull(),
    waterGrams: numeric('water_grams').notNull(),
    cost: numeric('cost').notNull(),
    lossOnIgnitionFraction: numeric('loss_on_ignition_fraction').notNull(),
    grainGramsPerMillilitre: numeric('grain_grams_per_millilitre').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId] }),
    key('glaze_batch_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
    key(
      'glaze_batch_is_of_a_glaze',
      [t.studioId, t.materialId],
      [material.studioId, material.materialId],
    ),
    key(
      'glaze_batch_follows_a_recipe',
      [t.studioId, t.materialId, t.versionNo],
      [glazeRecipe.studioId, glazeRecipe.materialId, glazeRecipe.versionNo],
    ),
    key('glaze_batch_is_in_a_vessel', [t.studioId, t.vesselId], [vessel.studioId, vessel.vesselId]),
  ],
)

/** Glaze that landed on a run. */
export const glazing = pgTable(
  'glazing',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    runId: text('run_id').notNull(),
    materialId: text('material_id').notNull(),
    pieces: integer('pieces').notNull(),
    dryGrams: numeric('dry_grams').notNull(),
    standardUncertaintyGrams: numeric('standard_uncertainty_grams').notNull(),
    lossOnIgnitionFraction: numeric('loss_on_ignition_fraction').notNull(),
    /** 'bucket', 'pieces' or 'usual'. */
    how: text('how').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId, t.runId] }),
    key('glazing_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
    key('glazing_has_a_run', [t.studioId, t.runId], [run.studioId, run.runId]),
    key(
      'glazing_is_of_a_glaze',
      [t.studioId, t.materialId],
      [material.studioId, material.materialId],
    ),
    index('glazing_by_run').on(t.studioId, t.runId),
  ],
)

/** A delivery of a material, with what was paid. */
export const materialDelivery = pgTable(
  'material_delivery',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    materialId: text('material_id').notNull(),
    /** As supplied. */
    wetGrams: numeric('wet_grams'),
    dryGrams: numeric('dry_grams'),
    pieces: numeric('pieces'),
    goodsPrice: numeric('goods_price').notNull(),
    freight: numeric('freight').notNull(),
    label: text('label'),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId, t.materialId] }),
    key('material_delivery_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
    key(
      'material_delivery_is_of_a_material',
      [t.studioId, t.materialId],
      [material.studioId, material.materialId],
    ),
  ],
)

/** What a fire took and what it cost. */
export const firing = pgTable(
  'firing',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    kilnId: text('kiln_id').notNull(),
    /** 'bisque', 'glaze' or 'empty'. */
    kind: text('kind').notNull(),
    /** 'meter', 'said', 'usual', 'rule' or 'fuel'; or one of the first four '_and_fuel'. */
    how: text('how').notNull(),
    standing: text('standing').notNull(),
    relativeUncertainty: numeric('relative_uncertainty').notNull(),
    kilowattHours: numeric('kilowatt_hours'),
    /** Of which before the fire proper, drying the ware. */
    candlingKilowattHours: numeric('candling_kilowatt_hours'),
    fuelMaterialId: text('fuel_material_id'),
    fuelGrams: numeric('fuel_grams'),
    pricePerKilowattHour: numeric('price_per_kilowatt_hour'),
    /** All that the energy cost, candling and fuel among it. */
    energyCost: numeric('energy_cost').notNull(),
    candlingCost: numeric('candling_cost').notNull(),
    wearCost: numeric('wear_cost').notNull(),
    /** How it was shared out in the end, and why not as the kiln says, if so. */
    sharedBy: text('shared_by'),
    sharedByWords: text('shared_by_words'),
    /** How full the kiln was, 0 to 1, and how that is known: 'said' or 'shelf_space'. */
    fullFraction: numeric('full_fraction'),
    fullHow: text('full_how'),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId] }),
    key('firing_has_an_entry', [t.studioId, t.entryId], [entry.studioId, entry.entryId]),
    key('firing_is_of_a_kiln', [t.studioId, t.kilnId], [kiln.studioId, kiln.kilnId]),
    key(
      'firing_burns_a_fuel',
      [t.studioId, t.fuelMaterialId],
      [material.studioId, material.materialId],
    ),
    index('firing_by_kiln').on(t.studioId, t.kilnId),
  ],
)

/** What one run bore of a fire. */
export const firingShare = pgTable(
  'firing_share',
  {
    studioId: studioId(),
    entryId: text('entry_id').notNull(),
    runId: text('run_id').notNull(),
    pieces: integer('pieces').notNull(),
    /** What it weighed in the sharing: litres of shelf space, dry grams or pieces. */
    weight: numeric('weight').notNull(),
    energyCost: numeric('energy_cost').notNull(),
    wearCost: numeric('wear_cost').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.studioId, t.entryId, t.runId] }),
    key('firing_share_is_of_a_firing', [t.studioId, t.entryId], [firing.studioId, firing.entryId]),
    key('firing_share_has_a_run', [t.studioId, t.runId], [run.studioId, run.runId]),
  ],
)
