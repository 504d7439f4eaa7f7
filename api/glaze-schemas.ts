import { z } from '@hono/zod-openapi'
import { decimalText } from './decimal-text.ts'
import { readingSchema, volumeSchema } from './reading-schemas.ts'
import { idText } from './schemas.ts'

export const INGREDIENTS_MAX = 60
const VERSIONS_MAX = 100_000
/** As a mass: far above every bucket. */
const DRY_GRAMS_MAX = '100000000'

export const glazeIdText = idText('The glaze.', 'celadon')
export const glazeVesselIdText = idText('The bucket that the glaze is in.', 'bucket-4')

export const versionNoInt = (description: string) =>
  z.int().min(1).max(VERSIONS_MAX).openapi({ description, example: 1 })

export const dryGramsText = (description: string) =>
  decimalText(description, { above: '0', atMost: DRY_GRAMS_MAX, digitsAfterMax: 6 }).openapi({
    example: '9000',
  })

/** A measured volume of stirred glaze, and what it weighs. */
export const densitySchema = z
  .strictObject({
    slurry: readingSchema.openapi({
      description:
        'What the measured volume weighs. A jug named in inVesselId is the same jug each time, so that how full it was cancels.',
    }),
    volume: volumeSchema.openapi({ description: 'A measured volume of the stirred glaze.' }),
    celsius: decimalText('The temperature of the glaze, °C; 20 where it is not said.', {
      atLeast: '0',
      atMost: '40',
    })
      .optional()
      .openapi({ example: '20' }),
  })
  .openapi('GlazeDensity', { description: 'A jug of stirred glaze: its volume and its weight.' })

export const bucketReadSchema = z
  .strictObject({
    reading: readingSchema.openapi({ description: 'The whole bucket.' }),
    density: densitySchema,
  })
  .openapi('GlazeBucketRead', { description: 'A bucket of glaze, weighed, with a jug of it.' })

export const potsWeighedSchema = z
  .strictObject({
    before: readingSchema.optional().openapi({
      description: 'All named pots without glaze; by the books where they were not weighed.',
    }),
    after: readingSchema.openapi({ description: 'The same pots glazed, and dry.' }),
  })
  .openapi('PotsGlazedWeighed', {
    description: 'All named pots together, before and after, dry both times.',
  })
