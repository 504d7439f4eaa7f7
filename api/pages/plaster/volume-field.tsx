import type { Volume } from '../../../shared/units.ts'
import type { ActFormProps } from '../act-page.tsx'
import { about } from '../field-words.tsx'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'

const UNIT_NAMES = {
  ml: 'ml',
  l: 'litres',
  imperial_pint: 'pints (20 fl oz)',
  us_pint: 'US pints (16 fl oz)',
} as const

interface VolumeProps extends Omit<ActFormProps<unknown>, 'data'> {
  readonly name: string
  readonly label: string
  /** What stands there where nothing was typed yet. */
  readonly usual?: Partial<Volume> | undefined
}

/** A volume as it is measured: digits with their unit. */
export function VolumeField({ name, label, usual, typed, voice, faults }: VolumeProps) {
  const { attributes, Words } = about({ name, faults })
  const unitName = `${name}Unit`
  const chosen = typed.text(unitName) ?? usual?.unit
  return (
    <div class="field mass volume">
      <label for={name}>{label}</label>
      <Words />
      <div class="digits">
        <input
          {...attributes}
          name={name}
          value={typed.text(name) ?? usual?.value}
          inputmode="decimal"
          autocomplete="off"
        />
        <fieldset class="units">
          <legend class="unseen">Unit</legend>
          {unitsFor(voice, usual?.unit).map((unit) => (
            <label>
              <input type="radio" name={unitName} value={unit} checked={unit === chosen} />
              <span>{voice.words(UNIT_NAMES[unit])}</span>
            </label>
          ))}
        </fieldset>
      </div>
    </div>
  )
}

function unitsFor({ studio }: Voice, used: Volume['unit'] | undefined): Volume['unit'][] {
  const metric: Volume['unit'][] = ['ml', 'l']
  const usual = studio.massUnits === 'metric' ? metric : [...metric, pintOf(studio)]
  return used === undefined || usual.includes(used) ? usual : [...usual, used]
}

function pintOf({ tradeWords }: Voice['studio']): Volume['unit'] {
  return tradeWords === 'US' ? 'us_pint' : 'imperial_pint'
}

/** A jug for a studio that has read none yet. */
export function usualJug({ studio }: Voice): Volume {
  return studio.massUnits === 'metric'
    ? { value: '1000', unit: 'ml' }
    : { value: '1', unit: pintOf(studio) }
}

/** A volume as it was typed; nothing where it was not. */
export function volumeTyped(typed: Typed, name: string): Volume | undefined {
  const value = typed.decimal(name)
  return value === undefined
    ? undefined
    : { value, unit: typed.text(`${name}Unit`) as Volume['unit'] }
}
