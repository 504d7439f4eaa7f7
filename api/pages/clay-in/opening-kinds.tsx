import type { ClayState } from '../../../shared/moisture.ts'
import type { ActFormProps } from '../act-page.tsx'
import { ChoiceField, CountField, TextField, type Choice } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { SCRAP_STATES, STATE_WORDS } from '../state-words.ts'
import type { Vessel } from '../things.ts'
import { ScaleFigures } from '../weigh/scale-figures.tsx'
import type { Known, OpeningKind } from './opening-known.tsx'

type Props = ActFormProps<Known>

const isBasin = ({ kind }: Vessel) => kind === 'basin'
const isBucket = ({ kind }: Vessel) => kind === 'bucket' || kind === 'tin' || kind === 'other'

function LabelField({ typed, faults }: Props) {
  return (
    <TextField
      name="label"
      label="What to call it"
      hint="Empty is all right."
      typed={typed}
      faults={faults}
    />
  )
}

function OnTheScale({ typed, voice, faults, label }: Props & { label?: string }) {
  return (
    <ScaleFigures label={label ?? 'The scale shows'} typed={typed} voice={voice} faults={faults} />
  )
}

function VesselChoice({ typed, voice, faults, of }: Props & { of: readonly Vessel[] }) {
  const [only, other] = of
  return (
    <ChoiceField
      name="vesselId"
      label="It is in"
      usual={other === undefined ? only?.vesselId : undefined}
      isNeeded
      choices={of.map(({ vesselId, name, tareGrams }) => ({
        value: vesselId,
        name,
        hint: `${voice.mass(tareGrams)} empty`,
        tareGrams,
      }))}
      typed={typed}
      faults={faults}
    />
  )
}

const bags: OpeningKind = {
  name: 'bags',
  isWeighed: false,
  title: 'Bags that are here',
  words: 'unopened, in the store',
  needs: () => undefined,
  item: (typed) => ({
    what: 'bags',
    bags: typed.count('bags'),
    bagMass: typed.mass('bagMass'),
    label: typed.text('label'),
  }),
  Form: (props) => {
    const { typed, voice, faults } = props
    const field = { typed, faults }
    return (
      <>
        <CountField {...field} name="bags" label="How many bags" isNeeded />
        <MassField {...field} voice={voice} name="bagMass" label="One bag, by its label" isNeeded />
        <LabelField {...props} />
      </>
    )
  },
}

const clay: OpeningKind = {
  name: 'clay',
  isWeighed: true,
  title: 'Open clay that is here',
  words: 'opened or wedged, ready to throw',
  needs: () => undefined,
  item: (typed) => ({
    what: 'clay',
    reading: typed.gross('gross'),
    label: typed.text('label'),
  }),
  Form: (props) => (
    <>
      <OnTheScale {...props} />
      <LabelField {...props} />
    </>
  ),
}

const scrap: OpeningKind = {
  name: 'scrap',
  isWeighed: true,
  title: 'A bucket of scrap that is here',
  words: 'turnings, slops, off-cuts, dry scraps',
  needs: ({ vessels }) =>
    vessels.some(isBucket) ? undefined : { kind: 'vessels', name: 'Enter a bucket' },
  item: (typed) => ({
    what: 'scrap',
    vesselId: typed.text('vesselId'),
    state: typed.text('state'),
    reading: typed.gross('gross', typed.text('vesselId')),
  }),
  Form: (props) => (
    <>
      <VesselChoice {...props} of={props.data.vessels.filter(isBucket)} />
      <StateChoice {...props} states={SCRAP_STATES} usual="turnings" />
      <OnTheScale {...props} label="The scale shows, bucket and all" />
    </>
  ),
}

const basin: OpeningKind = {
  name: 'basin',
  isWeighed: true,
  title: 'A basin of slaking clay that is here',
  words: 'scrap in water, or slurry',
  needs: ({ vessels }) =>
    vessels.some(isBasin) ? undefined : { kind: 'vessels', name: 'Enter a basin' },
  item: (typed) => ({
    what: 'basin',
    vesselId: typed.text('vesselId'),
    reading: typed.gross('gross', typed.text('vesselId')),
  }),
  Form: (props) => (
    <>
      <VesselChoice {...props} of={props.data.vessels.filter(isBasin)} />
      <OnTheScale {...props} label="The scale shows, basin and all" />
    </>
  ),
}

const load: OpeningKind = {
  name: 'load',
  isWeighed: true,
  title: 'A slab on plaster that is here',
  words: 'drying on a bat',
  needs: ({ bats }) =>
    bats.length > 0 ? undefined : { kind: 'bats', name: 'Enter a plaster bat' },
  item: (typed) => ({
    what: 'load',
    batId: typed.text('batId'),
    reading: typed.gross('gross'),
  }),
  Form: (props) => {
    const { data, typed, faults } = props
    const [only, other] = data.bats
    return (
      <>
        <ChoiceField
          name="batId"
          label="It lies on"
          usual={other === undefined ? only?.batId : undefined}
          isNeeded
          choices={data.bats.map(({ batId, name }) => ({ value: batId, name }))}
          typed={typed}
          faults={faults}
        />
        <OnTheScale {...props} label="The slab alone, lifted" />
      </>
    )
  },
}

/** Where pots are, finished ones by their grade. */
const POTS_ARE: readonly Choice[] = [
  { value: 'greenware', name: 'Not fired yet' },
  { value: 'bisque', name: 'Bisque' },
  { value: 'glazed', name: 'Glaze-fired, not graded' },
  { value: 'first', name: 'Finished, firsts' },
  { value: 'second', name: 'Finished, seconds' },
]

function whereSaid(at: string | undefined) {
  return at === 'first' || at === 'second' ? { at: 'finished', grade: at } : { at }
}

const pots: OpeningKind = {
  name: 'pots',
  isWeighed: false,
  title: 'Pots that are here',
  words: 'of one form, green, bisque or finished',
  needs: ({ forms }) => (forms.length > 0 ? undefined : { kind: 'forms', name: 'Enter a form' }),
  item: (typed) => ({
    what: 'pots',
    formId: typed.text('formId'),
    ...whereSaid(typed.text('at')),
    pieces: typed.count('pieces'),
    label: typed.text('label'),
    reading: typed.gross('gross'),
  }),
  Form: (props) => {
    const { data, typed, voice, faults } = props
    const field = { typed, faults }
    const [only, other] = data.forms
    return (
      <>
        <ChoiceField
          {...field}
          name="formId"
          label="Which form"
          usual={other === undefined ? only?.formId : undefined}
          isNeeded
          choices={data.forms.map(({ formId, name }) => ({ value: formId, name }))}
        />
        <ChoiceField {...field} name="at" label="They are" isNeeded choices={POTS_ARE} />
        <CountField {...field} name="pieces" label="How many" isNeeded />
        <MassField
          {...field}
          voice={voice}
          name="gross"
          label="All of them, weighed"
          hint="Without their boards. Empty: guessed from the form’s ball."
        />
        <LabelField {...props} />
      </>
    )
  },
}

function StateChoice(props: Props & { states: readonly ClayState[]; usual: ClayState }) {
  const { typed, voice, faults, states, usual } = props
  return (
    <ChoiceField
      name="state"
      label="What is in it"
      usual={usual}
      choices={states.map((state) => ({ value: state, name: voice.words(STATE_WORDS[state]) }))}
      typed={typed}
      faults={faults}
    />
  )
}

export const OPENING_KINDS: readonly OpeningKind[] = [bags, clay, scrap, basin, load, pots]
