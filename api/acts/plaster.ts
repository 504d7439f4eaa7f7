import { z } from '@hono/zod-openapi'
import { lift } from '../../db/acts/lift.ts'
import { moveLoad } from '../../db/acts/move-load.ts'
import { pour } from '../../db/acts/pour.ts'
import { weighOnPlaster } from '../../db/acts/weigh-on-plaster.ts'
import { decimalText } from '../decimal-text.ts'
import { readingSchema, waterSchema } from '../reading-schemas.ts'
import { idText, labelText } from '../schemas.ts'
import { faultOfGoal, together, type FaultBetween } from '../together.ts'
import { circumstances, defineAct, type DefinedAct } from './define.ts'
import { minutesTold, wayTold } from './work-told.ts'

const LOADS_MAX = 50

const pourRequest = z
  .strictObject({
    basinVesselId: idText('The basin.', 'basin-1'),
    loads: z
      .array(
        z
          .strictObject({
            batId: idText('The plaster bat.', 'bat-1'),
            lotId: idText('An id for the load; made where none is given.', 'load-1').optional(),
            reading: readingSchema.openapi({ description: 'The slurry on that bat.' }),
            thicknessMillimetres: decimalText(
              'How thick it lies, mm; worked out where it is not said and the bat’s length and width are known.',
              { above: '0', atMost: '1000' },
            )
              .openapi({ example: '30' })
              .optional(),
          })
          .openapi('Load'),
      )
      .min(1)
      .max(LOADS_MAX)
      .refine((loads) => new Set(loads.map((load) => load.batId)).size === loads.length, {
        error: 'Name each bat once: a bat carries one load.',
      })
      .openapi({ description: 'What was poured on each bat; each becomes a lot of its own.' }),
    water: waterSchema
      .optional()
      .openapi({ description: 'The water of the slurry; the basin’s own by the books otherwise.' }),
    ...minutesTold,
    ...circumstances,
  })
  .openapi('Pour')

const batAlone = readingSchema.openapi({
  description: 'The bat alone, weighed while the slab was off it: what it has drunk.',
})

/** A bat under its load is not alone. */
function faultOfBat(said: { withPlaster: boolean; bat?: unknown }): FaultBetween | undefined {
  if (!said.withPlaster || said.bat === undefined) return undefined
  const message =
    'The reading is of load and bat together. Lift the slab, weigh it alone and the bat alone.'
  return { message, path: ['bat'] }
}

const weighOnPlasterRequest = z
  .strictObject({
    lotId: idText('The load.', 'load-1'),
    reading: readingSchema.openapi({ description: 'The load, or load and bat together.' }),
    withPlaster: z.boolean().openapi({
      description:
        'true where the bat was weighed with it: such a reading tells nothing of water lost, because the plaster drinks it.',
      example: false,
    }),
    bat: batAlone.optional(),
    turned: z
      .boolean()
      .openapi({ description: 'true where the slab was turned over.', example: true })
      .optional(),
    ...circumstances,
  })
  .superRefine(together(faultOfBat))
  .openapi('WeighOnPlaster')

const moveLoadRequest = z
  .strictObject({
    lotId: idText('The load.', 'load-1'),
    batId: idText('The bat that it is laid on: another one, dry and empty.', 'bat-2'),
    newLotId: idText(
      'An id for the load that it becomes; made where none is given.',
      'load-2',
    ).optional(),
    reading: readingSchema
      .optional()
      .openapi({ description: 'The slab, weighed alone: its drying is told from that on.' }),
    bat: batAlone.optional(),
    ...minutesTold,
    ...circumstances,
  })
  .openapi('MoveLoad')

const liftRequest = z
  .strictObject({
    lotId: idText('The load.', 'load-1'),
    reading: readingSchema.optional().openapi({ description: 'The slab, weighed alone.' }),
    bat: batAlone.optional(),
    scrapings: z
      .strictObject({ reading: readingSchema, water: waterSchema.optional() })
      .optional()
      .openapi({ description: 'What was scraped off the bat and thrown away.' }),
    intoLotId: idText('The lot on the bench that it joins.', 'reclaimed-1').optional(),
    newLotId: idText('An id for the reclaimed lot.', 'reclaimed-1').optional(),
    label: labelText('What the reclaimed lot is called.', 'Reclaimed, week 11').optional(),
    ...wayTold,
    ...circumstances,
  })
  .superRefine(together(faultOfGoal))
  .openapi('Lift')

export const PLASTER: readonly DefinedAct[] = [
  defineAct({
    act: pour,
    schema: pourRequest,
    group: 'Reclaim',
    summary: 'Pour slurry on plaster',
    description: 'Slurry is poured from a basin onto bats; each bat’s load is a lot of its own.',
    example: {
      basinVesselId: 'basin-1',
      loads: [{ batId: 'bat-1', lotId: 'load-1', reading: { net: { value: '5.2', unit: 'kg' } } }],
    },
  }),
  defineAct({
    act: weighOnPlaster,
    schema: weighOnPlasterRequest,
    group: 'Reclaim',
    summary: 'Weigh a load on plaster',
    description:
      'Weighed alone, a load tells its water: its dry clay cannot leave it. GET /v1/reports/plaster says when it will be ready.',
    example: {
      lotId: 'load-1',
      reading: { net: { value: '3.9', unit: 'kg' } },
      withPlaster: false,
      bat: { net: { value: '9.95', unit: 'kg' } },
      turned: true,
    },
  }),
  defineAct({
    act: moveLoad,
    schema: moveLoadRequest,
    group: 'Reclaim',
    summary: 'Move a load to another bat',
    description:
      'A slab is lifted off its bat and laid on a dry one. There it is a load of its own, whose drying begins anew.',
    example: {
      lotId: 'load-1',
      batId: 'bat-2',
      newLotId: 'load-2',
      reading: { net: { value: '3.4', unit: 'kg' } },
      bat: { net: { value: '10.1', unit: 'kg' } },
    },
  }),
  defineAct({
    act: lift,
    schema: liftRequest,
    group: 'Reclaim',
    summary: 'Lift a load',
    description: 'A load is lifted off its bat and is clay on the bench again.',
    example: {
      lotId: 'load-1',
      reading: { net: { value: '2.6', unit: 'kg' } },
      newLotId: 'reclaimed-1',
      minutes: '25',
      way: 'by_hand',
    },
  }),
]
