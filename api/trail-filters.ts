import { z } from '@hono/zod-openapi'
import { ENTRY_KINDS, FLOW_OF_KIND } from '../shared/entry-kind.ts'
import { WORLD_ROWS, type WorldRowName } from '../shared/month-world.ts'
import { PLACES_INSIDE, PLACES_OUTSIDE } from '../shared/place.ts'
import { idText, labelText, momentText, monthText, pageQuery, timedPageQuery } from './schemas.ts'

const FLOWS = Object.values(FLOW_OF_KIND)
const WORLD_NAMES = WORLD_ROWS.map(({ row }) => row) as [WorldRowName, ...WorldRowName[]]

/** Several words of a list, with commas between them. */
function wordsOf<const Word extends string>(words: readonly Word[], description: string) {
  return z
    .string()
    .transform((text) => text.split(','))
    .pipe(z.array(z.enum(words as unknown as [Word, ...Word[]])))
    .optional()
    .openapi({
      type: 'string',
      description: `${description} Several with commas.`,
      example: words[0],
    })
}

/** What a list of entries is narrowed to, in an address of the API or of a page. */
export const entryFilters = z.strictObject({
  ...timedPageQuery.shape,
  month: monthText('Of this month, on the studio’s wall.').optional(),
  fromMonth: monthText('Of this month or later.').optional(),
  toMonth: monthText('Of this month or earlier.').optional(),
  from: momentText('From this moment on.').optional(),
  to: momentText('Before this moment.').optional(),
  kind: wordsOf(ENTRY_KINDS, 'Of this kind.'),
  flow: wordsOf(FLOWS, 'Of this row of the month report; a reversal counts as what it takes back.'),
  world: z.enum(WORLD_NAMES).optional().openapi({
    description: 'Of this way through the door, as in the month report.',
    example: 'sold',
  }),
  place: z
    .enum([...PLACES_INSIDE, ...PLACES_OUTSIDE])
    .optional()
    .openapi({ description: 'That moved something here.', example: 'unexplained' }),
  bodyId: idText('That moved this clay.', 'buff').optional(),
  materialId: idText('That moved this material.', 'flint').optional(),
  holdingId: idText('That moved this holding, or took a reading of it.', 'b0e5f2').optional(),
  lotId: idText('That moved this lot.', 'bags').optional(),
  runId: idText('That moved this run.', 'mugs-1').optional(),
  vesselId: idText('That moved what is in this vessel.', 'bucket-1').optional(),
  formId: idText('That moved runs of this form.', 'mug').optional(),
  by: labelText('Written down by this person.', 'Ines').optional(),
})

/** What a list of holdings is narrowed to. */
export const holdingFilters = z.strictObject({
  ...pageQuery.shape,
  place: z
    .enum([...PLACES_INSIDE, ...PLACES_OUTSIDE])
    .optional()
    .openapi({ description: 'At this place.', example: 'bench' }),
  bodyId: idText('Of this clay.', 'buff').optional(),
  materialId: idText('Of this material.', 'flint').optional(),
  vesselId: idText('In this vessel.', 'bucket-1').optional(),
  lotId: idText('Of this lot.', 'bags').optional(),
  runId: idText('Of this run.', 'mugs-1').optional(),
  nonEmpty: z.enum(['true', 'false']).optional().openapi({
    description: 'true, or not said: only those in the studio that hold something.',
    example: 'true',
  }),
})

/** What a list of lots is narrowed to. */
export const lotFilters = z.strictObject({
  ...pageQuery.shape,
  bodyId: idText('Of this clay.', 'buff').optional(),
  kind: z
    .enum(['delivery', 'opened', 'load', 'reclaimed', 'wedged', 'earlier'])
    .optional()
    .openapi({ description: 'Of this kind.', example: 'delivery' }),
})

/** What a list of runs is narrowed to. */
export const runFilters = z.strictObject({
  ...timedPageQuery.shape,
  formId: idText('Of this form.', 'mug').optional(),
  bodyId: idText('Of this clay.', 'buff').optional(),
  month: monthText('Thrown in this month.').optional(),
})

/** What a list of sales is narrowed to. */
export const saleFilters = z.strictObject({
  ...timedPageQuery.shape,
  month: monthText('Of this month.').optional(),
  formId: idText('Of this form.', 'mug').optional(),
})
