import { moistureOfBody } from '../../../db/reports/moisture.ts'
import { turningReport, type TurningReport } from '../../../db/reports/turning.ts'
import { decimal } from '../../../shared/decimal.ts'
import { turningsByHabit } from '../../../shared/turning-habit.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { allForms, allScales, allVessels, type Form, type Scale, type Vessel } from '../things.ts'
import { saidOnly } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { AmountFields, amountSaid, potsSaid, wayOf, WhichScale } from './amount.tsx'
import { runHere, type RunHere } from './run-here.ts'
import { ScrapVesselField, scrapVessels, type ScrapVessels } from './scrap-vessel.tsx'
import { habitOf } from './turned-off.tsx'

interface Turning extends RunHere, ScrapVessels {
  readonly turning: TurningReport
  readonly form: Form | undefined
  readonly waterOfTurnings: string
  readonly scales: readonly Scale[]
  readonly boards: readonly Vessel[]
}

/** A run is turned: what came off it goes into a bucket. */
export const turnPage: ActPage<Turning> = {
  path: '/wheel/run/:runId/turn',
  act: actCalled('turn'),
  here: 'wheel',
  press: 'Weigh in',
  async load(c) {
    const { db } = c.get('services')
    const studioId = c.get('studioId')
    const here = await runHere(c)
    const { formId, bodyId } = here.run
    const figures = await moistureOfBody(db, studioId, bodyId)
    const figure = figures.find(({ state }) => state === 'turnings')
    return {
      ...here,
      ...(await scrapVessels(c, { kind: 'turn', bodyId })),
      turning: await turningReport(db, { studioId, formId }),
      form: (await allForms(c)).find((form) => form.formId === formId),
      waterOfTurnings: figure?.waterContentWetBasis ?? '0',
      scales: await allScales(c),
      boards: (await allVessels(c)).filter(({ kind }) => kind === 'board'),
    }
  },
  title: ({ run }, voice) => `${voice.words('Turned')}: ${run.label}`,
  said: (typed, { run }) =>
    saidOnly({
      runId: run.runId,
      vesselId: typed.text('vesselId'),
      ...(wayOf(typed) === 'pots' ? potsSaid(typed) : { turnings: amountSaid(typed) }),
      blendBodyId: typed.text('blendBodyId'),
    }),
  fieldOf: {
    '/turnings': 'amount',
    '/turnings/tare': 'bucketBefore',
    '/turnings/inVesselId': 'vesselId',
    '/turnings/scaleId': 'scaleId',
    '/before': 'potsBefore',
    '/after': 'potsAfter',
    '/before/inVesselId': 'boardId',
    '/vesselId': 'vesselId',
    '/blendBodyId': 'blendBodyId',
  },
  next: (_answer, { run }) => `/wheel/run/${run.runId}`,
  keysFor: 'amount',
  Form: ({ data, typed, voice, faults }) => (
    <>
      <Habit data={data} voice={voice} />
      <AmountFields
        what="turnings"
        boards={data.boards}
        typed={typed}
        faults={faults}
        voice={voice}
      />
      <ScrapVesselField
        {...data}
        label={voice.words('The turnings went into')}
        typed={typed}
        faults={faults}
        voice={voice}
      />
    </>
  ),
  After: ({ data, typed, faults }: ActFormProps<Turning>) => (
    <WhichScale scales={data.scales} typed={typed} faults={faults} />
  ),
}

/** What comes off by habit, so that today's figure can be held against it before it is pressed. */
function Habit({ data, voice }: { data: Turning; voice: Voice }) {
  const { board, turning, form } = data
  if (board === undefined || board.isTurned) return null
  const grams = (turnedOffFraction: string) =>
    voice.mass(
      turningsByHabit({
        dryGrams: decimal(board.dryGrams),
        turnedOffFraction: decimal(turnedOffFraction),
        waterContentWetBasis: decimal(data.waterOfTurnings),
      }),
    )
  const habit = habitOf(turning)
  if (habit !== undefined) {
    const { lowerLimitFraction, upperLimitFraction } = habit
    const lowest = lowerLimitFraction.lessThan(0) ? '0' : lowerLimitFraction.toFixed()
    return (
      <p class="hint habit">
        By habit {voice.share(lowest)} to {voice.share(upperLimitFraction)} comes off:{' '}
        <strong>
          {grams(lowest)} to {grams(upperLimitFraction.toFixed())}
        </strong>{' '}
        as it falls.
      </p>
    )
  }
  const usual = form?.turnedOffFraction ?? null
  if (usual === null) return null
  return (
    <p class="hint habit">
      Of this form {voice.share(usual)} comes off by your word: about{' '}
      <strong>{grams(usual)}</strong> as it falls.
    </p>
  )
}
