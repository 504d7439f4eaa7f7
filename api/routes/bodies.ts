import { createRoute, z } from '@hono/zod-openapi'
import { bodies as catalogue } from '../../db/catalogue.ts'
import { moistureOfBody } from '../../db/reports/moisture.ts'
import { USUAL_READY, USUAL_TOO_DRY } from '../../shared/plaster-target.ts'
import { CLAY_STATES } from '../../shared/moisture.ts'
import { catalogueRoutes, changeOf } from '../catalogue-routes.ts'
import { decimalText, fractionText } from '../decimal-text.ts'
import { problemsOfReading } from '../problem.ts'
import { idText, labelText, studioHeader } from '../schemas.ts'

const figure = z
  .strictObject({
    waterContentWetBasis: fractionText('Water as a fraction of the wet mass.'),
    standardUncertainty: decimalText('One standard deviation of that.', {
      atLeast: '0',
      atMost: '0.5',
    }),
  })
  .openapi('StatedMoisture')

const moisture = z
  .strictObject(
    Object.fromEntries(CLAY_STATES.map((state) => [state, figure.optional()])) as Record<
      (typeof CLAY_STATES)[number],
      z.ZodOptional<typeof figure>
    >,
  )
  .openapi({ description: 'What is stated of its water, by state; replaced as a whole.' })

const needed = {
  name: labelText('What it is called; new in the studio.', 'Speckled stoneware'),
  lossOnIgnitionFraction: decimalText('What the first fire takes of the dry clay.', {
    atLeast: '0',
    atMost: '0.5',
  }).openapi({ example: '0.075' }),
  grainGramsPerMillilitre: decimalText('The density of its grains, g/ml.', {
    above: '1',
    atMost: '5',
  }).openapi({ example: '2.6' }),
  moisture,
}

const isBlend = z.boolean().openapi({
  description: 'true: a body that several clays may become together; fixed when the body is made.',
  example: false,
})

const share = (description: string) => decimalText(description, { above: '0', below: '1' })

const known = {
  dryingShrinkageFractionOfWet: fractionText('Shrinkage in drying, of the wet length.').nullable(),
  firingShrinkageFractionOfDry: fractionText('Shrinkage in firing, of the dry length.').nullable(),
  crystallineSilicaFraction: decimalText('Crystalline silica, of the dry mass.', {
    atLeast: '0',
    atMost: '1',
  }).nullable(),
  dustThresholdWetBasis: fractionText(
    'The water content below which this studio counts it as dusty; the house figure where null.',
  ).nullable(),
  readyWaterContentWetBasis: share(
    `How wet a slab on plaster is when it is ready to wedge; ${USUAL_READY.toFixed()} where null.`,
  ).nullable(),
  tooDryWaterContentWetBasis: share(
    `How wet a slab is when it is too dry to wedge without wetting it; ${USUAL_TOO_DRY.toFixed()} where null. Below the other.`,
  ).nullable(),
}

const created = z
  .strictObject({
    bodyId: idText('An id of your own; made where none is given.', 'stoneware').optional(),
    name: needed.name,
    lossOnIgnitionFraction: needed.lossOnIgnitionFraction.default('0.08'),
    grainGramsPerMillilitre: needed.grainGramsPerMillilitre.default('2.6'),
    isBlend: isBlend.default(false),
    moisture: moisture.default({}),
    dryingShrinkageFractionOfWet: known.dryingShrinkageFractionOfWet.optional(),
    firingShrinkageFractionOfDry: known.firingShrinkageFractionOfDry.optional(),
    crystallineSilicaFraction: known.crystallineSilicaFraction.optional(),
    dustThresholdWetBasis: known.dustThresholdWetBasis.optional(),
    readyWaterContentWetBasis: known.readyWaterContentWetBasis.optional(),
    tooDryWaterContentWetBasis: known.tooDryWaterContentWetBasis.optional(),
  })
  .openapi('NewBody')

const shown = z
  .object({ bodyId: z.string(), ...needed, isBlend, ...known, changedAt: z.string() })
  .openapi('Body')

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

export const bodies = catalogueRoutes({
  path: 'bodies',
  one: 'clay body',
  idName: 'bodyId',
  catalogue,
  created,
  changed: changeOf({ ...needed, ...known }, 'BodyChange', {
    isBlend: 'isBlend is fixed when the body is made; enter another body for a blend.',
  }),
  shown,
  example: {
    bodyId: 'stoneware',
    name: 'Speckled stoneware',
    lossOnIgnitionFraction: '0.075',
    moisture: { as_delivered: { waterContentWetBasis: '0.205', standardUncertainty: '0.01' } },
  },
  exampleOfChange: { lossOnIgnitionFraction: '0.0772' },
}).openapi(readMoisture, async (c) => {
  const { id } = c.req.valid('param')
  const states = await moistureOfBody(c.get('services').db, c.get('studioId'), id)
  return c.json({ bodyId: id, states }, 200)
})
