import { decimal, toLedgerScale, ZERO, type Decimal } from '../../shared/decimal.ts'
import { ingredientGrams } from '../../shared/glaze-recipe.ts'
import { batchDiffersWords } from '../../shared/glaze-differs.ts'
import type { Mass, Volume } from '../../shared/units.ts'
import type { Book, Slot } from '../book.ts'
import { moveWetMaterial, refuseOtherContents } from '../glaze-bucket.ts'
import {
  findGlaze,
  findIngredient,
  findRecipe,
  natureOfMix,
  recipesOf,
  type Recipe,
} from '../glaze-recipes.ts'
import {
  handlesMaterials,
  inBucket,
  moveMaterial,
  onShelf,
  type MaterialFacts,
} from '../materials.ts'
import { waterGramsOf } from '../drawn-off.ts'
import type { Act, Circumstances } from '../perform.ts'
import { pointingAt, takeReading, type ReadingSaid } from '../readings.ts'
import { glazeBatch } from '../schema.ts'

export interface MixGlazeSaid extends Circumstances {
  readonly glazeId: string
  readonly vesselId: string
  readonly versionNo?: number | undefined
  /** Shared out over the powders by the recipe. */
  readonly dryGrams?: string | undefined
  /** Or each powder as it was weighed out of its sack. */
  readonly ingredients?:
    readonly { readonly ingredientId: string; readonly reading: ReadingSaid }[] | undefined
  readonly water?: Mass | undefined
  readonly waterVolume?: Volume | undefined
}

interface Powder {
  readonly ingredient: MaterialFacts
  readonly slot: Slot
}

/**
 * Powders leave the shelf and become glaze in a bucket, with their cost, their doubt and the water that
 * they bring; the rest of the water is from the tap. Glaze that came ready made, as powder, is wetted just so,
 * and is what its supplier says of it. A batch is what was weighed: a powder that the recipe
 * does not have is taken as it was told, and the answer says how the batch differs.
 */
export const mixGlaze: Act<MixGlazeSaid> = {
  kind: 'mix_glaze',
  async write(book, said) {
    const { glazeId, vesselId } = said
    const glaze = await findGlaze(book.ledger, book.studioId, { glazeId, pointer: '/glazeId' })
    await refuseOtherContents(book, { vesselId, glazeId })
    const recipe = await recipeFor(book, said, glaze)
    const [bucket, powders] = await powdersOf(book, said, { glaze, recipe })
    const before = book.now(bucket)
    const dry =
      said.ingredients === undefined
        ? await byRecipe(book, { said, recipe, powders, bucket })
        : await asWeighed(book, { said, powders, bucket })
    await addWater(book, bucket, said)
    await keepBatch(book, { said, recipe, powders, dry, bucket, before })
    const materials = powders.map(({ ingredient }) => ingredient)
    handlesMaterials(book, { materials, isDry: true })
    book.handles({ dryAct: 'mixing_powders' })
    const words = recipe === undefined ? [] : differs(recipe, powders, dry)
    return { glazeId, vesselId, ...(words.length === 0 ? {} : { words }) }
  },
}

/** The recipe that the batch follows: none is needed where powders were weighed, or the glaze ready made. */
async function recipeFor(
  book: Book,
  said: MixGlazeSaid,
  glaze: MaterialFacts,
): Promise<Recipe | undefined> {
  const { versionNo, ingredients } = said
  if (ingredients !== undefined && versionNo === undefined) {
    if (ingredients.every(({ ingredientId }) => ingredientId === said.glazeId)) return undefined
    return (await recipesOf(book.ledger, book.studioId, glaze))[0]
  }
  const pointer = versionNo === undefined ? '/glazeId' : '/versionNo'
  return findRecipe(book.ledger, book.studioId, { glaze, versionNo, pointer })
}

async function powdersOf(
  book: Book,
  said: MixGlazeSaid,
  of: { glaze: MaterialFacts; recipe: Recipe | undefined },
): Promise<[Slot, Powder[]]> {
  const { glaze, recipe } = of
  const facts: MaterialFacts[] = []
  if (said.ingredients === undefined) {
    facts.push(...(recipe?.parts ?? []).map(({ ingredient }) => ingredient))
  } else {
    for (const [index, { ingredientId }] of said.ingredients.entries()) {
      const pointer = `/ingredients/${String(index)}/ingredientId`
      const isReadyMade = ingredientId === glaze.materialId
      facts.push(
        isReadyMade
          ? glaze
          : await findIngredient(book.ledger, book.studioId, { ingredientId, pointer }),
      )
    }
  }
  const [bucket, ...shelf] = await book.hold([
    inBucket(said.glazeId, said.vesselId),
    ...facts.map(({ materialId }) => onShelf(materialId)),
  ])
  const powders = facts.flatMap((ingredient, index) => {
    const slot = shelf[index]
    return slot === undefined ? [] : [{ ingredient, slot }]
  })
  return [bucket, powders]
}

async function byRecipe(
  book: Book,
  of: { said: MixGlazeSaid; recipe: Recipe | undefined; powders: Powder[]; bucket: Slot },
): Promise<Decimal[]> {
  const grams = ingredientGrams(of.recipe?.parts ?? [], decimal(of.said.dryGrams ?? '0'))
  for (const [index, { slot }] of of.powders.entries()) {
    const dryGrams = grams[index]?.dryGrams ?? ZERO
    if (dryGrams.isZero()) continue
    await pointingAt('/dryGrams', () => moveMaterial(book, { from: slot, to: of.bucket, dryGrams }))
  }
  return grams.map(({ dryGrams }) => dryGrams)
}

async function asWeighed(
  book: Book,
  of: { said: MixGlazeSaid; powders: Powder[]; bucket: Slot },
): Promise<Decimal[]> {
  const dry: Decimal[] = []
  for (const [index, { slot }] of of.powders.entries()) {
    const told = of.said.ingredients?.[index]
    if (told === undefined) continue
    const pointer = `/ingredients/${String(index)}/reading`
    const reading = await takeReading(book, told.reading, { pointer, kind: 'powder' })
    dry.push(
      await moveWetMaterial(book, {
        ...{ from: slot, to: of.bucket, pointer },
        wetGrams: reading.netGrams,
        readingDoubt: reading.netDoubt,
      }),
    )
  }
  return dry
}

async function addWater(book: Book, bucket: Slot, said: MixGlazeSaid): Promise<void> {
  const waterGrams = waterGramsOf(said)
  if (waterGrams.isZero()) return
  book.shiftExactly(await book.outsideLike('tap', bucket.ref), bucket, { waterGrams })
}

async function keepBatch(
  book: Book,
  of: {
    said: MixGlazeSaid
    recipe: Recipe | undefined
    powders: readonly Powder[]
    dry: readonly Decimal[]
    bucket: Slot
    before: Slot['held']
  },
): Promise<void> {
  const { said, recipe, powders, dry, bucket, before } = of
  const parts = powders.map(({ ingredient }, index) => ({ ingredient, parts: dry[index] ?? ZERO }))
  const nature = natureOfMix(parts)
  const now = book.now(bucket)
  // What was in the bucket before is mixed with what comes to it.
  const added = now.materialGrams.minus(before.materialGrams)
  await book.ledger.insert(glazeBatch).values({
    studioId: book.studioId,
    entryId: book.facts.entryId,
    materialId: said.glazeId,
    versionNo: recipe?.versionNo ?? null,
    vesselId: said.vesselId,
    dryGrams: added.toFixed(),
    waterGrams: now.waterGrams.minus(before.waterGrams).toFixed(),
    cost: now.cost.minus(before.cost).toFixed(),
    lossOnIgnitionFraction: toLedgerScale(nature.lossOnIgnitionFraction).toFixed(),
    grainGramsPerMillilitre: toLedgerScale(nature.grainGramsPerMillilitre).toFixed(),
  })
}

/** How what was weighed differs from the recipe; glaze that came ready made beside it is left out of that. */
function differs(recipe: Recipe, powders: readonly Powder[], mixed: readonly Decimal[]): string[] {
  const dry = mixed.map((grams, index) =>
    powders[index]?.ingredient.materialId === recipe.glaze.materialId ? ZERO : grams,
  )
  const all = recipe.parts.reduce((sum, { parts }) => sum.plus(parts), ZERO)
  const total = dry.reduce((sum, one) => sum.plus(one), ZERO)
  if (total.isZero()) return []
  const names = new Map<string, string>()
  const shares = new Map<string, { wanted: Decimal; was: Decimal }>()
  const add = (of: MaterialFacts, more: { wanted?: Decimal; was?: Decimal }) => {
    names.set(of.materialId, of.name)
    const { wanted, was } = shares.get(of.materialId) ?? { wanted: ZERO, was: ZERO }
    shares.set(of.materialId, {
      wanted: wanted.plus(more.wanted ?? ZERO),
      was: was.plus(more.was ?? ZERO),
    })
  }
  for (const { ingredient, parts } of recipe.parts)
    add(ingredient, { wanted: parts.dividedBy(all) })
  for (const [index, { ingredient }] of powders.entries()) {
    if (ingredient.materialId === recipe.glaze.materialId) continue
    add(ingredient, { was: (dry[index] ?? ZERO).dividedBy(total) })
  }
  return batchDiffersWords(
    [...shares].map(([id, share]) => ({ name: names.get(id) ?? id, ...share })),
  )
}
