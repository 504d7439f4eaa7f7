import { z } from '@hono/zod-openapi'
import { KILN_KINDS } from '../shared/kiln-load.ts'
import { circumstances } from './acts/define.ts'
import { firingOfLoadSchema } from './firing-schemas.ts'
import { readingSchema } from './reading-schemas.ts'
import { countOf, idText, labelText } from './schemas.ts'

/** As many as an act of firing takes. */
const RUNS_MAX = 50

const { happenedAt, by } = circumstances

/** What goes into a kiln together. */
export const loadRequest = z.strictObject({
  kilnLoadId: idText('The load.', 'bisque-12'),
  kind: z.enum(KILN_KINDS),
  kilnId: idText('The kiln it is in.', 'top-loader').optional(),
  runs: z
    .array(z.strictObject({ runId: idText('The run.', 'mugs-1'), pieces: countOf('How many.') }))
    .min(1, { error: 'Nothing was put into the kiln yet: say how many of which pots.' })
    .max(RUNS_MAX, { error: 'A load has at most 50 runs; make two of it.' }),
  happenedAt,
  by,
})

/** What came out of it. */
export const unloadRequest = z.strictObject({
  kilnLoadId: idText('The load.', 'bisque-12'),
  runs: z
    .array(
      z.strictObject({
        runId: idText('The run.', 'mugs-1'),
        whole: countOf('How many came out whole.', { atLeast: 0 }),
        cause: labelText('Why the others did not.', 'cracked at the foot').optional(),
        reading: readingSchema.optional(),
      }),
    )
    .max(RUNS_MAX),
  firing: firingOfLoadSchema.optional(),
  ...circumstances,
})
