import { createRoute, z } from '@hono/zod-openapi'
import { FOOD_CONTACT_TEXTS, FOOD_CONTACT_WORDS } from '../../shared/food-contact.ts'
import { limitsOfHazard } from '../../shared/hazard-limits.ts'
import {
  CARE_WITH_FUME,
  CARE_WITH_INGREDIENTS,
  CARE_WITH_POWDERS,
  HAZARD_CODES,
  HAZARDS,
  HAZARDS_DEFER_TO,
  LIMIT_JURISDICTIONS,
} from '../../shared/material-hazards.ts'
import { JURISDICTIONS } from '../../shared/silica.ts'
import { problemAnswer } from '../problem.ts'
import { newRouter } from '../router.ts'

const standing = z
  .enum(['seen', 'second-hand', 'from memory'])
  .openapi({ description: 'How the source was read.' })
const asOf = z.string().openapi({ description: 'When it was read.', example: '2026-11' })
const published = z
  .string()
  .nullable()
  .openapi({ description: 'The date of the document, where known.', example: '2020-01-17' })
const seenAt = z
  .string()
  .nullable()
  .openapi({ description: 'Where the figure was seen; none where it is from memory.' })

const limit = z
  .object({
    jurisdiction: z.enum(LIMIT_JURISDICTIONS).openapi({ description: 'Whose limit it is.' }),
    authority: z.string().openapi({ example: 'Health and Safety Executive' }),
    name: z.string().openapi({ example: 'Workplace exposure limit' }),
    milligramsPerCubicMetre: z.string().openapi({ description: 'mg/m³', example: '0.05' }),
    measured: z.string().openapi({
      description: 'What of the air is weighed, and as what.',
      example: 'manganese and its inorganic compounds, as manganese, respirable',
    }),
    kind: z.enum(['average', 'ceiling']).openapi({
      description: 'A ceiling is not to be passed at any moment.',
    }),
    averagedOver: z.string().openapi({ example: '8 h' }),
    document: z
      .string()
      .openapi({ example: 'EH40/2005 Workplace exposure limits, fourth edition' }),
    published,
    asOf,
    standing,
    seenAt,
    note: z.string(),
  })
  .openapi('HazardLimit')

const hazard = z
  .object({
    hazard: z.enum(HAZARD_CODES).openapi({ description: 'What harms.', example: 'manganese' }),
    name: z.string().openapi({ example: 'Manganese' }),
    carriedBy: z.array(z.string()).openapi({
      description: 'Ingredients that commonly carry it; the data sheet of the one in hand decides.',
    }),
    harm: z.string(),
    care: z.array(z.string()).openapi({ description: 'Beside what holds of every ingredient.' }),
    isFumeInFire: z.boolean().openapi({ description: 'True: it may go off as fume in the fire.' }),
    limits: z.array(limit).openapi({ description: 'Published limits, with source and date.' }),
    leftOut: z.array(z.string()).openapi({
      description: 'Limits that are not told here, and whose list to see.',
    }),
  })
  .openapi('MaterialHazard')

const foodContactText = z
  .object({
    jurisdiction: z.enum(JURISDICTIONS).openapi({ description: 'other: of no one place.' }),
    authority: z.string(),
    document: z.string(),
    published,
    asOf,
    standing,
    seenAt,
    limits: z.array(
      z
        .object({
          ware: z.string().openapi({ description: 'Of which ware.' }),
          metal: z.enum(['lead', 'cadmium']),
          amount: z.string().openapi({ example: '4.0' }),
          unit: z.enum(['mg/L', 'mg/dm²']).openapi({
            description: 'Given off to the test liquid, by its volume or by area.',
          }),
        })
        .openapi('FoodContactLimit'),
    ),
    note: z.string(),
  })
  .openapi('FoodContactText')

const answer = z
  .object({
    deferTo: z.string().openapi({ description: 'What comes before anything said here.' }),
    careWithPowders: z.array(z.string()).openapi({ description: 'Of every dry powder.' }),
    careWithIngredients: z.array(z.string()).openapi({ description: 'Dry or wet.' }),
    careWithFume: z.string().openapi({ description: 'Of what goes off in the fire.' }),
    items: z.array(hazard),
    foodContact: z
      .object({ words: z.array(z.string()), texts: z.array(foodContactText) })
      .openapi({ description: 'Published tests and limits for food; no glaze is judged.' }),
  })
  .openapi('MaterialHazards')

const route = createRoute({
  method: 'get',
  path: '/v1/material-hazards',
  operationId: 'readMaterialHazards',
  tags: ['To look things up'],
  summary: 'Hazards of glaze ingredients',
  description:
    'What harms in glaze ingredients, what to do, and published limits with source, date and how each source was read. No figure here says a room is safe or a glaze fit for food.',
  request: {
    query: z.strictObject({
      jurisdiction: z.enum(JURISDICTIONS).optional().openapi({
        description: 'Whose limits: of one place, or of all where it is not said or is other.',
        example: 'GB',
      }),
    }),
  },
  responses: {
    200: {
      description: 'The hazards, with the care they ask for and the limits',
      content: { 'application/json': { schema: answer } },
    },
    422: problemAnswer('The jurisdiction is none of these'),
    500: problemAnswer('The fault is ours'),
  },
})

export const materialHazards = newRouter().openapi(route, (c) => {
  const { jurisdiction = 'other' } = c.req.valid('query')
  const items = HAZARDS.map(({ code, carriedBy, care, ...words }) => {
    const { limits, leftOut } = limitsOfHazard(code, jurisdiction)
    return {
      hazard: code,
      ...words,
      carriedBy: [...carriedBy],
      care: [...care],
      // Each limit stands under its hazard, so it need not name it again.
      limits: limits.map(({ hazard: _, ...rest }) => rest),
      leftOut: leftOut.map((left) => left.words),
    }
  })
  return c.json(
    {
      deferTo: HAZARDS_DEFER_TO,
      careWithPowders: [...CARE_WITH_POWDERS],
      careWithIngredients: [...CARE_WITH_INGREDIENTS],
      careWithFume: CARE_WITH_FUME,
      items,
      foodContact: {
        words: [...FOOD_CONTACT_WORDS],
        texts: FOOD_CONTACT_TEXTS.map((text) => ({ ...text, limits: [...text.limits] })),
      },
    },
    200,
  )
})
