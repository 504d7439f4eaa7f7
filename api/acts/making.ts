import { z } from '@hono/zod-openapi'
import { joinClay } from '../../db/acts/join.ts'
import { losePieces } from '../../db/acts/lose.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { turnRun } from '../../db/acts/turn.ts'
import { weighRun } from '../../db/acts/weigh-run.ts'
import { CLAY_STATES } from '../../shared/moisture.ts'
import { GRADES, LOSS_STAGES, POT_PLACES, type LossStage } from '../../shared/place.ts'
import { blendBodyId, claySourceSchema, readingSchema, waterSchema } from '../reading-schemas.ts'
import { countOf, idText, labelText } from '../schemas.ts'
import { faultOfGrade, together, type FaultBetween } from '../together.ts'
import { circumstances, defineAct, type DefinedAct } from './define.ts'

const SOURCES_MAX = 50

const sources = z
  .array(claySourceSchema)
  .min(1)
  .max(SOURCES_MAX)
  .openapi({ description: 'The lots on the bench that the clay comes from.' })

const throwRequest = z
  .strictObject({
    formId: idText('The form.', 'mug'),
    runId: idText('An id for the run; made where none is given.', 'mugs-1').optional(),
    label: labelText('What the run is called.', 'Mugs of 14 March').optional(),
    from: sources,
    pieces: countOf(
      'How many pieces were begun; where every source is told in balls, at most their number (a lidded pot is two balls), and may be left out where each is one piece.',
    ).optional(),
    blendBodyId,
    ...circumstances,
  })
  .superRefine(together(faultOfPieces))
  .openapi('Throw')

interface PiecesText {
  readonly from: readonly { readonly balls?: number | undefined }[]
  readonly pieces?: number | undefined
}

function faultOfPieces({ from, pieces }: PiecesText): FaultBetween | undefined {
  const path = ['pieces']
  const isToldInBalls = from.every((source) => source.balls !== undefined)
  if (!isToldInBalls) {
    const message = 'How many pieces were thrown? Only balls tell it by themselves.'
    return pieces === undefined ? { message, path } : undefined
  }
  const balls = from.reduce((sum, source) => sum + (source.balls ?? 0), 0)
  if (pieces === undefined || pieces <= balls) return undefined
  const message = `${String(balls)} balls were cut, and no piece is made of less than one; this says ${String(pieces)}. Leave it out where each is one piece, or tell the clay by a reading.`
  return { message, path }
}

const joinRequest = z
  .strictObject({
    runId: idText('The run.', 'mugs-1'),
    from: sources,
    offCuts: z
      .strictObject({
        reading: readingSchema,
        water: waterSchema.optional(),
        vesselId: idText('The vessel that they went into.', 'bucket-1'),
        blendBodyId,
      })
      .optional()
      .openapi({ description: 'What of that clay was cut off again.' }),
    ...circumstances,
  })
  .openapi('Join')

const turnRequest = z
  .strictObject({
    runId: idText('The run.', 'mugs-1'),
    vesselId: idText('The vessel that the turnings went into.', 'bucket-1'),
    turnings: readingSchema.optional().openapi({ description: 'The turnings as weighed.' }),
    before: readingSchema.optional().openapi({ description: 'The pots before turning.' }),
    after: readingSchema.optional().openapi({ description: 'The same pots after it.' }),
    state: z
      .enum(CLAY_STATES)
      .optional()
      .openapi({ description: 'How wet the turnings are; turnings where it is not said.' }),
    water: waterSchema.optional(),
    blendBodyId,
    ...circumstances,
  })
  .superRefine(together(faultOfTurnings))
  .openapi('Turn')

type TurningsText = Partial<Record<'turnings' | 'before' | 'after', unknown>>

function faultOfTurnings(said: TurningsText): FaultBetween | undefined {
  const { turnings, before, after } = said
  const hasPots = before !== undefined || after !== undefined
  if ((turnings !== undefined) === hasPots) {
    return { message: 'Give the turnings as weighed, or the pots before and after; not both.' }
  }
  if (!hasPots) return undefined
  if (before === undefined) return { message: 'What did the pots weigh before?', path: ['before'] }
  if (after === undefined) return { message: 'What did the pots weigh after?', path: ['after'] }
  return undefined
}

const stages = Object.keys(LOSS_STAGES) as LossStage[]

const loseRequest = z
  .strictObject({
    runId: idText('The run.', 'mugs-1'),
    pieces: countOf('How many pieces were lost.'),
    stage: z.enum(stages).openapi({
      description:
        'When: wheel, leather_hard and drying are before bisque, the others after it; handling is of finished pots.',
      example: 'drying',
    }),
    cause: labelText('Why.', 'cracked at the handle'),
    vesselId: idText(
      'Before bisque: the vessel that the clay went back into.',
      'bucket-1',
    ).optional(),
    reading: readingSchema
      .optional()
      .openapi({ description: 'Before bisque: the lost pieces, weighed.' }),
    water: waterSchema.optional(),
    blendBodyId,
    grade: z.enum(GRADES).optional().openapi({ description: 'Of finished pots: which.' }),
    ...circumstances,
  })
  .superRefine(
    together((said) => {
      const place = LOSS_STAGES[said.stage]
      if (place === 'greenware' && said.vesselId === undefined) {
        const message = 'Before bisque the clay goes back into a vessel: which?'
        return { message, path: ['vesselId'] }
      }
      return faultOfGrade({ isFinished: place === 'finished', grade: said.grade })
    }),
  )
  .openapi('Lose')

const weighRunRequest = z
  .strictObject({
    runId: idText('The run.', 'mugs-1'),
    place: z.enum(POT_PLACES).openapi({ description: 'Where the pots are.', example: 'greenware' }),
    grade: z.enum(GRADES).optional().openapi({ description: 'Of finished pots: which.' }),
    reading: readingSchema.openapi({ description: 'All its pieces at that place, together.' }),
    water: waterSchema
      .optional()
      .openapi({ description: 'Their water, where it is known better than their dry mass.' }),
    ...circumstances,
  })
  .superRefine(
    together(({ place, grade }) => faultOfGrade({ isFinished: place === 'finished', grade })),
  )
  .openapi('WeighRun')

const throwing = defineAct({
  act: throwRun,
  schema: throwRequest,
  group: 'Making',
  summary: 'Throw a run',
  description: 'Clay from the bench becomes a run of pieces of one form.',
  example: {
    formId: 'mug',
    runId: 'mugs-1',
    from: [{ lotId: 'opened-1', balls: 24, ballMass: { value: '420', unit: 'g' } }],
    by: 'Ines',
  },
})

const joining = defineAct({
  act: joinClay,
  schema: joinRequest,
  group: 'Making',
  summary: 'Join clay on',
  description: 'Handles, spouts and lids are joined on; what was cut off goes back to a vessel.',
  example: {
    runId: 'mugs-1',
    from: [{ lotId: 'opened-1', balls: 24, ballMass: { value: '45', unit: 'g' } }],
    offCuts: { reading: { net: { value: '160', unit: 'g' } }, vesselId: 'bucket-1' },
  },
})

const turning = defineAct({
  act: turnRun,
  schema: turnRequest,
  group: 'Making',
  summary: 'Turn a run',
  description:
    'What is turned off goes into a vessel of scrap and takes its cost along. Give the turnings, or the pots before and after.',
  example: {
    runId: 'mugs-1',
    vesselId: 'bucket-1',
    turnings: { gross: { value: '2.86', unit: 'kg' }, inVesselId: 'bucket-1' },
  },
})

const losing = defineAct({
  act: losePieces,
  schema: loseRequest,
  group: 'Making',
  summary: 'Lose pieces',
  description:
    'Before bisque the clay goes back into a vessel with its cost. After it they are shards for the waste, and their cost stays with the survivors of their run, as far as such losses are usual for the form; what is beyond that is lost by name.',
  example: {
    runId: 'mugs-1',
    pieces: 2,
    stage: 'drying',
    cause: 'cracked at the handle',
    vesselId: 'bucket-1',
  },
})

const weighing = defineAct({
  act: weighRun,
  schema: weighRunRequest,
  group: 'Making',
  summary: 'Weigh the pots of a run',
  description:
    'Without water their dry mass stands and the reading tells their water; with it the reading tells their dry mass, and the difference is unexplained.',
  example: {
    runId: 'mugs-1',
    place: 'greenware',
    reading: { net: { value: '9.15', unit: 'kg' } },
  },
})

export const MAKING: readonly DefinedAct[] = [throwing, joining, turning, losing, weighing]
