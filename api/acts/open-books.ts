import { z } from '@hono/zod-openapi'
import { openBooks } from '../../db/acts/open-books.ts'
import { CLAY_STATES } from '../../shared/moisture.ts'
import { GRADES, POT_PLACES } from '../../shared/place.ts'
import { moneyText } from '../decimal-text.ts'
import { positiveMassSchema, readingSchema, waterSchema } from '../reading-schemas.ts'
import { BAGS_MAX, countOf, idText, labelText } from '../schemas.ts'
import { faultOfBags, faultOfGrade, together } from '../together.ts'
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

const openBooksRequest = z
  .strictObject({
    items: z
      .array(z.discriminatedUnion('what', [bagsItem, clayItem, vesselItem, loadItem, potsItem]))
      .min(1)
      .max(ITEMS_MAX)
      .openapi({ description: 'What is there already, of each kind as much as is known.' }),
    ...circumstances,
  })
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
    },
  }),
]
