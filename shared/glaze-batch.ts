import { assert } from './assert.ts'
import { Decimal, decimal, ONE, toLedgerScale, ZERO } from './decimal.ts'
import { standardUncertaintyOfDoubt } from './doubt.ts'
import { ingredientGrams, powderAsSupplied, type PowderAsSupplied } from './glaze-recipe.ts'
import { giveOrTake, type Unsure } from './how-sure.ts'
import { drySolidsInSlurry, slurryWaterContentWetBasis, type SlurryDensities } from './slurry.ts'

/** Glaze as it stands in a bucket. */
export interface GlazeSlurry {
  readonly dryGrams: Decimal
  readonly waterGrams: Decimal
  readonly slurryGrams: Decimal
  readonly millilitres: Decimal
}

/** A line of a recipe with how damp its powder is. */
export interface BatchPart {
  readonly materialId: string
  readonly parts: Decimal
  readonly waterContentWetBasis: Decimal
}

/** What to weigh out of one powder. */
export interface BatchIngredient extends PowderAsSupplied {
  readonly materialId: string
  readonly dryGrams: Decimal
}

/** A batch as it is weighed out. */
export interface GlazeBatch extends GlazeSlurry {
  readonly ingredients: readonly BatchIngredient[]
  readonly waterFromPowdersGrams: Decimal
  /** From the tap. */
  readonly waterToAddGrams: Decimal
  /** What damp powders bring above all the water that is wanted: the glaze comes out that much thinner. */
  readonly waterTooMuchGrams: Decimal
}

/** Pots that wait for a glaze. */
export interface RunToGlaze {
  readonly pieces: Decimal
  readonly dryGramsPerPiece: Decimal
}

export interface GlazeForRuns {
  readonly onPotsDryGrams: Decimal
  /** With what is carried off beside. */
  readonly neededDryGrams: Decimal
  /** Still to be made; zero where the bucket is enough. */
  readonly toMakeDryGrams: Decimal
  /** What the bucket holds above what is needed. */
  readonly toSpareDryGrams: Decimal
}

/** How many more pieces of a form a bucket covers. */
export interface PiecesCovered {
  readonly pieces: Decimal
  /** 19 times in 20 it is between these two. */
  readonly from: Decimal
  readonly to: Decimal
}

/**
 * What sieve, wiped rims and the wash bucket carry off, as a part of what is on the pots.
 *
 * Source: 2 to 8 in a hundred, from practice (from memory); the middle is our choice.
 */
export const USUAL_CARRIED_OFF_FRACTION: Decimal = decimal('0.05')

/**
 * The density of a dipping glaze where nobody said another, in g/mL.
 *
 * Source: 1.42 to 1.50 for dipping, 1.43 to 1.45 commonly, from practice; that 1.45 serves is our choice.
 */
export const USUAL_DIPPING_GRAMS_PER_MILLILITRE: Decimal = decimal('1.45')

/** To be shown beside a number of pots that a bucket covers. */
export const SHALLOW_BUCKET_WORDS =
  'The last of a bucket is too shallow to dip in: pour it, brush it, or move it to a narrower one.'

/**
 * The dry glaze and the water that fill so many millilitres at a wanted density.
 *
 * Units: millilitres and g/mL to grams at ledger scale; dry and water sum to the slurry exactly.
 * Refuses: as `drySolidsInSlurry`. Source: as `drySolidsInSlurry`.
 */
export function glazeOfVolume(millilitres: Decimal, densities: SlurryDensities): GlazeSlurry {
  const slurryGrams = toLedgerScale(millilitres.times(densities.densityGramsPerMillilitre))
  const contents = drySolidsInSlurry({
    slurryGrams,
    slurryMillilitres: millilitres,
    waterGramsPerMillilitre: densities.waterGramsPerMillilitre,
    solidsGramsPerMillilitre: densities.solidsGramsPerMillilitre,
  })
  return { ...contents, slurryGrams, millilitres }
}

/**
 * The water that so much dry glaze wants for a density, and the volume that it then fills.
 *
 * Units: grams and g/mL to grams and millilitres at ledger scale.
 * Refuses: as `slurryWaterContentWetBasis`. Source: as `slurryWaterContentWetBasis`.
 */
export function glazeOfDryGrams(dryGrams: Decimal, densities: SlurryDensities): GlazeSlurry {
  assert(dryGrams.greaterThanOrEqualTo(0), 'a mass is not below zero')
  const water = slurryWaterContentWetBasis(densities)
  const slurryGrams = toLedgerScale(dryGrams.dividedBy(ONE.minus(water)))
  return {
    dryGrams,
    waterGrams: slurryGrams.minus(dryGrams),
    slurryGrams,
    millilitres: toLedgerScale(slurryGrams.dividedBy(densities.densityGramsPerMillilitre)),
  }
}

/**
 * A batch as it is weighed out: each powder as it lies in its sack, and the water less what they bring.
 *
 * Shape: a recipe with a part above zero; one ingredient a line, in their order.
 * Units: grams at ledger scale; the ingredients' dry grams sum to the batch's exactly.
 * Source: as `ingredientGrams` and `powderAsSupplied`.
 */
export function batchWeighedOut(wanted: GlazeSlurry, recipe: readonly BatchPart[]): GlazeBatch {
  const dry = ingredientGrams(recipe, wanted.dryGrams)
  const ingredients = recipe.map(({ materialId, waterContentWetBasis }, index) => {
    const dryGrams = dry[index]?.dryGrams ?? ZERO
    return { materialId, dryGrams, ...powderAsSupplied({ dryGrams, waterContentWetBasis }) }
  })
  const waterFromPowdersGrams = ingredients.reduce(
    (sum, { waterGrams }) => sum.plus(waterGrams),
    ZERO,
  )
  const short = wanted.waterGrams.minus(waterFromPowdersGrams)
  return {
    ...wanted,
    ingredients,
    waterFromPowdersGrams,
    waterToAddGrams: Decimal.max(short, ZERO),
    waterTooMuchGrams: Decimal.max(short.negated(), ZERO),
  }
}

/**
 * Whether a bucket is enough for the pots that wait, and how much dry glaze is still to be made.
 *
 * Units: pieces, grams of dry glaze and a fraction of what is on the pots; ledger scale.
 * Source: the sum of pieces times grams a piece, with what is carried off beside.
 */
export function glazeForRuns(
  runs: readonly RunToGlaze[],
  bucket: { readonly dryGrams: Decimal; readonly carriedOffFraction: Decimal },
): GlazeForRuns {
  const onPots = runs.reduce(
    (sum, { pieces, dryGramsPerPiece }) => sum.plus(pieces.times(dryGramsPerPiece)),
    ZERO,
  )
  const needed = toLedgerScale(withCarriedOff(onPots, bucket.carriedOffFraction))
  const short = needed.minus(bucket.dryGrams)
  return {
    onPotsDryGrams: toLedgerScale(onPots),
    neededDryGrams: needed,
    toMakeDryGrams: Decimal.max(short, ZERO),
    toSpareDryGrams: Decimal.max(short.negated(), ZERO),
  }
}

/**
 * How many more pieces of a form a bucket covers, and between which numbers that is as good as sure.
 *
 * A piece that the glaze would not cover to the end is not counted.
 *
 * Units: grams of dry glaze, a fraction of what is on the pots; whole pieces.
 * Source: the definition; its doubt by JCGM 100:2008, 5.1.2, bucket and piece being independent.
 */
export function piecesCovered(
  bucket: Unsure,
  form: {
    readonly dryGramsPerPiece: Decimal
    readonly standardUncertaintyGramsPerPiece: Decimal
    readonly carriedOffFraction: Decimal
  },
): PiecesCovered {
  const { dryGramsPerPiece, standardUncertaintyGramsPerPiece, carriedOffFraction } = form
  assert(dryGramsPerPiece.greaterThan(0), 'a glazed piece has glaze on it')
  const each = withCarriedOff(dryGramsPerPiece, carriedOffFraction)
  const pieces = Decimal.max(bucket.amount, ZERO).dividedBy(each)
  const byBucket = standardUncertaintyOfDoubt(bucket.doubt).dividedBy(each)
  const byPiece = pieces.times(standardUncertaintyGramsPerPiece).dividedBy(dryGramsPerPiece)
  const half = giveOrTake(byBucket.pow(2).plus(byPiece.pow(2)).sqrt())
  return {
    pieces: pieces.floor(),
    from: Decimal.max(pieces.minus(half), ZERO).floor(),
    to: pieces.plus(half).floor(),
  }
}

function withCarriedOff(dryGrams: Decimal, carriedOffFraction: Decimal): Decimal {
  assert(carriedOffFraction.greaterThanOrEqualTo(0), 'nothing is carried back into the bucket')
  return dryGrams.times(ONE.plus(carriedOffFraction))
}
