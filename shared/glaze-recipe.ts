import { assert } from './assert.ts'
import { decimal, LEDGER_SCALE, ONE, toLedgerScale, ZERO, type Decimal } from './decimal.ts'
import { shareOut } from './money.ts'

/** A line of a recipe: so many parts by dry mass, of the base or added on top of it. */
export interface RecipePart {
  readonly materialId: string
  readonly parts: Decimal
  /** Added over the hundred of the base: colour, opacifier, bentonite. */
  readonly isAddition: boolean
}

export interface RecipeTotals {
  readonly baseParts: Decimal
  readonly additionParts: Decimal
  readonly allParts: Decimal
  readonly isBaseOneHundred: boolean
  readonly words: string
}

/** Dry powder of one line of a recipe. */
export interface IngredientGrams {
  readonly materialId: string
  readonly dryGrams: Decimal
}

/** A powder as it comes out of its sack: what to weigh out, and the water that comes with it. */
export interface PowderAsSupplied {
  readonly asSuppliedGrams: Decimal
  readonly waterGrams: Decimal
}

/** What the fire takes of a recipe, as far as its ingredients are known. */
export interface RecipeLoss {
  /** Of the dry mass; an ingredient whose loss nobody knows counts as losing nothing. */
  readonly lossOnIgnitionFraction: Decimal
  /** How much of the recipe is of such ingredients. */
  readonly notKnownFraction: Decimal
}

const BASE_PARTS = decimal(100)

/**
 * What a grain of glaze powder weighs where nobody said: feldspar 2.6, silica 2.65, clays 2.5 to 2.6.
 *
 * Units: g/mL. Source: a textbook's list (seen in a copy); that one figure serves for all is our choice.
 */
export const USUAL_GRAIN_GRAMS_PER_MILLILITRE: Decimal = decimal('2.6')

/**
 * What the parts of a recipe come to, and whether its base comes to a hundred.
 *
 * A base that does not is no mistake: each part is its share of what they all come to. It is said, because
 * a line left out looks just so.
 *
 * Units: parts by dry mass, exact. Source: the trade's way of writing recipes: a base of 100, additions over it.
 */
export function recipeTotals(recipe: readonly RecipePart[]): RecipeTotals {
  const baseParts = sumOfParts(recipe.filter(({ isAddition }) => !isAddition))
  const additionParts = sumOfParts(recipe.filter(({ isAddition }) => isAddition))
  const isBaseOneHundred = baseParts.equals(BASE_PARTS)
  const base = isBaseOneHundred
    ? 'The base comes to 100.'
    : `The base comes to ${baseParts.toFixed()}, not 100: each part is taken as its share. See that no line is left out.`
  const added = additionParts.isZero() ? '' : ` Added on top: ${additionParts.toFixed()}.`
  return {
    baseParts,
    additionParts,
    allParts: baseParts.plus(additionParts),
    isBaseOneHundred,
    words: `${base}${added}`,
  }
}

/**
 * How much of the whole dry mass each line of a recipe is, additions included.
 *
 * Shape: a recipe with a part above zero; one fraction a line, in their order.
 * Units: parts to fractions of the dry mass; 60 digits. Source: the definition of a share.
 */
export function ingredientFractions(recipe: readonly Pick<RecipePart, 'parts'>[]): Decimal[] {
  const all = weighedOut(recipe)
  return recipe.map(({ parts }) => parts.dividedBy(all))
}

/**
 * The dry powder of each line for so much dry glaze, to the last unit that the ledger keeps.
 *
 * Shape: a recipe with a part above zero; one amount a line, in their order.
 * Units: grams at ledger scale; they sum to `totalDryGrams` exactly. Source: as `shareOut`.
 */
export function ingredientGrams(
  recipe: readonly Pick<RecipePart, 'materialId' | 'parts'>[],
  totalDryGrams: Decimal,
): IngredientGrams[] {
  weighedOut(recipe)
  assert(totalDryGrams.greaterThanOrEqualTo(0), 'a mass is not below zero')
  const weights = recipe.map(({ parts }) => parts)
  const shares = shareOut(totalDryGrams, weights, LEDGER_SCALE)
  return recipe.map(({ materialId }, index) => ({ materialId, dryGrams: shares[index] ?? ZERO }))
}

/**
 * What to weigh out of a damp sack for so much dry powder, and the water that it brings into the bucket.
 *
 * Units: grams at ledger scale, a fraction of the wet mass; `asSuppliedGrams - waterGrams = dryGrams`.
 * Source: the definition of the wet basis: wet = dry / (1 - water).
 */
export function powderAsSupplied(powder: {
  readonly dryGrams: Decimal
  readonly waterContentWetBasis: Decimal
}): PowderAsSupplied {
  const { dryGrams, waterContentWetBasis } = powder
  assert(
    waterContentWetBasis.greaterThanOrEqualTo(0) && waterContentWetBasis.lessThan(1),
    'a powder is not all water',
  )
  const asSuppliedGrams = toLedgerScale(dryGrams.dividedBy(ONE.minus(waterContentWetBasis)))
  return { asSuppliedGrams, waterGrams: asSuppliedGrams.minus(dryGrams) }
}

/**
 * The part of a recipe's dry mass that leaves in the fire: the losses of its ingredients, by mass.
 *
 * Shape: a recipe with a part above zero. Units: parts and fractions of the dry mass; 60 digits.
 * Source: conservation of mass.
 */
export function recipeLossOnIgnition(
  recipe: readonly {
    readonly parts: Decimal
    readonly lossOnIgnitionFraction: Decimal | undefined
  }[],
): RecipeLoss {
  const all = weighedOut(recipe)
  const lost = recipe.reduce(
    (sum, { parts, lossOnIgnitionFraction }) => sum.plus(parts.times(lossOnIgnitionFraction ?? 0)),
    ZERO,
  )
  const notKnown = recipe.filter(
    ({ lossOnIgnitionFraction }) => lossOnIgnitionFraction === undefined,
  )
  return {
    lossOnIgnitionFraction: lost.dividedBy(all),
    notKnownFraction: sumOfParts(notKnown).dividedBy(all),
  }
}

/**
 * What a grain of a mix weighs on the whole: masses add, and so do volumes.
 *
 * Shape: a recipe with a part above zero; an ingredient of which nobody said takes the usual figure.
 * Units: parts by dry mass and g/mL to g/mL; 60 digits. Source: the definition of density.
 */
export function mixGrainGramsPerMillilitre(
  recipe: readonly {
    readonly parts: Decimal
    readonly grainGramsPerMillilitre: Decimal | undefined
  }[],
): Decimal {
  const all = weighedOut(recipe)
  const volume = recipe.reduce((sum, { parts, grainGramsPerMillilitre }) => {
    const grain = grainGramsPerMillilitre ?? USUAL_GRAIN_GRAMS_PER_MILLILITRE
    assert(grain.greaterThan(0), 'a grain weighs something')
    return sum.plus(parts.dividedBy(grain))
  }, ZERO)
  return all.dividedBy(volume)
}

/**
 * What a dry gram of a stock costs; undefined where there is none.
 *
 * Units: money and grams to money a gram; 60 digits, not rounded.
 * Source: the moving weighted average of IAS 2 paragraph 27; that a unit cost is not rounded between
 * steps is checked in tests/reference/costing.test.ts.
 */
export function costPerDryGram(stock: {
  readonly cost: Decimal
  readonly dryGrams: Decimal
}): Decimal | undefined {
  const { cost, dryGrams } = stock
  return dryGrams.greaterThan(0) ? cost.dividedBy(dryGrams) : undefined
}

const GRAMS_OF_KILOGRAM = 1000

/** What a kilogram costs, where a gram costs so much. Units: money a gram to money a kilogram. */
export function costPerKilogram(perGram: Decimal): Decimal {
  return perGram.times(GRAMS_OF_KILOGRAM)
}

/**
 * What a dry gram of glaze costs in powders, at what those on the shelf cost; undefined where one that the
 * recipe takes is not there, because a glaze without the price of its cobalt is no price.
 *
 * Shape: a recipe with a part above zero. Units: as `costPerDryGram`. Source: as `costPerDryGram`.
 */
export function recipeCostPerDryGram(
  recipe: readonly {
    readonly parts: Decimal
    readonly stock: { readonly cost: Decimal; readonly dryGrams: Decimal }
  }[],
): Decimal | undefined {
  const all = weighedOut(recipe)
  let sum = ZERO
  for (const { parts, stock } of recipe) {
    if (parts.isZero()) continue
    const each = costPerDryGram(stock)
    if (each === undefined) return undefined
    sum = sum.plus(each.times(parts))
  }
  return sum.dividedBy(all)
}

/** What all parts come to, where that is something to share. */
function weighedOut(recipe: readonly { readonly parts: Decimal }[]): Decimal {
  assert(
    recipe.every(({ parts }) => parts.greaterThanOrEqualTo(0)),
    'parts are not below zero',
  )
  const all = sumOfParts(recipe)
  assert(all.greaterThan(0), 'a recipe has a part')
  return all
}

function sumOfParts(some: readonly { readonly parts: Decimal }[]): Decimal {
  return some.reduce((sum, { parts }) => sum.plus(parts), ZERO)
}
