import { createRoute, z } from '@hono/zod-openapi'
import { decimal } from '../../shared/decimal.ts'
import {
  HOUSE_DUST_THRESHOLD_WET_BASIS,
  SILICA_LIMITS,
  timeWeightedAverage,
} from '../../shared/silica.ts'
import { silicaLimitSchema } from '../entry-schemas.ts'
import { newRouter } from '../router.ts'

/** The worked example of 29 CFR 1910.1000(d)(1)(ii), in parts per million of another substance. */
const WORKED_EXAMPLE = [
  { hours: '2', concentration: '150' },
  { hours: '2', concentration: '75' },
  { hours: '4', concentration: '50' },
]

const answer = z
  .object({
    deferTo: z.string().openapi({ description: 'What comes before anything said here.' }),
    limits: z.array(silicaLimitSchema),
    houseFigure: z.object({
      waterContentWetBasis: z.string().openapi({ example: '0.05' }),
      label: z.string(),
    }),
    eightHourMean: z
      .object({
        how: z.string(),
        source: z.string(),
        example: z.object({
          spells: z.array(
            z.object({
              hours: z.string(),
              concentration: z.string().openapi({ description: 'In any unit of concentration.' }),
            }),
          ),
          mean: z.string().openapi({ description: 'In the same unit.', example: '81.25' }),
        }),
      })
      .openapi({ description: 'How a limit over eight hours is compared with a day’s spells.' }),
  })
  .openapi('SilicaLimits')

const route = createRoute({
  method: 'get',
  path: '/v1/silica-limits',
  operationId: 'readSilicaLimits',
  tags: ['To look things up'],
  summary: 'Published limits for silica dust',
  description:
    'With source, date and how each source was read. No figure here says a room is safe.',
  responses: {
    200: {
      description: 'The limits, our own house figure, and how an eight-hour mean is taken',
      content: { 'application/json': { schema: answer } },
    },
  },
})

export const silicaLimits = newRouter().openapi(route, (c) =>
  c.json(
    {
      deferTo:
        'Local law and licensed practice come first. This program measures no air and judges no room.',
      limits: [...SILICA_LIMITS],
      houseFigure: {
        waterContentWetBasis: HOUSE_DUST_THRESHOLD_WET_BASIS.toFixed(),
        label:
          'Clay with less water than this counts as dusty where a body names no figure. It is our own: no published moisture threshold for clay dust exists.',
      },
      eightHourMean: {
        how: 'Each spell’s concentration times its hours, summed and divided by eight, however long the spells were together.',
        source: '29 CFR 1910.1000(d)(1)',
        example: { spells: WORKED_EXAMPLE, mean: meanOfExample() },
      },
    },
    200,
  ),
)

function meanOfExample(): string {
  const spells = WORKED_EXAMPLE.map(({ hours, concentration }) => ({
    hours: decimal(hours),
    concentration: decimal(concentration),
  }))
  return timeWeightedAverage(spells).toFixed()
}
