import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allBodies, allScales, allVessels, type Body, type Scale, type Vessel } from '../things.ts'
import { saidOnly } from '../typed.ts'
import { basinChoices, fullBasins, type Basin } from './basins.ts'
import { BlendChoice } from './blend-choice.tsx'
import { ScaleChoice } from './scale-choice.tsx'
import { WorkTold, workSaid } from './work-told.tsx'

interface DrawnOff {
  readonly basins: readonly Basin[]
  readonly vessels: readonly Vessel[]
  readonly bodies: readonly Body[]
  readonly scales: readonly Scale[]
}

/** Water that stands over the clay, drawn off. */
export const decantPage: ActPage<DrawnOff> = {
  path: '/plaster/decant',
  act: actCalled('decant'),
  here: 'plaster',
  press: 'Draw off',
  async load(c) {
    const vessels = await allVessels(c)
    return {
      basins: await fullBasins(c),
      vessels: vessels.filter(({ kind }) => kind === 'bucket' || kind === 'other'),
      bodies: await allBodies(c),
      scales: await allScales(c),
    }
  },
  title: () => 'Draw water off',
  keeps: () => 'Water drawn off',
  said: (typed) =>
    saidOnly({
      ...workSaid(typed),
      basinVesselId: typed.text('basinVesselId'),
      reading: typed.gross('gross'),
      clarity: typed.text('clarity'),
      intoVesselId: typed.text('intoVesselId'),
      blendBodyId: typed.text('blendBodyId'),
    }),
  fieldOf: {
    '/minutes': 'minutes',
    '/basinVesselId': 'basinVesselId',
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/reading/scaleId': 'scaleId',
    '/clarity': 'clarity',
    '/intoVesselId': 'intoVesselId',
    '/blendBodyId': 'blendBodyId',
  },
  keysFor: 'gross',
  next: () => '/plaster',
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, faults }
    return (
      <>
        <ChoiceField
          {...field}
          name="basinVesselId"
          label="Out of"
          usual={data.basins[0]?.vesselId}
          choices={basinChoices(data.basins, voice)}
        />
        <MassField
          {...field}
          voice={voice}
          name="gross"
          label="Water drawn off"
          hint="Taken as clear and gone for good; change that below."
          isNeeded
          hasKeys
        />
      </>
    )
  },
  After: (props) => {
    const { data, typed, voice, faults } = props
    const field = { typed, faults }
    return (
      <>
        <ChoiceField
          {...field}
          name="clarity"
          label="How it looks"
          usual="clear"
          choices={[
            { value: 'clear', name: 'Clear', hint: 'a little clay swims in it' },
            { value: 'cloudy', name: 'Cloudy', hint: 'about ten times as much' },
          ]}
        />
        <ChoiceField
          {...field}
          name="intoVesselId"
          label="Where it goes"
          hint="What is kept is scrap in its vessel, or throwing water. Before any goes down a drain, ask what your water company and local rules allow."
          usual=""
          choices={[
            { value: '', name: 'Away', hint: 'its clay is lost' },
            ...data.vessels.map(({ vesselId, name }) => ({ value: vesselId, name })),
          ]}
        />
        <details class="more" open={typed.hasMass('grossTare')}>
          <summary>Weighed in its vessel</summary>
          <MassField
            {...field}
            voice={voice}
            name="grossTare"
            label="The vessel, empty"
            hint="Nothing where the scale was set to zero with it."
          />
        </details>
        <BlendChoice {...field} bodies={data.bodies} />
        <WorkTold {...field} />
        <ScaleChoice {...field} scales={data.scales} />
      </>
    )
  },
}
