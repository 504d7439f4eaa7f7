import { moistureOfBody, type MoistureRow } from '../../../db/reports/moisture.ts'
import { listRuns, type RunListed } from '../../../db/reports/runs.ts'
import type { WeighableThing } from '../../../db/reports/weigh-list.ts'
import { decimal } from '../../../shared/decimal.ts'
import type { ClayState } from '../../../shared/moisture.ts'
import { silicaCautions } from '../../../shared/silica.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { actCalled } from '../act-called.ts'
import { ChoiceField } from '../fields.tsx'
import { SCRAP_STATES, STATE_WORDS } from '../state-words.ts'
import { allBodies, allScales, type Body, type Scale } from '../things.ts'
import { saidOnly } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { OtherTare, ScaleFigures } from './scale-figures.tsx'
import { thingWeighed } from './thing-weighed.ts'

interface VesselWeighed {
  readonly vessel: WeighableThing
  readonly bodies: readonly Body[]
  readonly scales: readonly Scale[]
  readonly runs: readonly RunListed[]
  /** What the clay in it holds in each state. */
  readonly moisture: readonly MoistureRow[]
  readonly jurisdiction: Voice['studio']['jurisdiction']
}

const RUNS_OFFERED = 6

/** A vessel of scrap on the scale. */
export const weighVessel: ActPage<VesselWeighed> = {
  path: '/weigh/vessel/:vesselId',
  act: actCalled('weigh-scrap'),
  here: 'weigh',
  press: 'Weigh in',
  async load(c) {
    const { db } = c.get('services')
    const studioId = c.get('studioId')
    const vesselId = c.req.param('vesselId')
    const vessel = await thingWeighed(c, {
      isIt: ({ kind, id }) => kind === 'vessel' && id === vesselId,
      code: 'vessel_not_found',
      words: `There is no bucket '${String(vesselId)}' to weigh here.`,
    })
    const bodies = await allBodies(c)
    const bodyId = vessel.bodyId ?? bodies[0]?.bodyId
    const runs = await listRuns(db, { studioId, page: { limit: 50 } })
    return {
      vessel,
      bodies,
      scales: await allScales(c),
      runs: runs.items.filter(({ piecesHere }) => piecesHere !== '0').slice(0, RUNS_OFFERED),
      moisture: bodyId === undefined ? [] : await moistureOfBody(db, studioId, bodyId),
      jurisdiction: c.get('voice').studio.jurisdiction,
    }
  },
  title: ({ vessel }) => vessel.name,
  keeps: ({ vessel }) => vessel.name,
  said: (typed, { vessel, bodies }) =>
    saidOnly({
      vesselId: vessel.id,
      bodyId: typed.text('bodyId') ?? vessel.bodyId ?? bodies[0]?.bodyId,
      reading: typed.gross('gross', vessel.id),
      state: typed.text('state') ?? stateOf(vessel),
      runIds: typed.all('runIds').length === 0 ? undefined : typed.all('runIds'),
      blendBodyId: typed.text('blendBodyId'),
    }),
  fieldOf: {
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/reading/scaleId': 'scaleId',
    '/vesselId': 'gross',
    '/bodyId': 'bodyId',
    '/blendBodyId': 'blendBodyId',
    '/state': 'state',
    '/runIds': 'runIds',
  },
  cautions: ({ vessel, jurisdiction }) =>
    silicaCautions({
      handlesDryClay: stateOf(vessel) === 'air_dry',
      dryAct: undefined,
      waterContentWetBasis: undefined,
      dustThresholdWetBasis: undefined,
      jurisdiction,
    }),
  next: () => '/weigh',
  keysFor: 'gross',
  Form: ({ data, typed, voice, faults }) => (
    <ScaleFigures
      typed={typed}
      faults={faults}
      voice={voice}
      label="The scale shows"
      tareGrams={data.vessel.tareGrams ?? undefined}
      of={takenAs(data, (typed.text('state') ?? stateOf(data.vessel)) as ClayState, voice)}
    />
  ),
  After: (props) => (
    <>
      <WhatIsInIt {...props} />
      <OtherTare
        {...props}
        tareGrams={props.data.vessel.tareGrams ?? undefined}
        scales={props.data.scales}
      />
    </>
  ),
}

type Props = ActFormProps<VesselWeighed>

/** State, clay and where it came from: mostly as the last time. */
function WhatIsInIt({ data, typed, voice, faults }: Props) {
  const { vessel, bodies, runs, moisture } = data
  const field = { typed, faults }
  const blends = bodies.filter(({ isBlend }) => isBlend)
  const asksForBlend = faults?.all.some(({ field: name }) => name === 'blendBodyId') ?? false
  return (
    <>
      <ChoiceField
        {...field}
        name="state"
        label="What is in it"
        usual={stateOf(vessel)}
        choices={SCRAP_STATES.map((state) => {
          const figure = moisture.find((row) => row.state === state)
          return {
            value: state,
            name: voice.words(STATE_WORDS[state]),
            takenAs: takenAs(data, state, voice),
            hint: figure === undefined ? undefined : waterWords(figure, voice),
            water: figure && {
              content: figure.waterContentWetBasis,
              uncertainty: figure.standardUncertainty,
            },
          }
        })}
      />
      {bodies.length < 2 ? null : (
        <ChoiceField
          {...field}
          name="bodyId"
          label="Which clay"
          usual={vessel.bodyId ?? bodies[0]?.bodyId}
          choices={bodies.map(({ bodyId, name }) => ({ value: bodyId, name }))}
        />
      )}
      {asksForBlend ? (
        <ChoiceField
          {...field}
          name="blendBodyId"
          label="Two clays meet here. What do they become?"
          choices={blends.map(({ bodyId, name }) => ({ value: bodyId, name }))}
        />
      ) : null}
      {runs.length === 0 ? null : (
        <ChoiceField
          {...field}
          name="runIds"
          label="What is new in it came from"
          hint="Otherwise what is new in it counts as unexplained."
          isMany
          choices={runs.map(({ runId, label, thrownAt }) => ({
            value: runId,
            name: label,
            hint: voice.day(thrownAt),
          }))}
        />
      )}
    </>
  )
}

/** What the dry mass is reckoned with, in words beside it. */
function takenAs({ moisture }: VesselWeighed, state: ClayState, voice: Voice): string {
  const figure = moisture.find((row) => row.state === state)
  const water = figure === undefined ? '' : `: ${waterWords(figure, voice)}`
  return `Taken as ${voice.words(STATE_WORDS[state]).toLowerCase()}${water}. Change it below.`
}

function stateOf({ lastState }: WeighableThing) {
  return lastState ?? 'turnings'
}

function waterWords({ waterContentWetBasis, standing }: MoistureRow, voice: Voice): string {
  const share = voice.share(decimal(waterContentWetBasis), 0)
  return `${share} water${standing === 'assumed' ? ', assumed' : ''}`
}
