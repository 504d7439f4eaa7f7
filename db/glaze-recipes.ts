import { and, asc, desc, eq, max, sql } from 'drizzle-orm'
import { decimal, type Decimal } from '../shared/decimal.ts'
import {
  mixGrainGramsPerMillilitre,
  recipeLossOnIgnition,
  type RecipePart,
} from '../shared/glaze-recipe.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Transaction } from './connection.ts'
import { findMaterial, refuseOtherKinds, type MaterialFacts } from './materials.ts'
import { inLedger } from './posting.ts'
import type { Services } from './perform.ts'
import { pointingAt } from './readings.ts'
import { glazeRecipe, glazeRecipePart, material } from './schema.ts'

/** A recipe as it is told. */
export interface RecipeSaid {
  readonly parts: readonly {
    readonly ingredientId: string
    readonly parts: string
    readonly isAddition?: boolean | undefined
  }[]
  readonly note?: string | undefined
}

/** One version of a recipe, each line with what is known of its powder. */
export interface Recipe {
  readonly glaze: MaterialFacts
  readonly versionNo: number
  readonly note: string | null
  readonly madeAt: Date
  readonly parts: readonly (RecipePart & { readonly ingredient: MaterialFacts })[]
}

/** What is known of a glaze as it lies in a bucket. */
export interface GlazeNature {
  readonly lossOnIgnitionFraction: Decimal
  readonly grainGramsPerMillilitre: Decimal
}

/**
 * Enters a new version of a glaze's recipe; earlier ones stay as they were.
 *
 * Gives the number of the version. Refuses: `material_not_found`, `material_must_be_of_the_kind`.
 */
export function addRecipe(
  services: Services,
  which: { readonly studioId: string; readonly glazeId: string },
  said: RecipeSaid,
): Promise<number> {
  const { studioId, glazeId } = which
  return inLedger(services.db, async (ledger) => {
    await findGlaze(ledger, studioId, { glazeId, pointer: '/id' })
    const ofGlaze = and(eq(material.studioId, studioId), eq(material.materialId, glazeId))
    // Two that are entered at once count up one after the other.
    await ledger
      .select({ one: sql`1` })
      .from(material)
      .where(ofGlaze)
      .for('update')
    for (const [index, { ingredientId }] of said.parts.entries()) {
      const pointer = `/parts/${String(index)}/ingredientId`
      await findIngredient(ledger, studioId, { ingredientId, pointer })
    }
    const key = { studioId, materialId: glazeId, versionNo: (await latestNo(ledger, which)) + 1 }
    const note = said.note ?? null
    await ledger.insert(glazeRecipe).values({ ...key, note, madeAt: services.now() })
    await ledger.insert(glazeRecipePart).values(
      said.parts.map(({ ingredientId, parts, isAddition = false }, index) => ({
        ...key,
        ...{ partNo: index + 1, ingredientId, parts, isAddition },
      })),
    )
    return key.versionNo
  })
}

/** A powder that glazes are mixed from. Refuses: `material_not_found`, `material_must_be_of_the_kind`. */
export async function findIngredient(
  ledger: Transaction,
  studioId: string,
  asked: { ingredientId: string; pointer: string },
): Promise<MaterialFacts> {
  const { ingredientId, pointer } = asked
  const found = await pointingAt(pointer, () => findMaterial(ledger, studioId, ingredientId))
  refuseOtherKinds(found, ['ingredient'], pointer)
  return found
}

/**
 * The glaze of that id.
 *
 * Refuses: `material_not_found`, `material_must_be_of_the_kind`, at the field where one is named.
 */
export async function findGlaze(
  ledger: Transaction,
  studioId: string,
  asked: { glazeId: string; pointer: string },
): Promise<MaterialFacts> {
  const { glazeId, pointer } = asked
  const found = await pointingAt(pointer, () => findMaterial(ledger, studioId, glazeId))
  refuseOtherKinds(found, ['glaze'], pointer)
  return found
}

async function latestNo(
  ledger: Transaction,
  of: { studioId: string; glazeId: string },
): Promise<number> {
  const [row] = await ledger
    .select({ versionNo: max(glazeRecipe.versionNo) })
    .from(glazeRecipe)
    .where(and(eq(glazeRecipe.studioId, of.studioId), eq(glazeRecipe.materialId, of.glazeId)))
  return row?.versionNo ?? 0
}

/**
 * A version of a glaze's recipe: the latest, unless one is named.
 *
 * Refuses: `glaze_recipe_not_found`.
 */
export async function findRecipe(
  ledger: Transaction,
  studioId: string,
  asked: { glaze: MaterialFacts; versionNo?: number | undefined; pointer?: string },
): Promise<Recipe> {
  const { glaze, versionNo, pointer = '/versionNo' } = asked
  const all = await recipesOf(ledger, studioId, glaze)
  const found = versionNo === undefined ? all[0] : all.find((one) => one.versionNo === versionNo)
  if (found !== undefined) return found
  const facts = { glazeId: glaze.materialId, versions: String(all.length) }
  const detail =
    all.length === 0
      ? `'${glaze.materialId}' has no recipe yet. Enter one, or tell what was weighed out.`
      : `'${glaze.materialId}' has recipes 1 to ${String(all.length)}; there is no ${String(versionNo)}.`
  throw new Refusal('glaze_recipe_not_found', detail, { pointer, facts })
}

/** All versions of a glaze's recipe, the newest first. */
export async function recipesOf(
  ledger: Transaction,
  studioId: string,
  glaze: MaterialFacts,
): Promise<Recipe[]> {
  const { materialId } = glaze
  const heads = await ledger
    .select()
    .from(glazeRecipe)
    .where(and(eq(glazeRecipe.studioId, studioId), eq(glazeRecipe.materialId, materialId)))
    .orderBy(desc(glazeRecipe.versionNo))
  const lines = await ledger
    .select()
    .from(glazeRecipePart)
    .where(and(eq(glazeRecipePart.studioId, studioId), eq(glazeRecipePart.materialId, materialId)))
    .orderBy(asc(glazeRecipePart.partNo))
  const facts = new Map<string, MaterialFacts>()
  for (const { ingredientId } of lines) {
    if (facts.has(ingredientId)) continue
    facts.set(ingredientId, await findMaterial(ledger, studioId, ingredientId))
  }
  return heads.map(({ versionNo, note, madeAt }) => ({
    ...{ glaze, versionNo, note, madeAt },
    parts: lines
      .filter((line) => line.versionNo === versionNo)
      .flatMap(({ ingredientId, parts, isAddition }) => {
        const ingredient = facts.get(ingredientId)
        if (ingredient === undefined) return []
        return [{ materialId: ingredientId, parts: decimal(parts), isAddition, ingredient }]
      }),
  }))
}

/**
 * What burns off a mix of powders, and what its grains weigh.
 *
 * Units: parts or grams dry; a fraction of the dry mass; g/mL. Source: as the two formulas.
 */
export function natureOfMix(
  parts: readonly { readonly parts: Decimal; readonly ingredient: GlazeNature }[],
): GlazeNature {
  const known = parts.map(({ parts: amount, ingredient }) => ({ ...ingredient, parts: amount }))
  return {
    lossOnIgnitionFraction: recipeLossOnIgnition(known).lossOnIgnitionFraction,
    grainGramsPerMillilitre: mixGrainGramsPerMillilitre(known),
  }
}
