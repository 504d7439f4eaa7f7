import type { Child } from 'hono/jsx'
import type { MassUnit } from '../../shared/units.ts'
import type { Typed } from './typed.ts'
import type { Voice } from './voice.ts'

/** What is wrong with a form: words for the whole, and words by field. */
export interface FormFaults {
  readonly title: string
  readonly all: readonly { readonly field?: string | undefined; readonly detail: string }[]
  /** What to do about it, and where that is explained. */
  readonly whatToDo?: string | undefined
  readonly code?: string | undefined
}

interface FieldProps {
  readonly name: string
  readonly label: string
  readonly typed: Typed
  readonly faults?: FormFaults | undefined
  /** A few words below the label. */
  readonly hint?: string | undefined
  readonly isNeeded?: boolean | undefined
}

/** The words that belong to one field, tied to it for whoever hears the page. */
function about({ name, hint, faults }: Pick<FieldProps, 'name' | 'hint' | 'faults'>) {
  const details = faults?.all.filter((fault) => fault.field === name) ?? []
  const isFaulty = details.length > 0
  const ids = [hint === undefined ? '' : `${name}-hint`, isFaulty ? `${name}-fault` : '']
  const describedBy = ids.filter((id) => id !== '').join(' ')
  return {
    attributes: {
      id: name,
      'aria-describedby': describedBy === '' ? undefined : describedBy,
      'aria-invalid': isFaulty ? ('true' as const) : undefined,
    },
    Words: () => (
      <>
        {hint === undefined ? null : (
          <p class="hint" id={`${name}-hint`}>
            {hint}
          </p>
        )}
        {isFaulty ? (
          <p class="fault" id={`${name}-fault`}>
            {details.map(({ detail }) => detail).join(' ')}
          </p>
        ) : null}
      </>
    ),
  }
}

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
}

/** A line of text, or digits that are no mass. */
export function TextField(props: TextProps) {
  const { name, label, typed, usual, type, inputmode, before, after, isNeeded } = props
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
