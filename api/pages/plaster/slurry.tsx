import type { Volume } from '../../../shared/units.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage, ActFormProps } from '../act-page.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allScales, type Scale } from '../things.ts'
import { saidOnly } from '../typed.ts'
import { basinChoices, fullBasins, jugLastUsed, type Basin } from './basins.ts'
import { ScaleChoice } from './scale-choice.tsx'
import { usualJug, VolumeField, volumeTyped } from './volume-field.tsx'

interface SlurryRead {
  readonly basins: readonly Basin[]
  readonly scales: readonly Scale[]
  /** The jug of the last reading. */
  readonly jug: Volume | undefined
}

/** A jug of slurry on the scale: what it weighs tells how much of it is clay. */
export const slurryPage: ActPage<SlurryRead> = {
  path: '/plaster/slurry',
  act: actCalled('read-slurry'),
  here: 'plaster',
  press: 'Read it',
  async load(c) {
    return { basins: await fullBasins(c), scales: await allScales(c), jug: await jugLastUsed(c) }
  },
  title: () => 'Read a slurry',
  keeps: () => 'Slurry read',
  said: (typed) =>
    saidOnly({
      basinVesselId: typed.text('basinVesselId'),
      slurry: typed.gross('slurry'),
      volume: volumeTyped(typed, 'volume'),
      celsius: typed.decimal('celsius'),
      whole: typed.gross(
        'whole',
        typed.isYes('wholeWithBasin') ? typed.text('basinVesselId') : undefined,
      ),
      wholeVolume: volumeTyped(typed, 'wholeVolume'),
    }),
  fieldOf: {
    '/basinVesselId': 'basinVesselId',
    '/slurry': 'slurry',
    '/slurry/tare': 'slurryTare',
    '/slurry/scaleId': 'scaleId',
    '/volume': 'volume',
    '/celsius': 'celsius',
    '/whole': 'whole',
    '/whole/scaleId': 'scaleId',
    '/wholeVolume': 'wholeVolume',
  },
  keysFor: 'slurry',
  // What is known to be thick enough is poured.
  next: () => '/plaster/pour',
  Form: (props) => {
    const { data, typed, voice, faults } = props
    const field = { typed, faults }
    return (
      <>
        <ChoiceField
          {...field}
          name="basinVesselId"
          label="Of"
          hint="Stir it well first."
          usual={data.basins[0]?.vesselId}
          choices={basinChoices(data.basins, voice)}
        />
        <VolumeField
          {...field}
          name="volume"
          label={voice.words('The jug holds')}
          usual={data.jug ?? usualJug(voice)}
          voice={voice}
        />
        <MassField
          {...field}
          voice={voice}
          name="slurry"
          label={voice.words('The jug of slurry weighs')}
          hint={voice.words(
            'A slurry for plaster weighs 1.5 to 1.65 times as much as water. Taken as without the jug; change that below.',
          )}
          unit="g"
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
        <MassField
          {...field}
          voice={voice}
          name="slurryTare"
          label={voice.words('The jug, empty')}
          hint="Nothing where the scale was set to zero with it."
          unit="g"
        />
        <WholeBasin {...props} />
        <ScaleChoice {...field} scales={data.scales} />
      </>
    )
  },
}

/** The whole basin beside the jug: then the books are set by it. Folded away, for it is heavy. */
function WholeBasin({ typed, voice, faults }: ActFormProps<SlurryRead>) {
  const field = { typed, faults }
  const names = ['whole', 'wholeVolume', 'celsius']
  const isOpen =
    typed.hasMass('whole') ||
    names.some((name) => typed.text(name) !== undefined) ||
    faults?.all.some((fault) => names.includes(fault.field ?? '')) === true
  return (
    <details class="more" open={isOpen}>
      <summary>The whole basin too, or how warm it is</summary>
      <p class="hint">
        With the whole basin the books are set by this reading. By mass or by volume, not both.
      </p>
      <MassField {...field} voice={voice} name="whole" label="The whole basin weighs" />
      <ChoiceField
        {...field}
        name="wholeWithBasin"
        label="That is"
        usual="yes"
        choices={[
          { value: 'yes', name: 'Basin and slurry', hint: 'the empty basin is taken off' },
          { value: 'no', name: 'The slurry alone' },
        ]}
      />
      <VolumeField
        {...field}
        name="wholeVolume"
        label="Or: the slurry in it measures"
        usual={{ unit: voice.studio.massUnits === 'metric' ? 'l' : usualJug(voice).unit }}
        voice={voice}
      />
      <TextField
        {...field}
        name="celsius"
        label="How warm the slurry is"
        hint="As warm as a room, 20 °C, where it is left empty."
        inputmode="decimal"
        after="°C"
      />
    </details>
  )
}
