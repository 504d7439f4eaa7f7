import { about, type FieldProps } from './field-words.tsx'

interface SelectProps extends FieldProps {
  readonly choices: readonly { readonly value: string; readonly name: string }[]
  /** What stands there where nothing was chosen yet. */
  readonly open: string
}

/** One of many, from a list that the phone unrolls. */
export function SelectField(props: SelectProps) {
  const { name, label, typed, choices, open, isNeeded } = props
  const { attributes, Words } = about(props)
  const chosen = typed.text(name)
  return (
    <div class="field">
      <label for={name}>{label}</label>
      <Words />
      <select {...attributes} name={name} required={isNeeded}>
        <option value="">{open}</option>
        {choices.map((choice) => (
          <option value={choice.value} selected={choice.value === chosen}>
            {choice.name}
          </option>
        ))}
      </select>
    </div>
  )
}
