import { z } from '@hono/zod-openapi'
import { gramsFrom, MASS_UNITS, millilitresFrom, VOLUME_UNITS } from '../shared/units.ts'
import { decimalText, fractionText } from './decimal-text.ts'
import { BAGS_MAX, countOf, idText } from './schemas.ts'
import { together, type FaultBetween } from './together.ts'

/** Far above every scale and kiln, and far below where a squared uncertainty would leave its column. */
const MASS_MAX = '100000'
/** Slops hold several times their clay; a hundred times it is a slip of the pen. */
const WATER_CONTENT_MAX = '100'

const LESS_THAN_ANY_SCALE: FaultBetween = {
  message: 'This is less than a millionth of a gram or millilitre, which the ledger keeps.',
  path: ['value'],
}

const massUnit = z.enum(MASS_UNITS).openapi({
  description: 'g, kg, lb (avoirdupois pound) or oz (avoirdupois ounce).',
  example: 'kg',
})

/** A mass as it was read, zero included: what a scale may show. */
export const massSchema = z
  .strictObject({
    value: decimalText('The digits as they were read, in the unit.', {
      atLeast: '0',
      atMost: MASS_MAX,
    }),
    unit: massUnit,
  })
  .openapi('Mass', { description: 'A mass as it was read, zero included.' })

/** A mass of something that is there. */
export const positiveMassSchema = z
  .strictObject({
    value: decimalText('The digits as they were read, in the unit.', {
      above: '0',
      atMost: MASS_MAX,
    }),
    unit: massUnit,
  })
  .superRefine(
    together((said) => (gramsFrom(said).greaterThan(0) ? undefined : LESS_THAN_ANY_SCALE)),
  )
  .openapi('PositiveMass', { description: 'A mass as it was read, above zero.' })

export const volumeSchema = z
  .strictObject({
    value: decimalText('The digits as they were read, in the unit.', {
      above: '0',
      atMost: MASS_MAX,
    }),
    unit: z.enum(VOLUME_UNITS).openapi({
      description: 'ml, l, imperial_pint (568.26125 ml) or us_pint (473.176473 ml).',
      example: 'ml',
    }),
  })
  .superRefine(
    together((said) => (millilitresFrom(said).greaterThan(0) ? undefined : LESS_THAN_ANY_SCALE)),
  )
  .openapi('Volume', { description: 'A volume as it was read, above zero.' })

/** A weigh-in: the net mass, or the gross with its vessel or its tare. */
export const readingSchema = z
  .strictObject({
    net: massSchema
      .optional()
      .openapi({ description: 'The mass on a tared scale, or the sum of a few readings.' }),
    gross: massSchema
      .optional()
      .openapi({ description: 'The mass with the vessel; needs tare or inVesselId.' }),
    tare: massSchema.optional().openapi({ description: 'What the empty vessel weighed, as read.' }),
    inVesselId: idText(
      'The vessel that it stood in, whose tare is on record.',
      'bucket-1',
    ).optional(),
    scaleId: idText(
      'The scale: its division tells how sure the reading is, its capacity what it can carry.',
      'bench-scale',
    ).optional(),
  })
  .superRefine(together(faultOfReading))
  .openapi('Reading', {
    description: 'One weigh-in: net, or gross with its tare or its vessel.',
  })

type ReadingText = Readonly<Record<'net' | 'gross' | 'tare' | 'inVesselId', unknown>>

function faultOfReading(said: Partial<ReadingText>): FaultBetween | undefined {
  const has = (field: keyof ReadingText) => said[field] !== undefined
  if (has('net') === has('gross')) {
    return {
      message: has('net')
        ? 'Give net or gross, not both.'
        : 'A reading is missing: give net, or gross with tare or inVesselId.',
    }
  }
  if (has('net')) {
    if (!has('tare') && !has('inVesselId')) return undefined
    const message =
      'A net mass has its vessel taken off already. Give gross with it, or leave it out.'
    return { message, path: [has('tare') ? 'tare' : 'inVesselId'] }
  }
  if (has('tare') !== has('inVesselId')) return undefined
  if (has('tare')) return { message: 'Give tare or inVesselId, not both.', path: ['tare'] }
  const message =
    'A gross mass needs its empty vessel: give tare, or inVesselId of a vessel on record.'
  return { message, path: ['gross'] }
}

/** A sample that was dried until it lost no more. */
export const sampleSchema = z
  .strictObject({
    tin: massSchema
      .optional()
      .openapi({ description: 'The empty tin; none where there was none.' }),
    wetWithTin: positiveMassSchema.openapi({ description: 'Wet sample with its tin.' }),
    dryWithTin: positiveMassSchema.openapi({ description: 'Dried sample with its tin.' }),
  })
  .openapi('Sample', { description: 'A sample before and after it was dried.' })

/** What is known of the water in a clay: a content on a named basis, or a sample that was dried. */
export const waterSchema = z
  .strictObject({
    content: decimalText('Water as a fraction, on the basis that is named.', {
      atLeast: '0',
      atMost: WATER_CONTENT_MAX,
    })
      .optional()
      .openapi({ example: '0.21' }),
    basis: z.enum(['wet', 'dry']).optional().openapi({
      description: 'wet: of the wet mass, below 1. dry: of the dry clay, which may exceed 1.',
      example: 'wet',
    }),
    standing: z
      .enum(['measured', 'stated', 'assumed'])
      .optional()
      .openapi({ description: 'How the content was come by; stated where it is not said.' }),
    standardUncertainty: decimalText('One standard deviation of the content, wet basis.', {
      atLeast: '0',
      atMost: '0.5',
    })
      .optional()
      .openapi({ example: '0.01' }),
    sample: sampleSchema.optional(),
  })
  .superRefine(together(faultOfWater))
  .openapi('Water', {
    description: 'What is known of the water: a content with its basis, or a dried sample.',
  })

type WaterText = Partial<
  Record<'content' | 'basis' | 'sample' | 'standing' | 'standardUncertainty', unknown>
>

function faultOfWater(said: WaterText): FaultBetween | undefined {
  const { content, basis, sample, standing, standardUncertainty } = said
  if (sample !== undefined) {
    const others = { content, basis, standing, standardUncertainty }
    const extra = Object.entries(others).find(([, value]) => value !== undefined)?.[0]
    if (extra === undefined) return undefined
    return { message: 'The sample tells the water. Leave this out, or the sample.', path: [extra] }
  }
  if (content === undefined) {
    return { message: 'Say content with its basis, or give a sample that was dried.' }
  }
  if (basis !== undefined) return undefined
  return {
    message:
      'A water content needs its basis: wet (of the wet mass) or dry (of the dry clay). The two differ by a quarter and more.',
    path: ['basis'],
  }
}

/** Clay of a lot on the bench: balls, one reading, or what is left of it. */
export const claySourceSchema = z
  .strictObject({
    lotId: idText('The lot on the bench.', 'opened-1'),
    balls: countOf('How many balls were cut.', { atMost: BAGS_MAX }).optional(),
    ballMass: positiveMassSchema.optional().openapi({ description: 'What one ball weighs.' }),
    reading: readingSchema.optional().openapi({ description: 'The clay in one weigh-in.' }),
    whatIsLeft: z
      .literal(true)
      .optional()
      .openapi({ description: 'true: all that the lot still has on the bench.', example: true }),
  })
  .superRefine(together(faultOfSource))
  .openapi('ClaySource', { description: 'Clay of a lot on the bench, and how much of it.' })

type SourceText = Partial<Record<'balls' | 'ballMass' | 'reading' | 'whatIsLeft', unknown>>

function faultOfSource(said: SourceText): FaultBetween | undefined {
  const { balls, ballMass, reading, whatIsLeft } = said
  const hasBalls = balls !== undefined || ballMass !== undefined
  const ways = [hasBalls, reading !== undefined, whatIsLeft !== undefined]
  if (ways.filter(Boolean).length !== 1) {
    return { message: 'Say how much in one way: balls with ballMass, or reading, or whatIsLeft.' }
  }
  if (!hasBalls) return undefined
  if (balls === undefined) return { message: 'How many balls of that mass?', path: ['balls'] }
  if (ballMass === undefined) return { message: 'What does one ball weigh?', path: ['ballMass'] }
  return undefined
}

/** The blend that meeting clays become. */
export const blendBodyId = idText(
  'Where two clays meet on purpose: the body, declared as a blend, that they become.',
  'marbled',
).optional()

export const shareOfClay = fractionText('The share of its mass that is clay.')

/**
 * What many bodies are made of, by its name in the description.
 *
 * Each is described before any route, by its own words: whoever uses one first would otherwise put the
 * words of that one field on all the others.
 */
export const SHARED_SCHEMAS: Readonly<Record<string, z.ZodType>> = {
  Mass: massSchema,
  PositiveMass: positiveMassSchema,
  Volume: volumeSchema,
  Reading: readingSchema,
  Sample: sampleSchema,
  Water: waterSchema,
  ClaySource: claySourceSchema,
}
