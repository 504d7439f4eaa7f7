import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { VolumeField, volumeTyped } from '../plaster/volume-field.tsx'
import { saidOnly } from '../typed.ts'
import { bucketHere, type GlazeBucket } from './here.ts'

/** Water that goes into a bucket of glaze, or is drawn off it. */
export const waterPage: ActPage<GlazeBucket> = {
  path: '/glaze/water/:vesselId',
  act: actCalled('water-glaze'),
  here: 'glaze',
  press: 'Record it',
  load: bucketHere,
  title: ({ materialName }) => `Water: ${materialName}`,
  said: (typed, { vesselId }) => {
    const way = typed.text('way')
    return saidOnly({
      vesselId,
      waterVolume: way === 'off' ? undefined : volumeTyped(typed, 'volume'),
      water: way === 'off' ? undefined : typed.mass('water'),
      takenOff: way === 'off' ? typed.net('off') : undefined,
      clarity: way === 'off' ? typed.text('clarity') : undefined,
    })
  },
  fieldOf: {
    '': 'volume',
    '/waterVolume': 'volume',
    '/water': 'water',
    '/takenOff': 'off',
    '/clarity': 'clarity',
  },
  next: (_, { vesselId }) => `/glaze/bucket/${vesselId}`,
  Form: ({ typed, voice, faults }) => {
    const field = { typed, voice, faults }
    const isMetric = voice.studio.massUnits === 'metric'
    return (
      <div class="ways">
        <ChoiceField
          {...field}
          name="way"
          label="What was done"
          usual="in"
          choices={[
            { value: 'in', name: 'Water put in', hint: 'it gets thinner' },
            { value: 'off', name: 'Water drawn off', hint: 'that stood over it' },
          ]}
        />
        <div class="way way-in">
          <VolumeField
            {...field}
            name="volume"
            label="How much, by the jug"
            usual={isMetric ? { unit: 'ml' } : { unit: 'us_pint' }}
          />
          <MassField {...field} name="water" label="Or by the scale" unit="g" />
        </div>
        <div class="way way-off">
          <MassField {...field} name="off" label="What was drawn off weighs" unit="g" />
          <ChoiceField
            {...field}
            name="clarity"
            label="It was"
            usual="clear"
            choices={[
              { value: 'clear', name: 'Clear', hint: 'next to no powder in it' },
              { value: 'cloudy', name: 'Cloudy', hint: 'some powder goes with it' },
            ]}
          />
          <p class="hint">
            Water with glaze in it goes neither into clay reclaim nor down the drain: let it settle,
            and keep the sludge. Local rules on waste say where it goes.
          </p>
        </div>
      </div>
    )
  },
}
