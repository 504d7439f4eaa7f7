import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { saidOnly } from '../typed.ts'
import { bucketHere, type GlazeBucket } from './here.ts'

/** Glaze that goes on no pot: left in the sieve, washed off, spilt, thrown away. */
export const losePage: ActPage<GlazeBucket> = {
  path: '/glaze/lose/:vesselId',
  act: actCalled('lose-glaze'),
  here: 'glaze',
  press: 'Lost',
  load: bucketHere,
  title: ({ materialName }) => `Lost: ${materialName}`,
  said: (typed, { vesselId }) => {
    const how = typed.text('how')
    return saidOnly({
      vesselId,
      why: typed.text('why'),
      reading: how === 'dry' || how === 'rest' ? undefined : typed.net('wet'),
      dryGrams: how === 'dry' ? typed.decimal('dryGrams') : undefined,
      whatIsLeft: how === 'rest' ? true : undefined,
    })
  },
  fieldOf: {
    '': 'wet',
    '/why': 'why',
    '/reading': 'wet',
    '/dryGrams': 'dryGrams',
    '/whatIsLeft': 'how',
  },
  next: () => '/glaze',
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, voice, faults }
    return (
      <div class="ways">
        <ChoiceField
          {...field}
          name="why"
          label="Where it went"
          isNeeded
          choices={[
            { value: 'sieve', name: 'Left in the sieve' },
            { value: 'wash', name: 'Washed off', hint: 'pots, hands, tools' },
            { value: 'spilt', name: 'Spilt' },
            { value: 'thrown_away', name: 'Thrown away' },
          ]}
        />
        <ChoiceField
          {...field}
          name="how"
          label="How much"
          usual="wet"
          choices={[
            { value: 'wet', name: 'Weighed, wet', hint: 'as wet as in the bucket' },
            { value: 'dry', name: 'Weighed, dry' },
            { value: 'rest', name: 'All that is left', hint: voice.mass(data.slurryGrams) },
          ]}
        />
        <div class="way way-wet">
          <MassField {...field} name="wet" label="It weighs" unit="g" />
        </div>
        <div class="way way-dry">
          <TextField
            {...field}
            name="dryGrams"
            label="It weighs, dry"
            inputmode="decimal"
            after="g"
          />
        </div>
        <p class="hint">
          Glaze never goes into clay reclaim nor down the drain. Wipe it up wet: dried glaze is
          dust. Local rules on waste say where it goes.
        </p>
      </div>
    )
  },
}
