import { z } from '@hono/zod-openapi'
import { COST_LAYERS } from '../shared/cost-layer.ts'

const amount = (description: string, example: string) =>
  z.string().openapi({ description, example })
const amountOrNone = (description: string, example: string) =>
  z.string().nullable().openapi({ description, example })

/** What of a cost was paid for something else than clay. */
export const costLayersSchema = z
  .object(
    Object.fromEntries(COST_LAYERS.map((layer) => [layer, z.string().optional()])) as Record<
      (typeof COST_LAYERS)[number],
      z.ZodOptional<z.ZodString>
    >,
  )
  .openapi('CostLayers', {
    description:
      'What of the cost was paid for glaze, fire (energy), wear (elements and kiln furniture) or packaging, in the studio’s currency. What none of them claims is clay.',
    example: { fire: '26.32' },
  })

/** Pieces that were lost, and what becomes of what they cost. */
export const lossShownSchema = z.object({
  runId: z.string(),
  pieces: z.int(),
  stage: z.string(),
  cause: z.string(),
  costLeft: amount('What the lost pieces cost and left to the survivors.', '8.40'),
  abnormalPieces: z.int().openapi({
    description: 'How many of them were more than what usually happens with the form.',
    example: 0,
  }),
  costAbnormal: amount(
    'What those beyond the usual cost: no pot bears it; it stands at the place abnormal.',
    '0',
  ),
  usualWords: z.string().nullable().openapi({
    description: 'What is usual for the form, and by which numbers; none where it was not asked.',
    example: '120 fired, 6 lost: up to 4 of 30 are what usually happens; 1 of 30 lost is within it',
  }),
})

const firingShareSchema = z
  .object({
    runId: z.string().openapi({ example: 'mugs-1' }),
    pieces: z.int().openapi({ description: 'Pieces of it in the kiln.', example: 22 }),
    weight: amount('How much it counted: litres of shelf space, dry grams or pieces.', '22'),
    energyCost: amount('What of the energy it bore, in the studio’s currency.', '26.32'),
    wearCost: amount('What of elements and kiln furniture it bore.', '2.40'),
  })
  .openapi('FiringShare')

/** What a fire took, what that cost, and who bore it. */
export const firingShownSchema = z
  .object({
    kilnId: z.string().openapi({ example: 'top-loader' }),
    kind: z.string().openapi({ description: 'bisque, glaze or empty.', example: 'glaze' }),
    how: z.string().openapi({
      description:
        'How the energy is known: meter, said, usual, rule, fuel, or one of these and fuel.',
      example: 'meter',
    }),
    standing: z.string().openapi({ description: 'measured, estimated or assumed.' }),
    relativeUncertainty: amount('One standard deviation, as a fraction of the energy.', '0.01'),
    kilowattHours: amountOrNone('All electricity, kWh; candling among it.', '94'),
    candlingKilowattHours: amountOrNone('Of which drying the ware before, kWh.', '0'),
    fuelMaterialId: z.string().nullable(),
    fuelGrams: amountOrNone('Gas that was burnt, g.', '9500'),
    pricePerKilowattHour: amountOrNone('In the studio’s currency.', '0.28'),
    energyCost: amount('All energy, candling and gas among it.', '26.32'),
    candlingCost: amount('Of which for candling.', '0'),
    wearCost: amount('For elements and kiln furniture.', '2.40'),
    sharedBy: z.string().nullable().openapi({
      description: 'By what it was shared out in the end: shelf_space, mass or count.',
      example: 'shelf_space',
    }),
    sharedByWords: z.string().nullable().openapi({
      description: 'The same in words, and why not as was asked, if so.',
      example: 'Shared by the room they take in the kiln.',
    }),
    fullFraction: amountOrNone('How full the kiln was, as a fraction.', '0.8'),
    fullHow: z.string().nullable().openapi({ description: 'said or shelf_space.' }),
    shares: z.array(firingShareSchema),
  })
  .openapi('FiringOfEntry')

/** Glaze that landed on a run. */
export const glazingShownSchema = z
  .object({
    runId: z.string().openapi({ example: 'mugs-1' }),
    materialId: z.string().openapi({ description: 'The glaze.', example: 'celadon' }),
    pieces: z.int().openapi({ example: 22 }),
    dryGrams: amount('Dry glaze on them, g.', '880'),
    standardUncertaintyGrams: amount('One standard deviation of that, g.', '20'),
    lossOnIgnitionFraction: amount('What the fire takes of it.', '0.09'),
    how: z.string().openapi({ description: 'bucket, pieces or usual.', example: 'bucket' }),
  })
  .openapi('GlazingOfEntry')
