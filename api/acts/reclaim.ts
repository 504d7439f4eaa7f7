import { z } from '@hono/zod-openapi'
import { collectSlops } from '../../db/acts/collect-slops.ts'
import { decant } from '../../db/acts/decant.ts'
import { readSlurry } from '../../db/acts/read-slurry.ts'
import { slake } from '../../db/acts/slake.ts'
import { weighScrap } from '../../db/acts/weigh-scrap.ts'
import { CLAY_STATES } from '../../shared/moisture.ts'
import { decimalText } from '../decimal-text.ts'
import {
  blendBodyId,
  readingSchema,
  shareOfClay,
  volumeSchema,
  waterSchema,
} from '../reading-schemas.ts'
import { idText } from '../schemas.ts'
import { together } from '../together.ts'
import { circumstances, defineAct, type DefinedAct } from './define.ts'
import { minutesTold } from './work-told.ts'

const RUNS_MAX = 50

const slopsRequest = z
  .strictObject({
    runIds: z
      .array(idText('A run.', 'mugs-1'))
      .min(1)
      .max(RUNS_MAX)
      .refine((ids) => new Set(ids).size === ids.length, { error: 'Name each run once.' })
      .openapi({ description: 'The runs that they are of; shared by dry mass.' }),
    vesselId: idText('The vessel that they go into.', 'bucket-2'),
    state: z
      .enum(['slops', 'off_cuts', 'throwing_water'])
      .openapi({ description: 'What they are; tells their water where nobody measured it.' }),
    reading: readingSchema.openapi({ description: 'The slops.' }),
    water: waterSchema.optional(),
    blendBodyId,
    ...circumstances,
  })
  .openapi('CollectSlops')

const weighScrapRequest = z
  .strictObject({
    vesselId: idText('The vessel.', 'bucket-1'),
    bodyId: idText('The clay in it.', 'stoneware'),
    reading: readingSchema.openapi({ description: 'All that is in the vessel.' }),
    state: z.enum(CLAY_STATES).openapi({ description: 'How wet it is.', example: 'turnings' }),
    water: waterSchema.optional(),
    runIds: z
      .array(idText('A run.', 'mugs-1'))
      .max(RUNS_MAX)
      .refine((ids) => new Set(ids).size === ids.length, { error: 'Name each run once.' })
      .optional()
      .openapi({ description: 'The runs that what is new in it came from, where that is known.' }),
    blendBodyId,
    ...minutesTold,
    ...circumstances,
  })
  .openapi('WeighScrap')

const slakeRequest = z
  .strictObject({
    fromVesselId: idText('The vessel of scrap.', 'bucket-1'),
    basinVesselId: idText('The basin.', 'basin-1'),
    scrap: readingSchema
      .optional()
      .openapi({ description: 'How much goes in; all of it where it is not said.' }),
    water: readingSchema.optional().openapi({ description: 'The water that is put to it.' }),
    blendBodyId,
    ...minutesTold,
    ...circumstances,
  })
  .openapi('Slake')

const decantRequest = z
  .strictObject({
    basinVesselId: idText('The basin.', 'basin-1'),
    reading: readingSchema.openapi({ description: 'The water that was drawn off.' }),
    clarity: z
      .enum(['clear', 'cloudy'])
      .openapi({ description: 'How much clay swims in it where nobody measured it.' }),
    solidsFraction: shareOfClay
      .optional()
      .openapi({ description: 'What share of its mass is clay, where that was measured.' }),
    intoVesselId: idText(
      'The vessel it goes into; away where none is named.',
      'bucket-2',
    ).optional(),
    blendBodyId,
    ...minutesTold,
    ...circumstances,
  })
  .openapi('Decant')

const readSlurryRequest = z
  .strictObject({
    basinVesselId: idText('The basin.', 'basin-1'),
    slurry: readingSchema.openapi({ description: 'What the measured volume weighs.' }),
    volume: volumeSchema.openapi({ description: 'A measured volume of the stirred slurry.' }),
    celsius: decimalText('The temperature of the slurry, °C; 20 where it is not said.', {
      atLeast: '0',
      atMost: '40',
    })
      .optional()
      .openapi({ example: '20' }),
    whole: readingSchema
      .optional()
      .openapi({ description: 'The whole basin, where the books are to be set by it.' }),
    wholeVolume: volumeSchema
      .optional()
      .openapi({ description: 'The volume of the whole basin, instead of its mass.' }),
    ...circumstances,
  })
  .superRefine(
    together((said) => {
      if (said.whole === undefined || said.wholeVolume === undefined) return undefined
      const message = 'Give the whole basin by mass or by volume, not both.'
      return { message, path: ['wholeVolume'] }
    }),
  )
  .openapi('ReadSlurry')

export const RECLAIM: readonly DefinedAct[] = [
  defineAct({
    act: collectSlops,
    schema: slopsRequest,
    group: 'Reclaim',
    summary: 'Collect slops',
    description:
      'Slops, skirts and off-cuts of one or several runs go from the wheel into a vessel.',
    example: {
      runIds: ['mugs-1'],
      vesselId: 'bucket-2',
      state: 'slops',
      reading: { net: { value: '1.24', unit: 'kg' } },
    },
  }),
  defineAct({
    act: weighScrap,
    schema: weighScrapRequest,
    group: 'Reclaim',
    summary: 'Weigh a vessel of scrap',
    description:
      'The vessel as it stands. What it holds more than the books say came from the runs that are named; otherwise the difference is unexplained and shows.',
    example: {
      vesselId: 'bucket-1',
      bodyId: 'stoneware',
      reading: { gross: { value: '9.46', unit: 'kg' }, inVesselId: 'bucket-1' },
      state: 'turnings',
    },
  }),
  defineAct({
    act: slake,
    schema: slakeRequest,
    group: 'Reclaim',
    summary: 'Slake scrap',
    description: 'Scrap goes from its vessel into a basin of water and falls apart.',
    example: {
      fromVesselId: 'bucket-1',
      basinVesselId: 'basin-1',
      water: { net: { value: '3.0', unit: 'kg' } },
    },
  }),
  defineAct({
    act: decant,
    schema: decantRequest,
    group: 'Reclaim',
    summary: 'Draw water off',
    description: 'Water that stands over the clay is drawn off, with the little clay in it.',
    example: {
      basinVesselId: 'basin-1',
      reading: { net: { value: '0.4', unit: 'kg' } },
      clarity: 'clear',
    },
  }),
  defineAct({
    act: readSlurry,
    schema: readSlurryRequest,
    group: 'Reclaim',
    summary: 'Read the density of a slurry',
    description:
      'Its density tells how much of a slurry is clay. With the whole basin it sets the books, and the difference is unexplained; without it nothing moves.',
    example: {
      basinVesselId: 'basin-1',
      slurry: { net: { value: '1480', unit: 'g' } },
      volume: { value: '1000', unit: 'ml' },
    },
  }),
]
