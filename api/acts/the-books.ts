import { z } from '@hono/zod-openapi'
import { closeMonth } from '../../db/acts/close-month.ts'
import { countHolding } from '../../db/acts/count.ts'
import { discard } from '../../db/acts/discard.ts'
import { testDry } from '../../db/acts/dry-test.ts'
import { CLAY_STATES } from '../../shared/moisture.ts'
import { DRY_ACTS } from '../../shared/silica.ts'
import { readingSchema, sampleSchema, waterSchema } from '../reading-schemas.ts'
import { countOf, idText, labelText, monthText } from '../schemas.ts'
import { together } from '../together.ts'
import { circumstances, defineAct, type DefinedAct } from './define.ts'

const holdingId = idText('The holding, as stock lists it.', '0199c1de-0000-7000-8000-00000000000a')

const countRequest = z
  .strictObject({
    holdingId,
    pieces: countOf('How many bags or pots there are.', { atLeast: 0 }).optional(),
    reading: readingSchema.optional().openapi({ description: 'What the whole of it weighs.' }),
    water: waterSchema.optional(),
    state: z
      .enum(CLAY_STATES)
      .optional()
      .openapi({ description: 'How wet it is, where no water is said; wedged otherwise.' }),
    ...circumstances,
  })
  .superRefine(
    together(({ pieces, reading }) => {
      if (pieces === undefined && reading === undefined) {
        return { message: 'Say pieces, or reading, or both.' }
      }
      if (pieces !== 0 || reading === undefined) return undefined
      const message = 'Nothing is there, so there is nothing to weigh. Leave it out.'
      return { message, path: ['reading'] }
    }),
  )
  .openapi('Count')

const discardRequest = z
  .strictObject({
    holdingId,
    reading: readingSchema
      .optional()
      .openapi({ description: 'How much of it; all where it is not said.' }),
    reason: labelText('Why.', 'plaster in it'),
    dryAct: z
      .enum(DRY_ACTS)
      .optional()
      .openapi({ description: 'Where it was swept, crushed or otherwise handled dry.' }),
    ...circumstances,
  })
  .openapi('Discard')

const dryTestRequest = z
  .strictObject({
    bodyId: idText('The clay body.', 'stoneware'),
    state: z
      .enum(CLAY_STATES)
      .openapi({ description: 'The state the sample was in.', example: 'wedged' }),
    lotId: idText('The lot that it is of, which is set right by it.', 'opened-1').optional(),
    vesselId: idText(
      'The vessel whose clay it is of, which is set right by it.',
      'scrap-bucket',
    ).optional(),
    sample: sampleSchema,
    ...circumstances,
  })
  .refine(({ lotId, vesselId }) => lotId === undefined || vesselId === undefined, {
    message: 'A sample is of a lot or of what lies in a vessel, not of both.',
    path: ['vesselId'],
  })
  .openapi('DryTest')

const closeMonthRequest = z
  .strictObject({
    month: monthText('The month, on the studio’s wall; closed with every one before it.'),
    ...circumstances,
  })
  .openapi('CloseMonth')

const group = 'The books'

export const THE_BOOKS: readonly DefinedAct[] = [
  defineAct({
    act: countHolding,
    schema: countRequest,
    group,
    summary: 'Count a holding',
    description:
      'What is there is counted or weighed. The difference to the books is unexplained, with its clay and its cost.',
    example: { holdingId: '0199c1de-0000-7000-8000-00000000000a', pieces: 17 },
  }),
  defineAct({
    act: discard,
    schema: discardRequest,
    group,
    summary: 'Throw clay away',
    description: 'Clay that is dirty or not worth the water; its cost goes with it.',
    example: { holdingId: '0199c1de-0000-7000-8000-00000000000a', reason: 'plaster in it' },
  }),
  defineAct({
    act: testDry,
    schema: dryTestRequest,
    group,
    summary: 'Dry-test a sample',
    description:
      'A sample is weighed, dried until it loses no more, and weighed again: it tells the water of its lot or vessel, or of the body in that state. Whatever else was reckoned with the same figure is corrected by as much as it leant on it, in this entry.',
    example: {
      bodyId: 'stoneware',
      state: 'wedged',
      lotId: 'opened-1',
      sample: {
        tin: { value: '48.2', unit: 'g' },
        wetWithTin: { value: '248.6', unit: 'g' },
        dryWithTin: { value: '204.9', unit: 'g' },
      },
    },
  }),
  defineAct({
    act: closeMonth,
    schema: closeMonthRequest,
    group,
    summary: 'Close a month',
    description:
      'From then on nothing is dated into it or any month before; what was wrong is corrected in an open month.',
    example: { month: '2026-03' },
  }),
]
