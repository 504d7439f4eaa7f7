import { decimal } from '../../../shared/decimal.ts'
import { doubtfulSample } from '../../../shared/is-this-right.ts'
import { CLAY_STATES } from '../../../shared/moisture.ts'
import { silicaCautions } from '../../../shared/silica.ts'
import { gramsTyped } from '../../../shared/units.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField, type Choice } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { STATE_WORDS } from '../state-words.ts'
import { allBodies, type Body } from '../things.ts'
import { saidOnly, type Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { holdingsHere, type Holding } from './holdings-here.tsx'

interface Sampled {
  readonly holdings: readonly Holding[]
  readonly bodies: readonly Body[]
  readonly jurisdiction: Voice['studio']['jurisdiction']
}

const PLACES = ['store', 'bench', 'scrap', 'basin']

/** What a sample can be of: a lot, what lies in a vessel, or a clay as such. */
function choicesOf({ holdings, bodies }: Sampled): Choice[] {
  const here = holdings.flatMap(({ place, label, lotId, vesselId, bodyName }) => {
    if (!PLACES.includes(place)) return []
    const value = lotId === null ? vesselId && `vessel:${vesselId}` : `lot:${lotId}`
    return value === null ? [] : [{ value, name: label, hint: bodyName }]
  })
  const asSuch = bodies.map(({ bodyId, name }) => ({
    value: `body:${bodyId}`,
    name,
    hint: 'of the clay as such, none of these',
  }))
  return [...here, ...asSuch]
}

function sampledSaid(typed: Typed, { holdings }: Sampled) {
  const [kind = '', id = ''] = typed.text('of')?.split(':') ?? []
  if (kind === 'body') return { bodyId: id }
  const key = kind === 'lot' ? 'lotId' : 'vesselId'
  const held = holdings.find((one) => one[key] === id)
  return held === undefined ? {} : { bodyId: held.bodyId, [key]: id }
}

/** A sample that was dried until it lost no more. */
export const dryTest: ActPage<Sampled> = {
  path: '/books/dry-test',
  act: actCalled('dry-test'),
  here: 'books',
  press: 'That is its water',
  load: async (c) => ({
    holdings: await holdingsHere(c),
    bodies: await allBodies(c),
    jurisdiction: c.get('voice').studio.jurisdiction,
  }),
  title: () => 'A dried sample',
  said: (typed, data) => {
    const wetWithTin = typed.mass('wet')
    const grams = wetWithTin === undefined ? '' : gramsTyped(wetWithTin)
    if (/^\d+(\.\d+)?$/.test(grams)) {
      typed.remarks.push(...doubtfulSample({ wetWithTin: decimal(grams) }))
    }
    return saidOnly({
      ...sampledSaid(typed, data),
      state: typed.text('state'),
      sample: saidOnly({ tin: typed.mass('tin'), wetWithTin, dryWithTin: typed.mass('dry') }),
    })
  },
  fieldOf: {
    '/bodyId': 'of',
    '/lotId': 'of',
    '/vesselId': 'of',
    '/state': 'state',
    '/sample': 'dry',
    '/sample/tin': 'tin',
    '/sample/wetWithTin': 'wet',
    '/sample/dryWithTin': 'dry',
  },
  cautions: ({ jurisdiction }) =>
    silicaCautions({
      handlesDryClay: true,
      dryAct: undefined,
      waterContentWetBasis: undefined,
      dustThresholdWetBasis: undefined,
      jurisdiction,
    }),
  next: ({ entry }) => `/books/things/bodies/${entry.dryTest?.bodyId ?? ''}`,
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, faults }
    const mass = { ...field, voice, unit: 'g' } as const
    const bodyId = typed.text('bodyId')
    return (
      <>
        <HowToDry voice={voice} />
        <ChoiceField
          {...field}
          name="of"
          label="What was sampled"
          usual={bodyId === undefined ? undefined : `body:${bodyId}`}
          isNeeded
          choices={choicesOf(data)}
        />
        <ChoiceField
          {...field}
          name="state"
          label="It was"
          isNeeded
          choices={CLAY_STATES.map((state) => ({
            value: state,
            name: voice.words(STATE_WORDS[state]),
          }))}
        />
        <MassField {...mass} name="tin" label="The tin, empty" hint="Empty where there was none." />
        <MassField {...mass} name="wet" label="Wet, with the tin" isNeeded />
        <MassField {...mass} name="dry" label="Dry, with the tin" isNeeded />
      </>
    )
  },
}

/** How a sample is dried, and how well that is known. */
function HowToDry({ voice }: { voice: Voice }) {
  return (
    <details class="more">
      <summary>How to dry a sample</summary>
      <ol>
        <li>
          Cut a slice of {voice.mass('50')} to {voice.mass('100')} and weigh it in its tin, on a
          scale with steps of a tenth of a gram or finer.
        </li>
        <li>
          Dry it until it loses no more: in an oven at 105 to 110 °C overnight, or a thin slice of{' '}
          {voice.mass('10')} to {voice.mass('12')} under a heat lamp for 45 to 60 minutes. Weigh,
          dry a little longer, and weigh again: it is dry when both are the same.
        </li>
        <li>
          Never lay it on wood, paper or plaster, neither wet nor dry: they drink, or give off,
          water.
        </li>
      </ol>
      <p class="hint">
        These figures are the trade’s, seen in public sources; the weighing again tells better than
        any time. Lamp and oven are hot: keep to what their makers say, and leave neither alone.
      </p>
    </details>
  )
}
