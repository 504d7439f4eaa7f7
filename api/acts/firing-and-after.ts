import { z } from '@hono/zod-openapi'
import { fireEmpty, WHY_EMPTY } from '../../db/acts/fire-empty.ts'
import { bisqueFire, glazeFire } from '../../db/acts/fire.ts'
import { gradeRun } from '../../db/acts/grade.ts'
import { breakInShop, giveAway, keepPieces } from '../../db/acts/part-with.ts'
import { sell } from '../../db/acts/sell.ts'
import { GRADES } from '../../shared/place.ts'
import { moneyText } from '../decimal-text.ts'
import { energyFields, firingSchema } from '../firing-schemas.ts'
import { positiveMassSchema, readingSchema } from '../reading-schemas.ts'
import { countOf, idText, labelText } from '../schemas.ts'
import { faultOfOneWay, together } from '../together.ts'
import { circumstances, defineAct, type DefinedAct } from './define.ts'

const RUNS_MAX = 50
const PACKING_MAX = 20

const load = {
  runId: idText('The run.', 'mugs-1'),
  pieces: countOf('How many of it were in the kiln; all that were ready otherwise.').optional(),
}

const bisqueRequest = z
  .strictObject({
    runs: eachOnce(
      z
        .strictObject({
          ...load,
          reading: readingSchema
            .optional()
            .openapi({ description: 'What the fired pieces weigh together.' }),
        })
        .openapi('BisqueLoad'),
    ),
    firing: firingSchema.optional(),
    ...circumstances,
  })
  .openapi('Bisque')

const glazeFireRequest = z
  .strictObject({
    runs: eachOnce(z.strictObject(load).openapi('GlazeLoad')),
    firing: firingSchema.optional(),
    ...circumstances,
  })
  .openapi('GlazeFire')

const fireEmptyRequest = z
  .strictObject({
    kilnId: idText('The kiln.', 'top-loader'),
    why: z.enum(WHY_EMPTY).openapi({
      description:
        'Why it was hot with no pots in it: candling or standby (held low: no wear is charged), new_elements, test, other (it fired: its wear is charged).',
      example: 'new_elements',
    }),
    ...energyFields,
    ...circumstances,
  })
  .openapi('FireEmpty')

function eachOnce<Load extends { readonly runId: string }>(one: z.ZodType<Load>) {
  return z
    .array(one)
    .min(1)
    .max(RUNS_MAX)
    .refine((runs) => new Set(runs.map((run) => run.runId)).size === runs.length, {
      error: 'Name each run once.',
    })
    .openapi({ description: 'The runs in the kiln.' })
}

const gradeRequest = z
  .strictObject({
    runId: idText('The run.', 'mugs-1'),
    firsts: countOf('How many are firsts.', { atLeast: 0 }),
    seconds: countOf('How many are seconds.', { atLeast: 0 }),
    wasters: countOf('How many are wasters.', { atLeast: 0 }),
    cause: labelText('Why the wasters are wasters.', 'glaze ran').optional(),
    ...circumstances,
  })
  .superRefine(
    together((said) => {
      if (said.firsts + said.seconds + said.wasters > 0) return undefined
      const message = 'Something is graded: firsts, seconds and wasters cannot all be 0.'
      return { message, path: ['firsts'] }
    }),
  )
  .openapi('Grade')

const finished = {
  formId: idText('The form.', 'mug'),
  grade: z.enum(GRADES).openapi({ description: 'first or second.', example: 'first' }),
  pieces: countOf('How many.'),
  runId: idText(
    'The run they are of; the oldest on the shelf where it is not said.',
    'mugs-1',
  ).optional(),
}

const packedIn = z
  .strictObject({
    materialId: idText('The packaging.', 'mug-box'),
    pieces: countOf('How many, of what is counted.').optional(),
    mass: positiveMassSchema
      .optional()
      .openapi({ description: 'How much, of what is kept by mass.' }),
  })
  .superRefine(together((said) => faultOfOneWay(said, ['pieces', 'mass'])))
  .openapi('PackedIn')

const sellRequest = z
  .strictObject({
    ...finished,
    priceEach: moneyText('What was paid for each, in the studio’s currency.'),
    channel: labelText('Where: the shop, a fair, a gallery.', 'online shop'),
    packing: z
      .union([z.literal('as_usual'), z.array(packedIn).min(1).max(PACKING_MAX)], {
        error: 'Say as_usual, or a list of what it was packed in.',
      })
      .optional()
      .openapi({
        description:
          'What it went out of the door in: as_usual (the form’s packing, times the pieces), or a list. Where the form has no packing, as_usual is refused. Where it is not said, none leaves the shelf.',
        example: 'as_usual',
      }),
    ...circumstances,
  })
  .openapi('Sell')

const partWithRequest = z
  .strictObject({
    ...finished,
    reason: labelText('Why.', 'wedding gift').optional(),
    ...circumstances,
  })
  .openapi('PartWith')

const group = 'Firing and after'
const exampleFiring = {
  runs: [{ runId: 'mugs-1', pieces: 22 }],
  firing: {
    kilnId: 'top-loader',
    meter: { before: '20418', after: '20512' },
    pricePerKilowattHour: '0.28',
  },
}

const fires = [
  defineAct({
    act: bisqueFire,
    schema: bisqueRequest,
    group,
    summary: 'Bisque-fire runs',
    description:
      'Greenware becomes bisque. The fire takes the water and the loss on ignition; the cost stays with the pots. Where firing is told, its energy and its wear are shared out over the pots, as layers of their cost; its money comes from outside. What broke in the kiln is lost after.',
    example: exampleFiring,
  }),
  defineAct({
    act: glazeFire,
    schema: glazeFireRequest,
    group,
    summary: 'Glaze-fire runs',
    description:
      'Bisque becomes glaze-fired ware, which waits to be graded. Where firing is told, its energy and its wear are shared out over the pots, as layers of their cost. The coat of glaze loses its loss on ignition, as its recipe says. It takes no reading: a glazed pot weighs its clay and its glaze together, and neither alone, so a reading of glazed pots moves nothing.',
    example: exampleFiring,
  }),
  defineAct({
    act: fireEmpty,
    schema: fireEmptyRequest,
    group,
    summary: 'Fire a kiln empty',
    description:
      'A kiln is hot with no pots in it: for new elements, on standby, as a test. No pot bears it; its energy goes to the place idle, and its wear where it truly fired: candling and standby wear nothing. Where only hours are said, a kiln that is candled or on standby is taken to draw its rated power for 0.15 of them, and one that fired for 0.50 of them, as in a bisque.',
    example: {
      kilnId: 'top-loader',
      why: 'new_elements',
      kilowattHours: '12',
      pricePerKilowattHour: '0.28',
    },
  }),
  defineAct({
    act: gradeRun,
    schema: gradeRequest,
    group,
    summary: 'Grade a run',
    description:
      'Firsts and seconds go on the shelf. Wasters leave their cost to them, as far as so many are usual for the form; what is beyond the usual stands at the place abnormal. Seconds cost like firsts, or less, as the studio says.',
    example: { runId: 'mugs-1', firsts: 19, seconds: 2, wasters: 1, cause: 'glaze ran' },
  }),
]

const partings = [
  defineAct({
    act: sell,
    schema: sellRequest,
    group,
    summary: 'Sell pots',
    description: 'Pots go out of the door for money, and what they cost goes with them.',
    example: {
      formId: 'mug',
      grade: 'first',
      pieces: 4,
      priceEach: '24.00',
      channel: 'online shop',
    },
  }),
  defineAct({
    act: giveAway,
    schema: partWithRequest,
    group,
    summary: 'Give pots away',
    description: 'Pots go out of the door without money.',
    example: { formId: 'mug', grade: 'first', pieces: 1, reason: 'wedding gift' },
  }),
  defineAct({
    act: keepPieces,
    schema: partWithRequest,
    group,
    summary: 'Keep pots',
    description: 'For the potter’s own kitchen, or as samples.',
    example: { formId: 'mug', grade: 'second', pieces: 1, reason: 'studio kitchen' },
  }),
  defineAct({
    act: breakInShop,
    schema: partWithRequest,
    group,
    summary: 'Break pots in the shop',
    description: 'They were made already: their cost is a loss of the shop.',
    example: { formId: 'mug', grade: 'first', pieces: 1, reason: 'fell off the shelf' },
  }),
]

export const FIRING_AND_AFTER: readonly DefinedAct[] = [...fires, ...partings]
