import { HAZARDS } from '../../../shared/material-hazards.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { eachField, fromField, packingField, PRICE_ROWS, statementField } from './list-fields.ts'
import type { ThingField } from './thing-field.ts'

interface RowsProps {
  readonly field: ThingField
  readonly typed: Typed
  readonly voice: Voice
  readonly faults: FormFaults | undefined
}

/** What the data sheet states: which hazards, and what is printed of each that was chosen. */
export function HazardRows({ field, typed, voice, faults }: RowsProps) {
  const of = { typed, faults }
  const chosen = typed.all('hazards')
  return (
    <>
      <ChoiceField
        {...of}
        name="hazards"
        label={voice.words(field.label)}
        hint={voice.words(field.hint ?? '')}
        choices={HAZARDS.map(({ code, name }) => ({ value: code, name }))}
        isMany
      />
      <details class="more" open={chosen.length > 0}>
        <summary>What the sheet prints of it</summary>
        {HAZARDS.map(({ code, name }) => (
          <TextField
            {...of}
            name={statementField(code)}
            label={name}
            hint={chosen.includes(code) ? undefined : 'Only where it is chosen above.'}
          />
        ))}
      </details>
    </>
  )
}

/** The supplier's price list, a row a step. */
export function PriceRows({ field, typed, voice, faults }: RowsProps) {
  const of = { typed, faults, inputmode: 'decimal' } as const
  return (
    <fieldset class="field">
      <legend>{voice.words(field.label)}</legend>
      <p class="hint">{voice.words(field.hint ?? '')}</p>
      {Array.from({ length: PRICE_ROWS }, (_, row) => (
        <div class="state-water">
          <TextField {...of} name={fromField(row)} label="From" after="kg or pieces" />
          <TextField
            {...of}
            name={eachField(row)}
            label="A kilogram, or one"
            after={voice.studio.currency}
          />
        </div>
      ))}
    </fieldset>
  )
}

/** What goes into the parcel of one piece: a row for each packaging that the studio has. */
export function PackingRows({ field, typed, voice, faults }: RowsProps) {
  const of = { typed, faults, inputmode: 'decimal' } as const
  const { choices = [] } = field
  return (
    <fieldset class="field">
      <legend>{voice.words(field.label)}</legend>
      <p class="hint">{voice.words(field.hint ?? '')}</p>
      {choices.length === 0 ? (
        <p>
          There is no packaging yet. <a href="/books/things/materials/new">Enter some</a> first.
        </p>
      ) : null}
      {choices.map(({ value, name, hint }) => (
        <TextField {...of} name={packingField(value)} label={name} after={hint} />
      ))}
    </fieldset>
  )
}
