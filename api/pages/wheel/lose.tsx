import { causesBefore } from '../../../db/reports/said-before.ts'
import { LOSS_STAGES, type LossStage, type PotPlace } from '../../../shared/place.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField, CountField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { refuseMissing } from '../missing.ts'
import { SaidBeforeField, wordsSaid } from '../said-before.tsx'
import { saidOnly, type Typed } from '../typed.ts'
import { placesOf, runHere, type RunHere } from './run-here.ts'
import { ScrapVesselField, scrapVessels, type ScrapVessels } from './scrap-vessel.tsx'

interface Losing extends RunHere, ScrapVessels {
  readonly places: readonly PotPlace[]
  readonly stages: readonly LossStage[]
  readonly causes: readonly string[]
}

/** When a piece is lost, in a potter's words. */
const WORDS_OF_STAGE: Readonly<Record<LossStage, string>> = {
  wheel: 'On the wheel',
  leather_hard: 'Leather-hard',
  drying: 'Drying, or bone-dry',
  bisque_firing: 'In the bisque fire',
  glazing: 'Glazing',
  glaze_firing: 'In the glaze fire',
  handling: 'On the shelf',
}

const ALL_STAGES = Object.keys(LOSS_STAGES) as LossStage[]

/** Some pieces of a run did not make it. */
export const losePage: ActPage<Losing> = {
  path: '/wheel/run/:runId/lose',
  act: actCalled('lose'),
  here: 'wheel',
  press: 'Lost',
  async load(c) {
    const here = await runHere(c)
    const places = placesOf(here.run)
    const stages = ALL_STAGES.filter((stage) => places.includes(LOSS_STAGES[stage]))
    const studioId = c.get('studioId')
    const causes =
      stages.length === 0 ? [] : await causesBefore(c.get('services').db, { studioId, stages })
    return {
      ...here,
      ...(await scrapVessels(c, { kind: 'lose', bodyId: here.run.bodyId })),
      places,
      stages,
      causes,
    }
  },
  title: ({ run }) => `Lost: ${run.label}`,
  said: loseSaid,
  fieldOf: {
    '/pieces': 'pieces',
    '/stage': 'stage',
    '/cause': 'cause',
    '/vesselId': 'vesselId',
    '/blendBodyId': 'blendBodyId',
    '/reading': 'lost',
    '/grade': 'grade',
  },
  next: (_answer, { run }) => `/wheel/run/${run.runId}`,
  Form: LoseForm,
}

/** Fired pots are shards: they go into no bucket, and only finished ones have a grade. */
function loseSaid(typed: Typed, { run }: Losing): object {
  const stage = typed.text('stage') ?? refuseMissing('stage', 'When were they lost?')
  const place = LOSS_STAGES[stage as LossStage] as PotPlace | undefined
  return saidOnly({
    runId: run.runId,
    pieces: typed.count('pieces') ?? refuseMissing('pieces', 'How many?'),
    stage,
    cause: wordsSaid(typed, 'cause') ?? refuseMissing('cause', 'Why? A word or two will do.'),
    ...(place === 'greenware'
      ? {
          vesselId: typed.text('vesselId'),
          reading: typed.net('lost'),
          blendBodyId: typed.text('blendBodyId'),
        }
      : {}),
    grade: place === 'finished' ? (typed.text('grade') ?? 'first') : undefined,
  })
}

function LoseForm({ data, typed, voice, faults }: ActFormProps<Losing>) {
  const { stages, places, board, causes } = data
  const field = { typed, faults }
  const isUnturned = board?.stage === 'just_thrown'
  const usual = isUnturned ? 'wheel' : stages.includes('drying') ? 'drying' : stages[0]
  return (
    <>
      <CountField {...field} name="pieces" label="How many" usual={1} isNeeded />
      <ChoiceField
        {...field}
        name="stage"
        label="When"
        usual={usual}
        choices={stages.map((stage) => ({
          value: stage,
          name: voice.words(WORDS_OF_STAGE[stage]),
        }))}
      />
      <SaidBeforeField name="cause" label="Why" before={causes} {...field} />
      {places.includes('greenware') ? (
        <div class="if-green">
          <ScrapVesselField {...data} label="The clay went back into" {...field} voice={voice} />
          <details class="more" open={typed.text('lost') !== undefined}>
            <summary>They were weighed</summary>
            <MassField {...field} voice={voice} name="lost" label="The lost pieces weigh" />
          </details>
        </div>
      ) : null}
      {places.includes('finished') ? (
        <div class="if-finished">
          <ChoiceField
            {...field}
            name="grade"
            label="Which of the finished ones"
            usual="first"
            choices={[
              { value: 'first', name: 'Firsts' },
              { value: 'second', name: 'Seconds' },
            ]}
          />
        </div>
      ) : null}
    </>
  )
}
