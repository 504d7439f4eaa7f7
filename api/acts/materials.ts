import { z } from '@hono/zod-openapi'
import { countMaterial } from '../../db/acts/count-material.ts'
import { receiveMaterials } from '../../db/acts/receive-materials.ts'
import { USES, useMaterial, type Use } from '../../db/acts/use-material.ts'
import { moneyText } from '../decimal-text.ts'
import { positiveMassSchema, readingSchema, waterSchema } from '../reading-schemas.ts'
import { countOf, idText, labelText } from '../schemas.ts'
import { faultOfOneWay, together, type FaultBetween } from '../together.ts'
import { circumstances, defineAct, type DefinedAct } from './define.ts'

const LIST_MAX = 50
const PACKS_MAX = 10_000

const deliveredMaterial = z
  .strictObject({
    materialId: idText('The material.', 'flint'),
    reading: readingSchema.optional().openapi({ description: 'All of it weighed, as supplied.' }),
    mass: positiveMassSchema
      .optional()
      .openapi({ description: 'What the label or the bill says of all of it.' }),
    packs: countOf('How many bags or cartons of its packSize.', { atMost: PACKS_MAX }).optional(),
    pieces: countOf('How many, of what is counted.').optional(),
    water: waterSchema.optional().openapi({
      description: 'The water in it, where it differs from what the material says.',
    }),
    price: moneyText('What it cost, without freight, in the studio’s currency.'),
    label: labelText('What the bill or the bag calls it.', 'Batch 2207').optional(),
  })
  .superRefine(together((said) => faultOfOneWay(said, ['reading', 'mass', 'packs', 'pieces'])))
  .openapi('DeliveredMaterial')

const receiveRequest = z
  .strictObject({
    materials: z
      .array(deliveredMaterial)
      .min(1)
      .max(LIST_MAX)
      .refine((some) => new Set(some.map((one) => one.materialId)).size === some.length, {
        error: 'Name each material once.',
      })
      .openapi({ description: 'Each material of the delivery.' }),
    freight: moneyText(
      'Freight of the whole delivery: spread by mass as supplied where all of it is weighed, and else by price.',
    ).optional(),
    ...circumstances,
  })
  .openapi('ReceiveMaterials')

const nothingLeft = z
  .literal(true)
  .optional()
  .openapi({ description: 'true: nothing of it is there any more.', example: true })

const countRequest = z
  .strictObject({
    holdingId: idText('The holding on the shelf.', '0199c1de').optional(),
    materialId: idText('Or the material: what of it is on the shelf.', 'flint').optional(),
    reading: readingSchema.optional().openapi({ description: 'All of it weighed, as it lies.' }),
    water: waterSchema.optional().openapi({
      description: 'The water in it, where it differs from what the material says.',
    }),
    pieces: countOf('How many there are, of what is counted.', { atLeast: 0 }).optional(),
    nothingLeft,
    ...circumstances,
  })
  .superRefine(together(faultOfCount))
  .openapi('CountMaterial')

type CountText = Partial<
  Record<'holdingId' | 'materialId' | 'reading' | 'pieces' | 'nothingLeft', unknown>
>

function faultOfCount(said: CountText): FaultBetween | undefined {
  if ((said.holdingId === undefined) === (said.materialId === undefined)) {
    return { message: 'Say what is counted in one way: materialId or holdingId.' }
  }
  return faultOfOneWay(said, ['reading', 'pieces', 'nothingLeft'])
}

const useRequest = z
  .strictObject({
    materialId: idText('The material, from the shelf.', 'half-shelf'),
    reading: readingSchema.optional().openapi({ description: 'What was taken, weighed.' }),
    mass: positiveMassSchema
      .optional()
      .openapi({ description: 'What was taken, as a label says it.' }),
    pieces: countOf('How many were taken, of what is counted.').optional(),
    whatIsLeft: z
      .literal(true)
      .optional()
      .openapi({ description: 'true: all that was left of it.', example: true }),
    why: z.enum(Object.keys(USES) as [Use, ...Use[]]).openapi({
      description:
        'into_kiln (shelves, props and elements: paid from what firings were charged for wear), spoiled, thrown_away or tested (all waste), or given_away.',
      example: 'into_kiln',
    }),
    ...circumstances,
  })
  .superRefine(together((said) => faultOfOneWay(said, ['reading', 'mass', 'pieces', 'whatIsLeft'])))
  .openapi('UseMaterial')

const group = 'Materials and glaze'

/** What is kept beside clay comes, is counted, and goes without a pot. */
export const MATERIALS_ON_THE_SHELF: readonly DefinedAct[] = [
  defineAct({
    act: receiveMaterials,
    schema: receiveRequest,
    group,
    summary: 'Receive materials',
    description:
      'Powders, boxes, kiln shelves and gas come from the supplier and join what is on the shelf, at the moving average with their share of the freight; made.freightSharedBy says by what: mass or price.',
    example: {
      materials: [
        { materialId: 'flint', packs: 2, price: '56.00', label: 'Batch 2207' },
        { materialId: 'whiting', reading: { net: { value: '24.9', unit: 'kg' } }, price: '18.00' },
      ],
      freight: '12.50',
    },
  }),
  defineAct({
    act: countMaterial,
    schema: countRequest,
    group,
    summary: 'Count or weigh a material on the shelf',
    description:
      'What differs from the books goes to, or comes from, unexplained, at what the rest cost; of what is counted made.words says by how many, and that what was found has no cost where the books had none. Of a powder the dry part of the reading counts. A glaze in its bucket is read with read-glaze.',
    example: { materialId: 'flint', reading: { net: { value: '41.2', unit: 'kg' } } },
  }),
  defineAct({
    act: useMaterial,
    schema: useRequest,
    group,
    summary: 'Use a material for no pot',
    description:
      'It leaves the shelf with its cost: into the kiln, for good reasons, or into the waste. What goes into glazes, pots and parcels is told by those acts.',
    example: { materialId: 'half-shelf', pieces: 2, why: 'into_kiln' },
  }),
]
