import { z } from '@hono/zod-openapi'
import { openBooks } from '../../db/acts/open-books.ts'
import { CLAY_STATES } from '../../shared/moisture.ts'
import { GRADES, POT_PLACES } from '../../shared/place.ts'
import { moneyText } from '../decimal-text.ts'
import { positiveMassSchema, readingSchema, waterSchema } from '../reading-schemas.ts'
import { BAGS_MAX, countOf, idText, labelText } from '../schemas.ts'
import {
  faultOfBags,
  faultOfGrade,
  faultOfOneWay,
  together,
  type FaultBetween,
} from '../together.ts'
import { circumstances, defineAct, type DefinedAct } from './define.ts'

const ITEMS_MAX = 200

const known = {
  bodyId: idText('The clay body.', 'stoneware'),
  water: waterSchema.optional(),
  cost: moneyText('What it cost, where that is known; nothing otherwise.').optional(),
}

const reading = readingSchema.openapi({ description: 'What is there, weighed.' })
const lot = {
  lotId: idText('An id for the lot; made where none is given.', 'old-bags').optional(),
  label: labelText('What the lot is called.', 'Bags from last year').optional(),
}

const bagsItem = z
  .strictObject({
    what: z.literal('bags').openapi({ description: 'Unopened bags in the store.' }),
    ...known,
    ...lot,
    bags: countOf('How many bags.', { atMost: BAGS_MAX }),
    bagMass: positiveMassSchema
      .optional()
      .openapi({ description: 'What the label of one bag says.' }),
    reading: reading.optional(),
  })
  .superRefine(together(faultOfBags))
  .openapi('OpeningBags')

const clayItem = z
  .strictObject({
    what: z.literal('clay').openapi({ description: 'Clay on the bench, ready to throw.' }),
    ...known,
    ...lot,
    reading,
  })
  .openapi('OpeningClay')

const vesselItem = z
  .strictObject({
    what: z
      .enum(['scrap', 'basin'])
      .openapi({ description: 'A vessel of scrap, or a basin of slaking clay.' }),
    ...known,
    vesselId: idText('The vessel.', 'bucket-1'),
    state: z
      .enum(CLAY_STATES)
      .optional()
      .openapi({ description: 'How wet it is; turnings or slurry where it is not said.' }),
    reading,
  })
  .openapi('OpeningVessel')

const loadItem = z
  .strictObject({
    what: z.literal('load').openapi({ description: 'A load on a plaster bat.' }),
    ...known,
    lotId: lot.lotId,
    batId: idText('The bat.', 'bat-1'),
    reading,
  })
  .openapi('OpeningLoad')

const potsItem = z
  .strictObject({
    what: z.literal('pots').openapi({ description: 'Pots of one form, in any state.' }),
    ...known,
    runId: idText('An id for the run; made where none is given.', 'old-mugs').optional(),
    label: labelText('What the run is called.', 'Mugs from last year').optional(),
    formId: idText('The form.', 'mug'),
    at: z.enum(POT_PLACES).openapi({ description: 'Where they are.', example: 'finished' }),
    grade: z.enum(GRADES).optional().openapi({ description: 'Of finished pots: which.' }),
    pieces: countOf('How many.'),
    reading: reading.optional(),
  })
  .superRefine(together(({ at, grade }) => faultOfGrade({ isFinished: at === 'finished', grade })))
  .openapi('OpeningPots')

const openingMaterial = z
  .strictObject({
    materialId: idText('The material.', 'flint'),
    reading: reading.optional(),
    mass: positiveMassSchema.optional().openapi({
      description: 'What is there as a label says it; of a glaze in its bucket, its dry powder.',
    }),
    pieces: countOf('How many, of what is counted.').optional(),
    water: waterSchema.optional().openapi({
      description:
        'The water in it: where it differs from what the material says, and always with the reading of a glaze in its bucket.',
    }),
    vesselId: idText('The bucket that a glaze is in.', 'bucket-1').optional(),
    waterMass: positiveMassSchema
      .optional()
      .openapi({ description: 'With the dry mass of a glaze in its bucket: the water in it.' }),
    cost: known.cost,
  })
  .superRefine(together(faultOfOpeningMaterial))
  .openapi('OpeningMaterial')

type OpeningText = Partial<
  Record<'reading' | 'mass' | 'pieces' | 'water' | 'vesselId' | 'waterMass', unknown>
>

function faultOfOpeningMaterial(said: OpeningText): FaultBetween | undefined {
  const fault = faultOfOneWay(said, ['reading', 'mass', 'pieces'])
  if (fault !== undefined) return fault
  const isDryInBucket = said.vesselId !== undefined && said.mass !== undefined
  if (isDryInBucket && said.water !== undefined) {
    const message = 'The mass is the dry powder. Say the water in the bucket as waterMass.'
    return { message, path: ['water'] }
  }
  if (!isDryInBucket && said.waterMass !== undefined) {
    const message = 'waterMass goes with the dry mass of a glaze in its bucket.'
    return { message, path: ['waterMass'] }
  }
  if (said.vesselId === undefined || said.reading === undefined || said.water !== undefined) {
    return undefined
  }
  const message = 'A glaze in its bucket is mostly water: say how much, or give mass and waterMass.'
  return { message, path: ['water'] }
}

const openBooksRequest = z
  .strictObject({
    items: z
      .array(z.discriminatedUnion('what', [bagsItem, clayItem, vesselItem, loadItem, potsItem]))
      .max(ITEMS_MAX)
      .openapi({
        description:
          'What clay is there already, of each kind as much as is known; empty where only materials are.',
      }),
    materials: z
      .array(openingMaterial)
      .min(1)
      .max(ITEMS_MAX)
      .optional()
      .openapi({ description: 'What is there already beside clay.' }),
    ...circumstances,
  })
  .superRefine(
    together((said) => {
      if (said.items.length > 0 || said.materials !== undefined) return undefined
      return { message: 'Something is there: name it in items or in materials.', path: ['items'] }
    }),
  )
  .openapi('OpenBooks')

export const OPEN_BOOKS: readonly DefinedAct[] = [
  defineAct({
    act: openBooks,
    schema: openBooksRequest,
    group: 'The books',
    summary: 'Open the books in the middle',
    description:
      'What is there already enters from before the books. Nothing has to be counted first; what was not weighed stands as assumed until it is, and more can be opened with later.',
    example: {
      items: [
        {
          what: 'bags',
          bodyId: 'stoneware',
          lotId: 'old-bags',
          bags: 6,
          bagMass: { value: '12.5', unit: 'kg' },
          cost: '66.00',
        },
        {
          what: 'pots',
          bodyId: 'stoneware',
          runId: 'old-mugs',
          formId: 'mug',
          at: 'finished',
          grade: 'first',
          pieces: 14,
          reading: { net: { value: '4.9', unit: 'kg' } },
        },
      ],
      materials: [{ materialId: 'flint', mass: { value: '12', unit: 'kg' }, cost: '13.40' }],
    },
  }),
]
