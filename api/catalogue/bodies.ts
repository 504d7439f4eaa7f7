import { z } from '@hono/zod-openapi'
import { bodies as catalogue } from '../../db/catalogue.ts'
import { CLAY_STATES } from '../../shared/moisture.ts'
import { USUAL_READY, USUAL_TOO_DRY } from '../../shared/plaster-target.ts'
import { decimalText, fractionText } from '../decimal-text.ts'
import { idText, labelText } from '../schemas.ts'
import { changeOf, type CatalogueResource } from './resource.ts'

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

/** Clay bodies, each with what is believed of its water. */
export const BODIES: CatalogueResource = {
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
}
