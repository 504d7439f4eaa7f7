import { boardsReport, type BoardOfPots } from '../../../db/reports/boards.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField } from '../fields.tsx'
import { refuseMissing } from '../missing.ts'
import { STATE_WORDS } from '../state-words.ts'
import { allScales, type Scale } from '../things.ts'
import { saidOnly } from '../typed.ts'
import { AmountFields, amountSaid, WhichScale } from './amount.tsx'
import { ScrapVesselField, scrapVessels, type ScrapVessels } from './scrap-vessel.tsx'

interface Slops extends ScrapVessels {
  readonly boards: readonly BoardOfPots[]
  readonly scales: readonly Scale[]
}

const SLOPS_STATES = ['slops', 'off_cuts', 'throwing_water'] as const

/** Slops of one or several runs, off the wheel into a bucket. */
export const slopsPage: ActPage<Slops> = {
  path: '/wheel/slops',
  act: actCalled('collect-slops'),
  here: 'wheel',
  press: 'Weigh in',
  async load(c) {
    const { db, now } = c.get('services')
    const boards = await boardsReport(db, { studioId: c.get('studioId'), now: now() })
    const runId = c.req.query('runIds') ?? boards[0]?.runId
    const bodyId = boards.find((board) => board.runId === runId)?.bodyId
    return {
      ...(await scrapVessels(c, { kind: 'collect_slops', bodyId })),
      boards: boards.toSorted((one, other) => other.thrownAt.localeCompare(one.thrownAt)),
      scales: await allScales(c),
    }
  },
  title: () => 'Slops',
  said: (typed, { boards }) => {
    const runIds = typed.all('runIds')
    const only = boards.length === 1 ? boards.map(({ runId }) => runId) : []
    if (runIds.length + only.length === 0) refuseMissing('runIds', 'Of which pots?')
    return saidOnly({
      runIds: runIds.length === 0 ? only : runIds,
      vesselId: typed.text('vesselId'),
      state: typed.text('state') ?? 'slops',
      reading: amountSaid(typed),
      blendBodyId: typed.text('blendBodyId'),
    })
  },
  fieldOf: {
    '/runIds': 'runIds',
    '/state': 'state',
    '/reading': 'amount',
    '/reading/tare': 'bucketBefore',
    '/reading/inVesselId': 'vesselId',
    '/reading/scaleId': 'scaleId',
    '/vesselId': 'vesselId',
    '/blendBodyId': 'blendBodyId',
  },
  next: (_answer, { boards }) =>
    boards.length === 1 ? `/wheel/run/${boards[0]?.runId}` : '/wheel',
  keysFor: 'amount',
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, faults }
    return (
      <>
        {data.boards.length === 0 ? <p>No unfired pots are here that slops could be of.</p> : null}
        <ChoiceField
          {...field}
          name="runIds"
          label="Of which pots"
          hint="Several share them by their mass."
          usual={data.boards.length === 1 ? data.boards[0]?.runId : undefined}
          isMany
          choices={data.boards.map(({ runId, label, thrownAt }) => ({
            value: runId,
            name: label,
            hint: voice.day(thrownAt),
          }))}
        />
        <ChoiceField
          {...field}
          name="state"
          label="What it is"
          usual="slops"
          choices={SLOPS_STATES.map((state) => ({
            value: state,
            name: voice.words(STATE_WORDS[state]),
          }))}
        />
        <AmountFields what="slops" {...field} voice={voice} />
        <ScrapVesselField {...data} label="They went into" {...field} voice={voice} />
      </>
    )
  },
  After: ({ data, typed, faults }) => (
    <WhichScale scales={data.scales} typed={typed} faults={faults} />
  ),
}
