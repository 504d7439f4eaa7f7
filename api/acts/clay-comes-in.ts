import { z } from '@hono/zod-openapi'
import { openBag } from '../../db/acts/open-bag.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { rewet } from '../../db/acts/rewet.ts'
import { wedge } from '../../db/acts/wedge.ts'
import { moneyText } from '../decimal-text.ts'
import {
  blendBodyId,
  claySourceSchema,
  positiveMassSchema,
  readingSchema,
  waterSchema,
} from '../reading-schemas.ts'
import { BAGS_MAX, countOf, idText, labelText } from '../schemas.ts'
import { faultOfBags, faultOfGoal, together } from '../together.ts'
import { circumstances, defineAct, type DefinedAct } from './define.ts'
import { minutesTold, wayTold } from './work-told.ts'

const LIST_MAX = 50

const deliveredClay = z
  .strictObject({
    bodyId: idText('The clay body.', 'stoneware'),
    lotId: idText('An id for the lot; made where none is given.', 'stoneware-march').optional(),
    label: labelText('What the lot is called.', 'Stoneware, March delivery').optional(),
    bags: countOf('How many bags.', { atMost: BAGS_MAX }),
    bagMass: positiveMassSchema
      .optional()
      .openapi({ description: 'What the label of one bag says.' }),
    reading: readingSchema.optional().openapi({ description: 'All the bags in one weigh-in.' }),
    water: waterSchema.optional(),
    price: moneyText('What these bags cost together, without freight, in the studio’s currency.'),
  })
  .superRefine(together(faultOfBags))
  .openapi('DeliveredClay')

const deliveryRequest = z
  .strictObject({
    clays: z.array(deliveredClay).min(1).max(LIST_MAX).openapi({
      description: 'Each clay of the delivery; each becomes a lot in the store.',
    }),
    freight: moneyText('Freight of the whole delivery, spread over its dry clay.').optional(),
    ...circumstances,
  })
  .openapi('ReceiveDelivery')

const openBagRequest = z
  .strictObject({
    lotId: idText('The delivery that the bags are of.', 'stoneware-march'),
    bags: countOf('How many bags are opened.', { atMost: BAGS_MAX }),
    reading: readingSchema.optional().openapi({ description: 'The opened clay, weighed.' }),
    intoLotId: idText('The lot on the bench that it joins.', 'opened-1').optional(),
    newLotId: idText('An id for the new lot on the bench.', 'opened-1').optional(),
    label: labelText('What the new lot is called.', 'Opened on Monday').optional(),
    ...circumstances,
  })
  .superRefine(together(faultOfGoal))
  .openapi('OpenBag')

const rewetRequest = z
  .strictObject({
    lotId: idText('The lot that went hard.', 'opened-1'),
    place: z
      .enum(['store', 'bench'])
      .openapi({ description: 'Where it lies: still in its bags, or on the bench.' }),
    water: positiveMassSchema.openapi({ description: 'The water that is put to it.' }),
    ...minutesTold,
    ...circumstances,
  })
  .openapi('Rewet')

const wedgeRequest = z
  .strictObject({
    from: z
      .array(claySourceSchema)
      .max(LIST_MAX)
      .openapi({ description: 'Lots on the bench that are wedged together; may be empty.' }),
    fromVesselIds: z
      .array(idText('A vessel of soft scrap.', 'bucket-1'))
      .max(LIST_MAX)
      .optional()
      .openapi({ description: 'Vessels of soft scrap that is wedged in whole, without slaking.' }),
    additions: z
      .array(
        z
          .strictObject({
            name: labelText('What it is.', 'grog, fine'),
            reading: readingSchema.openapi({ description: 'The dry powder.' }),
            price: moneyText('What it cost.').optional(),
          })
          .openapi('Addition'),
      )
      .max(LIST_MAX)
      .optional()
      .openapi({ description: 'Powders that were wedged in.' }),
    water: positiveMassSchema.optional().openapi({ description: 'Water that was wedged in.' }),
    reading: readingSchema.optional().openapi({ description: 'The wedged clay: tells its water.' }),
    blendBodyId,
    newLotId: idText('An id for the new lot.', 'wedged-1').optional(),
    label: labelText('What the new lot is called.', 'Wedged on Monday').optional(),
    ...wayTold,
    ...circumstances,
  })
  .superRefine(
    together((said) => {
      if (said.from.length > 0 || (said.fromVesselIds ?? []).length > 0) return undefined
      const message = 'Something is wedged: name a lot in from, or a vessel in fromVesselIds.'
      return { message, path: ['from'] }
    }),
  )
  .openapi('Wedge')

export const CLAY_COMES_IN: readonly DefinedAct[] = [
  defineAct({
    act: receiveDelivery,
    schema: deliveryRequest,
    group: 'Clay comes in',
    summary: 'Receive a delivery',
    description:
      'Bags come from the supplier. Each clay becomes a lot in the store, with its price and its share of the freight by dry clay.',
    example: {
      clays: [
        {
          bodyId: 'stoneware',
          lotId: 'stoneware-march',
          bags: 20,
          bagMass: { value: '12.5', unit: 'kg' },
          price: '214.00',
        },
      ],
      freight: '38.50',
    },
  }),
  defineAct({
    act: openBag,
    schema: openBagRequest,
    group: 'Clay comes in',
    summary: 'Open bags',
    description:
      'Bags go from the store to the bench. Where they are weighed and differ from the label, the difference is the supplier’s, in clay and not in money.',
    example: {
      lotId: 'stoneware-march',
      bags: 2,
      reading: { net: { value: '24.9', unit: 'kg' } },
      newLotId: 'opened-1',
    },
  }),
  defineAct({
    act: rewet,
    schema: rewetRequest,
    group: 'Clay comes in',
    summary: 'Rewet hard clay',
    description: 'Clay that went hard is brought back with water. Its dry mass and cost stay.',
    example: { lotId: 'opened-1', place: 'bench', water: { value: '450', unit: 'g' } },
  }),
  defineAct({
    act: wedge,
    schema: wedgeRequest,
    group: 'Clay comes in',
    summary: 'Wedge clays together',
    description:
      'Clays, soft scrap and powders are wedged into one lot, of one body or of a declared blend.',
    example: {
      from: [
        { lotId: 'opened-1', reading: { net: { value: '6.00', unit: 'kg' } } },
        { lotId: 'reclaimed-1', whatIsLeft: true },
      ],
      newLotId: 'wedged-1',
    },
  }),
]
