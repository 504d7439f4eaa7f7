import { causesBefore } from '../../../db/reports/said-before.ts'
import { traceRun, type RunTraced } from '../../../db/reports/runs.ts'
import { piecesLeft } from '../../../shared/pieces-left.ts'
import { SECONDS_COST_RULE_WORDS } from '../../../shared/seconds-cost.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { CountField } from '../fields.tsx'
import { SaidBeforeField, wordsSaid } from '../said-before.tsx'
import { saidOnly } from '../typed.ts'
import type { Voice } from '../voice.ts'

interface Grading {
  readonly run: RunTraced
  readonly pieces: number
  readonly causes: readonly string[]
}

/** Fired pots are looked at: firsts and seconds go on the shelf, wasters on the heap. */
export const gradePage: ActPage<Grading> = {
  path: '/kiln/grade/:runId',
  act: actCalled('grade'),
  here: 'kiln',
  press: 'Graded',
  async load(c) {
    const { db } = c.get('services')
    const studioId = c.get('studioId')
    const run = await traceRun(db, { studioId, runId: c.req.param('runId') ?? '' })
    const pieces = Number(run.isNow.find(({ place }) => place === 'glazed')?.pieces ?? '0')
    const causes = await causesBefore(db, { studioId, stages: ['glaze_firing'] })
    return { run, pieces, causes }
  },
  title: ({ run }) => `Grade: ${run.label}`,
  said: (typed, { run, pieces }) => {
    const seconds = typed.count('seconds') ?? 0
    const wasters = typed.count('wasters') ?? 0
    return saidOnly({
      runId: run.runId,
      firsts: typed.count('firsts') ?? piecesLeft(pieces, [seconds, wasters]),
      seconds,
      wasters,
      cause: wordsSaid(typed, 'cause'),
    })
  },
  fieldOf: { '/firsts': 'firsts', '/seconds': 'seconds', '/wasters': 'wasters', '/cause': 'cause' },
  next: () => '/kiln',
  Form: GradeForm,
}

/** How firsts and seconds share what they cost, as this studio has it. */
function secondsWords({ studio, share }: Voice): string {
  const { secondsCostRule: rule, secondsPriceFraction } = studio
  const fetches =
    rule === 'by_price' ? ` (${share(secondsPriceFraction, 0)} of a first’s here)` : ''
  return `In this studio ${SECONDS_COST_RULE_WORDS[rule]}${fetches}.`
}

function GradeForm({ data, typed, voice, faults }: ActFormProps<Grading>) {
  const { pieces, causes } = data
  const field = { typed, faults }
  if (pieces === 0) return <p>Nothing of this run waits to be graded.</p>
  return (
    <>
      <p class="hint">
        <strong>{pieces}</strong> came out of the glaze fire.
      </p>
      <p class="quiet">{voice.words(secondsWords(voice))}</p>
      <CountField {...field} name="seconds" label="Seconds" usual={0} />
      <CountField {...field} name="wasters" label={voice.words('Wasters')} usual={0} />
      <CountField
        {...field}
        name="firsts"
        label="Firsts"
        hint="Left empty, all the others are firsts."
      />
      <details class="more" open={wordsSaid(typed, 'cause') !== undefined}>
        <summary>{voice.words('Why the wasters are wasters')}</summary>
        <SaidBeforeField name="cause" label="Why" before={causes} {...field} />
      </details>
    </>
  )
}
