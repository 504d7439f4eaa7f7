import type { Child } from 'hono/jsx'
import type { Scale } from '../things.ts'
import { ChoiceField, MassField, type FormFaults } from '../fields.tsx'
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
  readonly tareName?: string | undefined
  /** Dry clay that is known and stays, as on plaster; the reading then tells the water. */
  readonly knownDryGrams?: string | undefined
  /** The water where no choice of a state tells it. */
  readonly water?: { readonly content: string; readonly uncertainty: string } | undefined
  readonly scales: readonly Scale[]
  /** Whether it may be left empty. */
  readonly isOptional?: boolean | undefined
  readonly children?: Child
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
        <div>
          <dt>Tare</dt>
          <dd data-tare>{tareGrams === undefined ? 'none' : voice.mass(tareGrams)}</dd>
        </div>
        <div class="net">
          <dt>Net</dt>
          <dd data-net>–</dd>
        </div>
        <div class="net">
          <dt>{props.knownDryGrams === undefined ? 'Dry clay, about' : 'Water left, about'}</dt>
          <dd data-dry>–</dd>
        </div>
      </dl>
      {props.children}
      <details class="more">
        <summary>Another tare, or which scale</summary>
        <MassField
          name="grossTare"
          label="Tare by hand"
          hint={
            props.tareName === undefined
              ? 'What the empty vessel weighs. Nothing where the scale was set to zero with it.'
              : `Instead of ${voice.mass(tareGrams ?? '0')}, what ${props.tareName} weighs by the books.`
          }
          typed={typed}
          faults={faults}
          voice={voice}
        />
        {props.scales.length === 0 ? null : (
          <ChoiceField
            name="scaleId"
            label="Scale"
            hint="Tells how sure the reading is."
            typed={typed}
            faults={faults}
            choices={[
              { value: '', name: 'Not said' },
              ...props.scales.map(({ scaleId, name }) => ({ value: scaleId, name })),
            ]}
            usual=""
          />
        )}
      </details>
    </div>
  )
}
