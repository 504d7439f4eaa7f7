import { z } from '@hono/zod-openapi'
import { HAZARD_CODES } from '../shared/material-hazards.ts'
import { decimalText } from './decimal-text.ts'
import { INGREDIENTS_MAX } from './glaze-schemas.ts'
import { figure } from './report-schemas.ts'
import { idText, noteText } from './schemas.ts'

const PARTS_MAX = '1000000'

const partSaid = z.strictObject({
  ingredientId: idText('The powder.', 'feldspar'),
  parts: decimalText('Parts by dry mass.', {
    above: '0',
    atMost: PARTS_MAX,
    digitsAfterMax: 6,
  }).openapi({ example: '40' }),
  isAddition: z.boolean().optional().openapi({
    description: 'true: on top of the hundred, as colour or bentonite is.',
    example: false,
  }),
})

/** What is told of a new version of a recipe. */
export const newRecipeSchema = z
  .strictObject({
    parts: z
      .array(partSaid)
      .min(1)
      .max(INGREDIENTS_MAX)
      .superRefine((parts, context) => {
        const at = parts.findIndex(({ ingredientId }, index) =>
          parts.slice(0, index).some((earlier) => earlier.ingredientId === ingredientId),
        )
        if (at < 0) return
        const message = 'This powder stands in the recipe already. Put its parts into one line.'
        context.addIssue({ code: 'custom', message, path: [at, 'ingredientId'] })
      })
      .openapi({ description: 'Its lines, in their order.' }),
    note: noteText('What is new in it.').optional(),
  })
  .openapi('NewGlazeRecipe')

const orNull = (description: string, example: string | null) =>
  z.string().nullable().openapi({ description, example })

const hazardStated = z
  .object({
    hazard: z.enum(HAZARD_CODES),
    statement: z.string().optional(),
    percentage: z.string().optional(),
  })
  .openapi('RecipeHazard', { description: 'As the supplier’s data sheet states it.' })

const part = z
  .object({
    ingredientId: figure('The powder.', 'feldspar'),
    name: figure('Its name.', 'Potash feldspar'),
    parts: figure('Parts by dry mass.', '40'),
    isAddition: z.boolean().openapi({ description: 'On top of the hundred.' }),
    fraction: figure('Of the whole dry mass, additions included.', '0.394089'),
    costPerDryGram: orNull(
      'Money a dry gram on the shelf now; null where none is there.',
      '0.0018',
    ),
    hazards: z.array(hazardStated),
  })
  .openapi('GlazeRecipePart')

export const recipeSchema = z
  .object({
    materialId: figure('The glaze.', 'celadon'),
    versionNo: z.int().openapi({ description: 'Counts up from 1.', example: 1 }),
    note: z.string().nullable(),
    madeAt: figure('When it was entered.', '2026-05-14T18:00:00.000Z'),
    parts: z.array(part),
    baseParts: figure('The base comes to.', '100'),
    additionParts: figure('Added on top.', '1.5'),
    allParts: figure('Both together.', '101.5'),
    isBaseOneHundred: z.boolean(),
    words: figure('What they come to, in words.', 'The base comes to 100. Added on top: 1.5.'),
    lossOnIgnitionFraction: figure('What the fire takes of the dry mass.', '0.104'),
    grainGramsPerMillilitre: figure('What its grains weigh, g/mL.', '2.65'),
    costPerDryGram: orNull('Money a dry gram, at what the shelf costs now.', '0.0021'),
    costWords: figure('Why there is no price, where there is none.', 'At what the powders cost.'),
  })
  .openapi('GlazeRecipe')

const weighOutLine = z
  .object({
    materialId: figure('The powder.', 'feldspar'),
    name: figure('Its name.', 'Potash feldspar'),
    isAddition: z.boolean(),
    dryGrams: figure('Dry, g.', '3600'),
    asSuppliedGrams: figure('As it lies in its sack, g: weigh out this.', '3618.09'),
    waterGrams: figure('The water in that, g.', '18.09'),
    haveDryGrams: figure('On the shelf, g dry.', '12000'),
    missingDryGrams: figure('What the shelf has too little, g dry.', '0'),
    isEnough: z.boolean(),
    cost: orNull('At what the shelf costs; null where none is there.', '6.48'),
    hazards: z.array(hazardStated),
  })
  .openapi('WeighOutLine')

const runLine = z
  .object({
    runId: figure('The run.', 'jugs-1'),
    formId: figure('Its form.', 'jug'),
    pieces: figure('That wait in greenware and bisque, without glaze on them.', '16'),
    dryGramsPerPiece: figure('g dry a piece.', '80'),
    standardUncertaintyGrams: figure('One standard deviation of that mean, g.', '6'),
    words: figure('How that is known.', 'Learned from one glazing, read by the bucket.'),
  })
  .openapi('RunToGlaze')

export const weighOutSchema = z
  .object({
    materialId: figure('The glaze.', 'celadon'),
    versionNo: z.int().openapi({ example: 1 }),
    gramsPerMillilitre: figure('The density to mix to, g/mL.', '1.45'),
    dryGrams: figure('Of the batch, g dry.', '9000'),
    waterGrams: figure('Water in all, g.', '8857'),
    slurryGrams: figure('Glaze as it stands, g.', '17857'),
    millilitres: figure('What it fills, ml.', '12315'),
    ingredients: z.array(weighOutLine).openapi({ description: 'What to weigh out.' }),
    waterFromPowdersGrams: figure('Water that the powders bring, g.', '45'),
    waterToAddGrams: figure('Water from the tap, g.', '8812'),
    waterTooMuchGrams: figure('Water that powders bring above what is wanted, g.', '0'),
    isEnough: z.boolean().openapi({ description: 'The shelf has it all.' }),
    cost: orNull('Of all powders; null where one is not there.', '18.90'),
    forRuns: z
      .object({
        onPotsDryGrams: figure('What will be on the pots, g dry.', '1280'),
        neededDryGrams: figure('With what is carried off, g dry.', '1344'),
        inBucketDryGrams: figure('In the named bucket, g dry.', '0'),
        toMakeDryGrams: figure('Still to be made, g dry.', '1344'),
        toSpareDryGrams: figure('What the bucket has to spare, g dry.', '0'),
        runs: z.array(runLine),
      })
      .nullable()
      .openapi({ description: 'null where it was not asked for runs.' }),
    words: figure(
      'Whether the shelf has it, and which pots were left out because they carry glaze already.',
      'The shelf has it all.',
    ),
  })
  .openapi('GlazeWeighOut')
