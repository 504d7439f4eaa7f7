import { weighList, type WeighableThing } from '../../../db/reports/weigh-list.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allBodies, allScales, type Body, type Scale } from '../things.ts'
import { saidOnly, type Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { BlendChoice } from './blend-choice.tsx'
import { Powder, powderTyped } from './powder.tsx'
import { ScaleChoice } from './scale-choice.tsx'
import { massFieldOf, TapWithMass, tapped } from './tap-with-mass.tsx'
import { WORK_FIELDS, WorkTold, workSaid } from './work-told.tsx'

interface Wedged {
  /** Clay on the bench, what was used last first. */
  readonly lots: readonly WeighableThing[]
  /** Vessels with scrap in them. */
  readonly vessels: readonly WeighableThing[]
  readonly bodies: readonly Body[]
  readonly scales: readonly Scale[]
}

/** Clays wedged into one. */
export const wedgePage: ActPage<Wedged> = {
  path: '/plaster/wedge',
  act: actCalled('wedge'),
  here: 'plaster',
  press: 'Wedge',
  async load(c) {
    const things = await weighList(c.get('services').db, c.get('studioId'))
    return {
      lots: things.filter(({ kind }) => kind === 'lot'),
      vessels: things.filter(({ kind, dryGrams }) => kind === 'vessel' && dryGrams !== '0'),
      bodies: await allBodies(c),
      scales: await allScales(c),
    }
  },
  title: () => 'Wedge',
  keeps: () => 'Clay wedged',
  said: (typed) => {
    const vessels = typed.all('vessels')
    return saidOnly({
      ...workSaid(typed),
      from: tapped(typed, 'lots').map((lotId) => {
        const reading = typed.gross(massFieldOf('lots', lotId))
        return reading === undefined ? { lotId, whatIsLeft: true } : { lotId, reading }
      }),
      fromVesselIds: vessels.length === 0 ? undefined : vessels,
      additions: powderTyped(typed),
      water: typed.mass('water'),
      reading: typed.gross('gross'),
      blendBodyId: typed.text('blendBodyId'),
      label: typed.text('label'),
    })
  },
  fieldOf: (typed) => ({
    ...WORK_FIELDS,
    '/from': 'lots',
    ...Object.fromEntries(
      tapped(typed, 'lots').flatMap((lotId, index) => [
        [`/from/${String(index)}`, massFieldOf('lots', lotId)],
        [`/from/${String(index)}/lotId`, `lots-tap-${lotId}`],
      ]),
    ),
    '/fromVesselIds': 'vessels',
    '/additions/0/name': 'powderName',
    '/additions/0/reading': 'powder',
    '/additions/0/price': 'powderPrice',
    '/water': 'water',
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/reading/scaleId': 'scaleId',
    '/blendBodyId': 'blendBodyId',
    '/label': 'label',
  }),
  // What was wedged is thrown.
  next: () => '/wheel/throw',
  Form: (props) => {
    const { data, typed, voice, faults } = props
    const field = { typed, faults }
    return (
      <>
        <TapWithMass
          {...field}
          voice={voice}
          name="lots"
          legend="Clay on the bench"
          hint="Tap what goes in. All of it, unless you weigh it."
          massLabel={({ name }) => `Of ${name}`}
          massHint="Nothing where all of it goes in."
          things={data.lots.map(({ id, name, holds, wetGrams }) => ({
            id,
            name,
            hint: `${holds ?? ''}, ${voice.mass(wetGrams)}`,
          }))}
        />
        {data.vessels.length === 0 ? null : (
          <Scrap data={data} typed={typed} {...{ voice, faults }} />
        )}
        <MassField
          {...field}
          voice={voice}
          name="gross"
          label="All of it weighs, wedged"
          hint="Tells its water. Nothing where it was not weighed."
        />
      </>
    )
  },
  After: (props) => {
    const { data, typed, voice, faults } = props
    const field = { typed, faults }
    return (
      <>
        <More {...props} />
        <Powder {...field} voice={voice} />
        <BlendChoice {...field} bodies={data.bodies} />
        <WorkTold {...field} asksWay />
        <ScaleChoice {...field} scales={data.scales} />
      </>
    )
  },
}

function Scrap({ data, typed, voice, faults }: ActFormProps<Wedged>) {
  return (
    <details class="more" open={typed.all('vessels').length > 0}>
      <summary>Soft scrap, wedged in whole</summary>
      <ChoiceField
        name="vessels"
        label="All that is in"
        hint="Soft enough to wedge without slaking."
        typed={typed}
        faults={faults}
        isMany
        choices={data.vessels.map((vessel) => scrapChoice(vessel, voice))}
      />
    </details>
  )
}

function scrapChoice({ id, name, holds, wetGrams }: WeighableThing, voice: Voice) {
  return { value: id, name, hint: `${holds ?? ''}, ${voice.mass(wetGrams)}` }
}

function More({ typed, voice, faults }: ActFormProps<Wedged>) {
  const field = { typed, faults }
  return (
    <details class="more" open={isMoreTyped(typed)}>
      <summary>Water wedged in, a tare, or a name</summary>
      <MassField {...field} voice={voice} name="water" label="Water wedged in" unit="g" />
      <MassField
        {...field}
        voice={voice}
        name="grossTare"
        label="Tare of the wedged clay"
        hint="What its board or bucket weighs. Nothing where the scale was set to zero with it."
        unit="g"
      />
      <TextField
        {...field}
        name="label"
        label="What it is called"
        hint="By its day where it is left empty."
      />
    </details>
  )
}

function isMoreTyped(typed: Typed): boolean {
  return typed.hasMass('water') || typed.hasMass('grossTare') || typed.text('label') !== undefined
}
