import type { MassUnit } from '../../shared/units.ts'
import { about, type FieldProps } from './field-words.tsx'
import type { Voice } from './voice.ts'

interface MassFieldProps extends FieldProps {
  readonly voice: Voice
  /** The unit that is chosen where nothing was typed yet; kilograms otherwise. */
  readonly unit?: 'g' | 'kg' | undefined
  /** Whether the keys for wet hands belong to it. */
  readonly hasKeys?: boolean | undefined
}

/** A mass as the scale shows it: digits with their unit, or pounds and ounces. */
export function MassField(props: MassFieldProps) {
  return props.voice.studio.massUnits === 'metric' ? (
    <MetricMass {...props} />
  ) : (
    <PoundsMass {...props} />
  )
}

function MetricMass(props: MassFieldProps) {
  const { name, label, typed, isNeeded, hasKeys } = props
  const { attributes, Words } = about(props)
  const unit = typed.text(`${name}Unit`) ?? props.unit ?? 'kg'
  return (
    <div class="field mass">
      <label for={name}>{label}</label>
      <Words />
      <div class="digits">
        <input
          {...attributes}
          name={name}
          value={typed.text(name)}
          inputmode="decimal"
          autocomplete="off"
          required={isNeeded}
          data-keypad={hasKeys === true ? '' : undefined}
        />
        <UnitChoice name={`${name}Unit`} units={['kg', 'g']} chosen={unit as MassUnit} />
      </div>
    </div>
  )
}

function UnitChoice(props: { name: string; units: readonly MassUnit[]; chosen: MassUnit }) {
  const { name, units, chosen } = props
  return (
    <fieldset class="units">
      <legend class="unseen">Unit</legend>
      {units.map((unit) => (
        <label>
          <input type="radio" name={name} value={unit} checked={unit === chosen} />
          <span>{unit}</span>
        </label>
      ))}
    </fieldset>
  )
}

function PoundsMass(props: MassFieldProps) {
  const { name, label, typed, hasKeys } = props
  const { attributes, Words } = about(props)
  const parts = [
    { part: `${name}Pounds`, words: 'lb', long: 'pounds' },
    { part: `${name}Ounces`, words: 'oz', long: 'ounces' },
  ]
  return (
    <fieldset class="field mass" aria-describedby={attributes['aria-describedby']} id={name}>
      <legend>{label}</legend>
      <Words />
      <div class="digits">
        {parts.map(({ part, words, long }) => (
          <>
            <input
              id={part}
              name={part}
              value={typed.text(part)}
              inputmode="decimal"
              autocomplete="off"
              aria-label={`${label}, ${long}`}
              aria-invalid={attributes['aria-invalid']}
              data-keypad={hasKeys === true ? '' : undefined}
            />
            <span class="unit" aria-hidden="true">
              {words}
            </span>
          </>
        ))}
      </div>
    </fieldset>
  )
}

const KEYS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '0'] as const

/** Keys for wet hands; the script shows them and gives them their work. */
export function Keys({ forName }: { forName: string }) {
  return (
    <div class="keypad" data-for={forName} role="group" aria-label="Digits" hidden>
      {KEYS.map((key) => (
        <button type="button" data-key={key}>
          {key}
        </button>
      ))}
      <button type="button" data-key="back" aria-label="Take the last digit away">
        ←
      </button>
    </div>
  )
}
