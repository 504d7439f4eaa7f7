import type { Context } from 'hono'
import { createStudio, listStudios } from '../../../db/catalogue-studios.ts'
import { Refusal } from '../../../shared/refusal.ts'
import { wallDay } from '../../../shared/studio-clock.ts'
import { FaultOfForm, faultsOf } from '../../faults.ts'
import { newRouter } from '../../router.ts'
import type { Environment } from '../../services.ts'
import { newStudioSchema } from '../../studio-schemas.ts'
import type { FormFaults } from '../field-words.tsx'
import { faultsForPage } from '../page-faults.ts'
import { rememberedOf, rememberStudio } from '../remembered.ts'
import { show } from '../show.tsx'
import { studioOfPage } from '../studio-of-page.ts'
import { allBodies, allForms, allScales, allVessels } from '../things.ts'
import { Typed } from '../typed.ts'
import { typedInto } from '../typed-into.ts'
import { BeginForm } from './begin-form.tsx'
import { ChooseStudio } from './choose.tsx'
import { NextSteps } from './next-steps.tsx'
import { filledIn } from './usual-there.ts'

type PageContext = Context<Environment>

/** More studios than one machine in a pottery will ever keep books for. */
const STUDIOS_MAX = 200

/** What a person is asked for who left a field open. */
const LEFT_OPEN: Readonly<Record<string, string>> = {
  name: 'Give the studio a name.',
  currency: 'Choose the money that it pays in.',
  timeZone: 'Say which clock hangs on its wall: the nearest city, as Europe/London.',
}

const FIELD_OF = Object.fromEntries(
  [
    ...['name', 'currency', 'timeZone', 'jurisdiction'],
    ...['massUnits', 'dateOrder', 'tradeWords'],
  ].map((name) => [`/${name}`, name]),
)

/** The first studio, another one, or the choice among those there are. */
export const begin = newRouter()

begin.get('/begin', (c) => {
  const typed = new Typed(new URL(c.req.url).searchParams)
  return showBegin(c, typed.isYes('fill') ? filledIn(typed, { anew: true }) : { typed })
})

begin.post('/begin', async (c) => {
  const typed = await typedInto(c)
  const filled = filledIn(typed, { anew: false })
  // What nobody has seen yet is shown first: money and clock stay for good.
  if (filled.where !== undefined) return showBegin(c, filled)
  try {
    rememberStudio(c, await beginStudio(c, typed))
    return c.redirect('/begin/next', 303)
  } catch (error) {
    return showBegin(c, { typed, ...faultsForPage(error, FIELD_OF) })
  }
})

begin.get('/begin/next', studioOfPage, async (c) => {
  const [clays, forms, buckets, scales] = await Promise.all([
    allBodies(c),
    allForms(c),
    allVessels(c),
    allScales(c),
  ])
  const entered = {
    clays: clays.length,
    forms: forms.length,
    buckets: buckets.length,
    scales: scales.length,
  }
  return show(
    c,
    { title: 'What to enter first' },
    <>
      <h1>What to enter first</h1>
      <NextSteps entered={entered} />
    </>,
  )
})

/** Begins a studio, and gives its id. The same form pressed twice begins it once. */
async function beginStudio(c: PageContext, typed: Typed): Promise<string> {
  const studioId = typed.text('key')
  refuseLeftOpen(typed)
  const fields = Object.values(FIELD_OF).map((field) => [field, typed.text(field)] as const)
  const said = newStudioSchema.safeParse({ studioId, ...Object.fromEntries(fields) })
  if (!said.success) throw new FaultOfForm(faultsOf(said.error.issues, 'json'))
  try {
    return (await createStudio(c.get('services'), said.data)).studioId
  } catch (error) {
    const isBegun = error instanceof Refusal && error.code === 'name_must_be_new'
    if (!isBegun || studioId === undefined) throw error
    return studioId
  }
}

function refuseLeftOpen(typed: Typed): void {
  const faults = Object.entries(LEFT_OPEN)
    .filter(([field]) => typed.text(field) === undefined)
    .map(([field, detail]) => ({ pointer: `#/${field}`, detail }))
  if (faults.length > 0) throw new FaultOfForm(faults)
}

interface BeginShown {
  readonly typed: Typed
  readonly where?: string | undefined
  readonly faults?: FormFaults
  readonly status?: 404 | 409 | 422
}

async function showBegin(c: PageContext, { status, ...shown }: BeginShown): Promise<Response> {
  const { db, newId, now } = c.get('services')
  const studios = await listStudios(db, { limit: STUDIOS_MAX })
  const form = <BeginForm {...shown} newKey={newId()} today={wallDay(now(), 'UTC')} />
  c.set('light', rememberedOf(c).light)
  if (studios.length === 0) {
    return show(
      c,
      { title: 'Begin the books', status },
      <>
        <h1>Begin the books</h1>
        <p>Your clay by mass, from the bag to the shelf. First, where you work.</p>
        {form}
      </>,
    )
  }
  const isBegun = shown.faults !== undefined || shown.where !== undefined
  return show(
    c,
    { title: 'Which studio?', status },
    <>
      <h1>Which studio?</h1>
      <ChooseStudio studios={studios} />
      <details class="more" open={isBegun}>
        <summary>Begin another studio</summary>
        {form}
      </details>
    </>,
  )
}
