import { z } from '@hono/zod-openapi'
import { materials as catalogue } from '../../db/catalogue.ts'
import { decimal } from '../../shared/decimal.ts'
import { HAZARD_CODES } from '../../shared/material-hazards.ts'
import { KEPT_BY, MATERIAL_KINDS } from '../../shared/material.ts'
import { decimalText, fractionText } from '../decimal-text.ts'
import { idText, labelText } from '../schemas.ts'
import { together, type FaultBetween } from '../together.ts'
import { changeOf, type CatalogueResource } from './resource.ts'

const LIST_MAX = 50
const AMOUNT_MAX = '10000000'
const PRICE_MAX = '1000000'

const hazard = z
  .strictObject({
    hazard: z.enum(HAZARD_CODES).openapi({
      description: 'What in it can harm; GET /v1/material-hazards says how.',
      example: 'silica',
    }),
    statement: labelText('What the data sheet prints of it.', 'H372').optional(),
    percentage: decimalText('How much of the dry material it is, per cent by mass.', {
      above: '0',
      atMost: '100',
    })
      .openapi({ example: '99.5' })
      .optional(),
  })
  .openapi('StatedHazard')

const priceStep = z
  .strictObject({
    atLeast: decimalText('From how many on: kilograms as supplied, or pieces.', {
      above: '0',
      atMost: AMOUNT_MAX,
    }).openapi({ example: '25' }),
    pricePerUnit: decimalText(
      'What one then costs, in the studio’s currency; finer than a coin where the list is.',
      { atLeast: '0', atMost: PRICE_MAX, digitsAfterMax: 6 },
    ).openapi({ example: '1.12' }),
  })
  .openapi('PriceStep')

const priceSteps = z
  .array(priceStep)
  .max(LIST_MAX)
  .superRefine((steps, context) => {
    if (context.issues.length > 0) return
    const at = steps.findIndex(
      (step, index) => index > 0 && decimal(step.atLeast).lessThanOrEqualTo(before(steps, index)),
    )
    if (at < 0) return
    const message = 'The steps of a price list rise: each begins above the one before it.'
    context.addIssue({ code: 'custom', message, path: [at, 'atLeast'] })
  })
  .openapi({ description: 'The supplier’s price list, rising; replaced as a whole.' })

const before = (steps: readonly { atLeast: string }[], index: number) =>
  decimal(steps[index - 1]?.atLeast ?? '0')

const fixedForGood = {
  kind: z.enum(MATERIAL_KINDS).openapi({
    description:
      'ingredient (a powder that glazes are mixed from), glaze, packaging, kiln_furniture (shelves, props, elements) or fuel; fixed for good.',
    example: 'ingredient',
  }),
  keptBy: z.enum(KEPT_BY).openapi({
    description:
      'mass or count; fixed for good. A glaze, an ingredient and a fuel are kept by mass.',
    example: 'mass',
  }),
}

const needed = {
  name: labelText('What it is called; new in the studio.', 'Flint'),
  waterContentWetBasis: fractionText('The water in it as it comes, of its mass.').openapi({
    example: '0.005',
  }),
  lossOnIgnitionFraction: fractionText(
    'What the fire takes of the dry mass; of a glaze with a recipe, the recipe says it.',
  ).openapi({ example: '0.004' }),
  grainGramsPerMillilitre: decimalText('The density of its grains, g/ml.', {
    above: '1',
    atMost: '20',
  }).openapi({ example: '2.65' }),
  hazards: z
    .array(hazard)
    .max(LIST_MAX)
    .openapi({ description: 'As the supplier’s data sheet states them; replaced as a whole.' }),
  priceSteps,
}

const DAY_WORDS = 'A day is written as 2026-03-14.'

const known = {
  supplier: labelText('Who sells it.', 'Harbour Ceramic Supply').nullable(),
  crystallineSilicaFraction: decimalText('Crystalline silica, of the dry mass.', {
    atLeast: '0',
    atMost: '1',
  })
    .openapi({ example: '0.995' })
    .nullable(),
  dataSheetOn: z.iso
    .date({ error: DAY_WORDS })
    .openapi({
      description: `The day that its data sheet bears. ${DAY_WORDS}`,
      example: '2026-03-14',
    })
    .nullable(),
  reorderPoint: decimalText('Order when so much is left: dry grams, or pieces.', {
    atLeast: '0',
    atMost: AMOUNT_MAX,
  })
    .openapi({ example: '5000' })
    .nullable(),
  packSize: decimalText('What one bag or carton holds: grams as supplied, or pieces.', {
    above: '0',
    atMost: AMOUNT_MAX,
  })
    .openapi({ example: '25000' })
    .nullable(),
}

const BY_MASS = ['ingredient', 'glaze', 'fuel']

function faultOfKeeping(said: {
  kind: string
  keptBy: string
  packSize?: string | null | undefined
}): FaultBetween | undefined {
  if (said.keptBy === 'mass') return undefined
  if (BY_MASS.includes(said.kind)) {
    const message = 'A glaze, an ingredient and a fuel are kept by mass; only things are counted.'
    return { message, path: ['keptBy'] }
  }
  if (decimal(said.packSize ?? '1').isInteger()) return undefined
  return { message: 'What is counted comes in whole pieces.', path: ['packSize'] }
}

const created = z
  .strictObject({
    materialId: idText('An id of your own; made where none is given.', 'flint').optional(),
    name: needed.name,
    ...fixedForGood,
    supplier: known.supplier.optional(),
    waterContentWetBasis: needed.waterContentWetBasis.default('0'),
    lossOnIgnitionFraction: needed.lossOnIgnitionFraction.default('0'),
    grainGramsPerMillilitre: needed.grainGramsPerMillilitre.default('2.6'),
    crystallineSilicaFraction: known.crystallineSilicaFraction.optional(),
    hazards: needed.hazards.default([]),
    dataSheetOn: known.dataSheetOn.optional(),
    reorderPoint: known.reorderPoint.optional(),
    packSize: known.packSize.optional(),
    priceSteps: priceSteps.default([]),
  })
  .superRefine(together(faultOfKeeping))
  .openapi('NewMaterial')

const shown = z
  .object({ materialId: z.string(), ...needed, ...fixedForGood, ...known, changedAt: z.string() })
  .openapi('Material')

/** What is kept beside clay: powders, glazes, boxes, kiln shelves, gas. */
export const MATERIALS: CatalogueResource = {
  path: 'materials',
  one: 'material',
  idName: 'materialId',
  catalogue,
  created,
  changed: changeOf({ ...needed, ...known }, 'MaterialChange', {
    kind: 'kind is fixed for good: what it was bought for is in the books. Enter another material.',
    keptBy: 'keptBy is fixed for good: the books tell it so. Enter another material.',
  }),
  shown,
  example: {
    materialId: 'flint',
    name: 'Flint',
    kind: 'ingredient',
    keptBy: 'mass',
    supplier: 'Harbour Ceramic Supply',
    waterContentWetBasis: '0.005',
    crystallineSilicaFraction: '0.995',
    hazards: [{ hazard: 'silica', statement: 'H372', percentage: '99.5' }],
    dataSheetOn: '2026-03-14',
    packSize: '25000',
    priceSteps: [
      { atLeast: '25', pricePerUnit: '1.12' },
      { atLeast: '100', pricePerUnit: '0.98' },
    ],
  },
  exampleOfChange: { reorderPoint: '5000' },
}
