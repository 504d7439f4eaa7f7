import type { Scale } from '../things.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'

interface ScaleFiguresProps {
  readonly voice: Voice
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  /** What the scale shows. */
  readonly label: string
  /** What the empty vessel weighs, where one is on record. */
  readonly tareGrams?: string | undefined
  /** Dry clay that is known and stays, as on plaster; the reading then tells the water. */
  readonly knownDryGrams?: string | undefined
  /** The water where no choice of a state tells it. */
  readonly water?: { readonly content: string; readonly uncertainty: string } | undefined
  /** Where it is read off what is chosen below. */
  readonly of?: string | undefined
  /** Whether it may be left empty. */
  readonly isOptional?: boolean | undefined
}

/** The reading, with gross, tare and net in sight, so that a forgotten tare shows. */
export function ScaleFigures(props: ScaleFiguresProps) {
  const { voice, typed, faults, label, tareGrams, water } = props
  return (
    <div
      class="weigh"
      data-weigh
      data-tare-grams={tareGrams ?? '0'}
      data-known-dry-grams={props.knownDryGrams}
      data-water={water?.content}
      data-water-u={water?.uncertainty}
      data-units={voice.studio.massUnits}
    >
      <MassField
        name="gross"
        label={label}
        typed={typed}
        faults={faults}
        voice={voice}
        isNeeded={props.isOptional !== true}
        hasKeys
      />
      <dl class="scale-figures">
        <div>
          <dt>Gross</dt>
          <dd data-gross>–</dd>
        </div>
        <div class="net">
          <dt>Net</dt>
          <dd data-net>–</dd>
        </div>
        <div>
          <dt>Tare</dt>
          <dd data-tare>{tareGrams === undefined ? 'none' : voice.mass(tareGrams)}</dd>
        </div>
        {props.knownDryGrams === undefined &&
        water === undefined &&
        props.of === undefined ? null : (
          <div class="net">
            <dt>{props.knownDryGrams === undefined ? 'Dry clay' : 'Water left'}</dt>
            <dd data-dry>–</dd>
          </div>
        )}
      </dl>
      {props.of === undefined ? null : (
        <p class="taken-as" data-taken-as>
          {props.of}
        </p>
      )}
    </div>
  )
}

interface OtherTareProps {
  readonly voice: Voice
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  readonly tareGrams?: string | undefined
  readonly scales: readonly Scale[]
}

/** Another tare than the one on record, and the scale that was read. */
export function OtherTare({ voice, typed, faults, tareGrams, scales }: OtherTareProps) {
  return (
    <details class="more">
      <summary>Another tare, or which scale</summary>
      <MassField
        name="grossTare"
        label="Tare by hand"
        hint={
          tareGrams === undefined
            ? 'What the empty vessel weighs. Nothing where the scale was set to zero with it.'
            : `Instead of the ${voice.mass(tareGrams)} that it weighs by the books.`
        }
        typed={typed}
        faults={faults}
        voice={voice}
      />
      {scales.length === 0 ? null : (
        <ChoiceField
          name="scaleId"
          label="Scale"
          hint="Tells how sure the reading is."
          typed={typed}
          faults={faults}
          choices={[
            { value: '', name: 'Not said' },
            ...scales.map(({ scaleId, name }) => ({ value: scaleId, name })),
          ]}
          usual=""
        />
      )}
    </details>
  )
}
