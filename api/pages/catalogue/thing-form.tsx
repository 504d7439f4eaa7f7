import type { Child } from 'hono/jsx'
import { CLAY_STATES, DEFAULT_MOISTURE } from '../../../shared/moisture.ts'
import { pointsOfFraction, pointsOfUncertainty } from '../../../shared/percent.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField, FaultSummary, Press, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { STATE_WORDS } from '../state-words.ts'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { HazardRows, PackingRows, PriceRows } from './list-rows.tsx'
import { unsureField, waterField, type ThingField } from './thing-field.ts'

interface FieldsShown {
  readonly typed: Typed
  readonly voice: Voice
  readonly faults: FormFaults | undefined
}

interface ThingFormProps extends FieldsShown {
  readonly action: string
  readonly press: string
  readonly fields: readonly ThingField[]
  /** Since when it is as the form was filled with, where it is there already. */
  readonly was?: string | undefined
  /** The page to go on to. */
  readonly then?: string | undefined
}

/** The form of a thing of the studio: what is needed in sight, what most leave empty folded away. */
export function ThingForm(props: ThingFormProps) {
  const { action, press, fields, typed, voice, faults, was, then } = props
  const shown = { typed, voice, faults }
  const rare = fields.filter(({ isRare }) => isRare === true)
  const isOpen = faults?.all.some(({ field }) => isOf(rare, field)) === true
  return (
    <>
      <FaultSummary faults={faults} />
      <form method="post" action={action}>
        {was === undefined ? null : <input type="hidden" name="was" value={was} />}
        {then === undefined ? null : <input type="hidden" name="then" value={then} />}
        {fields
          .filter((field) => !rare.includes(field))
          .map((field) => (
            <OneField field={field} {...shown} />
          ))}
        {rare.length === 0 ? null : (
          <details class="more" open={isOpen}>
            <summary>More, all of which may stay empty</summary>
            {rare.map((field) => (
              <OneField field={field} {...shown} />
            ))}
          </details>
        )}
        <Press>{press}</Press>
      </form>
    </>
  )
}

function isOf(rare: readonly ThingField[], name: string | undefined): boolean {
  if (name === undefined) return false
  const hasWater = rare.some(({ kind }) => kind === 'water')
  return rare.some((field) => field.name === name) || (hasWater && /^(water|unsure)-/.test(name))
}

type Rows = (props: FieldsShown & { field: ThingField }) => Child

/** Fields that are laid out as rows of their own. */
const ROWS: Partial<Record<ThingField['kind'], Rows>> = {
  water: WaterFields,
  hazards: HazardRows,
  price_steps: PriceRows,
  packing: PackingRows,
}

function OneField({ field, ...shown }: FieldsShown & { field: ThingField }) {
  const { typed, voice, faults } = shown
  const { name, kind, isNeeded, choices = [], after } = field
  const Laid = ROWS[kind]
  if (Laid !== undefined) return <>{Laid({ field, ...shown })}</>
  const label = voice.words(field.label)
  const hint = field.hint === undefined ? undefined : voice.words(field.hint)
  const all = { name, label, hint, isNeeded, typed, faults }
  if (kind === 'choice' || kind === 'yes_no') {
    return <ChoiceField {...all} choices={choices} usual={field.usual} />
  }
  if (kind === 'grams') return <MassField {...all} voice={voice} unit={field.unit ?? 'g'} />
  if (kind === 'day') return <TextField {...all} type="date" />
  if (kind === 'words') return <TextField {...all} />
  const unit = kind === 'points' ? '%' : kind === 'money' ? voice.studio.currency : after
  return <TextField {...all} inputmode="decimal" after={unit} />
}

/** What is believed of the water, state by state. */
function WaterFields({ field, typed, voice, faults }: FieldsShown & { field: ThingField }) {
  return (
    <fieldset class="field water-by-state">
      <legend>{voice.words(field.label)}</legend>
      <p class="hint">{voice.words(field.hint ?? '')}</p>
      {CLAY_STATES.map((state) => {
        const { waterContentWetBasis, standardUncertainty } = DEFAULT_MOISTURE[state]
        const points = pointsOfFraction(waterContentWetBasis.toFixed())
        const unsure = pointsOfUncertainty(standardUncertainty.toFixed())
        const of = { typed, faults, inputmode: 'decimal', after: '%' } as const
        return (
          <div class="state-water">
            <TextField
              {...of}
              name={waterField(state)}
              label={voice.words(STATE_WORDS[state])}
              hint={`Usually ${points} %.`}
            />
            <TextField
              {...of}
              name={unsureField(state)}
              label="give or take"
              hint={`Usually ${unsure}.`}
            />
          </div>
        )
      })}
    </fieldset>
  )
}
