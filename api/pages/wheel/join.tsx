import { throwingChoices, type ClayOnBench } from '../../../db/reports/throwing.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { MassField } from '../mass-field.tsx'
import { saidOnly, type Typed } from '../typed.ts'
import { FIELDS_OF_SOURCES, SourceFields, sourcesSaid } from './clay-source.tsx'
import { runHere, type RunHere } from './run-here.ts'
import { ScrapVesselField, scrapVessels, type ScrapVessels } from './scrap-vessel.tsx'

interface Joining extends RunHere, ScrapVessels {
  /** Those of its own clay first. */
  readonly clays: readonly ClayOnBench[]
}

/** Handles, spouts and lids are joined on; what was cut off again goes into a bucket. */
export const joinPage: ActPage<Joining> = {
  path: '/wheel/run/:runId/join',
  act: actCalled('join'),
  here: 'wheel',
  press: 'Joined on',
  async load(c) {
    const here = await runHere(c)
    const { bodyId } = here.run
    const { clays } = await throwingChoices(c.get('services').db, c.get('studioId'))
    const own = clays.filter((clay) => clay.bodyId === bodyId)
    const others = clays.filter((clay) => clay.bodyId !== bodyId)
    return {
      ...here,
      ...(await scrapVessels(c, { kind: 'join', bodyId })),
      clays: [...own, ...others],
    }
  },
  title: ({ run }) => `Joined on: ${run.label}`,
  said: (typed, { run }) =>
    saidOnly({ runId: run.runId, from: sourcesSaid(typed, ['']), offCuts: offCutsSaid(typed) }),
  fieldOf: {
    ...FIELDS_OF_SOURCES,
    '/from': 'lotId',
    '/runId': 'lotId',
    '/offCuts': 'offCuts',
    '/offCuts/vesselId': 'vesselId',
    '/offCuts/blendBodyId': 'blendBodyId',
  },
  next: (_answer, { run }) => `/wheel/run/${run.runId}`,
  Form: JoinForm,
}

/** Nothing where no off-cuts were weighed. */
function offCutsSaid(typed: Typed): object | undefined {
  const reading = typed.net('offCuts')
  if (reading === undefined) return undefined
  return saidOnly({
    reading,
    vesselId: typed.text('vesselId'),
    blendBodyId: typed.text('blendBodyId'),
  })
}

function JoinForm({ data, typed, voice, faults }: ActFormProps<Joining>) {
  const { clays, board } = data
  const field = { typed, faults, voice }
  if (clays.length === 0) {
    return (
      <p>
        No open clay is on the bench. <a href="/books/open-bag">Open a bag</a> first.
      </p>
    )
  }
  const isSaid = typed.text('offCuts') ?? typed.text('offCutsPounds') ?? typed.text('offCutsOunces')
  return (
    <>
      <p class="hint">One ball for each piece: a handle, a spout, a lid’s knob.</p>
      <SourceFields
        of=""
        clays={clays}
        usual={{
          lotId: clays[0]?.lotId,
          balls: board === undefined ? undefined : Number(board.pieces),
        }}
        {...field}
      />
      <details class="more" open={isSaid !== undefined || faults !== undefined}>
        <summary>Some was cut off again</summary>
        <MassField {...field} name="offCuts" label="The off-cuts weigh" unit="g" />
        <ScrapVesselField {...data} label="They went into" {...field} />
      </details>
    </>
  )
}
