import { findKilnLoad, type KilnLoadView, type RunInLoad } from '../../../db/kiln-loads.ts'
import { unloadKiln, type UnloadSaid } from '../../../db/kiln-unloading.ts'
import type { KilnsKnown } from '../../../db/reports/kilns.ts'
import { causesBefore } from '../../../db/reports/said-before.ts'
import { FIRE_OF_KIND } from '../../../shared/kiln-load.ts'
import { Refusal } from '../../../shared/refusal.ts'
import type { Jurisdiction } from '../../../shared/silica.ts'
import { unloadRequest } from '../../kiln-schemas.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { CountField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { SaidBeforeField, wordsSaid } from '../said-before.tsx'
import { refuseMissing } from '../missing.ts'
import { saidOnly } from '../typed.ts'
import { fireFieldsOf } from './fire-fields.tsx'
import { FireFold, firingSaid } from './fire-of-load.tsx'
import { kilnsFor } from './kiln-choice.tsx'
import { FIRE_WORDS } from './kiln-page.tsx'
import { cautionsOfFire } from './load.tsx'

interface Unloading extends KilnsKnown {
  readonly load: KilnLoadView
  readonly causes: readonly string[]
  readonly jurisdiction: Jurisdiction
}

/** A load comes out of the kiln: what is whole was fired, the rest is lost. */
export const unloadPage: ActPage<Unloading> = {
  path: '/kiln/unload/:kilnLoadId',
  act: {
    schema: unloadRequest,
    perform: (services, occasion, said) => unloadKiln(services, occasion, said as UnloadSaid),
  },
  here: 'kiln',
  press: 'Out of the kiln',
  async load(c) {
    const { db } = c.get('services')
    const studioId = c.get('studioId')
    const kilnLoadId = c.req.param('kilnLoadId') ?? ''
    const load = await findKilnLoad(db, { studioId, kilnLoadId })
    if (load.unloadedAt !== null && c.req.method === 'GET') {
      throw new Refusal('kiln_load_must_be_in_the_kiln', 'This load came out of the kiln already.')
    }
    const stages = [FIRE_OF_KIND[load.kind].loses]
    const causes = await causesBefore(db, { studioId, stages })
    const kilns = await kilnsFor(c, load.kind)
    return { ...kilns, load, causes, jurisdiction: c.get('voice').studio.jurisdiction }
  },
  title: ({ load }) => `Unload: ${FIRE_WORDS[load.kind]}`,
  said: (typed, data) => ({
    kilnLoadId: data.load.kilnLoadId,
    ...saidOnly({ firing: firingSaid(typed, data) }),
    runs: data.load.runs.map(({ runId }) =>
      saidOnly({
        runId,
        whole: typed.count(`whole-${runId}`) ?? howMany(`whole-${runId}`),
        cause: wordsSaid(typed, `cause-${runId}`),
        reading: typed.net(`fired-${runId}`),
      }),
    ),
  }),
  fieldOf: (_typed, { load }) => ({
    ...fireFieldsOf('/firing'),
    ...(Object.fromEntries(
      load.runs.flatMap(({ runId }, index) => {
        const pointer = `/runs/${String(index)}`
        return [
          [pointer, `whole-${runId}`],
          [`${pointer}/cause`, `cause-${runId}`],
          [`${pointer}/reading`, `fired-${runId}`],
        ]
      }),
    ) as Record<string, string>),
  }),
  cautions: ({ load, jurisdiction }) => cautionsOfFire(load.kind, jurisdiction),
  next: () => '/kiln',
  Form: UnloadForm,
  Below: ({ data }) => (
    <p>
      <a href={`/kiln/change/${data.load.kilnLoadId}`}>Something else was in it</a>
    </p>
  ),
}

/** What the form did not show, or what was wiped out, is not taken to be whole. */
function howMany(field: string): never {
  return refuseMissing(field, 'How many came out whole?')
}

function UnloadForm(props: ActFormProps<Unloading>) {
  const { load } = props.data
  return (
    <>
      <p class="hint">How many came out whole? What is missing goes down as lost in this fire.</p>
      {load.runs.map((run) => (
        <RunOut run={run} {...props} />
      ))}
      <FireFold {...props.data} typed={props.typed} faults={props.faults} voice={props.voice} />
    </>
  )
}

function RunOut({ run, data, typed, voice, faults }: ActFormProps<Unloading> & { run: RunInLoad }) {
  const { runId, label, pieces } = run
  const field = { typed, faults }
  const fired = `fired-${runId}`
  const isCaused = wordsSaid(typed, `cause-${runId}`) !== undefined
  return (
    <section class="load-run" aria-label={label}>
      <CountField
        {...field}
        name={`whole-${runId}`}
        label={label}
        hint={`${String(pieces)} went in.`}
        usual={pieces}
        isNeeded
      />
      <details class="more" open={isCaused}>
        <summary>Why the others broke</summary>
        <SaidBeforeField name={`cause-${runId}`} label="Why" before={data.causes} {...field} />
      </details>
      {data.load.kind === 'bisque' ? (
        <details class="more" open={typed.text(fired) !== undefined}>
          <summary>They were weighed</summary>
          <MassField
            {...field}
            voice={voice}
            name={fired}
            label="They weigh together"
            hint="All that went in, broken ones too."
          />
        </details>
      ) : null}
    </section>
  )
}
