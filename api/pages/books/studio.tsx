import type { Context } from 'hono'
import { changeStudio } from '../../../db/catalogue-studios.ts'
import { fractionOfPoints } from '../../../shared/percent.ts'
import { wallDay } from '../../../shared/studio-clock.ts'
import { changeOf } from '../../catalogue-routes.ts'
import { FaultOfForm, faultsOf } from '../../faults.ts'
import { newRouter } from '../../router.ts'
import { labelText } from '../../schemas.ts'
import type { Environment } from '../../services.ts'
import { studioChangeFields } from '../../studio-schemas.ts'
import type { FormFaults } from '../field-words.tsx'
import { faultsForPage } from '../page-faults.ts'
import { LIGHTS, rememberPerson } from '../remembered.ts'
import { show } from '../show.tsx'
import { Typed } from '../typed.ts'
import { typedInto } from '../typed-into.ts'
import { PhoneForm, StudioFixed, StudioForm } from './studio-forms.tsx'

type PageContext = Context<Environment>

const PATH = '/books/studio'
const CHANGED = ['name', 'massUnits', 'dateOrder', 'tradeWords', 'jurisdiction'] as const
const COSTING = ['secondsCostRule', 'secondsPriceFraction', 'hourlyFigure'] as const
const FIELD_OF = Object.fromEntries(
  [...CHANGED, ...COSTING, 'comparesMakers', 'who'].map((name) => [`/${name}`, name]),
)
const changes = changeOf(studioChangeFields, 'StudioSettings')
const who = labelText('Who works at this phone.', 'Ines').optional()

/** How the studio says things, and who works at this phone. */
export const studioSettings = newRouter()

studioSettings.get(PATH, (c) => showStudio(c, { typed: new Typed() }))

studioSettings.post(PATH, async (c) => {
  const typed = await typedInto(c)
  try {
    await changeStudio(c.get('services'), c.get('studioId'), changesIn(typed))
    return c.redirect(`${PATH}?kept=studio`, 303)
  } catch (error) {
    return showStudio(c, { typed, ...faultsForPage(error, FIELD_OF, c.get('voice')) })
  }
})

studioSettings.post(`${PATH}/phone`, async (c) => {
  const typed = await typedInto(c)
  const name = who.safeParse(typed.text('who'))
  if (name.success) {
    const light = LIGHTS.find((one) => one === typed.text('light'))
    rememberPerson(c, { by: name.data, light })
    return c.redirect(`${PATH}?kept=phone`, 303)
  }
  const detail = name.error.issues.map(({ message }) => message).join(' ')
  const faults = { title: 'Something is not right', all: [{ field: 'who', detail }] }
  return showStudio(c, { typed, faults, status: 422 })
})

function changesIn(typed: Typed) {
  const said = changes.safeParse({
    ...Object.fromEntries(CHANGED.map((field) => [field, typed.text(field) ?? ''])),
    comparesMakers: typed.isYes('comparesMakers'),
    ...costingIn(typed),
  })
  if (!said.success) throw new FaultOfForm(faultsOf(said.error.issues, 'json'))
  return said.data
}

/** What seconds and the own hour cost; nothing where the form that was sent does not have it. */
function costingIn(typed: Typed) {
  const secondsCostRule = typed.text('secondsCostRule')
  if (secondsCostRule === undefined) return {}
  return {
    secondsCostRule,
    secondsPriceFraction: fractionOfPoints(typed.decimal('secondsPriceFraction') ?? ''),
    hourlyFigure: typed.decimal('hourlyFigure') ?? null,
  }
}

interface StudioShown {
  readonly typed: Typed
  readonly faults?: FormFaults
  readonly status?: 404 | 409 | 422
}

function showStudio(c: PageContext, { typed, faults, status }: StudioShown): Promise<Response> {
  const voice = c.get('voice')
  const kept = c.req.query('kept')
  const said = { typed, faults }
  const today = wallDay(voice.now, voice.studio.timeZone)
  return show(
    c,
    { title: 'The studio', here: 'books', status },
    <>
      <h1>The studio</h1>
      {kept === undefined ? null : (
        <p class="recorded" role="status">
          {kept === 'phone' ? 'Kept on this phone.' : 'Kept.'}
        </p>
      )}
      <StudioForm {...said} voice={voice} today={today} />
      <PhoneForm {...said} studioId={c.get('studioId')} by={c.get('by')} light={c.get('light')} />
      <StudioFixed voice={voice} />
    </>,
  )
}
