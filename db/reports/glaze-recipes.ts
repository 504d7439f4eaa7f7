import { toLedgerScale, ZERO, type Decimal } from '../../shared/decimal.ts'
import {
  costPerDryGram,
  recipeCostPerDryGram,
  recipeTotals,
  ingredientFractions,
} from '../../shared/glaze-recipe.ts'
import type { StatedHazard } from '../../shared/material-hazards.ts'
import { written, type Written } from '../../shared/written.ts'
import type { Database } from '../connection.ts'
import { findGlaze, natureOfMix, recipesOf, type Recipe } from '../glaze-recipes.ts'
import { perGram, shelfOf, type Shelf } from '../shelf-of-powders.ts'
import { inSnapshot } from '../report-reading.ts'

interface RecipeRow {
  readonly materialId: string
  readonly versionNo: number
  readonly note: string | null
  readonly madeAt: string
  readonly parts: readonly {
    readonly ingredientId: string
    readonly name: string
    readonly parts: Decimal
    readonly isAddition: boolean
    readonly fraction: Decimal
    readonly costPerDryGram: Decimal | null
    readonly hazards: readonly StatedHazard[]
  }[]
  readonly baseParts: Decimal
  readonly additionParts: Decimal
  readonly allParts: Decimal
  readonly isBaseOneHundred: boolean
  readonly words: string
  readonly lossOnIgnitionFraction: Decimal
  readonly grainGramsPerMillilitre: Decimal
  readonly costPerDryGram: Decimal | null
  readonly costWords: string
}

export type GlazeRecipeRow = Written<RecipeRow>

/**
 * All versions of a glaze's recipe, the newest first, at what the powders on the shelf cost now.
 *
 * Units: parts; fractions of the dry mass; g/mL; money a dry gram.
 * Refuses: `material_not_found`, `material_must_be_of_the_kind`.
 */
export function recipesNow(
  db: Database,
  asked: { readonly studioId: string; readonly glazeId: string },
): Promise<GlazeRecipeRow[]> {
  const { studioId, glazeId } = asked
  return inSnapshot(db, async (ledger) => {
    const glaze = await findGlaze(ledger, studioId, { glazeId, pointer: '/id' })
    const recipes = await recipesOf(ledger, studioId, glaze)
    const ids = recipes.flatMap(({ parts }) => parts.map(({ materialId }) => materialId))
    const shelf = await shelfOf(ledger, studioId, ids)
    return written(recipes.map((recipe) => rowOf(recipe, shelf)))
  })
}

const NONE_THERE = { dryGrams: ZERO, cost: ZERO }

function rowOf(recipe: Recipe, shelf: Shelf): RecipeRow {
  const fractions = ingredientFractions(recipe.parts)
  const parts = recipe.parts.map((part, index) => {
    const stock = shelf.get(part.materialId) ?? NONE_THERE
    return { ...part, stock, fraction: fractions[index] ?? ZERO }
  })
  const missing = parts.filter(({ stock }) => stock.dryGrams.isZero())
  const nature = natureOfMix(recipe.parts)
  return {
    materialId: recipe.glaze.materialId,
    versionNo: recipe.versionNo,
    note: recipe.note,
    madeAt: recipe.madeAt.toISOString(),
    parts: parts.map(({ materialId, parts: amount, isAddition, fraction, stock, ingredient }) => ({
      ...{ ingredientId: materialId, name: ingredient.name, parts: amount, isAddition },
      fraction: toLedgerScale(fraction),
      costPerDryGram: perGram(costPerDryGram(stock)),
      hazards: ingredient.hazards,
    })),
    ...recipeTotals(recipe.parts),
    lossOnIgnitionFraction: toLedgerScale(nature.lossOnIgnitionFraction),
    grainGramsPerMillilitre: toLedgerScale(nature.grainGramsPerMillilitre),
    costPerDryGram: perGram(recipeCostPerDryGram(parts)),
    costWords: costWords(missing.map(({ ingredient }) => ingredient.name)),
  }
}

function costWords(missing: readonly string[]): string {
  if (missing.length === 0) return 'At what the powders on the shelf cost on average.'
  const verb = missing.length === 1 ? 'is' : 'are'
  return `No price: ${missing.join(', ')} ${verb} not on the shelf. Enter the delivery, then there is one.`
}
