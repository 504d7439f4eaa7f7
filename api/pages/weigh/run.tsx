import type { WeighableThing } from '../../../db/reports/weigh-list.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField } from '../fields.tsx'
import { allScales, allVessels, type Scale, type Vessel } from '../things.ts'
import { OtherTare, ScaleFigures } from './scale-figures.tsx'
import { thingWeighed } from './thing-weighed.ts'

interface RunWeighed {
  readonly run: WeighableThing
  readonly scales: readonly Scale[]
  readonly boards: readonly Vessel[]
}

/** The pots of a run on their boards. */
export const weighRun: ActPage<RunWeighed> = {
  path: '/weigh/run/:runId',
  act: actCalled('weigh-run'),
  here: 'weigh',
  press: 'Weigh in',
  async load(c) {
    const runId = c.req.param('runId')
    const run = await thingWeighed(c, {
      isIt: ({ kind, id }) => kind === 'run' && id === runId,
      code: 'run_not_found',
      words: 'No unfired pots of this run are here.',
    })
    const boards = (await allVessels(c)).filter(({ kind }) => kind === 'board')
    return { run, scales: await allScales(c), boards }
  },
  title: ({ run }) => run.name,
  said: (typed, { run }) => ({
    runId: run.id,
    place: 'greenware',
    reading: typed.gross('gross', typed.text('boardId')),
  }),
  fieldOf: {
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/reading/scaleId': 'scaleId',
    '/reading/inVesselId': 'boardId',
    '/runId': 'gross',
  },
  next: () => '/weigh',
  keysFor: 'gross',
  Form: ({ data, typed, voice, faults }) => (
    <ScaleFigures
      typed={typed}
      faults={faults}
      voice={voice}
      label="The scale shows"
      knownDryGrams={data.run.dryGrams}
      of={`All ${data.run.pieces} pieces together.`}
    />
  ),
  After: (props) => (
    <>
      <Boards {...props} />
      <OtherTare {...props} scales={props.data.scales} />
    </>
  ),
}

function Boards({ data, typed, voice, faults }: ActFormProps<RunWeighed>) {
  if (data.boards.length === 0) return null
  return (
    <ChoiceField
      typed={typed}
      faults={faults}
      name="boardId"
      label="They stand on"
      usual=""
      choices={[
        { value: '', name: 'No board, or the scale was set to zero with it' },
        ...data.boards.map(({ vesselId, name, tareGrams }) => ({
          value: vesselId,
          name,
          hint: voice.mass(tareGrams),
          tareGrams,
        })),
      ]}
    />
  )
}
