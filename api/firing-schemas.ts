import { z } from '@hono/zod-openapi'
import { SHARE_RULES } from '../shared/firing-share.ts'
import { decimalText } from './decimal-text.ts'
import { positiveMassSchema, readingSchema } from './reading-schemas.ts'
import { idText } from './schemas.ts'
import { together, type FaultBetween } from './together.ts'

const meterDigits = (when: string) =>
  decimalText(`What the meter read ${when}, kWh.`, { atLeast: '0', atMost: '1000000000' })

const meterSchema = z
  .strictObject({
    before: meterDigits('before').openapi({ example: '20418' }),
    after: meterDigits('after').openapi({ example: '20512' }),
  })
  .openapi('MeterReadings', { description: 'The meter of the kiln, before and after.' })

const kilowattHours = (description: string) =>
  decimalText(description, { above: '0', atMost: '1000000', digitsAfterMax: 6 }).openapi({
    example: '94',
  })

const hours = (description: string) =>
  decimalText(description, { above: '0', atMost: '1000' }).openapi({ example: '9.5' })

const fuelSchema = z
  .strictObject({
    before: readingSchema.optional().openapi({ description: 'The cylinder before the fire.' }),
    after: readingSchema.optional().openapi({ description: 'The same cylinder after it.' }),
    burnt: positiveMassSchema.optional().openapi({ description: 'Or how much gas was burnt.' }),
  })
  .superRefine(together(faultOfFuel))
  .openapi('FuelWeighed', {
    description:
      'Gas that was weighed: the cylinder before and after, or the mass burnt. It leaves the shelf of what the kiln burns.',
  })

function faultOfFuel(
  said: Partial<Record<'before' | 'after' | 'burnt', unknown>>,
): FaultBetween | undefined {
  const [before, after] = [said.before !== undefined, said.after !== undefined]
  if (said.burnt !== undefined) {
    if (!before && !after) return undefined
    const message = 'Say burnt, or weigh before and after; not both.'
    return { message, path: [before ? 'before' : 'after'] }
  }
  if (before && after) return undefined
  const message = 'Gas is weighed before and after, or say burnt.'
  return { message, path: [before ? 'after' : 'before'] }
}

/** What is told of the energy of a fire, with pots in the kiln or without. */
export const energyFields = {
  meter: meterSchema.optional(),
  kilowattHours: kilowattHours(
    'What the fire took, kWh, where the meter itself was not read.',
  ).optional(),
  hours: hours(
    'How long it took, hours: with the rated power of the kiln the rule of last resort.',
  ).optional(),
  fuel: fuelSchema.optional(),
  pricePerKilowattHour: decimalText(
    'What a kilowatt-hour cost, in the studio’s currency; the kiln’s price where it is not said.',
    { atLeast: '0', atMost: '1000000' },
  )
    .openapi({ example: '0.28' })
    .optional(),
}

const candlingSchema = z
  .strictObject({
    kilowattHours: kilowattHours('What the candling took, kWh.').optional(),
    hours: hours(
      'Or how long it was candled, hours; needs the rated power of the kiln.',
    ).optional(),
  })
  .superRefine(
    together((said) =>
      (said.kilowattHours === undefined) === (said.hours === undefined)
        ? { message: 'Say the candling in one way: kilowattHours or hours.' }
        : undefined,
    ),
  )
  .openapi('Candling', {
    description: 'Drying the ware before the fire proper, beside what the fire itself took.',
  })

const FIRING_DESCRIPTION =
  'The kiln and what the fire took, by the best that is said: meter, kilowattHours, what is usual for the kiln, or its rated power and hours. The pots bear it. Where firing is left out, they bear nothing.'

const firingFields = {
  ...energyFields,
  candling: candlingSchema.optional(),
  fullFraction: decimalText('How full the kiln was, as a fraction of it.', {
    above: '0',
    atMost: '1',
  })
    .openapi({ example: '0.8' })
    .optional(),
  shareBy: z
    .enum(SHARE_RULES)
    .openapi({
      description:
        'By what it is shared out over the runs: shelf_space, mass or count; as the kiln says where it is not said.',
      example: 'shelf_space',
    })
    .optional(),
}

const kilnId = idText('The kiln.', 'top-loader')

/** A fire with pots in it, as it is told. */
export const firingSchema = z
  .strictObject({ kilnId, ...firingFields })
  .openapi('Firing', { description: FIRING_DESCRIPTION })

/** The same of a load that may have named its kiln already. */
export const firingOfLoadSchema = z.strictObject({ kilnId: kilnId.optional(), ...firingFields })
