import { z } from '@hono/zod-openapi'
import {
  bucketReadSchema,
  dryGramsText,
  glazeIdText,
  glazeVesselIdText,
  potsWeighedSchema,
} from '../glaze-schemas.ts'
import { countOf, idText } from '../schemas.ts'
import { together } from '../together.ts'
import { circumstances } from './define.ts'

const RUNS_MAX = 50

/** What is told of pots that were glazed. */
export const glazePotsRequest = z
  .strictObject({
    glazeId: glazeIdText,
    vesselId: glazeVesselIdText,
    runs: z
      .array(
        z.strictObject({
          runId: idText('A run in bisque.', 'jugs-1'),
          pieces: countOf('How many of it; all that are bisque where it is not said.').optional(),
        }),
      )
      .min(1)
      .max(RUNS_MAX)
      .superRefine((runs, context) => {
        const at = runs.findIndex(({ runId }, index) =>
          runs.slice(0, index).some((earlier) => earlier.runId === runId),
        )
        if (at < 0) return
        context.addIssue({ code: 'custom', message: 'Name each run once.', path: [at, 'runId'] })
      })
      .openapi({ description: 'The pots that were glazed together.' }),
    bucket: z
      .strictObject({
        before: bucketReadSchema.optional().openapi({
          description: 'The bucket before; by the books where it was not read.',
        }),
        after: bucketReadSchema.openapi({ description: 'The bucket after.' }),
        washedOffDryGrams: dryGramsText(
          'What went into sieve, rag and wash bucket, g dry.',
        ).optional(),
      })
      .optional()
      .openapi({ description: 'The glaze that left the bucket.' }),
    pots: potsWeighedSchema.optional(),
    usual: z.literal(true).optional().openapi({
      description: 'true: nothing was weighed, it is as usual for the form.',
    }),
    ...circumstances,
  })
  .superRefine(together(faultOfHow))
  .openapi('Glaze')

interface HowSaid {
  readonly bucket?: { readonly washedOffDryGrams?: unknown } | undefined
  readonly pots?: unknown
  readonly usual?: unknown
}

function faultOfHow({ bucket, pots, usual }: HowSaid) {
  const isWeighed = bucket !== undefined || pots !== undefined
  if (!isWeighed && usual === undefined) {
    return { message: 'Say how much glaze it was: by bucket, by pots, or usual.' }
  }
  if (isWeighed && usual !== undefined) {
    return { message: 'It was weighed, so it is not as usual. Leave this out.', path: ['usual'] }
  }
  if (pots === undefined || bucket?.washedOffDryGrams === undefined) return undefined
  const message = 'Bucket and pots together tell what was washed off. Leave this out.'
  return { message, path: ['bucket', 'washedOffDryGrams'] }
}
