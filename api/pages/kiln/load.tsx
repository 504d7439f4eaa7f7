import type { Context } from 'hono'
import { boardsReport } from '../../../db/reports/boards.ts'
import { kilnReport } from '../../../db/reports/kiln.ts'
import { fillWords, type KilnsKnown } from '../../../db/reports/kilns.ts'
import {
  changeLoad,
  findKilnLoad,
  loadKiln,
  takeLoadOut,
  type KilnLoadView,
} from '../../../db/kiln-loads.ts'
import { FIRE_OF_KIND, KILN_KINDS, type KilnKind } from '../../../shared/kiln-load.ts'
import { piecesTogether } from '../../../shared/pieces-left.ts'
import { silicaCautions } from '../../../shared/silica.ts'
import { FaultOfForm, faultsOf } from '../../faults.ts'
import { loadRequest } from '../../kiln-schemas.ts'
import { newRouter } from '../../router.ts'
import type { Environment } from '../../services.ts'
import { ActForm } from '../act-form.tsx'
import { circumstancesOf } from '../act-page.tsx'
import type { FormFaults } from '../field-words.tsx'
import { faultsForPage } from '../page-faults.ts'
import { show } from '../show.tsx'
import { Typed } from '../typed.ts'
import { typedInto } from '../typed-into.ts'
import { WouldBe } from '../would-be.tsx'
import { FIRE_WORDS } from './kiln-page.tsx'
import { KilnChoice, kilnOf, kilnsFor } from './kiln-choice.tsx'
import { runsChosen } from '../all-or-some.tsx'
import { LoadFields, type Loadable } from './load-form.tsx'

type PageContext = Context<Environment>

interface Loading extends KilnsKnown {
  readonly kind: KilnKind
  /** The load that is changed; none where a new one is made. */
  readonly load: KilnLoadView | undefined
  readonly pots: readonly Loadable[]
}

/** Pots go into a kiln. It is a note: nothing is recorded before they come out. */
export const loading = newRouter()

const paths = [
  { path: '/kiln/load/:kind', find: newLoading },
  { path: '/kiln/change/:kilnLoadId', find: changedLoading },
] as const

for (const { path, find } of paths) {
  loading.get(path, async (c) => {
    const found = await find(c)
    if (found === undefined) return c.notFound()
    return showLoading(c, found, { typed: new Typed(new URL(c.req.url).searchParams) })
  })
  loading.post(path, async (c) => {
    const found = await find(c)
    if (found === undefined) return c.notFound()
    return doLoading(c, found, await typedInto(c))
  })
}

loading.post('/kiln/take-out/:kilnLoadId', async (c) => {
  const which = { studioId: c.get('studioId'), kilnLoadId: c.req.param('kilnLoadId') }
  await takeLoadOut(c.get('services'), which)
  return c.redirect('/kiln', 303)
})

async function newLoading(c: PageContext): Promise<Loading | undefined> {
  const kind = KILN_KINDS.find((one) => one === c.req.param('kind'))
  if (kind === undefined) return undefined
  return {
    ...(await kilnsFor(c, kind)),
    ...{ kind, load: undefined, pots: await potsFor(c, kind, undefined) },
  }
}

async function changedLoading(c: PageContext): Promise<Loading> {
  const which = { studioId: c.get('studioId'), kilnLoadId: c.req.param('kilnLoadId') ?? '' }
  const load = await findKilnLoad(c.get('services').db, which)
  const pots = await potsFor(c, load.kind, load)
  return { ...(await kilnsFor(c, load.kind)), kind: load.kind, load, pots }
}

/** What waits for that fire, and what of it is in the load that is changed. */
async function potsFor(
  c: PageContext,
  kind: KilnKind,
  load: KilnLoadView | undefined,
): Promise<Loadable[]> {
  const { db, now } = c.get('services')
  const studioId = c.get('studioId')
  const { waiting } = await kilnReport(db, studioId)
  const boards = kind === 'bisque' ? await boardsReport(db, { studioId, now: now() }) : []
  const waits = waiting.filter(({ place }) => place === FIRE_OF_KIND[kind].from)
  const onlyInIt = (load?.runs ?? []).filter(
    ({ runId }) => !waits.some((one) => one.runId === runId),
  )
  return [...onlyInIt.map((run) => ({ ...run, pieces: 0 })), ...waits].map((pots) => {
    const inIt = load?.runs.find(({ runId }) => runId === pots.runId)?.pieces ?? 0
    const { runId, label, formName } = pots
    const board = boards.find((one) => one.runId === runId)
    return { runId, label, formName, pieces: pots.pieces + inIt, inIt, board }
  })
}

async function doLoading(c: PageContext, found: Loading, typed: Typed): Promise<Response> {
  const runs = runsChosen(typed, found.pots)
  try {
    if (typed.text('preview') === 'true') {
      return c.html(await wouldGoIn(c, found, { typed, runs }))
    }
    await putIn(c, found, { typed, runs })
  } catch (error) {
    if (c.req.header('accept') === 'application/json') throw error
    const ofRuns = runs.map(({ runId }, index) => [`/runs/${String(index)}`, `some-${runId}`])
    const fieldOf = { ...Object.fromEntries(ofRuns), '/kilnId': 'kilnId' } as Record<string, string>
    const { faults, status } = faultsForPage(error, fieldOf, c.get('voice'))
    if (typed.text('preview') === 'true') return c.html(<WouldBe faults={faults} />, status)
    return showLoading(c, found, { typed, faults, status })
  }
  if (c.req.header('accept') !== 'application/json') return c.redirect('/kiln', 303)
  c.header('Slakebook-Next', '/kiln')
  return c.json({ loaded: true }, 201)
}

/** How many pieces go in, and how full that makes the kiln. */
async function wouldGoIn(
  c: PageContext,
  found: Loading,
  { typed, runs }: { typed: Typed; runs: ReturnType<typeof runsChosen> },
) {
  const pieces = piecesTogether(runs.map((run) => run.pieces))
  const kilnId = kilnOf(found, typed)
  const full =
    kilnId === undefined || runs.length === 0
      ? undefined
      : await fillWords(c.get('services').db, { studioId: c.get('studioId'), kilnId, runs })
  return (
    <>
      <p class="remark">{String(pieces)} pieces go in.</p>
      {full === undefined ? null : <p>{full}</p>}
    </>
  )
}

async function putIn(
  c: PageContext,
  found: Loading,
  { typed, runs }: { typed: Typed; runs: ReturnType<typeof runsChosen> },
): Promise<void> {
  const { kind, load } = found
  const services = c.get('services')
  const studioId = c.get('studioId')
  const { happenedAt, by } = circumstancesOf(c, typed)
  // The form's own key names the load: two presses of one form are one load.
  const kilnLoadId = load?.kilnLoadId ?? typed.text('key') ?? services.newId()
  const kilnId = kilnOf(found, typed)
  const read = loadRequest.safeParse({ kilnLoadId, kind, kilnId, runs, happenedAt, by })
  if (!read.success) throw new FaultOfForm(faultsOf(read.error.issues, 'json'))
  if (load === undefined) await loadKiln(services, studioId, read.data)
  else await changeLoad(services, { studioId, kilnLoadId }, read.data)
}

interface Shown {
  readonly typed: Typed
  readonly faults?: FormFaults | undefined
  readonly status?: 404 | 409 | 422 | undefined
}

function showLoading(c: PageContext, found: Loading, shown: Shown): Promise<Response> {
  const { kind, load, pots } = found
  const { typed, faults, status } = shown
  const voice = c.get('voice')
  const fire = FIRE_WORDS[kind]
  const title = load === undefined ? `Load: ${fire}` : `In the kiln: ${fire}`
  return show(
    c,
    { title, here: 'kiln', status },
    <>
      <h1>{title}</h1>
      <ActForm
        action={`${c.req.path}?studio=${c.get('studioId')}`}
        newKey={c.get('services').newId()}
        keeps={title}
        press={load === undefined ? 'In the kiln' : 'So it is'}
        by={c.get('by')}
        typed={typed}
        faults={faults}
        cautions={cautionsOfFire(kind, voice.studio.jurisdiction)}
        mustSee={false}
        estimate={undefined}
        keysFor={undefined}
        after={undefined}
      >
        <LoadFields pots={pots} typed={typed} faults={faults} voice={voice} />
        <KilnChoice {...found} chosen={load?.kilnId ?? undefined} typed={typed} faults={faults} />
      </ActForm>
      {load === undefined ? null : (
        <form
          method="post"
          action={`/kiln/take-out/${load.kilnLoadId}?studio=${c.get('studioId')}`}
          class="take-out"
        >
          <p>It was not fired after all? Its pots wait again, and nothing is recorded.</p>
          <button>All out again, unfired</button>
        </form>
      )}
    </>,
  )
}

/** Greenware that is ready for the kiln is dry clay. */
export function cautionsOfFire(
  kind: KilnKind,
  jurisdiction: Parameters<typeof silicaCautions>[0]['jurisdiction'],
) {
  return silicaCautions({
    handlesDryClay: kind === 'bisque',
    isWare: true,
    dryAct: undefined,
    waterContentWetBasis: undefined,
    dustThresholdWetBasis: undefined,
    jurisdiction,
  })
}
