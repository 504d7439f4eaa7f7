import { createRoute, z } from '@hono/zod-openapi'
import { moistureOfBody } from '../../db/reports/moisture.ts'
import { CLAY_STATES } from '../../shared/moisture.ts'
import { catalogueRoutes } from '../catalogue-routes.ts'
import { BODIES } from '../catalogue/bodies.ts'
import { problemsOfReading } from '../problem.ts'
import { idText, studioHeader } from '../schemas.ts'

const moistureAnswer = z
  .object({
    bodyId: z.string(),
    states: z.array(
      z
        .object({
          state: z.enum(CLAY_STATES),
          waterContentWetBasis: z.string().openapi({ example: '0.218' }),
          standardUncertainty: z.string().openapi({ example: '0.0061' }),
          standing: z.string().openapi({ description: 'measured, estimated or assumed.' }),
          method: z.string().openapi({
            description: 'studio_tests, body_figure or default_for_state: the best there is.',
          }),
          tests: z.int().openapi({ description: 'How many dry tests stand behind it.' }),
          weightOfTests: z.string().openapi({
            description: 'How much of it is the tests’ word, 0 to 1; the rest was believed before.',
            example: '0.72',
          }),
          sharedUncertainty: z.string().openapi({
            description: 'Of the clay on the whole: the same mistake wherever the figure is used.',
            example: '0.0045',
          }),
          betweenBatches: z
            .string()
            .openapi({ description: 'Of one batch against the whole.', example: '0.005' }),
          words: z.string().openapi({
            description: 'What the figure rests on.',
            example:
              '72 % of it is the word of one dry test; the rest is the 23.0 % that was believed before.',
          }),
          source: z.string().nullable().openapi({ description: 'Where a default comes from.' }),
        })
        .openapi('MoistureFigure'),
    ),
  })
  .openapi('MoistureOfBody')

const readMoisture = createRoute({
  method: 'get',
  path: '/v1/bodies/{id}/moisture',
  operationId: 'readMoisture',
  tags: ['What the studio has'],
  summary: 'Read what is reckoned with for the water of a clay body',
  description:
    'State by state: what is stated of the body, or else a default, drawn towards this studio’s own dry tests by how many there are and how sure.',
  request: {
    headers: studioHeader,
    params: z.object({ id: idText('The clay body.', 'stoneware') }),
  },
  responses: {
    200: {
      description: 'One row a state; fractions of the wet mass',
      content: { 'application/json': { schema: moistureAnswer } },
    },
    ...problemsOfReading,
  },
})

export const bodies = catalogueRoutes(BODIES).openapi(readMoisture, async (c) => {
  const { id } = c.req.valid('param')
  const states = await moistureOfBody(c.get('services').db, c.get('studioId'), id)
  return c.json({ bodyId: id, states }, 200)
})
