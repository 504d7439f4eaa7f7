import { GRADES } from '../../../../shared/place.ts'
import type { FormFaults } from '../../field-words.tsx'
import { FaultSummary } from '../../fields.tsx'
import type { Form } from '../../things.ts'
import type { Brought } from './brought.ts'
import { Carrying, ColumnsCarried, Way, Ways } from './carried.tsx'
import { NOT_OURS, OPEN, valueOf, type NameAsked } from './meanings.ts'

/** Third: which form and grade each name in the file is. */
export function PiecesStep(props: {
  brought: Brought
  names: readonly NameAsked[]
  forms: readonly Form[]
  faults?: FormFaults | undefined
}) {
  const { brought, names, forms, faults } = props
  return (
    <>
      <h1>Which form is which?</h1>
      <Way at="pieces" />
      <FaultSummary faults={faults} />
      <p>
        Say once for each name in the file what it is. Rows of what is not ours, such as postage or
        another maker’s pots, are left out and counted.
      </p>
      {forms.length === 0 ? (
        <p class="ask">
          There are no forms here yet. <a href="/books/things/forms">Enter the forms first.</a>
        </p>
      ) : null}
      <Carrying brought={brought}>
        <ColumnsCarried brought={brought} />
        {names.map((name, place) => (
          <NameField name={name} id={`is-${String(place)}`} forms={forms} faults={faults} />
        ))}
        <Ways on="preview" press="See what will be recorded" back={['columns']} />
      </Carrying>
    </>
  )
}

function NameField(props: {
  name: NameAsked
  id: string
  forms: readonly Form[]
  faults: FormFaults | undefined
}) {
  const { name, id, forms, faults } = props
  const fault = faults?.all.find(({ field }) => field === id)
  const grade = name.gradeCell === '' ? '' : `, ${name.gradeCell}`
  return (
    <div class="field piece">
      <label for={id}>
        “{name.name}
        {grade}” <span class="quiet">{rowsWords(name.rows)}</span>
      </label>
      <p class="hint" id={`${id}-hint`}>
        {hintOf(name)}
      </p>
      {fault === undefined ? null : (
        <p class="fault" id={`${id}-fault`}>
          {fault.detail}
        </p>
      )}
      <input type="hidden" name="called" value={name.key} />
      <select
        id={id}
        name="is"
        aria-describedby={fault === undefined ? `${id}-hint` : `${id}-hint ${id}-fault`}
        aria-invalid={fault === undefined ? undefined : 'true'}
      >
        <option value={OPEN}>Choose</option>
        {forms.flatMap((form) =>
          GRADES.map((one) => {
            const value = valueOf(form.formId, one)
            return (
              <option value={value} selected={value === name.chosen}>
                {form.name}, {one}
              </option>
            )
          }),
        )}
        <option value={NOT_OURS} selected={name.chosen === NOT_OURS}>
          Not ours: leave these rows out
        </option>
      </select>
    </div>
  )
}

function hintOf({ chosen, isLike }: NameAsked): string {
  if (chosen === OPEN) return 'No form is called like it.'
  return isLike ? 'A guess: the names are alike. Look twice.' : ''
}

/** A count of rows in words. */
export function rowsWords(rows: number): string {
  return rows === 1 ? '1 row' : `${String(rows)} rows`
}
