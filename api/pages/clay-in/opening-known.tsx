import type { Context } from 'hono'
import type { Child } from 'hono/jsx'
import type { Environment } from '../../services.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import { enterFirst, type Missing } from '../first-needed.tsx'
import {
  allBats,
  allBodies,
  allForms,
  allScales,
  allVessels,
  type Bat,
  type Body,
  type Form,
  type Scale,
  type Vessel,
} from '../things.ts'
import { saidOnly, type Typed } from '../typed.ts'
import { OtherTare } from '../weigh/scale-figures.tsx'
import { waterSaid } from '../water-said.ts'

/** What there is in the studio that something can be entered of. */
export interface Known {
  readonly bodies: readonly Body[]
  readonly vessels: readonly Vessel[]
  readonly forms: readonly Form[]
  readonly bats: readonly Bat[]
  readonly scales: readonly Scale[]
}

async function known(c: Context<Environment>): Promise<Known> {
  return {
    bodies: await allBodies(c),
    vessels: await allVessels(c),
    forms: await allForms(c),
    bats: await allBats(c),
    scales: await allScales(c),
  }
}

/** One kind of what is here when the books begin. */
export interface OpeningKind {
  /** The end of its address. */
  readonly name: string
  readonly title: string
  /** A few words for the list of kinds. */
  readonly words: string
  /** True where it stands on the scale, so that there are keys for wet hands and a tare. */
  readonly isWeighed: boolean
  readonly item: (typed: Typed, known: Known) => object
  readonly Form: (props: ActFormProps<Known>) => Child
  /** What must be entered first, by its kind, where there is none. */
  readonly needs: (known: Known) => { kind: string; name: string } | undefined
}

const FIELDS = {
  bodyId: 'bodyId',
  bags: 'bags',
  bagMass: 'bagMass',
  label: 'label',
  water: 'water',
  cost: 'cost',
  vesselId: 'vesselId',
  batId: 'batId',
  formId: 'formId',
  at: 'at',
  grade: 'at',
  pieces: 'pieces',
  state: 'state',
  reading: 'gross',
  'reading/tare': 'grossTare',
  'reading/scaleId': 'scaleId',
  'reading/inVesselId': 'vesselId',
}

const fieldOf = Object.fromEntries(
  Object.entries(FIELDS).map(([path, field]) => [`/items/0/${path}`, field]),
)

/** The page on which one kind is entered; each press is an entry of its own. */
export function openingPage(kind: OpeningKind): ActPage<Known> {
  return {
    path: `/books/opening/${kind.name}`,
    act: actCalled('open-books'),
    here: 'books',
    press: 'It is here',
    load: known,
    title: () => kind.title,
    said: (typed, data) => ({
      items: [
        saidOnly({
          bodyId: bodyOf(typed, data),
          water: waterSaid(typed, 'water'),
          cost: typed.decimal('cost'),
          ...kind.item(typed, data),
        }),
      ],
    }),
    fieldOf: { ...fieldOf, '/items/0': kind.name === 'bags' ? 'bagMass' : 'gross' },
    next: () => '/books/opening',
    Form: (props) => (
      <>
        <WhichClay {...props} />
        {kind.Form(props)}
      </>
    ),
    After: (props) => (
      <>
        {kind.isWeighed ? <OtherTare {...props} scales={props.data.scales} /> : null}
        <WhatIsKnown {...props} />
      </>
    ),
    ...(kind.isWeighed ? { keysFor: 'gross' } : {}),
  }
}

function bodyOf(typed: Typed, { bodies }: Known): string | undefined {
  return typed.text('bodyId') ?? (bodies.length === 1 ? bodies[0]?.bodyId : undefined)
}

/** What this page lacks, where it does. */
export function openingNeeds(kind: OpeningKind) {
  return async (c: Context<Environment>): Promise<Missing | undefined> => {
    const data = await known(c)
    const back = `/books/opening/${kind.name}`
    const needed =
      data.bodies.length === 0 ? { kind: 'bodies', name: 'Enter a clay' } : kind.needs(data)
    if (needed === undefined) return undefined
    return {
      title: kind.title,
      words: 'One thing comes first.',
      ways: [enterFirst(needed.kind, needed.name, back)],
    }
  }
}

function WhichClay({ data, typed, faults }: ActFormProps<Known>) {
  const [only, other] = data.bodies
  return (
    <ChoiceField
      name="bodyId"
      label="Which clay"
      usual={other === undefined ? only?.bodyId : undefined}
      isNeeded
      choices={data.bodies.map(({ bodyId, name }) => ({ value: bodyId, name }))}
      typed={typed}
      faults={faults}
    />
  )
}

function WhatIsKnown({ typed, voice, faults }: ActFormProps<Known>) {
  const isSaid = ['water', 'cost'].some((name) => typed.text(name) !== undefined)
  return (
    <details class="more" open={isSaid}>
      <summary>What it cost, or its water</summary>
      <TextField
        name="cost"
        label="What it cost"
        hint="Empty: nothing, as for clay that was written off."
        inputmode="decimal"
        after={voice.studio.currency}
        typed={typed}
        faults={faults}
      />
      <TextField
        name="water"
        label="Water in it"
        hint="Of the wet mass. Empty: as is usual for this clay in this state."
        inputmode="decimal"
        after="%"
        typed={typed}
        faults={faults}
      />
    </details>
  )
}
