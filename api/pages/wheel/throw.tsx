import type { Context } from 'hono'
import { throwingChoices, type ClayOnBench, type FormThrown } from '../../../db/reports/throwing.ts'
import { weighList } from '../../../db/reports/weigh-list.ts'
import { Refusal } from '../../../shared/refusal.ts'
import type { Environment } from '../../services.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField, CountField, TextField } from '../fields.tsx'
import { refuseMissing } from '../missing.ts'
import { allBodies, type Body } from '../things.ts'
import { saidOnly, type Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { FIELDS_OF_SOURCES, SourceFields, sourcesSaid } from './clay-source.tsx'
import { ballOf, cutWords } from './cut-words.ts'

/** The forms, last thrown first. */
export function ChooseForm({ forms, voice }: { forms: readonly FormThrown[]; voice: Voice }) {
  return (
    <>
      <h1>Throw what?</h1>
      <ul class="targets">
        {forms.map((form) => (
          <li>
            <a class="target big" href={`/wheel/throw/${form.formId}`} data-offline>
              <strong>{form.name}</strong>
              <span>{cutWords(form, voice)}</span>
            </a>
          </li>
        ))}
      </ul>
      <p>
        {forms.length === 0 ? 'No form is on the books yet. ' : 'Something new? '}
        <a href="/books/things/forms">Enter a form</a>.
      </p>
    </>
  )
}

interface Throwing {
  readonly form: FormThrown
  readonly clays: readonly ClayOnBench[]
  readonly blends: readonly Body[]
  /** What it is called on a press that names it not: the same however often that press is sent. */
  readonly plainLabel: string
  /** What the page offers to call it. */
  readonly label: string
}

/** The form and the day; a second run of both that is on the boards is told apart by its number. */
async function newLabel(c: Context<Environment>, label: string): Promise<string> {
  const things = await weighList(c.get('services').db, c.get('studioId'))
  const runs = things.filter(({ kind }) => kind === 'run')
  const same = runs.filter(({ name }) => name === label || name.startsWith(`${label} (`)).length
  return same === 0 ? label : `${label} (${String(same + 1)})`
}

/** A run of one form, begun with what was usual the last time. */
export const throwPage: ActPage<Throwing> = {
  path: '/wheel/throw/:formId',
  act: actCalled('throw'),
  here: 'wheel',
  press: 'Thrown',
  async load(c) {
    const formId = c.req.param('formId')
    const { forms, clays } = await throwingChoices(c.get('services').db, c.get('studioId'))
    const form = forms.find((one) => one.formId === formId)
    if (form === undefined) throw new Refusal('form_not_found', 'There is no such form here.')
    const blends = (await allBodies(c)).filter(({ isBlend }) => isBlend)
    const voice = c.get('voice')
    const plainLabel = `${form.name}, ${voice.day(voice.now)}`
    return { form, clays, blends, plainLabel, label: await newLabel(c, plainLabel) }
  },
  title: ({ form }) => `Throw: ${form.name}`,
  keeps: ({ form }) => `Thrown: ${form.name}`,
  said: (typed, { form, plainLabel }) =>
    saidOnly({
      formId: form.formId,
      label: typed.text('label') ?? plainLabel,
      from: sourcesSaid(typed),
      pieces: typed.count('pieces') ?? piecesUnsaid(typed),
      blendBodyId: typed.text('blendBodyId'),
    }),
  fieldOf: {
    ...FIELDS_OF_SOURCES,
    '/pieces': 'pieces',
    '/label': 'label',
    '/blendBodyId': 'blendBodyId',
    '/formId': 'label',
  },
  next: ({ made }) => `/wheel/run/${String(made['runId'])}`,
  Form: ThrowForm,
  After: OtherClays,
}

/** Only balls tell how many pieces were begun. */
function piecesUnsaid(typed: Typed): undefined {
  const isToldInBalls = ['', '2', '3'].every(
    (of) =>
      (of !== '' && typed.text(`lotId${of}`) === undefined) ||
      (typed.text(`how${of}`) ?? 'balls') === 'balls',
  )
  return isToldInBalls ? undefined : refuseMissing('pieces', 'How many pieces were begun?')
}

function ThrowForm({ data, typed, voice, faults }: ActFormProps<Throwing>) {
  const { form, clays } = data
  if (clays.length === 0) {
    return (
      <p>
        No open clay is on the bench. <a href="/books/open-bag">Open a bag</a> first.
      </p>
    )
  }
  const lastLot = clays.find(({ lotId }) => lotId === form.lastLotId) ?? clays[0]
  return (
    <>
      <SourceFields
        of=""
        clays={clays}
        usual={{
          lotId: lastLot?.lotId,
          balls: form.lastBalls ?? undefined,
          ballMass: ballOf(form),
        }}
        typed={typed}
        faults={faults}
        voice={voice}
      />
      <div class="pieces">
        <CountField
          typed={typed}
          faults={faults}
          name="pieces"
          label="Pieces begun"
          hint="Leave it empty where each ball is one piece. A pot with a lid is two balls."
        />
      </div>
    </>
  )
}

function OtherClays({ data, typed, voice, faults }: ActFormProps<Throwing>) {
  const { clays, blends, form } = data
  const field = { typed, faults }
  const isMany = typed.text('lotId2') !== undefined
  return (
    <>
      {clays.length < 2 ? null : (
        <details class="more" open={isMany}>
          <summary>Clay from another bag too</summary>
          {(['2', '3'] as const).map((of) => (
            <SourceFields
              of={of}
              clays={clays}
              usual={{ ballMass: ballOf(form) }}
              {...field}
              voice={voice}
            />
          ))}
          {blends.length === 0 ? null : (
            <ChoiceField
              {...field}
              name="blendBodyId"
              label="Two clays? What do they become?"
              choices={blends.map(({ bodyId, name }) => ({ value: bodyId, name }))}
            />
          )}
        </details>
      )}
      <details class="more" open={typed.text('label') !== undefined}>
        <summary>Its name: {typed.text('label') ?? data.label}</summary>
        <TextField {...field} name="label" label="What the board is called" usual={data.label} />
      </details>
    </>
  )
}
