import type { FormFaults } from '../../field-words.tsx'
import { TextField } from '../../fields.tsx'
import { Typed } from '../../typed.ts'
import type { Form } from '../../things.ts'

const FIELDS = [
  { name: 'clay', label: 'Clay dearer by', after: '%' },
  { name: 'energy', label: 'Electricity or gas dearer by', after: '%' },
  { name: 'glaze', label: 'Glaze dearer by', after: '%' },
  { name: 'packaging', label: 'Packing dearer by', after: '%' },
  {
    name: 'yieldAfterBisque',
    label: 'More come through the kilns',
    hint: 'so many more of a hundred; a minus for fewer',
    after: 'of 100',
  },
  { name: 'kilnFullFrom', label: 'The kiln is now', after: '% full' },
  { name: 'kilnFullTo', label: 'The kiln would be', after: '% full' },
] as const

/** Which field a fault belongs to. */
export const FIELD_OF: Readonly<Record<string, string>> = Object.fromEntries(
  ['formId', ...FIELDS.map(({ name }) => name)].map((name) => [`/${name}`, name]),
)

interface WhatIfFormProps {
  readonly forms: readonly Form[]
  readonly formId: string | undefined
  readonly typed: ReadonlyMap<string, string>
  readonly faults: FormFaults | undefined
}

/** What might change, field by field; a plain form, whose address can be kept. */
export function WhatIfForm({ forms, formId, typed, faults }: WhatIfFormProps) {
  const told = new Typed(new URLSearchParams([...typed]))
  return (
    <form method="get" action="/books/what-if" class="what-if off-paper">
      <div class="field">
        <label for="formId">Form</label>
        <select id="formId" name="formId">
          {forms.map((form) => (
            <option value={form.formId} selected={form.formId === formId}>
              {form.name}
            </option>
          ))}
        </select>
      </div>
      <p class="hint">A minus means cheaper.</p>
      {FIELDS.map((field) => (
        <TextField {...field} typed={told} faults={faults} inputmode="text" />
      ))}
      <button class="press">Work it out</button>
    </form>
  )
}
