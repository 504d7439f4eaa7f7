import { z } from '@hono/zod-openapi'
import { glazePots } from '../../db/acts/glaze.ts'
import { loseGlaze } from '../../db/acts/lose-glaze.ts'
import { mixGlaze } from '../../db/acts/mix-glaze.ts'
import { readGlaze } from '../../db/acts/read-glaze.ts'
import { waterGlaze } from '../../db/acts/water-glaze.ts'
import {
  densitySchema,
  dryGramsText,
  glazeIdText,
  glazeVesselIdText,
  INGREDIENTS_MAX,
  versionNoInt,
} from '../glaze-schemas.ts'
import { positiveMassSchema, readingSchema, volumeSchema } from '../reading-schemas.ts'
import { idText } from '../schemas.ts'
import { together } from '../together.ts'
import { glazePotsRequest } from './glaze-pots.ts'
import { circumstances, defineAct, type DefinedAct } from './define.ts'

/** Exactly one of some fields, with words for none and for several. */
function oneOf<Name extends string>(names: readonly Name[], words: { none: string }) {
  return (said: Partial<Record<Name, unknown>>) => {
    const given = names.filter((name) => said[name] !== undefined)
    if (given.length === 1) return undefined
    const second = given[1]
    if (second === undefined) return { message: words.none }
    return { message: `Say it in one way: ${names.join(', or ')}.`, path: [second] }
  }
}

const mixRequest = z
  .strictObject({
    glazeId: glazeIdText,
    vesselId: glazeVesselIdText,
    versionNo: versionNoInt(
      'The version of the recipe; the latest where it is not said.',
    ).optional(),
    dryGrams: dryGramsText('Of the whole batch, g dry; the recipe shares it out.').optional(),
    ingredients: z
      .array(
        z.strictObject({
          ingredientId: idText('The powder; or the glaze itself, bought ready made.', 'feldspar'),
          reading: readingSchema.openapi({ description: 'As it came out of its sack.' }),
        }),
      )
      .min(1)
      .max(INGREDIENTS_MAX)
      .superRefine((some, context) => {
        const at = some.findIndex(({ ingredientId }, index) =>
          some.slice(0, index).some((earlier) => earlier.ingredientId === ingredientId),
        )
        if (at < 0) return
        const message =
          'This powder is named already. Name each once, with all that was weighed of it.'
        context.addIssue({ code: 'custom', message, path: [at, 'ingredientId'] })
      })
      .optional()
      .openapi({ description: 'Each powder as it was weighed, instead of dryGrams.' }),
    water: positiveMassSchema.optional().openapi({ description: 'Water from the tap, by mass.' }),
    waterVolume: volumeSchema.optional().openapi({ description: 'Or by volume.' }),
    ...circumstances,
  })
  .superRefine(
    together(
      oneOf(['dryGrams', 'ingredients'], {
        none: 'Say how much: dryGrams of the batch, or ingredients as they were weighed.',
      }),
    ),
  )
  .superRefine(together(faultOfWaterSaid))
  .openapi('MixGlaze')

function faultOfWaterSaid(said: { water?: unknown; waterVolume?: unknown }) {
  if (said.water === undefined || said.waterVolume === undefined) return undefined
  return { message: 'Give the water by mass or by volume, not both.', path: ['waterVolume'] }
}

const readRequest = z
  .strictObject({
    vesselId: glazeVesselIdText,
    reading: readingSchema.optional().openapi({
      description: 'The whole bucket, where the books are to be set by it.',
    }),
    density: densitySchema,
    ...circumstances,
  })
  .openapi('ReadGlaze')

const waterRequest = z
  .strictObject({
    vesselId: glazeVesselIdText,
    water: positiveMassSchema.optional().openapi({ description: 'Water put in, by mass.' }),
    waterVolume: volumeSchema.optional().openapi({ description: 'Or by volume.' }),
    takenOff: readingSchema.optional().openapi({
      description: 'Or water that stood over the glaze and was drawn off.',
    }),
    clarity: z.enum(['clear', 'cloudy']).optional().openapi({
      description: 'How much powder swims in what was drawn off; clear where it is not said.',
    }),
    ...circumstances,
  })
  .superRefine(
    together(
      oneOf(['water', 'waterVolume', 'takenOff'], {
        none: 'Say what was done: water or waterVolume put in, or takenOff.',
      }),
    ),
  )
  .superRefine(
    together((said) => {
      if (said.clarity === undefined || said.takenOff !== undefined) return undefined
      return { message: 'Only water that was drawn off is clear or cloudy.', path: ['clarity'] }
    }),
  )
  .openapi('WaterGlaze')

const loseRequest = z
  .strictObject({
    vesselId: glazeVesselIdText,
    why: z.enum(['sieve', 'wash', 'spilt', 'thrown_away']).openapi({
      description: 'Left in the sieve, washed off, spilt, or thrown away.',
      example: 'sieve',
    }),
    reading: readingSchema.optional().openapi({
      description: 'What was lost, as wet as in the bucket.',
    }),
    dryGrams: dryGramsText('Or its dry mass, g.').optional(),
    whatIsLeft: z.literal(true).optional().openapi({ description: 'Or true: all in the bucket.' }),
    ...circumstances,
  })
  .superRefine(
    together(
      oneOf(['reading', 'dryGrams', 'whatIsLeft'], {
        none: 'Say how much was lost: reading, dryGrams, or whatIsLeft.',
      }),
    ),
  )
  .openapi('LoseGlaze')

const JUG_1450 = {
  slurry: { net: { value: '1450', unit: 'g' } },
  volume: { value: '1000', unit: 'ml' },
} as const

const GROUP = 'Materials and glaze'

export const GLAZE: readonly DefinedAct[] = [
  defineAct({
    act: mixGlaze,
    schema: mixRequest,
    group: GROUP,
    summary: 'Mix a glaze',
    description:
      'Powders leave the shelf and become glaze in a bucket, with their cost. Shared out by the recipe, or each as it was weighed; a glaze that was bought as powder is its own ingredient. made.words says how a batch differs from its recipe.',
    example: {
      glazeId: 'celadon',
      vesselId: 'bucket-4',
      dryGrams: '9000',
      waterVolume: { value: '9', unit: 'l' },
    },
  }),
  defineAct({
    act: readGlaze,
    schema: readRequest,
    group: GROUP,
    summary: 'Read the density of a glaze',
    description:
      'A measured volume of stirred glaze tells how much of it is powder. With the whole bucket it sets the books, and the difference is unexplained; without it nothing moves.',
    example: {
      vesselId: 'bucket-4',
      reading: { gross: { value: '18.60', unit: 'kg' }, inVesselId: 'bucket-4' },
      density: JUG_1450,
    },
  }),
  defineAct({
    act: waterGlaze,
    schema: waterRequest,
    group: GROUP,
    summary: 'Water a glaze, or draw water off it',
    description:
      'Thins a glaze from the tap, or draws off water that stood over it, with the little powder in it: that goes to waste.',
    example: { vesselId: 'bucket-4', waterVolume: { value: '500', unit: 'ml' } },
  }),
  defineAct({
    act: loseGlaze,
    schema: loseRequest,
    group: GROUP,
    summary: 'Lose glaze',
    description:
      'Glaze that stays in the sieve, is washed off, spilt or thrown away goes to waste with its cost. It never goes into clay reclaim nor down the drain; local rules on waste say where.',
    example: { vesselId: 'bucket-4', why: 'sieve', dryGrams: '31' },
  }),
  defineAct({
    act: glazePots,
    schema: glazePotsRequest,
    group: GROUP,
    summary: 'Glaze pots',
    description:
      'Bisque pots take dry glaze out of a bucket, with its cost. Known by the bucket before and after, by the pots before and after, by both (which tells what was carried off), or as usual for the form. All the named pots are weighed together, dry both times.',
    example: {
      glazeId: 'celadon',
      vesselId: 'bucket-4',
      runs: [{ runId: 'mugs-1' }],
      bucket: {
        before: {
          reading: { gross: { value: '18.60', unit: 'kg' }, inVesselId: 'bucket-4' },
          density: JUG_1450,
        },
        after: {
          reading: { gross: { value: '16.00', unit: 'kg' }, inVesselId: 'bucket-4' },
          density: JUG_1450,
        },
      },
    },
  }),
]
