import { createRoute, z } from '@hono/zod-openapi'
import { addRecipe } from '../../db/glaze-recipes.ts'
import { weighOut } from '../../db/reports/glaze-batch.ts'
import { recipesNow } from '../../db/reports/glaze-recipes.ts'
import { decimalText } from '../decimal-text.ts'
import { problemsOfReading, usualProblems } from '../problem.ts'
import { newRecipeSchema, recipeSchema, weighOutSchema } from '../recipe-schemas.ts'
import { newRouter } from '../router.ts'
import { idText, studioHeader } from '../schemas.ts'
import { together, type FaultBetween } from '../together.ts'

const TAG = 'Materials and glaze'
const RUNS_MAX = 50

const params = z.object({ id: idText('The glaze.', 'celadon') })

const addRoute = createRoute({
  method: 'post',
  path: '/v1/materials/{id}/recipes',
  operationId: 'addGlazeRecipe',
  tags: [TAG],
  summary: 'Enter a new version of a glaze’s recipe',
  description:
    'Parts by dry mass; a base that does not come to 100 is taken as it is. Earlier versions stay as they were, and batches keep the version that they were mixed by.',
  request: {
    headers: studioHeader,
    params,
    body: {
      required: true,
      content: {
        'application/json': {
          schema: newRecipeSchema,
          example: {
            parts: [
              { ingredientId: 'feldspar', parts: '40' },
              { ingredientId: 'silica', parts: '30' },
              { ingredientId: 'whiting', parts: '20' },
              { ingredientId: 'china-clay', parts: '10' },
              { ingredientId: 'iron-oxide', parts: '1.5', isAddition: true },
            ],
            note: 'Less iron than last year.',
          },
        },
      },
    },
  },
  responses: {
    201: {
      description: 'Entered, as it costs now',
      content: { 'application/json': { schema: recipeSchema } },
    },
    ...usualProblems,
  },
})

const listRoute = createRoute({
  method: 'get',
  path: '/v1/materials/{id}/recipes',
  operationId: 'listGlazeRecipes',
  tags: [TAG],
  summary: 'Every version of a glaze’s recipe, the newest first',
  description:
    'Each with its parts, what burns off, what its grains weigh, what a dry gram costs at what the powders on the shelf cost now, and the hazards that its powders carry.',
  request: { headers: studioHeader, params },
  responses: {
    200: {
      description: 'The versions',
      content: {
        'application/json': {
          schema: z.object({ items: z.array(recipeSchema) }).openapi('GlazeRecipes'),
        },
      },
    },
    ...problemsOfReading,
  },
})

const amount = (description: string, atMost: string) =>
  decimalText(description, { above: '0', atMost, digitsAfterMax: 6 })

const batchQuery = z
  .strictObject({
    versionNo: z
      .string()
      .regex(/^[1-9]\d{0,4}$/, { error: 'It must be a whole number from 1 on.' })
      .transform(Number)
      .optional()
      .openapi({
        type: 'integer',
        description: 'The version of the recipe; the latest where it is not said.',
        example: 1,
      }),
    dryGrams: amount('So much dry glaze, g.', '100000000').optional().openapi({ example: '9000' }),
    millilitres: amount('So much glaze, ml, at the density.', '100000000')
      .optional()
      .openapi({ description: 'So much glaze, ml, at the density; instead of dryGrams.' }),
    runIds: z
      .string()
      .regex(/^[a-z0-9][a-z0-9-]{0,63}(,[a-z0-9][a-z0-9-]{0,63})*$/, {
        error: 'Name runs by their ids, with commas between: jugs-1,mugs-2.',
      })
      .optional()
      .openapi({
        description:
          'Enough for the pots of these runs that wait, instead of dryGrams: ids with commas between.',
        example: 'jugs-1,mugs-2',
      }),
    vesselId: idText('With runIds: the bucket whose glaze serves first.', 'bucket-4').optional(),
    carriedOffFraction: decimalText(
      'With runIds: what sieve and wash bucket take, of what is on the pots; 0.05 where it is not said.',
      { atLeast: '0', atMost: '1' },
    )
      .optional()
      .openapi({ example: '0.05' }),
    gramsPerMillilitre: decimalText('The density to mix to, g/mL; 1.45 where it is not said.', {
      above: '1',
      atMost: '5',
    })
      .optional()
      .openapi({ example: '1.45' }),
  })
  .superRefine(together(faultOfBatch))

type BatchText = Partial<
  Record<'dryGrams' | 'millilitres' | 'runIds' | 'vesselId' | 'carriedOffFraction', unknown>
> & { readonly runIds?: string | undefined }

function faultOfBatch(asked: BatchText): FaultBetween | undefined {
  const ways = (['dryGrams', 'millilitres', 'runIds'] as const).filter(
    (name) => asked[name] !== undefined,
  )
  if (ways.length !== 1) {
    const message = 'Say how much in one way: dryGrams, millilitres, or runIds.'
    return { message, path: [ways[1] ?? 'dryGrams'] }
  }
  const { runIds } = asked
  if (runIds !== undefined) return faultOfRuns(runIds.split(','))
  const extra = (['vesselId', 'carriedOffFraction'] as const).find(
    (name) => asked[name] !== undefined,
  )
  if (extra === undefined) return undefined
  return { message: 'This goes with runIds only. Leave it out.', path: [extra] }
}

function faultOfRuns(ids: readonly string[]): FaultBetween | undefined {
  const path = ['runIds']
  if (new Set(ids).size !== ids.length) return { message: 'Name each run once.', path }
  if (ids.length <= RUNS_MAX) return undefined
  return { message: `At most ${String(RUNS_MAX)} runs at once.`, path }
}

const batchRoute = createRoute({
  method: 'get',
  path: '/v1/materials/{id}/batch',
  operationId: 'weighOutGlaze',
  tags: [TAG],
  summary: 'What to weigh out for a batch of glaze',
  description:
    'By its dry mass, by its volume, or for runs of pots that wait, less what a bucket has; pots in bisque that carry glaze already are left out, and the words say so. Each powder dry and as it lies in its sack, the water to add, whether the shelf has enough, what it costs, and the hazards that it carries. Mixing powders is dusty: see the cautions of mix-glaze.',
  request: { headers: studioHeader, params, query: batchQuery },
  responses: {
    200: {
      description: 'The list',
      content: { 'application/json': { schema: weighOutSchema } },
    },
    ...problemsOfReading,
  },
})

/** Recipes of glazes, and what to weigh out by them. */
export const recipes = newRouter()
  .openapi(addRoute, async (c) => {
    const { id: glazeId } = c.req.valid('param')
    const services = c.get('services')
    const which = { studioId: c.get('studioId'), glazeId }
    const versionNo = await addRecipe(services, which, c.req.valid('json'))
    const all = await recipesNow(services.db, which)
    const made = all.find((one) => one.versionNo === versionNo)
    return c.json(made as never, 201)
  })
  .openapi(listRoute, async (c) => {
    const { id: glazeId } = c.req.valid('param')
    const { db } = c.get('services')
    const items = await recipesNow(db, { studioId: c.get('studioId'), glazeId })
    return c.json({ items } as never, 200)
  })
  .openapi(batchRoute, async (c) => {
    const { id: glazeId } = c.req.valid('param')
    const { runIds, ...asked } = c.req.valid('query')
    const { db } = c.get('services')
    const found = await weighOut(db, {
      ...{ studioId: c.get('studioId'), glazeId, ...asked },
      runIds: runIds?.split(','),
    })
    return c.json(found as never, 200)
  })
