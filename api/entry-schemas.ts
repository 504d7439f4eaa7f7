import { z } from '@hono/zod-openapi'
import {
  costLayersSchema,
  firingShownSchema,
  glazingShownSchema,
  lossShownSchema,
} from './entry-fact-schemas.ts'
import { howSureSchema } from './report-schemas.ts'

const amount = (description: string, example = '3200.5') =>
  z.string().openapi({ description, example })
const idOrNone = (description: string) => z.string().nullable().openapi({ description })

const lineSchema = z
  .object({
    lineNo: z.int().openapi({ example: 1 }),
    holdingId: z.string(),
    place: z.string().openapi({
      description: 'Where: store, bench, scrap, basin, plaster, greenware, …, or a place outside.',
      example: 'bench',
    }),
    bodyId: idOrNone('The clay body.'),
    materialId: idOrNone('The material, of powders, glaze in buckets, boxes and gas.'),
    lotId: idOrNone('The lot of clay.'),
    runId: idOrNone('The run of pieces.'),
    vesselId: idOrNone('The vessel.'),
    grade: idOrNone('first or second, of finished pots.'),
    dryGrams: amount('Dry clay gained (or given, below zero), g.'),
    materialGrams: amount('Dry material gained that is no clay: glaze, powders, gas, g.', '0'),
    waterGrams: amount('Water gained, g.', '851.2'),
    pieces: amount('Pieces or bags gained.', '24'),
    cost: amount('Cost gained, in the studio’s currency.', '4.31'),
    costLayers: costLayersSchema,
    dryUncertaintyGrams: amount('One standard deviation of the dry clay, g.', '36'),
    costUncertainty: amount('One standard deviation of the cost.', '0.05'),
  })
  .openapi('Line')

const weighingSchema = z
  .object({
    weighingNo: z.int().openapi({ example: 1 }),
    purpose: z.string().openapi({ description: 'The field it was read for.', example: 'reading' }),
    kind: z.string().openapi({
      description: 'clay, clay_with_plaster, label, water, sample or powder.',
      example: 'clay',
    }),
    asRead: z.unknown().openapi({ description: 'The reading as it was said.' }),
    grossGrams: amount('g', '9460'),
    tareGrams: amount('g', '610'),
    netGrams: amount('g', '8850'),
    standardUncertaintyGrams: amount('One standard deviation of the net mass, g.', '2.9'),
    vesselId: idOrNone('The vessel it stood in.'),
    scaleId: idOrNone('The scale.'),
    weighedAt: z.string().openapi({ format: 'date-time' }),
    weighedBy: z.string().nullable(),
  })
  .openapi('Weighing')

const estimateSchema = z
  .object({
    estimateNo: z.int().openapi({ example: 1 }),
    holdingId: z.string(),
    of: z.string().openapi({ description: 'What it is an estimate of.', example: 'turnings' }),
    dryGrams: amount('Dry clay, g.'),
    waterGrams: amount('Water, g.'),
    method: z.string().openapi({
      description: 'How the dry mass was come by, best first: dry_test to default_for_state.',
      example: 'lot_water_content',
    }),
    standing: z.string().openapi({
      description: 'measured, estimated or assumed.',
      example: 'estimated',
    }),
    standardUncertaintyGrams: amount('One standard deviation of the dry mass, g.', '41'),
    weighingNo: z.int().nullable(),
  })
  .openapi('Estimate')

/** An entry: what happened, what was read, what it was taken to mean, what moved. */
export const entrySchema = z
  .object({
    entryId: z.string(),
    kind: z.string().openapi({ example: 'turn' }),
    happenedAt: z.string().openapi({ format: 'date-time' }),
    recordedAt: z.string().openapi({ format: 'date-time' }),
    recordedBy: z.string().nullable(),
    note: z.string().nullable(),
    reversesEntryId: idOrNone('The entry that this one takes back.'),
    reversedByEntryId: idOrNone('The entry that took this one back.'),
    said: z.unknown().openapi({ description: 'The request, as it was said.' }),
    lines: z.array(lineSchema).openapi({
      description:
        'What moved; each of the five columns (dry clay, materials, water, pieces, cost) sums to zero, and so does each layer of the cost.',
    }),
    weighings: z.array(weighingSchema),
    estimates: z.array(estimateSchema),
    losses: z.array(lossShownSchema),
    sale: z
      .object({
        formId: z.string(),
        grade: z.string(),
        pieces: z.int(),
        priceEach: amount('In the studio’s currency.', '24.00'),
        channel: z.string(),
      })
      .nullable(),
    dryTest: z
      .object({
        bodyId: z.string(),
        lotId: z.string().nullable(),
        state: z.string(),
        waterContentWetBasis: amount('Water as a fraction of the wet mass.', '0.218'),
        standardUncertainty: amount('One standard deviation of that.', '0.002'),
      })
      .nullable(),
    firing: firingShownSchema.nullable().openapi({
      description: 'What a fire took and cost, where that was told.',
    }),
    glazings: z.array(glazingShownSchema).openapi({ description: 'Glaze that landed on runs.' }),
  })
  .openapi('Entry')

export const silicaLimitSchema = z
  .object({
    jurisdiction: z.string().openapi({ example: 'GB' }),
    authority: z.string(),
    name: z.string(),
    milligramsPerCubicMetre: amount('mg/m³', '0.1'),
    averagedOver: z.string().openapi({ example: '8 h' }),
    document: z.string(),
    asOf: z.string().openapi({ example: '2026-11' }),
    standing: z.string().openapi({ description: 'How the source was read.', example: 'seen' }),
    note: z.string(),
    measured: z.string().optional().openapi({
      description: 'What of the air is weighed; of silica, the respirable dust.',
      example: 'as manganese, respirable',
    }),
    kind: z
      .enum(['average', 'ceiling'])
      .optional()
      .openapi({ description: 'A ceiling is not to be passed at any moment.' }),
    hazard: z.string().optional().openapi({ description: 'What harms.', example: 'manganese' }),
    published: z
      .string()
      .nullable()
      .optional()
      .openapi({ description: 'The date of the document, where known.', example: '2020-01-17' }),
    seenAt: z
      .string()
      .nullable()
      .optional()
      .openapi({ description: 'Where the figure was seen; none where it is from memory.' }),
  })
  .openapi('SilicaLimit')

const cautionSchema = z
  .object({
    title: z.string().optional().openapi({
      description: 'The word that it begins with; Dust where there is none.',
      example: 'Manganese',
    }),
    hazard: z.string(),
    why: z.string(),
    instead: z.array(z.string()).openapi({ description: 'What to do instead.' }),
    limits: z.array(silicaLimitSchema).openapi({ description: 'Published limits, with source.' }),
    houseFigure: z
      .object({ waterContentWetBasis: z.string(), label: z.string() })
      .optional()
      .openapi({ description: 'Our own figure for when clay counts as dusty; only of clay.' }),
    deferTo: z.string(),
  })
  .openapi('Caution')

const differenceSchema = z
  .object({
    holdingId: z.string().openapi({ example: '0199c1de-0000-7000-8000-00000000000a' }),
    dryGrams: amount('Dry clay found beyond the books (short of them, below zero), g.', '-80'),
    sure: howSureSchema,
    words: amount(
      'In a sentence.',
      '80 g of dry clay less than the books said, give or take 210 g: not distinguishable from zero.',
    ),
  })
  .openapi('FoundDifference')

/** What an act answers. */
export const actAnswerSchema = z
  .object({
    entry: entrySchema,
    made: z.record(z.string(), z.union([z.string(), z.array(z.string())])).openapi({
      description: 'Ids of what the act made, and figures that it found.',
      example: { runId: 'mugs-1' },
    }),
    cautions: z.array(cautionSchema).openapi({
      description: 'What to know about dust before and while doing this; mostly empty.',
    }),
    differences: z.array(differenceSchema).openapi({
      description:
        'What was measured otherwise than the books had it; it went to, or came from, unexplained. Mostly empty.',
    }),
    preview: z.boolean().openapi({
      description: 'true: nothing was recorded, this is what would have been.',
      example: false,
    }),
  })
  .openapi('ActAnswer')
