import type { Child } from 'hono/jsx'
import { about, type FieldProps, type FormFaults } from './field-words.tsx'

/** A whole number of things, with a step down and up that the script gives their work. */
export function CountField(props: FieldProps & { readonly usual?: number | undefined }) {
  const { name, label, typed, isNeeded, usual } = props
  const { attributes, Words } = about(props)
  const value = typed.text(name) ?? (usual === undefined ? undefined : String(usual))
  return (
    <div class="field count">
      <label for={name}>{label}</label>
      <Words />
      <div class="steps" data-steps>
        <button type="button" data-step="-1" aria-label={`One less: ${label}`} hidden>
          −
        </button>
        <input
          {...attributes}
          name={name}
          value={value}
          inputmode="numeric"
          autocomplete="off"
          required={isNeeded}
        />
        <button type="button" data-step="1" aria-label={`One more: ${label}`} hidden>
          +
        </button>
      </div>
    </div>
  )
}

export interface Choice {
  readonly value: string
  readonly name: string
  /** A few words below its name. */
  readonly hint?: string | undefined
  /** Of a state of clay: the water to reckon with at once, and its standard uncertainty. */
  readonly water?: { readonly content: string; readonly uncertainty: string } | undefined
  /** What the reading is then taken as, in words beside its figures. */
  readonly takenAs?: string | undefined
  /** True where the reading then tells nothing of the clay. */
  readonly tellsNothing?: boolean | undefined
  /** Of a vessel: what it weighs empty. */
  readonly tareGrams?: string | undefined
}

interface ChoiceProps extends FieldProps {
  readonly choices: readonly Choice[]
  /** What is chosen where nothing was yet. */
  readonly usual?: string | undefined
  /** Several may be chosen. */
  readonly isMany?: boolean | undefined
}

/** One of a few, or some of them, each a target for a thumb. */
export function ChoiceField(props: ChoiceProps) {
  const { name, label, typed, choices, usual, isMany, isNeeded } = props
  const { attributes, Words } = about(props)
  const chosen = typed.all(name)
  const isChosen = (value: string) => (chosen.length > 0 ? chosen.includes(value) : value === usual)
  return (
    <fieldset class="field choices" id={name} aria-describedby={attributes['aria-describedby']}>
      <legend>{label}</legend>
      <Words />
      <div class="choices-grid">
        {choices.map((choice) => (
          <label class="choice">
            <input
              type={isMany === true ? 'checkbox' : 'radio'}
              name={name}
              value={choice.value}
              checked={isChosen(choice.value)}
              data-water={choice.water?.content}
              data-water-u={choice.water?.uncertainty}
              data-tare-grams={choice.tareGrams}
              data-is-taken-as={choice.takenAs}
              data-tells-nothing={choice.tellsNothing === true ? '' : undefined}
              required={isNeeded === true && isMany !== true}
            />
            <span>
              {choice.name}
              {choice.hint === undefined ? null : <small>{choice.hint}</small>}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}

interface TextProps extends FieldProps {
  readonly usual?: string | undefined
  readonly type?: 'text' | 'datetime-local' | 'date' | undefined
  readonly inputmode?: 'text' | 'decimal' | 'numeric' | undefined
  /** Words that were said here before, to choose from. */
  readonly before?: readonly string[] | undefined
  /** What stands after the digits. */
  readonly after?: string | undefined
  /** The script may fill in the time zone of the phone. */
  readonly isTimeZone?: boolean | undefined
}

/** A line of text, or digits that are no mass. */
export function TextField(props: TextProps) {
  const { name, label, typed, usual, type, inputmode, before, after, isNeeded, isTimeZone } = props
  const { attributes, Words } = about(props)
  const list = before === undefined || before.length === 0 ? undefined : `${name}-before`
  return (
    <div class="field">
      <label for={name}>{label}</label>
      <Words />
      <div class="digits">
        <input
          {...attributes}
          name={name}
          type={type ?? 'text'}
          value={typed.text(name) ?? usual}
          inputmode={inputmode}
          autocomplete="off"
          required={isNeeded}
          list={list}
          data-time-zone={isTimeZone === true ? '' : undefined}
        />
        {after === undefined ? null : <span class="unit">{after}</span>}
      </div>
      {list === undefined ? null : (
        <datalist id={list}>
          {before?.map((words) => (
            <option value={words}></option>
          ))}
        </datalist>
      )}
    </div>
  )
}

/** What is wrong, above the form, each with the way to its field. */
export function FaultSummary({ faults }: { faults: FormFaults | undefined }) {
  if (faults === undefined) return null
  const { title, all, whatToDo, code } = faults
  return (
    <div class="faults" role="alert" tabindex={-1} id="faults">
      <h2>{title}</h2>
      <ul>
        {all.map(({ field, detail }) => (
          <li>{field === undefined ? detail : <a href={`#${field}`}>{detail}</a>}</li>
        ))}
      </ul>
      {whatToDo === undefined ? null : <p>{whatToDo}</p>}
      {code === undefined ? null : (
        <p>
          <a href={`/problems/${code}`}>More about this</a>
        </p>
      )}
    </div>
  )
}

/** The big button of a page. */
export function Press({ children }: { children: Child }) {
  return <button class="press">{children}</button>
}
